/** Finds what somebody describes in their own words, by the words that both have in common. */
import type { Entry } from "../checks/catalogue";

const EMPTY = new Set((
  "a an and are as at be been but by can could do does for from get gets has have how i if in into is it its just like my no not of " +
  "off on only or our out own so some such than that the their them then there they this those to too up us very was we were what " +
  "when where which who why will with would you your all any each every one people person somebody someone anybody nobody everybody " +
  "cannot cant dont doesnt isnt arent wont"
).split(" "));

/** Lower case, without accents, apostrophes and signs. Words that every sentence has are dropped, unless nothing else is left. */
export function wordsIn(text: string): string[] {
  const all = text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/['’]s\b/gu, "").replace(/['’]/gu, "").match(/[\p{L}\p{N}]+/gu) ?? [];
  const telling = all.filter((word) => !EMPTY.has(word));
  return telling.length > 0 ? telling : all;
}

/** 1 for the same word, less where one begins as the other does (`echo`, `echoes`), 0 for others. */
const likeness = (a: string, b: string): number => {
  if (a === b) return 1;
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  return short.length >= 4 && long.startsWith(short) && long.length - short.length <= 3 ? 0.8 : 0;
};

/** Share of `sought` that `text` has too; each word of the text is worth less the more words it has beside. */
const overlap = (sought: readonly string[], text: string): number => {
  const there = wordsIn(text);
  if (sought.length === 0 || there.length === 0) return 0;
  let found = 0;
  for (const word of sought) found += Math.max(0, ...there.map((other) => likeness(word, other)));
  const share = found / sought.length;
  return share * (0.7 + 0.3 * Math.min(1, found / there.length));
};

/** One word of many in common with a title is too little. */
const LEAST = 0.12;

/** How much two ways of saying something have in common, 0 to 1. */
export const nearness = (words: string, text: string): number => overlap(wordsIn(words), text);

/** Entries that fit best, the best first, at most five; those far behind the best are left out. */
export function bySymptom(symptom: string, catalogue: readonly Entry[]): Entry[] {
  const sought = wordsIn(symptom);
  const whole = symptom.trim().toLowerCase();
  const scored = catalogue.map((entry) => {
    // A symptom that is listed word for word wins over any overlap.
    const exact = entry.symptoms.some((s) => s.trim().toLowerCase() === whole) ? 1 : 0;
    const score = exact + Math.max(
      0, ...entry.symptoms.map((s) => overlap(sought, s)), 0.8 * overlap(sought, entry.notice), 0.6 * overlap(sought, entry.title),
      entry.code === whole ? 2 : 0,
    );
    return { entry, score };
  }).filter(({ score }) => score >= LEAST).sort((a, b) => b.score - a.score);
  const best = scored[0]?.score ?? 0;
  return scored.filter(({ score }) => score >= best / 2).slice(0, 5).map(({ entry }) => entry);
}
