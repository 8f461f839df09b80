import { withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { listeners } from "../signal/air";
import { bestOf, faceAngleOf, isLit, pictureHeightOf, showingKey, showings, type Showing } from "../signal/pictures/showing";
import { FACE_LIMIT } from "../signal/sight";
import type { Case, Check, Remedy, Scene } from "./check";
import { smallKey } from "./picture-causes";
import { rowOf, seatsShort } from "./seats-short";
import { setInShows, showOn } from "./show-remedies";

export const faceSmall: Check = {
  silentInOrder: true,
  entry: {
    code: "face-small", title: "The faces online are too small to tell who speaks", severity: "hint", group: "The room sees the people online",
    notice: "Nobody behind the front row sees who online is speaking.",
    why: "The more faces share a picture, the smaller each is. Below 0.6 degrees, a fingernail at arm's length, mouth and eyes run together.",
    todo: ["Show fewer at once: whoever speaks.", "Show the call on a larger picture."],
    source: "common practice, no source; a face is a third of its tile", symptoms: ["faces too small", "cannot see who speaks", "too small"], limit: `${FACE_LIMIT}°`,
  },
  cases: (scene) => {
    const list = showings(scene.graph).filter((s) => s.shown.what === "call");
    if (list.length === 0) return [];
    return [{
      key: showingKey(list), ways: ["room-sees-online"],
      measure: (trial) => {
        const { setup } = scene;
        const lit = list.filter((s) => isLit(s, trial));
        const seats = listeners(setup, trial);
        const best = bestOf(setup, trial, lit, (showing, distance) => faceAngleOf(setup, trial, showing)(distance));
        let worst: number | undefined;
        best.forEach(({ by, value }, i) => {
          if (by !== undefined && (worst === undefined || value < (best[worst]?.value ?? Infinity))) worst = i;
        });
        if (worst === undefined) return undefined;
        const at = worst;
        const value = best[at]?.value ?? 0;
        // A larger picture is planned, and does not get there: that is what is wrong, not that the small one is small.
        if (lit.length < list.length && bestOf(setup, trial, list, (s, distance) => faceAngleOf(setup, trial, s)(distance)).every((b) => b.by === undefined || b.value >= FACE_LIMIT)) return undefined;
        // The display that most of these seats look at.
        const showing = lit[most(best.map((b) => b.by))];
        if (showing === undefined) return undefined;
        const { part } = showing.ending;
        const small = value < FACE_LIMIT;
        return {
          severity: small ? "hint" : undefined, doubtful: small, badness: FACE_LIMIT - value, measured: { value, unit: "°" }, limit: { value: FACE_LIMIT, unit: "°" },
          cause: { key: `faces ${part.id}`, subjects: [part.id], where: showing.shown.where }, foldUnder: smallKey(showing),
          say: () => {
            const faces = Math.round(trial.value(showing.shown.faces));
            const is = `${faces === 1 ? "one face" : `each of ${faces} faces`} on the ${withUnit(pictureHeightOf(setup, trial, showing), "m")} high picture of ${part.id} is ${withUnit(value, "°")} from ${rowOf(seats[at])}`;
            const short = best.flatMap((b, i) => (b.by !== undefined && b.value < FACE_LIMIT ? [i] : []));
            return {
              because: is, effect: `${seatsShort(seats, short, at)}, cannot make out who speaks`, summary: small ? `${is}: ${seatsShort(seats, short, at)}, cannot make out who speaks` : is,
              chain: [`the angle of a face ${withUnit(value, "°")}, ${FACE_LIMIT}° is needed`],
            };
          },
        };
      },
      remedies: () => list.flatMap((showing) => [...fewer(scene, showing), ...showOn(scene, showing)]),
    } satisfies Case];
  },
};

/** Which index stands most often. */
function most(list: readonly (number | undefined)[]): number {
  const count = new Map<number, number>();
  for (const i of list) if (i !== undefined) count.set(i, (count.get(i) ?? 0) + 1);
  return [...count].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
}

/** As many faces as the worst seat still makes out. */
function fewer(scene: Scene, showing: Showing): Remedy[] {
  const trial = new Trial();
  const now = Math.round(showing.shown.faces.best);
  for (const faces of [9, 4, 1].filter((n) => n < now)) {
    const best = bestOf(scene.setup, trial, [showing], (s, distance) => faceAngleOf(scene.setup, trial, s, faces)(distance));
    if (best.every((b) => b.by === undefined || b.value >= FACE_LIMIT * 1.05)) return setInShows(scene, showing, "faces", `${faces}`, `Show ${faces === 1 ? "whoever speaks" : `${faces} faces at once`} on ${showing.ending.part.id}`);
  }
  return [];
}
