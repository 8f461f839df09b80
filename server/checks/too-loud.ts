import { assumed } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import { duration, figure, withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import { permittedLevel } from "../physics/exposure";
import { listeners } from "../signal/air";
import { keyOfSpeaking, levelsOf, ONLINE_SPEAKS, sourcesOf, type Speaking } from "../signal/seats/heard";
import { strongestAt } from "../signal/seats/levels";
import { carriers } from "../signal/seats/carriers";
import type { Case, Check, Outcome, Scene } from "./check";
import { opinion } from "./observes";
import { counted, spoken, whereOf } from "./seat-causes";
import { softer } from "./seat-remedies";
import { aboutSeats } from "./seat-testimony";
import { speakingOf, spokesmen } from "./voices-in-room";

export const tooLoud: Check = {
  silentInOrder: true,
  entry: {
    code: "too-loud", title: "It is too loud at a seat for so long", severity: "warning", group: "The room hears the people online",
    notice: "Those beside the loudspeaker move away, or put their hands over their ears.",
    why: "To be loud enough for the middle of the room a loudspeaker is far louder beside it. What ears take adds up over the evening: 85 dBA for eight hours, half as long for each 3 dB more.",
    todo: ["Turn it down; let quieter loudspeakers nearer to the seats do the work.", "Move the loudspeaker away from the nearest seats, or up.", "Keep the seats beside it free.", "Mind the venue’s own rules and the law of the place; this is arithmetic, no measurement."],
    source: "NIOSH 1998: 85 dBA for 8 h, 3 dB exchange; speech taken to go on throughout", symptoms: ["too loud", "hurts", "ears ring"],
    limit: "the level that fills a day’s dose in the time of the meeting",
  },
  cases: (scene) => [ONLINE_SPEAKS, ...amplified(scene)].map((speaking): Case => ({
    key: keyOfSpeaking(scene.graph, speaking), ways: ["room-hears-online"], measure: (trial) => measure(scene, speaking, trial), remedies: (outcome) => softer(scene, speaking, (outcome.measured?.value ?? 0) - (outcome.limit?.value ?? 0)),
    ...(speaking.who === "online" ? { observed: (seen) => (scene.setup.room.seats.some((seats) => aboutSeats(scene, seats.name, seen) !== undefined) && seen.place === undefined ? opinion(seen, ["loud"]) : undefined) } : {}),
  })),
};

/** Whoever is carried by loudspeakers: their voices by themselves hurt nobody. */
const amplified = (scene: Scene): Speaking[] => (carriers(scene.graph).length === 0 ? []
  : spokesmen(scene, (voice, trial) => measure(scene, speakingOf(voice, 0), trial)?.badness).filter((by) => by.amplified).map(({ voice }) => speakingOf(voice, 0)));

/** Where no timetable says it. */
const LENGTH: Ranged = assumed("meeting.length", "how long the meeting lasts", "time", { best: 7200, low: 3600, high: 4 * 3600, source: "common practice, no source" });

function measure(scene: Scene, speaking: Speaking, trial: Trial): Outcome | undefined {
  const { graph, setup } = scene;
  const sources = sourcesOf(graph, speaking, trial);
  if (!sources.some((source) => source.ending !== undefined)) return undefined;
  const levels = levelsOf(graph, speaking, "level", trial);
  let seat = 0;
  // Beside a mouth it is the mouth.
  for (let i = 0; i < levels.length; i += 1) if ((levels[i] ?? 0) > (levels[seat] ?? 0)) seat = i;
  const level = levels[seat] ?? -Infinity;
  const strongest = strongestAt(sources, seat);
  if (strongest?.ending === undefined) return undefined;
  const time = setup.start !== undefined && setup.end !== undefined && setup.end > setup.start ? (setup.end - setup.start) * 60 : trial.value(LENGTH);
  const limit = permittedLevel(time);
  const { device } = strongest.ending;
  return {
    severity: level > limit ? "warning" : undefined, badness: level - limit, measured: { value: level, unit: "dBA" }, limit: { value: limit, unit: "dBA" },
    cause: { key: `loud ${canonical(device.name)}`, subjects: [device.name], where: whereOf(scene, strongest, speaking) },
    say: () => {
      const all = [...listeners(setup, trial).keys()];
      return {
        because: `${strongest.name} gives ${figure(level)} dBA at ${listeners(setup, trial)[seat]?.name ?? "a seat"} when it carries ${spoken(speaking)}, where ${figure(limit)} dBA is the most for ${duration(time)}`,
        effect: counted(scene, trial, all, all.filter((i) => (levels[i] ?? -Infinity) > limit), seat, ["gets more than ears should take", "get more than ears should take"]),
        summary: `at most ${figure(level)} dBA at a seat`,
        chain: [`${figure(strongest.level)} dBA at 1 m, ${withUnit(strongest.field.distance[seat] ?? NaN, "m")} away; 85 dBA may last 8 h, half as long for each 3 dB more`],
      };
    },
  };
}
