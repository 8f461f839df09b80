/** What somebody online presents is no sharper than the picture in which it is taken in, however large it is shown. */
import { valueOf } from "../model/bound";
import { holding } from "../model/during";
import { rewrite } from "../model/edits";
import { figure, withUnit } from "../model/show";
import { PIXELS_OF_LETTER, type Showing } from "../signal/pictures/showing";
import { modeWords } from "../signal/streams";
import { fileOf, type Case, type Remedy, type Scene } from "./check";
import { setInShows } from "./show-remedies";

/** Lines of the sizes in which what is presented is sent. */
const LINES = [720, 1080, 1440, 2160] as const;

/** A case for each display on which text of those online is read, of a size that the join or the service sets. */
export function coarseText(scene: Scene, list: readonly Showing[]): Case[] {
  return list.flatMap((showing): Case[] => {
    const { shown, join, ending } = showing;
    const { presents } = join;
    if (shown.what !== "call" || presents === undefined || shown.letters === undefined) return [];
    const { letters } = shown;
    return [{
      key: `coarse ${ending.part.id} ${letters.best} ${presents.width}x${presents.height}`, ways: ["room-sees-online"],
      measure: (trial) => {
        const pixels = trial.value(letters) * presents.height;
        const coarse = pixels < PIXELS_OF_LETTER;
        return {
          severity: coarse ? "warning" : undefined, badness: PIXELS_OF_LETTER - pixels, measured: { value: pixels, unit: "pixels" }, limit: { value: PIXELS_OF_LETTER, unit: "pixels" },
          cause: { key: `coarse ${join.join.device}`, subjects: [join.join.device], where: shown.where },
          say: () => {
            const is = `text of ${withUnit(trial.value(letters) * 100, "%")}, taken in at ${modeWords(presents)}, is ${figure(pixels)} pixels high`;
            return {
              because: `${is}, and ${PIXELS_OF_LETTER} are needed`, effect: "nobody in the room can read what somebody online presents, from whichever seat", summary: is, chain: [],
              notice: "The letters of what somebody online presents are a blur, even from the front row.",
            };
          },
        };
      },
      remedies: () => sharper(scene, showing, letters.low, presents.height),
    }];
  });
}

/** A larger picture where the join itself sets it, else larger text. */
function sharper(scene: Scene, showing: Showing, share: number, lines: number): Remedy[] {
  const { join } = showing.join;
  const file = fileOf(scene.setup, join.where.path);
  const most = scene.setup.service.presents?.height ?? Infinity;
  const enough = LINES.find((height) => height > lines && height <= most && height * share >= PIXELS_OF_LETTER);
  const said = holding(join.statements, "receives", scene.item).filter((s) => valueOf(s, "what", "word")?.word === "content").at(-1);
  const during = said === undefined || said.tails.during.length === 0 ? "" : ` during ${said.tails.during.map((name) => name.text).join(" and ")}`;
  const text = `receives content at ${String(enough)}p5`;
  const need = Math.ceil((PIXELS_OF_LETTER / lines) * 1.03 * 200) / 2;
  return [
    ...(enough === undefined || file === undefined || said === undefined ? [] : [{ title: `Take in what is presented online at ${enough} lines on ${join.device}`, edits: [rewrite(said, `${text}${during}`)] }]),
    ...setInShows(scene, showing, "text-height", withUnit(need, "%"), `Let whoever presents online make the smallest text ${withUnit(need, "%")} of the picture's height`),
  ];
}
