import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import { listeners } from "../signal/air";
import { alike, asideOf, AXIS, axisLimit } from "../signal/pictures/seats";
import { isLit, showingKey } from "../signal/pictures/showing";
import type { Case, Check } from "./check";
import { rowOf, seatsShort } from "./seats-short";
import { setInPlace, showOn } from "./show-remedies";

export const offAxis: Check = {
  silentInOrder: true, takesLimit: true,
  entry: {
    code: "off-axis", title: "Some seats look at the picture too much from the side", severity: "warning", group: "The room sees the people online",
    notice: "Those at the sides see a narrow, pale strip.",
    why: "From more than 60° off its axis a picture is squeezed to less than half its width, and many displays lose colour and brightness.",
    todo: ["Turn the display toward the seats.", "Move the seats at the sides, or leave them empty.", "A second display for them."],
    source: "ANSI/AVIXA V202.01:2016: 60°, from the farther edge of the picture", symptoms: ["cannot see from the side", "picture pale from the side"], limit: `${AXIS}°, or what the display says; from above or below what it says`,
  },
  cases: (scene) => alike(scene.graph).map((list): Case => ({
    key: showingKey(list), ways: ["room-sees-online"], together: true,
    measure: (trial) => {
      const { setup } = scene;
      const lit = list.filter((s) => isLit(s, trial));
      const [first] = lit;
      if (first === undefined) return undefined;
      const seats = listeners(setup, trial);
      const aside = asideOf(setup, trial, lit);
      const over = aside.map(({ off, limit }) => off - limit);
      const worst = over.reduce((w, value, i) => (value > (over[w] ?? -180) ? i : w), 0);
      const { by, off: value, limit, steep } = aside[worst] ?? { by: 0, off: 0, limit: axisLimit(setup, trial, first), steep: false };
      const showing = lit[by];
      if (showing === undefined) return undefined;
      const { part } = showing.ending;
      return {
        severity: value > limit ? "warning" : undefined, badness: value - limit, measured: { value, unit: "°" }, limit: { value: limit, unit: "°" },
        cause: { key: `axis ${canonical(part.id)}`, subjects: [part.id], where: showing.shown.where },
        say: () => ({
          because: `from ${rowOf(seats[worst])} one looks at ${part.id} from ${withUnit(value, "°")} ${steep ? "above or below" : "off"} its axis`,
          effect: `too much from ${steep ? "above or below" : "the side"} for ${seatsShort(seats, over.flatMap((n, i) => (n > 0 ? [i] : [])), worst)}`,
          summary: `${part.id} is seen from ${withUnit(value, "°")} off its axis at ${rowOf(seats[worst])}`, chain: [],
        }),
      };
    },
    remedies: () => [
      ...list.filter((s) => s.ending.device.type === "display").flatMap((s) => setInPlace(scene, s.ending.device, "aim", "audience", `Turn ${s.ending.device.name} to the audience`)),
      ...list.slice(0, 1).flatMap((s) => showOn(scene, s)),
    ],
  })),
};
