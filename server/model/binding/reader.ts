import { unquote } from "../../../grammar/lexer";
import { isPoint, type Item } from "../../../grammar/tree";

/** A position in the items of a statement, and what to do with what cannot be read. */
export interface Reader {
  readonly items: readonly Item[];
  at: number;
  /** The first that is said is the one that is told. `code`: of the problem, where it is more than a value that does not fit. */
  readonly fail: (message: string, start: number, end: number, code?: string) => void;
}

/** The item as a word in lower case, if it is one. */
export const wordOf = (item: Item): string | undefined => (!isPoint(item) && item.kind === "word" ? item.text.toLowerCase() : undefined);

/** Where the item stands in its text. */
export const spoken = (item: Item): { start: number; end: number } => ({ start: item.start, end: item.end });

/** What stands in quotation marks, if it is such an item. */
export const textOf = (item: Item | undefined): string | undefined =>
  item !== undefined && !isPoint(item) && (item.kind === "text" || item.kind === "open-text") ? unquote(item) : undefined;

/** Steps over the word if it comes next; answers whether it did. */
export function takeWord(reader: Reader, word: string): boolean {
  const item = reader.items[reader.at];
  if (item === undefined || wordOf(item) !== word) return false;
  reader.at += 1;
  return true;
}

/** An `and` after which nothing follows that could be meant. `wanted`: what belongs there, in words. */
export function afterAnd(reader: Reader, wanted: string): void {
  const and = reader.items[reader.at - 1];
  if (and !== undefined && wordOf(and) === "and") reader.fail(`After “and” belongs another of the kind: ${wanted}.`, and.start, and.end);
}
