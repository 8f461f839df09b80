import { isPoint, type Item } from "../../grammar/tree";

/** A position in the items of a statement, and what to do with what cannot be read. */
export interface Reader {
  readonly items: readonly Item[];
  at: number;
  readonly fail: (message: string, start: number, end: number) => void;
}

/** The item as a word in lower case, if it is one. */
export const wordOf = (item: Item): string | undefined => (!isPoint(item) && item.kind === "word" ? item.text.toLowerCase() : undefined);

export const spoken = (item: Item): { start: number; end: number } => ({ start: item.start, end: item.end });
