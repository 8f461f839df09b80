import type { Ranged } from "../model/ranged";
import type { Setup } from "../model/setup";
import { limitOf, type Case, type Check } from "./check";
import { inUse } from "./internet-text";

/** Days after which a measurement is old, and hours from the meeting at which it is one of another time of day. Common practice, no source. */
const OLD_DAYS = 90;
const OTHER_HOURS = 3;
const DAY = 86_400;

export const unmeasured: Check = {
  bearing: "beside", takesLimit: true,
  entry: {
    code: "unmeasured", title: "The uplink was not measured at the place and hour", severity: "hint", group: "The internet",
    notice: "What the contract promises is not what there is on the evening.",
    why: "Lines change over months, and are fuller in the evening than at noon. A figure that nobody measured says little.",
    todo: ["Measure at the place, at the hour, with the computer that joins: a speed test, three times.", "Write it down: up 4 Mb/s measured DATE TIME."],
    source: "common practice, no source", symptoms: ["the contract says", "was fine at noon"], limit: "measured within 90 days before the meeting, within three hours of its time of day",
  },
  cases: (scene) => inUse(scene).flatMap(({ internet }): Case[] => {
    const { up } = internet;
    if (up === undefined) return [];
    return [{
      key: internet.name, ways: ["internet"],
      measure: () => {
        const wrong = whatIsWrong(scene.setup, up);
        return {
          severity: wrong === undefined ? undefined : "hint", badness: wrong === undefined ? -1 : 1,
          cause: { key: `unmeasured ${internet.name}`, subjects: [internet.name], where: up.from.where ?? internet.where },
          say: () => ({
            because: `the uplink of ${internet.name} ${wrong ?? "was measured"}`, effect: "it may be another one on the evening",
            summary: `the uplink of ${internet.name} ${wrong ?? "was measured"}`, chain: [],
          }),
        };
      },
    }];
  }),
};

/** What speaks against a figure; nothing where it was measured lately, at about that hour. */
function whatIsWrong(setup: Setup, up: Ranged): string | undefined {
  if (up.from.how !== "measured") return up.from.how === "guessed" ? "is a guess" : "is stated without saying when it was measured";
  const [date, time] = (up.from.when ?? "").split(/\s+/);
  const days = setup.date === undefined || date === undefined ? NaN : (Date.parse(setup.date) - Date.parse(date)) / (DAY * 1000);
  const most = limitOf(setup, "unmeasured", OLD_DAYS * DAY) / DAY;
  if (days > most) return `was measured ${Math.round(days)} days before the meeting`;
  const clock = /^(\d{1,2}):(\d\d)$/.exec(time ?? "");
  if (clock === null || setup.start === undefined) return undefined;
  const at = Number(clock[1]) * 60 + Number(clock[2]);
  const end = setup.end ?? setup.start + 120;
  // Round the clock: a meeting past midnight, a measurement before it.
  const off = Math.min(...[-1440, 0, 1440].map((turn) => Math.max((setup.start ?? 0) - (at + turn), at + turn - end, 0)));
  return off > OTHER_HOURS * 60 ? `was measured at ${time ?? ""}, at another time of day` : undefined;
}
