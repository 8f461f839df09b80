import { figure, list, rate } from "../model/show";
import type { Internet } from "../model/setup";
import type { Trial } from "../model/trial";
import { fittingSet, laddersOf } from "../signal/giving-up";
import { streamsOver, total, usableUp, Wrap, type Stream } from "../signal/streams";
import { limitOf, type Case, type Check, type Outcome, type Scene } from "./check";
import { setInWords } from "./set-words";
import { thinRemedies } from "./thin-remedies";

export const uplinkShort: Check = {
  takesLimit: true,
  entry: {
    code: "uplink-short", title: "The uplink is too small for what is sent", severity: "error", group: "The internet",
    notice: "Pictures freeze or turn to blocks; if it goes on, voices break up.",
    why: "The streams that the joined devices send, with the headers of every packet, add up to more than the part of the uplink that can be counted on.",
    todo: ["A smaller picture from the second camera.", "One camera fewer.", "A cable instead of a wireless link.", "Sound is given up last."],
    source: "RFC 3550, RFC 768, RFC 791, RFC 3711 (packet overhead); the open-source call implementation's published table of rates; RFC 7587 (sound)",
    symptoms: ["picture freezes", "robot voice", "blocks", "stutters", "cuts out", "slow internet"],
    limit: "sound and slides at their least rates do not fit: error; targets do not: warning; maxima do not: hint. Never an error where the uplink was not measured",
  },
  cases: (scene) => {
    const over: (Internet | undefined)[] = scene.setup.internets.length > 0 ? [...scene.setup.internets] : [undefined];
    return over.flatMap((internet): Case[] => {
      const streams = streamsOver(scene.graph, internet);
      if (streams.length === 0) return [];
      return [{
        key: `${internet?.name ?? ""} ${streams.map((s) => s.title).join(",")}`, ways: ["internet"],
        measure: (trial) => measure(scene, internet, streams, trial),
        remedies: (outcome) => (outcome.limit === undefined ? [] : thinRemedies(scene, internet, outcome.limit.value * 1e6)),
      }];
    });
  },
};

function measure(scene: Scene, internet: Internet | undefined, streams: readonly Stream[], trial: Trial): Outcome {
  const wanted = total(streams, "target");
  const least = total(streams.filter((s) => s.what !== "picture"), "minimum");
  const most = total(streams, "maximum");
  const name = internet?.name ?? "the internet";
  const first = streams[0];
  const where = internet?.where ?? first?.join.join.where ?? scene.setup.titleWhere;
  const cause = { key: `uplink ${name}`, subjects: internet === undefined ? [] : [internet.name], where };
  const spare = internet === undefined ? undefined : usableUp(internet, trial);
  const parts = (): string[] => streams.map((s) => `${s.title} ${rate(s.rate.target)}`);
  const share = Math.min(1, limitOf(scene.setup, "uplink-short", 1));
  if (spare === undefined) {
    return {
      severity: undefined, unknown: `the uplink of ${name}`, badness: wanted / 1e6, cause,
      say: () => ({
        because: `the uplink of ${name} is not known`, effect: "", chain: parts(),
        summary: `about ${rate(wanted)} is needed (${list(parts())}); what the uplink gives is not known`,
      }),
    };
  }
  const usable = spare * share;
  const raw = least > usable ? "error" : wanted > usable ? "warning" : most > usable ? "hint" : undefined;
  // What nobody has measured fails no meeting.
  const severity = raw === "error" && internet?.up?.from.how !== "measured" ? "warning" : raw;
  // A hint on maxima alone says nothing that anybody would act on where targets fit comfortably.
  const level = severity === "hint" && wanted < 0.9 * usable ? undefined : severity;
  const effect = (): string => raw === "error" ? `not even sound and slides fit, which take ${rate(least)}`
    : level === "warning" ? `${rate(wanted)} is sent, by ${list(parts(), 4)}` : `${rate(wanted)} fits, but not the ${rate(most)} that the senders would take`;
  const fits = (): string[] => (level === undefined || level === "hint" ? [] : [`what still fits: ${setInWords(fittingSet(laddersOf(scene.setup, streams, new Wrap(scene.setup, internet)), usable))}`]);
  return {
    severity: level, badness: (raw === "error" ? least - usable : wanted - usable) / 1e6, cause,
    measured: { value: wanted / 1e6, unit: "Mb/s" }, limit: { value: usable / 1e6, unit: "Mb/s" },
    say: () => ({
      because: `of the uplink of ${name} ${rate(usable)} can be counted on`, effect: effect(),
      summary: level === undefined || level === "hint" ? `${rate(wanted)} of ${rate(usable)} is used` : `${rate(wanted)} is sent where ${rate(usable)} can be counted on`,
      chain: [...parts(), `usable: ${figure((usable / (internet?.up === undefined ? usable : trial.value(internet.up))) * 100)} % of what was measured`, ...fits()],
    }),
  };
}
