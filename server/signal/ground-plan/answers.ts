/** What can be asked of a plan, and the answer at every seat. */
import type { Trial } from "../../model/trial";
import { acoustics } from "../acoustics";
import { listeners } from "../air";
import type { Graph } from "../graph";
import { clarityOf, isPlayed, levelsOf, ONLINE_SPEAKS } from "../seats/heard";
import { isEnough, shownAt } from "./enough";
import { light } from "./lit";
import type { Answer, Ask } from "./plan";
import { aside, faces, frame, heads, reads } from "./seen";

/** The answer at every seat; nothing where the question is none of seats. */
export const answerOf = (graph: Graph, trial: Trial, ask: Ask): Answer | undefined => ASKED[ask]?.(graph, trial);

/** How many seats have enough, and the worst of them. */
export function resultOf(graph: Graph, trial: Trial, answer: Answer): string {
  const { values, better, enough, unit, decimals, none } = answer;
  const seats = listeners(graph.setup, trial);
  const said = (n: number): string => `${n.toFixed(decimals)}${unit === "" ? "" : /^[′°]/u.test(unit) ? unit : ` ${unit}`}`;
  let good = 0;
  let without = 0;
  let worst = -1;
  seats.forEach((_, i) => {
    const value = values[i] ?? NaN;
    if (Number.isNaN(value)) without += 1;
    else {
      if (isEnough(answer, value)) good += 1;
      const so = values[worst] ?? NaN;
      if (worst < 0 || (better === "more" ? value < so : value > so)) worst = i;
    }
  });
  if (answer.says !== undefined) return [answer.says, ...answer.notes].join(" ");
  const notes = answer.notes.map((note) => ` ${note}`).join("");
  if (without === seats.length) return `${none}${notes}`;
  const seat = seats[worst];
  const least = seat === undefined ? "" : `; ${better === "more" ? "least" : "most"} is ${said(shownAt(answer, values[worst] ?? NaN))}, at ${seat.name}`;
  return `${good} of ${seats.length} seats have ${said(enough)} or ${better === "more" ? "more" : "less"}${least}.${without === 0 ? "" : ` ${without} of them: ${none.charAt(0).toLowerCase()}${none.slice(1)}`}${notes}`;
}

const ASKED: Readonly<Partial<Record<Ask, (graph: Graph, trial: Trial) => Answer>>> = {
  hears: (graph, trial) => {
    const levels = isPlayed(graph, trial) ? levelsOf(graph, ONLINE_SPEAKS, "level", trial) : undefined;
    const { noise } = acoustics(graph.setup, trial);
    return {
      ask: "hears", unit: "dB", decimals: 0, better: "more", enough: 15, bounds: [5, 10, 15, 20],
      question: "How far does the speech of the people online stand above the noise of the room?",
      words: ["lost in the noise", "an effort", "barely", "well", "very well"],
      values: listeners(graph.setup, trial).map((_, i) => (levels === undefined ? NaN : (levels[i] ?? NaN) - noise)),
      none: "Nothing plays the people online in the room.", notes: [], beside: new Map(),
    };
  },
  understands: (graph, trial) => {
    const clarity = isPlayed(graph, trial) ? clarityOf(graph, ONLINE_SPEAKS, trial) : undefined;
    return {
      // IEC 60268-16, annex on ranges: 0.45, 0.60 and 0.75 part poor, fair, good and excellent; below 0.30 it is bad.
      ask: "understands", unit: "of 100", decimals: 0, better: "more", enough: 60, bounds: [30, 45, 60, 75],
      question: "How clearly do words of the people online arrive (speech transmission index, in hundredths)?",
      words: ["bad", "poor", "fair", "good", "excellent"],
      values: listeners(graph.setup, trial).map((_, i) => 100 * (clarity?.[i] ?? NaN)),
      none: "Nothing plays the people online in the room.", notes: [], beside: new Map(),
    };
  },
  reads, faces, heads, aside, frame, light,
};
