import { Trial } from "../model/trial";
import { withUnit } from "../model/show";
import { ARC_MINUTE, heightForAngle } from "../physics/imageSize";
import { listeners } from "../signal/air";
import { bestOf, isLit, lettered, letterAngle, LETTERS, looksAt, PIXELS_OF_LETTER, pictureHeightOf, showingKey, type Showing } from "../signal/pictures/showing";
import type { Case, Check, Outcome, Scene } from "./check";
import { coarseText } from "./coarse-text";
import { smallKey } from "./picture-causes";
import { rowOf, seatsShort } from "./seats-short";
import { setInShows, showOn } from "./show-remedies";

/** More of the picture's height than this no slide gives its smallest text. Common practice, no source. */
const LARGEST = 0.08;

/** The seat at which text is smallest, and all at which it is smaller than the limit. */
export function readFrom(scene: Scene, list: readonly Showing[], trial: Trial) {
  const { setup } = scene;
  const lit = list.filter((s) => isLit(s, trial));
  const seats = listeners(setup, trial);
  const best = bestOf(setup, trial, lit, (showing, distance) => letterAngle(setup, trial, showing)(distance));
  let worst: number | undefined;
  best.forEach(({ by, value }, i) => {
    if (by !== undefined && (worst === undefined || value < (best[worst]?.value ?? Infinity))) worst = i;
  });
  const showing = worst === undefined ? undefined : lit[best[worst]?.by ?? -1];
  return { seats, best, worst, showing };
}

export const textSmall: Check = {
  silentInOrder: true,
  entry: {
    code: "text-small", title: "The smallest text is too small for the back", severity: "error", group: "The room sees the people online",
    notice: "Those behind lean forward, squint, or ask what it says there.",
    why: "An eye reads at ease what is seen under 16 minutes of arc or more, counted by the height of a capital letter. From twice as far the same letter needs twice the height.",
    todo: ["Larger text on the slide: fewer words.", "Of what somebody online presents, take in a larger picture.", "A larger picture, as far as projector and surface allow.", "Or move the seats nearer."],
    source: "ISO 9241-3 as quoted in a secondary source, NUREG-0700 §1.3.1-4: 16′ at least; 10′ for an error: common practice",
    symptoms: ["text too small", "cannot read the slides", "squinting", "letters too small"], limit: `${LETTERS.warning}′; under ${LETTERS.error}′ an error; of what is presented online, ${PIXELS_OF_LETTER} pixels over a capital letter`,
  },
  cases: (scene) => {
    const list = lettered(scene.graph, true);
    if (list.length === 0) return [];
    return [...coarseText(scene, list), {
      key: showingKey(list), ways: ["room-sees-online"],
      measure: (trial) => measure(scene, list, trial), remedies: () => list.flatMap((s) => remedies(scene, s)),
    } satisfies Case];
  },
};

function measure(scene: Scene, list: readonly Showing[], trial: Trial): Outcome | undefined {
  const { seats, best, worst, showing } = readFrom(scene, list, trial);
  if (worst === undefined || showing === undefined) return undefined;
  const value = best[worst]?.value ?? 0;
  const severity = value < LETTERS.error ? "error" : value < LETTERS.warning ? "warning" : undefined;
  const limit = severity === "error" ? LETTERS.error : LETTERS.warning;
  const { part } = showing.ending;
  const share = showing.shown.letters === undefined ? 0 : trial.value(showing.shown.letters);
  const height = pictureHeightOf(scene.setup, trial, showing);
  return {
    severity, badness: LETTERS.warning - value, measured: { value, unit: "′" }, limit: { value: limit, unit: "′" },
    cause: { key: smallKey(showing), subjects: [part.id], where: showing.shown.where },
    say: () => {
      const short = best.flatMap((b, i) => (b.by !== undefined && b.value < LETTERS.warning ? [i] : []));
      const need = neededShare(scene, showing, worst, trial);
      const text = `text of ${withUnit(share * 100, "%")} on the ${withUnit(height, "m")} high picture of ${part.id} is ${withUnit(value, "′")} from ${rowOf(seats[worst])}`;
      return {
        because: `${text}, and ${LETTERS.warning}′ needs ${withUnit((height * need) / share, "m")} of picture or ${withUnit(need * 100, "%")}`,
        effect: `it is hard to read for ${seatsShort(seats, short, worst)}`, summary: severity === undefined ? `${text}` : `${text}: hard to read for ${seatsShort(seats, short, worst)}`,
        chain: [`the angle of the smallest letters ${withUnit(value, "′")}, ${limit}′ is needed`],
      };
    },
  };
}

/** The share of the picture that the smallest letters need for 16′ at a seat. */
function neededShare(scene: Scene, showing: Showing, seat: number, trial: Trial): number {
  const distance = looksAt(scene.setup, trial, showing.ending)[seat]?.distance ?? 0;
  return heightForAngle(LETTERS.warning * ARC_MINUTE, distance) / pictureHeightOf(scene.setup, trial, showing);
}

/** The share at the worst seat, rounded up, with a little to spare for what is only roughly known. */
export function remedies(scene: Scene, showing: Showing) {
  const trial = new Trial();
  const looks = looksAt(scene.setup, trial, showing.ending);
  const need = Math.max(0, ...looks.map((_, i) => neededShare(scene, showing, i, trial)));
  const shares = [1.03, 1.25].map((spare) => Math.ceil(need * spare * 200) / 200).filter((share) => share <= LARGEST);
  return [
    ...shares.flatMap((share) => setInShows(scene, showing, "text-height", `${withUnit(share * 100, "%")}`, `Make the smallest text ${withUnit(share * 100, "%")} of the picture's height`)),
    ...showOn(scene, showing),
  ];
}
