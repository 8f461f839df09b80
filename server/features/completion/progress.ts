/**
 * How far a statement has got: which slots its words have filled and what may follow. The binder's reading, made lenient: words that do
 * not fit are passed over, since the cursor stands in a text that is not finished.
 */
import { readQuantity } from "../../../grammar/quantity";
import { isPoint, type Item } from "../../../grammar/tree";
import type { Dimension } from "../../../grammar/units";
import { CONNECTORS, isRelation, type Row, type Slot } from "../../../grammar/vocabulary";
import { anchorAt, type PlaceNext } from "./place-progress";
import { wordOf } from "./position";

/** What the words so far lead to. Where one thing must follow, the others are empty. */
export interface Progress {
  /** Slots whose value may stand here directly. */
  readonly values: readonly Slot[];
  /** Slots that are still open, to be led up to by their connector; the one that must be is first. */
  readonly led: readonly Slot[];
  /** The slot that may take one more after `and`. */
  readonly more: Slot | undefined;
  /** A bare number stands before: its unit may follow. Without a slot it is how far something stands from something. */
  readonly unitOf: { readonly dimension: Dimension; readonly slot: Slot | undefined } | undefined;
  /** `about` stands before, and a figure must follow. */
  readonly afterAbout: boolean;
  readonly place: PlaceNext | undefined;
  /** What must follow a tail's word. */
  readonly tail: "items" | "reason" | undefined;
  /** `during talk` stands before: another item may follow. */
  readonly moreItems: boolean;
  /** `measured` stands before: a date may follow. */
  readonly date: boolean;
  /** Tails that may follow. */
  readonly tails: readonly Tail[];
  /** No word stands behind the head yet, and the statement may be negated. */
  readonly no: boolean;
}

export type Tail = "during" | "because" | "measured" | "guessed";

const ARTICLES: ReadonlySet<string> = new Set(["a", "an", "the"]);
const TAILS: readonly Tail[] = ["during", "measured", "guessed", "because"];
const isTail = (word: string): word is Tail => (TAILS as readonly string[]).includes(word);

export function progress(row: Row, items: readonly Item[]): Progress {
  const walk = new Walk(row, items);
  walk.toEnd();
  return walk.result();
}

class Walk {
  readonly #open: Set<Slot>;
  readonly #placeSlot: Slot | undefined;
  readonly #said = new Set<Tail>();
  #at = 0;
  /** The slot whose value must stand next. */
  #wanted: Slot | undefined;
  #more: Slot | undefined;
  #unitOf: Progress["unitOf"];
  #about = false;
  #place: PlaceNext | undefined;
  #tail: Progress["tail"];
  #moreItems = false;
  #date = false;
  /** The last quantity's slot, for `8 m to 10 m`, and whether there was any. */
  #last: Slot | undefined;
  #measurable = false;

  constructor(readonly row: Row, readonly items: readonly Item[]) {
    this.#open = new Set(row.slots);
    this.#placeSlot = row.slots.find((slot) => slot.takes.kind === "place");
    if (row.negatable === true && wordOf(items[0]) === "no") this.#at = 1;
  }

  toEnd(): void {
    while (this.#at < this.items.length) this.#step();
  }

  /** Whatever the words before led to has come. */
  #clear(): void {
    this.#wanted = undefined;
    this.#more = undefined;
    this.#unitOf = undefined;
    this.#about = false;
    this.#place = undefined;
    this.#tail = undefined;
    this.#moreItems = false;
    this.#date = false;
    this.#last = undefined;
  }

  #step(): void {
    const item = this.items[this.#at];
    const word = wordOf(item);
    if (item === undefined || (word !== undefined && ARTICLES.has(word))) {
      this.#at += 1;
      return;
    }
    if (word !== undefined && isTail(word)) this.#takeTail(word);
    else if (this.#tail === "items" && word !== undefined) {
      this.#clear();
      this.#moreItems = true;
      this.#at += 1;
    } else if (word === "and" && this.#moreItems) {
      this.#clear();
      this.#tail = "items";
      this.#at += 1;
    } else if (word === "and" && this.#more !== undefined) this.#lead(this.#more);
    else if ((word === "to" || word === "within") && this.#last !== undefined && this.#connected(word) === undefined) this.#lead(this.#last);
    else if (!this.#takePlace(item, word)) this.#takeValue(item, word);
  }

  #takeTail(word: Tail): void {
    this.#clear();
    this.#said.add(word);
    this.#at += 1;
    if (word === "during") this.#tail = "items";
    if (word === "because") this.#tail = "reason";
    this.#date = word === "measured";
  }

  /** A value of the slot must follow the word. */
  #lead(slot: Slot): void {
    this.#clear();
    this.#wanted = slot;
    this.#at += 1;
  }

  #connected(word: string | undefined): Slot | undefined {
    return word === undefined || this.#wanted !== undefined ? undefined : [...this.#open].find((slot) => slot.after === word);
  }

  /** Where it stands: a relation and its place, or how far from it. */
  #takePlace(item: Item, word: string | undefined): boolean {
    const slot = this.#placeSlot;
    if (slot === undefined || this.#wanted !== undefined || this.#connected(word) !== undefined) return false;
    const bare = this.row.head === "aim" && this.#place === undefined && this.#open.has(slot);
    if ((word !== undefined && isRelation(word)) || isPoint(item) || (bare && word !== undefined)) {
      const relation = word !== undefined && isRelation(word) ? word : undefined;
      this.#clear();
      this.#open.delete(slot);
      const { next, place } = anchorAt(this.items, relation === undefined ? this.#at : this.#at + 1, relation);
      this.#place = place;
      this.#at = next;
      return true;
    }
    if (this.#direct().some((one) => one !== slot && mayBegin(one, item))) return false;
    const read = readQuantity(this.items, this.#at, "length");
    if (read === undefined) return false;
    this.#clear();
    this.#open.delete(slot);
    this.#at = Math.max(read.next, this.#at + 1);
    this.#place = { kind: "relation", must: true };
    if (this.#endsInNumber()) this.#unitOf = { dimension: "length", slot: undefined };
    return true;
  }

  #takeValue(item: Item, word: string | undefined): void {
    const led = this.#connected(word);
    if (led !== undefined) {
      this.#lead(led);
      return;
    }
    const slot = this.#wanted ?? this.#direct().find((one) => mayBegin(one, item));
    this.#clear();
    if (slot === undefined) {
      this.#at += 1;
      return;
    }
    this.#open.delete(slot);
    if (slot.many === true) this.#more = slot;
    if (slot.takes.kind === "quantity" || slot.takes.kind === "any-quantity") {
      this.#takeQuantity(slot, slot.takes.kind === "quantity" ? slot.takes.dimension : undefined);
      return;
    }
    this.#at += 1;
    if (word === "each") {
      this.#at += 1;
      if (this.#at > this.items.length) {
        this.#more = undefined;
        this.#wanted = slot;
      }
    }
  }

  #takeQuantity(slot: Slot, dimension: Dimension | undefined): void {
    const read = readQuantity(this.items, this.#at, dimension ?? "ratio", !this.row.slots.some((other) => other.after === "to"));
    this.#at = Math.max(read?.next ?? this.#at + 1, this.#at + 1);
    this.#last = slot;
    this.#measurable = true;
    const before = this.#at >= this.items.length ? wordOf(this.items.at(-1)) : undefined;
    if (before === "about" || before === "within" || before === "to") {
      this.#wanted = slot;
      this.#about = true;
    } else if (dimension !== undefined && this.#endsInNumber()) this.#unitOf = { dimension, slot };
  }

  #endsInNumber(): boolean {
    const last = this.items.at(-1);
    return this.#at >= this.items.length && last !== undefined && !isPoint(last) && last.kind === "number";
  }

  /** Slots that stand directly, in their order. */
  #direct(): Slot[] {
    return [...this.#open].filter((slot) => slot.after === undefined);
  }

  result(): Progress {
    const wantsUnit = this.#unitOf !== undefined && this.#unitOf.dimension !== "count" && this.#unitOf.dimension !== "ratio";
    const placeMust = this.#place?.kind === "relation" ? this.#place.must === true : this.#place?.kind !== undefined && this.#place.kind !== "sides";
    const must = this.#wanted !== undefined || this.#tail !== undefined || placeMust;
    const direct = this.#direct();
    const required = direct.find((slot) => slot.required === true);
    const next = required === undefined ? direct.slice(0, 2) : direct.slice(0, direct.indexOf(required) + 1);
    const free = !must && !wantsUnit;
    const said = this.#said.size > 0;
    const bareValues = this.#wanted !== undefined ? [this.#wanted] : free && !said && this.#place === undefined ? next.filter((slot) => slot.takes.kind !== "place") : [];
    const mayPlace = this.#place ?? (free && !said && this.#placeSlot !== undefined && next.includes(this.#placeSlot) && next.every((slot) => slot === this.#placeSlot || slot.required !== true)
      ? this.row.head === "aim" ? { kind: "anchor" as const, relation: undefined } : { kind: "relation" as const } : undefined);
    const open = free && required === undefined;
    return {
      values: bareValues, unitOf: this.#unitOf, afterAbout: this.#about && this.#wanted !== undefined, place: wantsUnit ? undefined : mayPlace,
      led: open ? this.#ledNext() : [], more: open ? this.#more : undefined,
      tail: this.#tail, moreItems: this.#moreItems, date: this.#date,
      tails: open && this.items.length > 0 && ![...this.#open].some((slot) => slot.required === true) ? TAILS.filter((tail) => this.#mayTail(tail)) : [],
      no: this.row.negatable === true && this.items.length === 0,
    };
  }

  /** Slots with a connector, those first that must be; `by` waits for what it stands behind. */
  #ledNext(): Slot[] {
    const all = [...this.#open].filter((slot, _, open) => slot.after !== undefined
      && !open.some((other) => other.after === undefined && other.takes.kind === "quantity" && this.row.slots.indexOf(other) < this.row.slots.indexOf(slot)));
    return [...all.filter((slot) => slot.required === true), ...all.filter((slot) => slot.required !== true)];
  }

  #mayTail(tail: Tail): boolean {
    if (this.#said.has(tail)) return false;
    switch (tail) {
      case "during": return this.row.during !== undefined;
      case "measured": case "guessed": return this.row.nature === "fact" && this.#measurable && !this.#said.has("measured") && !this.#said.has("guessed");
      case "because": return true;
    }
  }
}

/** Whether an item could begin a value of the slot. */
function mayBegin(slot: Slot, item: Item): boolean {
  if (isPoint(item)) return slot.takes.kind === "place" || slot.takes.kind === "point";
  const word = wordOf(item);
  switch (slot.takes.kind) {
    case "quantity": case "any-quantity": return item.kind === "number" || item.kind === "decimal-comma" || word === "about" || word === "unknown";
    case "text": return item.kind === "text" || item.kind === "open-text";
    case "who": return item.kind === "text" || item.kind === "open-text" || word !== undefined;
    case "date": return item.kind === "date";
    case "clock": case "ratio": return item.kind === "clock";
    case "mode": return item.kind === "mode" || item.kind === "size";
    case "place": case "point": return false;
    case "new-name": case "name": case "word": case "zone": case "code": return word !== undefined && !CONNECTORS.has(word);
  }
}
