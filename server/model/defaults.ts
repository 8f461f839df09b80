/** What the vocabulary gives where a text says nothing. */
import { VOCABULARY, type Default, type Owner } from "../../grammar/vocabulary";

/** The default that the vocabulary gives for a slot. */
export function defaultOf(head: string, owner: Owner, slot: string): Default {
  const found = VOCABULARY.find((row) => row.head === head && row.within.includes(owner))?.slots.find((s) => s.id === slot)?.default;
  if (found === undefined) throw new Error(`the vocabulary has no default for ${head} ${slot}`);
  return found;
}
