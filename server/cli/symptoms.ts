/** Finds what somebody describes in their own words, by the words that both have in common. */
import type { Entry } from "../checks/catalogue";
import { overlap, wordsIn } from "../views/symptoms/words";

/** One word of many in common with a title is too little. */
const LEAST = 0.12;

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
