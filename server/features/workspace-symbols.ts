/** Names that any file of a folder gives, for going to one by typing a part of it. */
import { parse } from "../../grammar/parse";
import { isPoint, type Fact } from "../../grammar/tree";
import { rowFor, TOP_HEADS, type NameKind, type Owner } from "../../grammar/vocabulary";
import { canonical } from "../model/names";
import type { Span } from "./asked";

export interface NamedSymbol extends Span {
  readonly name: string;
  readonly kind: NameKind;
  /** The statement that gives the name, and the one in whose block it stands. */
  readonly head: string;
  readonly within: string | undefined;
}

/** Every name that a text gives, read from its shape alone: quick, and for files that are in no setup, too. */
export function namesGiven(text: string): readonly NamedSymbol[] {
  const out: NamedSymbol[] = [];
  const visit = (facts: readonly Fact[], owner: Owner, within: string | undefined): void => {
    for (const fact of facts) {
      const row = rowFor(owner, fact.head.text);
      if (row === undefined) continue;
      const slot = row.slots.find((one) => one.takes.kind === "new-name" || (row.head === "place" && one.id === "device"));
      const [item] = fact.items;
      const named = slot !== undefined && slot.after === undefined && item !== undefined && !isPoint(item) && item.kind === "word" ? item : undefined;
      const kind = slot?.takes.kind === "new-name" ? slot.takes.of : "device";
      const makes = row.head !== "place" || fact.items.some((one) => !isPoint(one) && one.text.toLowerCase() === "is");
      if (named !== undefined && makes) out.push({ name: named.text, kind, head: row.head, within, start: named.start, end: named.end });
      if (row.body !== undefined && fact.block !== undefined) visit(fact.block.facts, row.body, named?.text ?? within);
    }
  };
  visit(parse(text, { topHeads: TOP_HEADS }).root.facts, "file", undefined);
  return out;
}

/** Whether the letters that were typed stand in a name in their order. */
export function matches(name: string, typed: string): boolean {
  const [letters, wanted] = [canonical(name), canonical(typed)];
  let at = 0;
  for (const letter of wanted) {
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
