/**
 * How far a statement has got: which slots its words have filled and what may follow. The binder's reading, made lenient: words that do
 * not fit are passed over, since the cursor stands in a text that is not finished.
 */
import { readQuantity } from "../../grammar/quantity";
import { isPoint, type Item } from "../../grammar/tree";
import type { Dimension } from "../../grammar/units";
import { CONNECTORS, isRelation, SIDES, type Row, type Slot } from "../../grammar/vocabulary";
import { wordOf } from "./position";

export interface Progress {
  /** Slots whose value may stand here directly. */
  readonly values: readonly Slot[];
  /** Slots that are still open, to be led up to by their connector. */
  readonly led: readonly Slot[];
  /** The slot that may take one more after `and`. */
  readonly more: Slot | undefined;
  /** A bare number stands before: units of this dimension may follow. */
  readonly unitOf: Dimension | undefined;
  /** A place is being written: a relation may follow, or what it relates to. */
  readonly place: "relation" | "anchor" | undefined;
  /** `during` stands before, with or without names behind it. */
  readonly during: boolean;
  /** A statement's words may end here, so that a tail may follow. */
  readonly tail: boolean;
  /** No word stands behind the head yet, and the statement may be negated. */
  readonly no: boolean;
}

const ARTICLES: ReadonlySet<string> = new Set(["a", "an", "the"]);

export function progress(row: Row, items: readonly Item[]): Progress {
  const open = new Set(row.slots);
  const placeSlot = row.slots.find((slot) => slot.takes.kind === "place");
  let at = 0;
  let wanted: Slot | undefined;
  let more: Slot | undefined;
  let unitOf: Dimension | undefined;
  let place: Progress["place"];
  let during = false;
  let finished = true;
  const clear = (): void => {
    wanted = undefined;
    more = undefined;
    unitOf = undefined;
    place = undefined;
    during = false;
    finished = true;
  };
  const take = (slot: Slot): void => {
    open.delete(slot);
    if (slot.many === true) more = slot;
  };
  while (at < items.length) {
    const item = items[at];
    const word = wordOf(item);
    if (item === undefined) break;
    if (word !== undefined && ARTICLES.has(word)) {
      at += 1;
      continue;
    }
    if (word === "during" || word === "because" || word === "measured" || word === "guessed") {
      clear();
      during = word === "during";
      finished = word === "guessed" || word === "measured";
      at += 1;
      continue;
    }
    if (during) {
      at += 1;
      finished = true;
      continue;
    }
    if (word === "and" && more !== undefined) {
      wanted = more;
      finished = false;
      at += 1;
      continue;
    }
    // A relation, and the spot or person behind it.
    if (word !== undefined && isRelation(word) && placeSlot !== undefined && ![...open].some((slot) => slot.after === word) && wanted === undefined) {
      clear();
      open.delete(placeSlot);
      place = "anchor";
      finished = false;
      at += 1;
      continue;
    }
    if (place === "anchor") {
      at = overAnchor(items, at);
      place = "relation";
      finished = true;
      continue;
    }
    const led = word === undefined || wanted !== undefined ? undefined : [...open].find((slot) => slot.after === word);
    if (led !== undefined) {
      clear();
      wanted = led;
      finished = false;
      at += 1;
      continue;
    }
    const slot: Slot | undefined = wanted ?? [...open].find((one) => one.after === undefined && mayBegin(one, item));
    const before = slot;
    clear();
    if (before === undefined) {
      at += 1;
      continue;
    }
    if (before.takes.kind === "quantity" || before.takes.kind === "any-quantity") {
      const dimension = before.takes.kind === "quantity" ? before.takes.dimension : undefined;
      const read = readQuantity(items, at, dimension ?? "ratio", !row.slots.some((other) => other.after === "to"));
      const next = Math.max(read?.next ?? at + 1, at + 1);
      const last = items[next - 1];
      if (next >= items.length && last !== undefined && !isPoint(last) && last.kind === "number") {
        unitOf = dimension;
        // `about` or `within` alone is still waiting for its figure.
      } else if (wordOf(last) === "about" || wordOf(last) === "within") finished = false;
      take(before);
      at = next;
      continue;
    }
    if (before.takes.kind === "place") {
      open.delete(before);
      at = overAnchor(items, at);
      place = "relation";
      continue;
    }
    take(before);
    at += word === "each" ? 2 : 1;
    if (word === "each" && at > items.length) {
      wanted = before;
      finished = false;
    }
  }
  const mustFollow = wanted !== undefined || place === "anchor" || (during && wordOf(items.at(-1)) === "during");
  const direct = wanted !== undefined ? [wanted] : mustFollow ? [] : [...open].filter((slot) => slot.after === undefined && slot.takes.kind !== "place").slice(0, 2);
  const placeNext = place ?? (!mustFollow && placeSlot?.after === undefined && placeSlot !== undefined && open.has(placeSlot) ? "relation" : undefined);
  return {
    values: direct, led: mustFollow ? [] : [...open].filter((slot) => slot.after !== undefined), more: mustFollow ? undefined : more,
    unitOf, place: wanted?.takes.kind === "place" ? "anchor" : placeNext, during: during && mustFollow,
    tail: finished && !mustFollow, no: row.negatable === true && items.length === 0,
  };
}

/** Whether an item could begin a value of the slot. */
function mayBegin(slot: Slot, item: Item): boolean {
  if (isPoint(item)) return slot.takes.kind === "place";
  const word = wordOf(item);
  switch (slot.takes.kind) {
    case "quantity": case "any-quantity": return item.kind === "number" || item.kind === "decimal-comma" || word === "about" || word === "unknown";
    case "text": return item.kind === "text" || item.kind === "open-text";
    case "who": return item.kind === "text" || item.kind === "open-text" || word !== undefined;
    case "date": return item.kind === "date";
    case "clock": case "ratio": return item.kind === "clock";
    case "mode": return item.kind === "mode" || item.kind === "size";
    case "place": return true;
    case "new-name": case "name": case "word": case "zone": case "code": return word !== undefined && !CONNECTORS.has(word);
  }
}

/** Past what a place relates to: a point, sides, `row 3 of audience`, `lectern and front`, a name. */
function overAnchor(items: readonly Item[], from: number): number {
  const item = items[from];
  if (item === undefined) return from + 1;
  if (isPoint(item)) return from + 1;
  const word = wordOf(item);
  let at = from + 1;
  if (word === "row") {
    const number = items[at];
    if (number !== undefined && !isPoint(number) && number.kind === "number") at += 1;
    if (wordOf(items[at]) === "of") at += 2;
    return at;
  }
  while (SIDES.has(word ?? "") && SIDES.has(wordOf(items[at]) ?? "")) at += 1;
  if (wordOf(items[from - 1]) === "between" && wordOf(items[at]) === "and") at += 2;
  return at;
}
