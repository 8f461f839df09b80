import { duration, figure } from "../model/show";
import type { Trial } from "../model/trial";
import { LATE_FROM, LATE_WITHIN } from "../physics/arrivals";
import { listeners } from "../signal/air";
import { carriers } from "../signal/seats/carriers";
import { keyOfSpeaking, ONLINE_SPEAKS, sourcesOf, type Speaking } from "../signal/seats/heard";
import { lateSeats } from "../signal/seats/late";
import type { Source } from "../signal/seats/sources";
import type { Case, Check, Outcome, Scene } from "./check";
import { CROSSED } from "./echo-path";
import { counted, LATE, spoken, whereOf } from "./seat-causes";
import { apartRemedies } from "./seat-remedies";
import { speakingOf, spokesmen } from "./voices-in-room";

export const lateArrival: Check = {
  silentInOrder: true,
  entry: {
    code: "late-arrival", title: "Two loudspeakers come apart", severity: "warning", group: "The room hears the people online",
    notice: "Every word is heard twice, as in a railway station.",
    why: "The same words reach a seat from two loudspeakers, the second more than 50 ms after the first and nearly as loud. The ear no longer takes them for one. Radio links keep sound back by a tenth of a second and more; through the air 17 m take 50 ms.",
    todo: ["Feed both the same way: a cable in place of radio.", "Delay the one that comes first: a bus of its own at the mixer, with a delay.", "Turn one of them off, or down by 10 dB where both are heard."],
    source: "common practice, no source", symptoms: ["hear everything twice", "double", "like in a station", "echo in the room"],
    limit: `${LATE_FROM * 1000} ms apart, the later at most ${LATE_WITHIN} dB weaker`,
  },
  cases: (scene) => [
    { key: keyOfSpeaking(scene.graph, ONLINE_SPEAKS), ways: ["room-hears-online"], together: true, measure: (trial) => measure(scene, ONLINE_SPEAKS, trial), remedies: () => apartRemedies(scene, ONLINE_SPEAKS) },
    ...(carriers(scene.graph).length === 0 ? [] : spokesmen(scene, (voice, trial) => measure(scene, speakingOf(voice, 0), trial)?.badness).filter((by) => by.amplified).map(({ voice }): Case => ({
      key: keyOfSpeaking(scene.graph, speakingOf(voice, 0)), ways: [], together: true, measure: (trial) => measure(scene, speakingOf(voice, 0), trial), remedies: () => apartRemedies(scene, speakingOf(voice, 0)),
    }))),
  ],
};

function measure(scene: Scene, speaking: Speaking, trial: Trial): Outcome | undefined {
  const { graph, setup } = scene;
  const sources = sourcesOf(graph, speaking, trial);
  if (sources.length < 2) return undefined;
  const all = [...listeners(setup, trial).keys()];
  // The sources are asked for within, so that what they read counts as read.
  const late = trial.keep(`late ${keyOfSpeaking(graph, speaking)}`, () => lateSeats(sourcesOf(graph, speaking, trial), all));
  const worst = late.reduce<(typeof late)[number] | undefined>((a, b) => (a === undefined || beyond(b) > beyond(a) ? b : a), undefined);
  if (worst === undefined) {
    return { severity: undefined, badness: -LATE_FROM * 1000, cause: { key: LATE, subjects: [], where: whereOf(scene, sources[0], speaking) }, say: () => ({ because: "", effect: "", summary: "what plays comes together at every seat", chain: [] }) };
  }
  const { first, later, gap, below } = worst;
  const names = [first, later].map((source) => source.ending?.device.name ?? source.name);
  return {
    severity: "warning", badness: beyond(worst), measured: { value: gap * 1000, unit: "ms" }, limit: { value: LATE_FROM * 1000, unit: "ms" },
    cause: { key: LATE, subjects: [...new Set(names)], where: whereOf(scene, later, speaking) },
    ...(joinOf(first) !== joinOf(later) ? { foldUnder: CROSSED } : {}),
    say: () => ({
      because: `${later.name} comes ${duration(gap)} after ${first.name} at ${listeners(setup, trial)[worst.seat]?.name ?? "a seat"}, ${below < 0 ? `and ${figure(-below)} dB louder` : `only ${figure(below)} dB weaker`}`,
      effect: counted(scene, trial, all, late.map((one) => one.seat), worst.seat, [`hears ${spoken(speaking)} twice`, `hear ${spoken(speaking)} twice`]),
      summary: `${first.name} and ${later.name} come ${duration(gap)} apart`,
      chain: [
        `${first.name} ${figure(first.field.distance[worst.seat] ?? NaN)} m away${wayWords(first)}`, `${later.name} ${figure(later.field.distance[worst.seat] ?? NaN)} m away${wayWords(later)}`,
        `from ${LATE_FROM * 1000} ms on, and within ${LATE_WITHIN} dB, the ear takes them for two`,
      ],
    }),
  };
}

/** How far beyond both bounds a seat is: so late and so loud, a decibel for ten milliseconds; whichever gives way first ends it. */
const beyond = ({ gap, below }: { readonly gap: number; readonly below: number }): number => Math.min((gap - LATE_FROM) * 1000, (LATE_WITHIN - Math.abs(below)) * 10);

const wayWords = (source: Source): string => (source.delay > 0 ? `, ${duration(source.delay)} late on its way` : "");

/** The join that plays it; nothing where wires in the room bring it. */
const joinOf = (source: Source): string => source.path.find((edge) => edge.from.startsWith("plays:"))?.from ?? "";
