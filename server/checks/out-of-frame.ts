import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import type { Vec3 } from "../model/geometry";
import { namesOf } from "../model/voices";
import { called } from "../signal/coverage";
import { bestView, liveShots, shotKey, shotsOf, standsOf, type BestView, type Seen, type Shot } from "../signal/pictures/shots";
import { pointsOf } from "../signal/sight";
import { joinCamera, turn, zoomOut } from "./camera-remedies";
import type { Case, Check, Outcome, Scene } from "./check";

/** Of many people asked for, that many in the frame are an audience seen; fewer than the first are none. Common practice, no source. */
const OF_MANY = { error: 0.5, warning: 0.75 } as const;

/** Somebody or some seats that the people online are to see. */
export interface Subject {
  readonly name: string;
  /** One of many: seats, or people around a table, who are seen together. */
  readonly many: boolean;
  /** One person, whose whole head and shoulders count. */
  readonly person: boolean;
  points(trial: Trial): readonly Vec3[];
}

/** Who speaks in the item, and what else is asked for. */
export function subjectsOf({ graph, setup }: Scene): Subject[] {
  const out = new Map<string, Subject>();
  for (const voice of graph.voices) {
    const seats = voice.seats !== undefined;
    out.set(canonical(voice.name), { name: voice.name, person: !seats, many: seats || voice.around, points: (trial) => (seats ? pointsOf(setup, voice.name, trial) : standsOf(voice, trial)) });
  }
  for (const { text } of setup.shallShow(graph.item)) {
    if (!out.has(canonical(text))) out.set(canonical(text), { name: text, person: setup.floor.group(text) === undefined, many: setup.floor.group(text) !== undefined, points: (trial) => pointsOf(setup, text, trial) });
  }
  return [...out.values()];
}

const bestFor = ({ setup, graph }: Scene, subject: Subject, shots: readonly Shot[], trial: Trial): BestView | undefined =>
  bestView(setup, trial, shots, graph.voices, subject.points(trial));

export const outOfFrame: Check = {
  silentInOrder: true,
  entry: {
    code: "out-of-frame", title: "Somebody is not in any camera's picture", severity: "error", group: "The people online see the room",
    notice: "The people online hear a voice, and see an empty chair or a headless body.",
    why: "A camera sees a cone: what stands beside it, or walks out of it, is not seen however good the camera.",
    todo: ["Aim the camera at whoever speaks.", "Move it back, or use a wider one.", "Mark on the floor how far one may walk."],
    source: "geometry in three dimensions: a pinhole camera", symptoms: ["speaker not visible", "head cut off", "walks out of the picture", "audience not in the picture"],
    limit: "whole head and shoulders of whoever speaks; of an audience asked for, three quarters of the faces",
  },
  cases: (scene) => {
    const shots = shotsOf(scene.graph);
    return shots.length === 0 ? [] : subjectsOf(scene).map((subject): Case => ({
      key: `${subject.name} ${shotKey(shots)} ${namesOf(scene.graph.voices)}`, ways: ["online-sees-room"], together: true,
      measure: (trial) => measure(scene, subject, shots, trial),
      remedies: () => [...turn(scene, subject.name), ...zoomOut(scene), ...joinCamera(scene, subject.name)],
    }));
  },
};

function measure(scene: Scene, subject: Subject, shots: readonly Shot[], trial: Trial): Outcome | undefined {
  const live = liveShots(shots, trial);
  const view = bestFor(scene, subject, live, trial);
  if (view === undefined) return undefined;
  const { seen } = view;
  const inside = seen.filter((s) => s.face).length;
  // A camera that has it is planned and does not get there: that is what is wrong.
  if (inside < seen.length / 2 && live.length < shots.length) {
    const planned = bestFor(scene, subject, shots.filter((s) => !live.includes(s)), trial);
    if (planned !== undefined && planned.seen.filter((s) => s.face).length >= seen.length / 2) return undefined;
  }
  const worst = seen.reduce((a, b) => (b.margin < a.margin ? b : a), seen[0] as Seen);
  const first = seen[0] as Seen;
  // Whoever is right before a computer sees the own picture, and moves.
  const close = view.shot.ending.device.type === "computer" && first.depth < 1.5;
  const severity = subject.person
    ? !first.face ? "error" : seen.some((s) => !s.face) || (!first.whole && !close) ? "warning" : undefined
    : inside < seen.length * OF_MANY.error ? "error" : inside < seen.length * OF_MANY.warning ? "warning" : undefined;
  const cut = subject.person && first.face && !first.whole && !close && seen.every((s) => s.face);
  const { device, part } = view.shot.ending;
  const value = subject.person && !first.face ? first.margin : subject.person ? worst.margin : median(seen);
  return {
    severity, badness: severity === "error" ? 100 - value : cut ? 1 : -value, measured: { value, unit: "°" }, limit: { value: 0, unit: "°" },
    cause: { key: `frame ${canonical(subject.name)}`, subjects: [subject.name], where: device.placed?.where ?? view.shot.sent?.where ?? scene.setup.titleWhere },
    say: () => {
      const who = called(subject.name);
      const words = severity === "error" && subject.person ? first.words : worst.words;
      const because = !subject.person ? `${part.id} has ${inside} of ${seen.length} faces in ${who} in its frame`
        : cut ? `${part.id} is so near, or so narrow, that head and shoulders of ${who} do not fit` : first.face ? `${who} walks out of the frame of ${part.id}: at the edge of that area ${words}` : `${who} is ${words}, seen from ${part.id}`;
      return {
        because, effect: cut ? "the people online see part of a face" : `the people online do not see ${who}`,
        summary: severity === undefined ? `${who} is in the frame of ${part.id}${value > 0 ? `, ${withUnit(value, "°")} from its edge` : ""}` : because, chain: [],
      };
    },
  };
}

const median = (seen: readonly Seen[]): number => [...seen].map((s) => s.margin).sort((a, b) => a - b)[Math.floor((seen.length - 1) / 2)] ?? 0;
