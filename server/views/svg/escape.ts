/**
 * The one way in which text of a file gets into a drawing. Names are hostile until they have been through here: they may hold
 * mark-up, control characters, half a surrogate pair, or marks that turn the reading direction of what follows.
 */

/** Stands where a character was that XML cannot hold or that would deceive the reader. */
const REPLACEMENT = "\uFFFD";
/** More marks than this on one letter climb out of their line. */
const MARKS_PER_LETTER = 2;
/** Texts longer than this are cut: a drawing is no place for a novel, and its size must stay bounded. */
const LONGEST = 40_000;

/**
 * Replaces what XML 1.0 does not allow in a document (section 2.2, production Char) and the marks that steer the reading
 * direction (Unicode Standard Annex 9: embeddings, overrides, isolates); blanks of every kind become one blank.
 */
export function clean(text: string): string {
  const cut = text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
  return cut
    .replace(/[\s\u0085]+/gu, " ")
    .replace(/[\p{Cc}\p{Cs}\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069\uFFFE\uFFFF]/gu, REPLACEMENT)
    .replace(/(\p{M}{2})\p{M}+/gu, (_all: string, kept: string) => kept.slice(0, MARKS_PER_LETTER))
    .trim();
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", "\"": "&quot;", "'": "&#39;" };

/** Text, cleaned and safe as the content of an element and as the value of an attribute. */
export function escape(text: string): string {
  return clean(text).replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}
