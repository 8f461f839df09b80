/** From an open value that decides something to the question that one would ask at the venue. */
import { amount, list, sentence } from "./model/show";
import type { Ranged } from "./model/ranged";
import { rank, type Severity, type Question } from "./finding";
import type { Judgement, Swing } from "./judge";
import type { WayName } from "./model/ways";

/** The question behind a swing. */
export function questionOf(judgement: Judgement, swing: Swing, ways: readonly WayName[], title: string): Question {
  const joint = judgement.turnedBy.length > 1 && judgement.turnedBy.every((s) => Math.min(rank(s.low), rank(s.high)) > 0);
  if (joint) return jointQuestion(judgement, ways);
  const { value } = swing;
  // Where only the best guess is bad, the ends are no two answers.
  const middle = judgement.atBest !== undefined && swing.low === undefined && swing.high === undefined && value.from.how !== "unsaid";
  return {
    id: value.id, ask: askFor(value), ways, weight: weigh(judgement, swing), where: value.from.where,
    answers: value.from.how === "unsaid"
      ? [{ when: "as it should be", then: meaning(swing.high, judgement, title) }, { when: "not at all", then: meaning(swing.low, judgement, title) }]
      : middle ? [{ when: `about ${amount(value.best, value.dimension)}`, then: meaning(judgement.atBest, judgement, title) }, { when: "well off that, either way", then: "in order" }]
      : [
        { when: `down to ${amount(value.low, value.dimension)}`, then: meaning(swing.low, judgement, title) },
        { when: `up to ${amount(value.high, value.dimension)}`, then: meaning(swing.high, judgement, title) },
      ],
    ...(lineFor(value) === undefined ? {} : { write: lineFor(value) }),
  };
}

/** `where exactly Ines is`: no thing that could be asked for by its name. */
const isClause = (label: string): boolean => /^(how|whether|where|what)\b/.test(label);

function askFor(value: Ranged): string {
  const { label } = value;
  if (value.ask !== undefined) return value.ask;
  if (isClause(label)) return `Find out ${label}.`;
  return sentence(`What is ${label}`).replace(/\.$/, "?");
}

/** What an answer would mean. The words of the best guess hold no figures of another end, so what is measured is called by its title. */
function meaning(severity: Severity | undefined, judgement: Judgement, title: string): string {
  if (severity === undefined) return "in order";
  const { said, best } = judgement;
  if (best.measured !== undefined) return `${severity}: ${title.charAt(0).toLowerCase()}${title.slice(1)}`;
  return said.effect === "" ? said.because : said.effect;
}

/** Where no single fact decides and all together do: they are asked for together. */
function jointQuestion(judgement: Judgement, ways: readonly WayName[]): Question {
  const facts = judgement.turnedBy.map((s) => s.value);
  return {
    id: facts.map((f) => f.id).join(" + "), ask: facts.some((f) => isClause(f.label)) ? `Find out ${list(facts.map((f) => f.label))}.` : `What are ${list(facts.map((f) => f.label))}?`, ways, weight: 0.8, where: facts[0]?.from.where,
    answers: [{ when: "all at their better end", then: "in order" }, { when: "else", then: judgement.said.effect === "" ? judgement.said.because : judgement.said.effect }],
  };
}

/** Where exactly something is put is a choice, and comes after what one has to find out. */
export const isPlace = (id: string): boolean => /\.(?:place-\d+\b.*|[xy])$/.test(id);

function weigh(judgement: Judgement, swing: Swing): number {
  const far = Math.abs(rank(swing.low) - rank(swing.high));
  return far - (isPlace(swing.value.id) ? 1.5 : 0) + (judgement.atBest === "error" ? 0.5 : 0) + (swing.value.from.how === "unsaid" ? 0.4 : 0);
}

/** A line that would state the fact, where it has a place of its own in the language. */
function lineFor(value: Ranged): string | undefined {
  const best = amount(value.best, value.dimension).replace("²", "2");
  const [owner, what] = [value.id.slice(0, value.id.indexOf(".")), value.id.slice(value.id.indexOf(".") + 1)];
  if (owner === "room" && what === "noise") return `in ${value.label.replace("the noise in ", "")} { noise ${best}A }`;
  if (owner === "room" && what === "reverberation-factor") return "reverberation 0.8 s guessed   # in the room; or: clap dies in about 1 s";
  if (owner === "meeting" && what === "online") return `online ${best} people`;
  return undefined;
}
