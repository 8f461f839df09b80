/** Names as a statement writes them. */
import { isPoint } from "../../../grammar/tree";
import { CONNECTORS } from "../../../grammar/vocabulary";
import type { NameValue } from "../bound";
import { afterAnd, spoken, takeWord, wordOf, type Reader } from "./reader";

/** Words that no name may be, since a statement could not be read otherwise. */
export const RESERVED: ReadonlySet<string> = new Set([...CONNECTORS, "no", "each", "about", "unknown", "within", "a", "an", "the"]);
/** Words that may stand before a name and mean nothing. */
export const ARTICLES: ReadonlySet<string> = new Set(["a", "an", "the"]);

/** Words that begin a quantity, never a name. */
const VALUE_WORDS: ReadonlySet<string> = new Set(["about", "unknown", "no", "each", "within"]);

/** Reads a name, or with `many` all that `and` joins. */
export function readNames(reader: Reader, many: boolean): NameValue[] {
  const out: NameValue[] = [];
  for (;;) {
    const each = takeWord(reader, "each");
    const item = reader.items[reader.at];
    const word = item === undefined ? undefined : wordOf(item);
    if (item === undefined || isPoint(item) || word === undefined || (RESERVED.has(word) && !isNamed(reader))) {
      if (out.length > 0) afterAnd(reader, "a name");
      return out;
    }
    reader.at += 1;
    out.push({ kind: "name", text: item.text.normalize("NFC"), each, ...spoken(item) });
    if (!many || !takeWord(reader, "and")) return out;
  }
}

/** Steps over `a`, `an` or `the` before a word. */
export function skipArticle(reader: Reader): void {
  const item = reader.items[reader.at];
  const word = item === undefined ? undefined : wordOf(item);
  if (word !== undefined && ARTICLES.has(word) && reader.at + 1 < reader.items.length) reader.at += 1;
}

/** `ports in 1 to 8 is xlr`: right after the head a reserved word before a number or `is` can only be a name. */
export function isNamed(reader: Reader): boolean {
  const after = reader.items[1];
  const first = reader.items[0];
  if (reader.at !== 0 || first === undefined || VALUE_WORDS.has(wordOf(first) ?? "")) return false;
  return after !== undefined && !isPoint(after) && (after.kind === "number" || wordOf(after) === "is");
}
