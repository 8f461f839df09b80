/** A small typed builder of HTML: elements are data until they are written, and every string goes through one escaping function. */
import { escape } from "../svg/escape";
import { shorten } from "../svg/wrap";

export interface Html {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number | undefined>>;
  readonly children: readonly Part[];
}
/** Written as it is, so it may only ever hold what this program drew. */
export interface Drawn {
  readonly drawn: string;
}
export type Part = Html | Drawn | string;

/** Elements that have no content and no end tag (HTML, void elements). */
const VOID: ReadonlySet<string> = new Set(["meta", "br"]);

/** An element; attributes that are undefined are left out. */
export function html(tag: string, attributes: Html["attributes"], ...children: readonly Part[]): Html {
  return { tag, attributes, children };
}

/** The element as text. Blanks between words are the caller's: inside a sentence a line break would be one. */
export function written(part: Part): string {
  // Cleaning trims, and blanks at the ends part a word from an element beside it.
  if (typeof part === "string") return part.replace(/^(\s?)([\s\S]*?)(\s?)$/u, (_all, before: string, inner: string, after: string) => `${before}${escape(inner)}${after}`);
  if ("drawn" in part) return part.drawn;
  const attributes = Object.entries(part.attributes).map(([name, value]) => (value === undefined ? "" : ` ${name}="${escape(String(value))}"`)).join("");
  const open = `<${part.tag}${attributes}>`;
  return VOID.has(part.tag) ? open : `${open}${part.children.map(written).join("")}</${part.tag}>`;
}

/** Lengths in widths of an average letter: what a reader takes in at a glance, and what one reads as a sentence. */
const NAME = 48;
const SENTENCE = 260;
const AVERAGE_LETTER = 0.5;

/** A name of the text: cut where nobody would read it whole, and kept from turning the reading direction of what is around it. */
export const name = (text: string, most = NAME): Html => html("bdi", {}, shorten(text, 1, most * AVERAGE_LETTER));

/** A sentence, cut where it would be a page. */
export const sentenceOf = (text: string, most = SENTENCE): Html => html("bdi", {}, shorten(text, 1, most * AVERAGE_LETTER));

/** Parts with a word between them: `a, b and c`. */
export function listed(parts: readonly Part[], between = ", ", last = " and "): Part[] {
  return parts.flatMap((part, i): Part[] => (i === 0 ? [part] : [i === parts.length - 1 ? last : between, part]));
}
