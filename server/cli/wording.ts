/** Text on a page of a given width: what a file says made harmless, measured in columns, and wrapped. */

// Controls could move the cursor or change colours, marks of direction could make a line read otherwise than it is.
const HARMFUL = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/gu;

/** `text` on one line, with nothing in it that a terminal would obey. */
export const plain = (text: string): string =>
  text.replace(/\r?\n|\t/gu, " ").replace(HARMFUL, "\u00b7").replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\u00b7");

const NARROW = /^[\u0020-\u02ff]*$/;
const NOTHING_WIDE = /[\p{Mn}\p{Me}\p{Cf}]/u;
const WIDE = /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;

/** Columns that `text` takes on a terminal: combining marks none, ideographs and pictures two, all else one. */
export const columns = (text: string): number => {
  if (NARROW.test(text)) return text.length;
  let sum = 0;
  for (const sign of text) sum += NOTHING_WIDE.test(sign) ? 0 : WIDE.test(sign) ? 2 : 1;
  return sum;
};

/** `text` with blanks behind it up to `width` columns. */
export const padded = (text: string, width: number): string => text + " ".repeat(Math.max(0, width - columns(text)));

/** The first part of `text` that fits into `width` columns, with … where some was left out. */
export const shortened = (text: string, width: number): string => {
  if (text.length <= width && columns(text) <= width) return text;
  let kept = "";
  let used = 0;
  for (const sign of text) {
    const wide = columns(sign);
    if (used + wide > width - 1) break;
    kept += sign;
    used += wide;
  }
  return `${kept}…`;
};

/** Lines of at most `width` columns (the first one less by `taken`), broken at blanks; a word that is too long is broken within. */
export const lines = (text: string, width: number, taken = 0): string[] => {
  const room = Math.max(12, width);
  const done: string[] = [];
  let line = "";
  let used = taken;
  const next = (): void => {
    done.push(line);
    line = "";
    used = 0;
  };
  for (let word of plain(text).split(" ")) {
    if (word === "") continue;
    while (columns(word) > room) {
      if (used > 0) next();
      // Cut by characters, not by columns: exact enough for something that is never read as a word.
      const signs = Array.from(word);
      line = signs.slice(0, Math.floor(room / 2)).join("");
      next();
      word = signs.slice(Math.floor(room / 2)).join("");
    }
    const blank = line === "" ? 0 : 1;
    if (used > 0 && used + blank + columns(word) > room) next();
    line = line === "" ? word : `${line} ${word}`;
    used += (used > 0 && blank === 1 ? 1 : 0) + columns(word);
  }
  if (line !== "" || done.length === 0) done.push(line);
  return done;
};

/** `text` wrapped to a page: `first` stands before its first line, `indent` blanks before the others (as many as `first` has). */
export const hung = (first: string, text: string, width: number, indent = columns(first)): string =>
  lines(text, width - indent, columns(first) - indent).map((line, i) => ((i === 0 ? first : " ".repeat(indent)) + line).trimEnd()).join("\n");

/** `1 error`, `3 errors`. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** `a, b and c`. */
export const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1] ?? ""}`;

/** A number as one reads it: three figures that count, no exponent between a thousandth and a billion. */
export const number = (value: number): string => {
  if (!Number.isFinite(value)) return Number.isNaN(value) ? "not a number" : value > 0 ? "without end" : "minus without end";
  const size = Math.abs(value);
  if (size !== 0 && (size < 0.001 || size >= 1e9)) return value.toExponential(2);
  if (size >= 100) return String(Math.round(value * 10) / 10);
  return String(Number(value.toPrecision(3)));
};
