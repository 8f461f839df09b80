import { figure, withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { listeners } from "../signal/air";
import { keyOfSpeaking, levelsOf, loudestOf, medianOf, ONLINE_SPEAKS, softest, groupNames, sourcesOf } from "../signal/seats/heard";
import { strongestAt } from "../signal/seats/levels";
import { SEAT_NOISE } from "../signal/seats/limits";
import type { Check, Outcome, Scene } from "./check";
import { counted, quietKey, whereOf } from "./seat-causes";
import { louderThere } from "./seat-remedies";

/** So far below the middle seat may a seat be, dB. Common practice, no source. */
const BELOW = 6;

export const seatUncovered: Check = {
  silentInOrder: true,
  entry: {
    code: "seat-uncovered", title: "A seat gets far less than the others", severity: "warning", group: "The room hears the people online",
    notice: "Some ask for more while others, near the loudspeaker, ask for less.",
    why: "Whoever sets the volume goes by the middle of the room. Seats beside the loudspeaker’s beam, or far behind its reach, get much less than that.",
    todo: ["Aim the loudspeaker at the middle of the seats, from higher up.", "A second loudspeaker for the seats that the first one leaves out.", "Move those seats."],
    source: "common practice, no source", symptoms: ["uneven sound", "loud in front and soft at the back", "dead corner"],
    limit: `${BELOW} dB below the middle seat; a warning where speech is less than ${SEAT_NOISE.hint} dB above the noise there, else a hint`,
  },
  cases: (scene) => (listenersAreSeats(scene) ? [{
    key: keyOfSpeaking(scene.graph, ONLINE_SPEAKS), ways: ["room-hears-online"], measure: (trial) => measure(scene, trial), remedies: () => louderThere(scene, ONLINE_SPEAKS, undefined),
  }] : []),
};

/** With no seats there is no middle one. */
const listenersAreSeats = ({ setup }: Scene): boolean => setup.room.seats.length > 0;

function measure(scene: Scene, trial: Trial): Outcome | undefined {
  const { graph, setup } = scene;
  const worst = groupNames(setup).flatMap((group) => softest(graph, ONLINE_SPEAKS, "level", group, trial) ?? []).reduce<{ seat: number; level: number } | undefined>((a, b) => (a === undefined || b.level < a.level ? b : a), undefined);
  if (worst === undefined) return undefined;
  const middle = medianOf(graph, ONLINE_SPEAKS, trial);
  const { noise } = acoustics(setup, trial);
  const below = middle - worst.level;
  const over = worst.level - noise;
  const severity = below <= BELOW ? undefined : over < SEAT_NOISE.hint ? "warning" : "hint";
  const strongest = strongestAt(sourcesOf(graph, ONLINE_SPEAKS, trial), worst.seat);
  return {
    severity, badness: below - BELOW, measured: { value: below, unit: "dB" }, limit: { value: BELOW, unit: "dB" },
    cause: { key: "uncovered", subjects: [listeners(setup, trial)[worst.seat]?.group ?? ""], where: whereOf(scene, strongest, ONLINE_SPEAKS) },
    foldUnder: quietKey(loudestOf(graph, trial)),
    say: () => {
      const levels = levelsOf(graph, ONLINE_SPEAKS, "level", trial);
      const all = [...listeners(setup, trial).keys()];
      const name = strongest?.name ?? "what plays the call";
      return {
        because: `${name} gives ${listeners(setup, trial)[worst.seat]?.name ?? "the worst seat"} ${figure(below)} dB less than the middle seat`,
        effect: counted(scene, trial, all, all.filter((i) => middle - (levels[i] ?? -Infinity) > BELOW), worst.seat, ["lies outside its reach", "lie outside its reach"]),
        summary: `the softest seat gets ${figure(below)} dB less than the middle one`,
        chain: [`${figure(worst.level)} dBA there, ${figure(middle)} dBA at the middle seat; ${withUnit(strongest?.field.distance[worst.seat] ?? NaN, "m")} from ${name}`, `speech is ${figure(over)} dB above the noise there`],
      };
    },
  };
}
