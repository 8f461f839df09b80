/** From somebody's own words to the family of symptoms that comes nearest, and the code of the catalogue that says so. */
import { CATALOGUE } from "../../checks/catalogue";
import { SYMPTOMS, type Symptom } from "./families";
import { likeness, whoNotices, wordsIn } from "./words";

export interface Told {
  readonly symptom: Symptom;
  /** The code whose own symptoms are nearest; nothing where the family's are. */
  readonly code: string | undefined;
}

/** Less in common than this is nothing. Tried on the sentences of the tests. */
const LEAST = 0.35;
/** What the other side notices is hardly what is meant. */
const OTHER_SIDE = 0.5;
/** A text longer than anybody says in one breath. */
const MOST_WORDS = 60;

interface Phrase {
  readonly symptom: Symptom;
  readonly code: string | undefined;
  readonly text: string;
  readonly words: readonly string[];
  readonly who: "online" | "room" | undefined;
}

/** That something is not so tells silence from noise; which word says it tells nothing. */
const NOT = /\b(?:no|not|nothing|nobody|never|cannot|can.?t|don.?t|doesn.?t|isn.?t|won.?t|without)\b/u;
const tellingIn = (text: string): string[] => [...new Set([...wordsIn(text), ...(NOT.test(plain(text)) ? ["not"] : [])])].slice(0, MOST_WORDS);

const PHRASES: readonly Phrase[] = (() => {
  const phrase = (symptom: Symptom, code: string | undefined, text: string): Phrase => ({ symptom, code, text: plain(text), words: tellingIn(text), who: whoNotices(text) ?? symptom.who });
  const ofCode = new Map(CATALOGUE.map((entry) => [entry.code, entry.symptoms]));
  return [
    ...SYMPTOMS.flatMap((symptom) => [symptom.says, ...symptom.words].map((text) => phrase(symptom, undefined, text))),
    ...SYMPTOMS.flatMap((symptom) => symptom.codes.flatMap((code) => (ofCode.get(code) ?? []).map((text) => phrase(symptom, code, text)))),
  ];
})();

function plain(text: string): string {
  return text.trim().toLowerCase();
}

/** In how many phrases a word stands: the fewer, the more it tells. */
const COUNT: ReadonlyMap<string, number> = (() => {
  const out = new Map<string, number>();
  for (const { words } of PHRASES) for (const word of words) out.set(word, (out.get(word) ?? 0) + 1);
  return out;
})();
/** A word that stands in none tells nothing, and shows that more is meant than a phrase says. */
const UNKNOWN = 1;
const worth = (word: string): number => {
  const count = COUNT.get(word);
  return count === undefined ? UNKNOWN : Math.log(1 + PHRASES.length / count);
};
const worthOf = (words: readonly string[]): number => words.reduce((sum, word) => sum + worth(word), 0);

/** What two sets of words have in common, each word by what it tells: 0 to 1. */
function common(sought: readonly string[], words: readonly string[]): number {
  if (sought.length === 0 || words.length === 0) return 0;
  let both = 0;
  for (const word of words) both += worth(word) * Math.max(0, ...sought.map((other) => likeness(word, other)));
  return both / Math.sqrt(worthOf(words) * Math.max(worthOf(sought), both));
}

/** Nothing where no symptom is near. Of equally near ones the likelier. */
export function symptomLike(words: string): Told | undefined {
  const who = whoNotices(words);
  const sought = tellingIn(words);
  let best: { readonly phrase: Phrase; readonly near: number } | undefined;
  for (const phrase of PHRASES) {
    const same = who === undefined || phrase.who === undefined || who === phrase.who;
    const near = (phrase.text === plain(words) ? 2 : common(sought, phrase.words)) * (same ? 1 : OTHER_SIDE);
    if (near > (best?.near ?? 0)) best = { phrase, near };
  }
  return best === undefined || best.near < LEAST ? undefined : { symptom: best.phrase.symptom, code: best.phrase.code };
}
