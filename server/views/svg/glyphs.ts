/**
 * How wide a text will be, without a browser to ask.
 * Advance widths in thousandths of the font size, of the sans-serif family whose metrics the usual substitutes share (Helvetica
 * core-font metrics, recalled, compared with an installed metric-compatible font). Other scripts get safe widths: too wide is
 * only loose, too narrow would overlap.
 */
import { clean } from "./escape";

/** The fonts that the table holds for, and the generic one to fall back on. */
export const FONT_STACK = "Helvetica, Arial, 'Liberation Sans', Arimo, sans-serif";

/** From the blank (32) to the tilde (126). */
const REGULAR = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
  556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
  1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
  667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
  333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
  556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
const BOLD = [
  278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
  556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
  975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
  667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
  333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
  611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
];
const MARK = /^\p{M}$/u;
const WIDE = /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303F\uFF00-\uFF60]$/u;
const PICTURE = /^\p{Extended_Pictographic}$/u;
/** A substitute font may run wider than the one the table is of. */
const MARGIN = 1.04;

/** Signs beyond ASCII that words about a setup are likely to have, as they are in both weights (recalled, the wider of the two). */
const SIGNS: Readonly<Record<string, number>> = {
  "…": 1000, "—": 1000, "–": 556, "×": 584, "·": 333, "°": 400, "€": 556, "£": 556, "ß": 611, "ø": 611, "Ø": 778, "“": 500, "”": 500, "„": 500,
  "‘": 278, "’": 278, "«": 556, "»": 556, "±": 584, "≥": 584, "≤": 584, "−": 584, "½": 834, "µ": 611, "Ω": 800,
};

/** Advance width of one character in thousandths of the font size. */
export function advance(character: string, bold: boolean): number {
  const code = character.codePointAt(0) ?? 0;
  const table = bold ? BOLD : REGULAR;
  if (code >= 32 && code <= 126) return table[code - 32] ?? 600;
  if (MARK.test(character) || code === 0x200d || code === 0xfe0f) return 0;
  const sign = SIGNS[character];
  if (sign !== undefined) return sign;
  if (code < 0x250) {
    // An accented letter is as wide as the letter below its accent.
    const base = character.normalize("NFD").codePointAt(0) ?? 0;
    if (base !== code && base >= 32 && base <= 126) return table[base - 32] ?? 600;
    return "ÆŒŊ".includes(character) ? 1000 : 780;
  }
  if (WIDE.test(character)) return 1000;
  if (PICTURE.test(character)) return 1300;
  if (character === "\uFFFD") return 1100;
  return 800;
}

/** Width of a text in the unit of `size`: Σ advance · size / 1000, with a margin of 4 % for substitute fonts. */
export function widthOf(text: string, size: number, bold = false): number {
  let sum = 0;
  for (const character of clean(text)) sum += advance(character, bold);
  return (sum * size * MARGIN) / 1000;
}
