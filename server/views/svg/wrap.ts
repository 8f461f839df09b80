/** Texts that must fit: broken into lines, and shortened with an ellipsis where that is not enough. */
import { clean } from "./escape";
import { widthOf } from "./glyphs";

export interface Lines {
  readonly lines: readonly string[];
  /** Set where not all of the text is shown; the whole text then belongs into a `<title>`. */
  readonly shortened: boolean;
  /** Width of the widest line. */
  readonly width: number;
}

const ELLIPSIS = "…";
/** No line shows more than this; longer texts are cut before they are measured. */
const MOST_CHARACTERS = 400;
const graphemes = new Intl.Segmenter("en", { granularity: "grapheme" });

/** The longest beginning of a text that fits with an ellipsis after it. */
export function shorten(text: string, size: number, width: number, bold = false): string {
  const whole = clean(text);
  if (whole.length <= MOST_CHARACTERS && widthOf(whole, size, bold) <= width) return whole;
  let kept = "";
  for (const { segment } of graphemes.segment(whole.slice(0, MOST_CHARACTERS))) {
    if (widthOf(kept + segment + ELLIPSIS, size, bold) > width) break;
    kept += segment;
  }
  return kept.trimEnd() + ELLIPSIS;
}

/** Words, and pieces of words that may be parted after a hyphen, a slash or an underscore. */
function pieces(text: string): string[] {
  return text.split(/(?<=[\s])|(?<=[-/_])(?=[^\s\d])/u).filter((piece) => piece !== "");
}

/** Breaks a text into at most `most` lines of at most `width`, at blanks and hyphens; the last line is shortened where it must be. */
export function wrap(text: string, size: number, width: number, most: number, bold = false): Lines {
  const whole = clean(text);
  if (whole === "") return { lines: [], shortened: false, width: 0 };
  const cut = whole.slice(0, MOST_CHARACTERS);
  const lines: string[] = [];
  let line = "";
  let shortened = cut.length < whole.length;
  const list = pieces(cut);
  for (const [index, piece] of list.entries()) {
    if (widthOf(line + piece, size, bold) <= width) {
      line += piece;
      continue;
    }
    if (lines.length === most - 1) {
      line = shorten(line + list.slice(index).join("") + (shortened ? ELLIPSIS : ""), size, width, bold);
      shortened = true;
      break;
    }
    if (line.trim() !== "") lines.push(line.trim());
    line = piece;
    if (widthOf(line, size, bold) > width) {
      line = shorten(line, size, width, bold);
      shortened = true;
    }
  }
  if (line.trim() !== "") lines.push(line.trim());
  return { lines, shortened, width: lines.reduce((widest, each) => Math.max(widest, widthOf(each, size, bold)), 0) };
}

/** Breaks a text so that its lines are about equally long: for words that stand alone in an opening. */
export function balance(text: string, size: number, width: number, most: number, bold = false): Lines {
  const loose = wrap(text, size, width, most, bold);
  if (loose.lines.length < 2 || loose.shortened) return loose;
  let narrow = loose;
  for (let trial = width; trial > 20; trial -= 4) {
    const next = wrap(text, size, trial, loose.lines.length, bold);
    if (next.shortened || next.lines.length > loose.lines.length) break;
    narrow = next;
  }
  return narrow;
}
