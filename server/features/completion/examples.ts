/** How a value of a slot is written, shown by the example that the vocabulary has for its statement: a hand clap takes a second, not an hour. */
import { parse } from "../../../grammar/parse";
import { DIMENSIONS } from "../../../grammar/units";
import { TOP_HEADS, type Row, type Slot } from "../../../grammar/vocabulary";
import { bind } from "../../model/bind";
import { everywhere } from "../../model/reading";

const KNOWN = new WeakMap<Row, ReadonlyMap<string, string>>();

/** A value for the slot as an author would write it; nothing where neither the example nor the dimension shows one. */
export function exampleOf(row: Row, slot: Slot): string | undefined {
  let shown = KNOWN.get(row);
  if (shown === undefined) {
    shown = valuesIn(row);
    KNOWN.set(row, shown);
  }
  return shown.get(slot.id) ?? (slot.takes.kind === "quantity" ? DIMENSIONS[slot.takes.dimension].example : undefined);
}

function valuesIn({ head, example, slots }: Row): ReadonlyMap<string, string> {
  const statements = everywhere(bind(parse(example, { topHeads: TOP_HEADS }), "example").statements).filter((statement) => statement.row.head === head && statement.row.slots[0]?.id === slots[0]?.id);
  const out = new Map<string, string>();
  for (const statement of statements) {
    for (const [slot, [value]] of statement.values) if (value !== undefined && !out.has(slot)) out.set(slot, example.slice(value.start, value.end));
  }
  return out;
}
