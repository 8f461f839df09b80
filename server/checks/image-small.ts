import { withUnit } from "../model/show";
import { farthestViewer } from "../physics/imageSize";
import { lettered, looksAt, pictureHeightOf, showingKey } from "../signal/pictures/showing";
import type { Case, Check } from "./check";
import { smallKey } from "./picture-causes";
import { rowOf, seatsShort } from "./seats-short";
import { readFrom, remedies } from "./text-small";

export const imageSmall: Check = {
  silentInOrder: true,
  entry: {
    code: "image-small", title: "The picture is too small for what may be read on it", severity: "warning", group: "The room sees the people online",
    notice: "From the back the slides are a bright patch with lines on it.",
    why: "Nobody said how large the smallest text is. By the size that is usual on slides, the farthest seat is farther away than 200 times its height.",
    todo: ["Find out how large the smallest text is: text-height 3 %.", "A larger picture, or nearer seats.", "Ask who presents for large text."],
    source: "ANSI/AVIXA V202.01:2016, basic decision making: FV = IH × EH × 200; usual text: common practice", symptoms: ["slides too small", "picture too small"], limit: "FV = 200 × height of the picture × share of the smallest letters",
  },
  cases: (scene) => {
    const list = lettered(scene.graph, false);
    if (list.length === 0) return [];
    return [{
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
