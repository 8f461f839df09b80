import { canonical } from "../model/names";
import type { Observation } from "../model/observations";
import { figure, withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { listeners } from "../signal/air";
import { called, type SeatAsked } from "../signal/coverage";
import { groupNames, keyOfSpeaking, levelsOf, loudestOf, ONLINE_SPEAKS, seatsOf, softest } from "../signal/seats/heard";
import { strongestAt } from "../signal/seats/levels";
import { SEAT_NOISE } from "../signal/seats/limits";
import { levelRead, loudspeakersNamed } from "../signal/read-level";
import type { Case, Check, Outcome, Scene, Testimony } from "./check";
import { opinion, seatsMeant } from "./observes";
import { counted, graded, quietKey, whereOf } from "./seat-causes";
import { aboutSeats } from "./seat-testimony";
import { louderThere } from "./seat-remedies";

export const tooQuiet: Check = {
  entry: {
    code: "too-quiet", title: "The people online are too soft in the room", severity: "error", group: "The room hears the people online",
    notice: "Those at the back lean forward, ask each other what was said, and give up.",
    why: "Even at its loudest the loudspeaker stands too little above the noise of the room at the seats farthest from it: too far, turned elsewhere, or too small for the room.",
    todo: ["The loudspeaker nearer to the seats, or aimed at them.", "A second one where the first does not reach.", "A more powerful one.", "Less noise: windows shut, fans and urns off."],
    source: "common practice, no source", symptoms: ["too soft", "cannot hear them", "back row hears nothing", "quiet", "louder please"],
    limit: `speech over noise at a seat, the loudspeaker at its loudest: ${SEAT_NOISE.error} dB an error, ${SEAT_NOISE.warning} dB a warning, ${SEAT_NOISE.hint} dB a hint`,
  },
  cases: (scene) => groupNames(scene.setup).map((group): Case => ({
    key: `${group} ${keyOfSpeaking(scene.graph, ONLINE_SPEAKS)}`, ways: ["room-hears-online"],
    measure: (trial) => measure(scene, group, trial), remedies: () => louderThere(scene, ONLINE_SPEAKS, group),
    observed: (seen) => observed(scene, group, seen),
  })),
};

function measure(scene: Scene, group: string, trial: Trial): Outcome | undefined {
  const { graph, setup } = scene;
  const worst = softest(graph, ONLINE_SPEAKS, "most", group, trial);
  if (worst === undefined) return undefined;
  const { noise } = acoustics(setup, trial);
  const over = worst.level - noise;
  const { severity, limit } = graded(over, SEAT_NOISE);
  const sources = loudestOf(graph, trial);
  const strongest = strongestAt(sources, worst.seat, "most");
  return {
    severity, badness: SEAT_NOISE.hint - over, measured: { value: over, unit: "dB" }, limit: { value: limit, unit: "dB" },
    cause: { key: quietKey(sources), subjects: [group], where: whereOf(scene, strongest, ONLINE_SPEAKS) },
    say: () => {
      const name = strongest?.name ?? "what plays the call";
      if (severity === undefined) return { because: "", effect: "", summary: `the people online are heard by ${called(group)} through ${name}, at most ${figure(over)} dB above the noise at the worst seat`, chain: [] };
      const levels = levelsOf(graph, ONLINE_SPEAKS, "most", trial);
      const among = seatsOf(setup, trial, group);
      const short = among.filter((i) => (levels[i] ?? -Infinity) - noise < limit);
      const ear = listeners(setup, trial)[worst.seat];
      const effect = counted(scene, trial, among, short, worst.seat, VERBS[severity === "error" ? 0 : severity === "warning" ? 1 : 2]);
      return {
        because: `at its loudest ${name} is ${over < 0 ? `${figure(-over)} dB under` : `${figure(over)} dB above`} the noise at ${ear?.name ?? "the worst seat"}, where ${figure(limit)} dB is needed`, effect,
        summary: `${name} is too soft or too far: ${effect}`,
        chain: [
          `${name} gives ${figure(worst.level)} dBA there, ${withUnit(strongest?.field.distance[worst.seat] ?? NaN, "m")} away; the noise is ${figure(noise)} dBA`,
        ],
      };
    },
  };
}

const VERBS = [["does not hear the people online", "do not hear the people online"], ["hardly hears the people online", "hardly hear the people online"], ["has to listen hard to the people online", "have to listen hard to the people online"]] as const;

/** So far off may a level be that was read on a telephone, dB. Common practice, no source. */
const METER = 3;

/** `observed box clear at row 4`, `observed box level 62 dBA at row 3`: of seats that hear the people online. */
function observed(scene: Scene, group: string, seen: Observation): Testimony | undefined {
  const { setup, graph } = scene;
  const meant = aboutSeats(scene, group, seen);
  if (meant === undefined) return undefined;
  if (seen.what === "level") {
    const speakers = seen.subject !== undefined && !seen.negated && seen.value?.dimension === "level" ? loudspeakersNamed(graph, seen.subject) : [];
    const there = seatsMeant(setup, seen);
    const own = (seat: SeatAsked): boolean => canonical(seat.group) === canonical(group) && there?.(seat) !== false;
    return speakers.length === 0 ? undefined : {
      says: "reads", name: `the level of ${seen.subject ?? ""}${seen.place === undefined ? "" : ` at ${seen.place.words.replace(/^at /, "")}`}`, unit: "dBA", slack: METER,
      figure: (trial) => levelRead(graph, speakers, own, trial),
    };
  }
  const said = opinion(seen, ["unclear", "quiet"], ["clear"]);
  if (said === undefined || seen.place === undefined) return said;
  return {
    ...said, part: {
      name: seen.place.words,
      measure: (trial) => {
        const levels = levelsOf(graph, ONLINE_SPEAKS, "most", trial);
        const least = Math.min(...meant.map((i) => levels[i] ?? Infinity));
        if (!Number.isFinite(least)) return undefined;
        const over = least - acoustics(setup, trial).noise;
        const { severity, limit } = graded(over, SEAT_NOISE);
        return {
          severity, badness: SEAT_NOISE.hint - over,
          words: `speech over the noise ${withUnit(over, "dB")} there, where ${withUnit(limit, "dB")} is needed`, off: withUnit(Math.abs(limit - over), "dB"),
        };
      },
    },
  };
}
