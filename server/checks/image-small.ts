import { assumed } from "../model/make-ranged";
import { withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import { farthestAnalyticalViewer, farthestViewer } from "../physics/imageSize";
import { listeners } from "../signal/air";
import { bestOf, isLit, lettered, looksAt, pictureHeightOf, showingKey, showings, type Showing } from "../signal/pictures/showing";
import type { Case, Check, Scene } from "./check";
import { smallKey } from "./picture-causes";
import { rowOf, seatsShort } from "./seats-short";
import { showOn } from "./show-remedies";
import { readFrom, remedies } from "./text-small";

/** How far every line of a picture can be told from the next. */
function forInspection(scene: Scene): Case[] {
  const list = showings(scene.graph).filter((s) => s.shown.purpose === "inspection");
  if (list.length === 0) return [];
  return [{
    key: `inspection ${showingKey(list)}`, ways: ["room-sees-online"], asks: true,
    measure: (trial) => {
      const { setup } = scene;
      const lit = list.filter((s) => isLit(s, trial));
      const most = (showing: Showing): number => farthestAnalyticalViewer(pictureHeightOf(setup, trial, showing), linesOf(showing, trial));
      const best = bestOf(setup, trial, lit, (showing, distance) => most(showing) / distance);
      const worst = best.reduce<number | undefined>((w, b, i) => (b.by !== undefined && (w === undefined || b.value < (best[w]?.value ?? Infinity)) ? i : w), undefined);
      const showing = worst === undefined ? undefined : lit[best[worst]?.by ?? -1];
      if (worst === undefined || showing === undefined) return undefined;
      const { part } = showing.ending;
      const limit = most(showing);
      const value = looksAt(setup, trial, showing.ending)[worst]?.distance ?? 0;
      return {
        severity: value > limit ? "warning" : undefined, badness: value - limit, measured: { value, unit: "m" }, limit: { value: limit, unit: "m" },
        cause: { key: smallKey(showing), subjects: [part.id], where: showing.shown.where },
        say: () => {
          const seats = listeners(setup, trial);
          const short = best.flatMap((b, i) => (b.by !== undefined && b.value < 1 ? [i] : []));
          const is = `${Math.round(linesOf(showing, trial))} lines on a picture ${withUnit(pictureHeightOf(setup, trial, showing), "m")} high can be told apart from ${withUnit(limit, "m")} at most, and ${rowOf(seats[worst])} is ${withUnit(value, "m")} from ${part.id}`;
          return { because: is, effect: short.length === 0 ? "" : `details are lost to ${seatsShort(seats, short, worst)}`, summary: is, chain: [] };
        },
      };
    },
    remedies: () => list.flatMap((showing) => showOn(scene, showing)),
  }];
}

/** Lines of a display's picture. Where the text does not say: common practice, no source. */
function linesOf({ ending: { part } }: Showing, trial: Trial): number {
  return part.optics.pixels?.height ?? trial.value({
    ...assumed(`${part.id}.lines`, `how many lines ${part.id} shows`, "count", { best: 1080, low: 768, high: 2160, source: "common practice, no source" }), ask: `How many pixels has ${part.id}?`,
  });
}

export const imageSmall: Check = {
  silentInOrder: true,
  entry: {
    code: "image-small", title: "The picture is too small for what may be read on it", severity: "warning", group: "The room sees the people online",
    notice: "From the back the slides are a bright patch with lines on it.",
    why: "Nobody said how large the smallest text is. By the size that is usual on slides, the farthest seat is farther away than 200 times its height.",
    todo: ["Find out how large the smallest text is: text-height 3 %.", "A larger picture, or nearer seats.", "Ask who presents for large text."],
    source: "ANSI/AVIXA V202.01:2016, basic decision making: FV = IH × EH × 200, for inspection analytical: FV = IH × 3438 / lines; usual text: common practice", symptoms: ["slides too small", "picture too small"], limit: "FV = 200 × height of the picture × share of the smallest letters; where the purpose is inspection, each line at 1′",
  },
  cases: (scene) => {
    const list = lettered(scene.graph, false);
    const inspected = forInspection(scene);
    if (list.length === 0) return inspected;
    return [...inspected, {
      key: showingKey(list), ways: ["room-sees-online"], asks: true,
      measure: (trial) => {
        const { seats, best, worst, showing } = readFrom(scene, list, trial);
        if (worst === undefined || showing?.shown.letters === undefined) return undefined;
        const share = trial.value(showing.shown.letters);
        const height = pictureHeightOf(scene.setup, trial, showing);
        const most = farthestViewer(height, share);
        const distance = looksAt(scene.setup, trial, showing.ending)[worst]?.distance ?? 0;
        const { part } = showing.ending;
        return {
          severity: distance > most ? "warning" : undefined, badness: distance - most, measured: { value: distance, unit: "m" }, limit: { value: most, unit: "m" },
          cause: { key: smallKey(showing), subjects: [part.id], where: showing.shown.where },
          say: () => {
            const short = best.flatMap(({ by }, i) => (by !== undefined && (looksAt(scene.setup, trial, (list[by] ?? showing).ending)[i]?.distance ?? 0) > most ? [i] : []));
            const is = `on a picture ${withUnit(height, "m")} high, text of ${withUnit(share * 100, "%")} is read from ${withUnit(most, "m")} at most, and ${rowOf(seats[worst])} is ${withUnit(distance, "m")} from ${part.id}`;
            return { because: is, effect: short.length === 0 ? "" : `it is hard to read for ${seatsShort(seats, short, worst)}`, summary: is, chain: [] };
          },
        };
      },
      remedies: () => list.flatMap((showing) => remedies(scene, showing)),
    } satisfies Case];
  },
};
