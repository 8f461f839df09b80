import type { Quantity } from "../../grammar/quantity";
import { VOCABULARY, type Default } from "../../grammar/vocabulary";
import { valueOf, type Bound, type PlaceValue } from "./bound";
import { assumed, fromText } from "./make-ranged";
import { canonical } from "./names";
import type { Ranged } from "./ranged";
import type { Where } from "./where";

export interface Surface {
  readonly name: string;
  readonly place: PlaceValue | undefined;
  readonly width: Ranged;
  readonly where: Where;
}

export interface Table {
  readonly name: string;
  readonly place: PlaceValue | undefined;
  readonly length: Ranged;
  readonly width: Ranged;
  readonly where: Where;
}

export interface Outlet {
  readonly name: string;
  readonly place: PlaceValue | undefined;
  readonly sockets: Ranged | undefined;
  readonly where: Where;
}

export interface Seats {
  readonly name: string;
  readonly count: number;
  readonly rows: number;
  readonly place: PlaceValue | undefined;
  /** From the front wall to row 1; where nothing is said it follows from the room. */
  readonly first: Ranged | undefined;
  readonly pitch: Ranged;
  readonly spacing: Ranged;
  readonly where: Where;
}

export interface Finish {
  /** A key of the table of finishes. */
  readonly finish: string;
  readonly assumed: boolean;
}

export interface Room {
  readonly name: string;
  /** Absent where no text states a room: everything about it is assumed. */
  readonly where: Where | undefined;
  readonly length: Ranged;
  readonly width: Ranged;
  readonly height: Ranged;
  readonly noise: Ranged;
  /** Stated, or told by a clap; else it follows from the surfaces. */
  readonly reverberation: Ranged | undefined;
  /** No walls, no ceiling. */
  readonly outdoors: boolean;
  /** Force on the scale of Beaufort, where stated. */
  readonly wind: Ranged | undefined;
  readonly floor: Finish;
  readonly walls: Finish;
  readonly ceiling: Finish;
  readonly curtains: { readonly weight: string; readonly area: Ranged } | undefined;
  readonly windows: { readonly glass: string; readonly area: Ranged } | undefined;
  readonly seats: readonly Seats[];
  readonly tables: ReadonlyMap<string, Table>;
  readonly surfaces: ReadonlyMap<string, Surface>;
  readonly outlets: ReadonlyMap<string, Outlet>;
  readonly spots: ReadonlyMap<string, { readonly place: PlaceValue | undefined; readonly where: Where }>;
}

/** The default that the vocabulary gives for a slot. */
export function defaultOf(head: string, owner: Bound["owner"], slot: string): Default {
  const found = VOCABULARY.find((row) => row.head === head && row.within.includes(owner))?.slots.find((s) => s.id === slot)?.default;
  if (found === undefined) throw new Error(`the vocabulary has no default for ${head} ${slot}`);
  return found;
}

const LISTS: ReadonlySet<string> = new Set(["chairs", "spot", "table", "screen", "outlet"]);

/**
 * Which of the things in a room a statement is about, where it is about one of several: `chairs audience`. What is stated of the same
 * thing for this evening takes the place of what the room says.
 */
export const thingOf = (fact: Bound): string | undefined =>
  LISTS.has(fact.row.head) ? `${fact.row.head} ${canonical(valueOf(fact, "name", "name")?.text ?? "audience")}` : undefined;

/** How far from the reverberation time the length of a clap may lie, as factors. Common practice, no source. */
const NO_CLAP: readonly [number, number] = [0.75, 1.3];

/**
 * The room of a setup.
 *
 * `stated`: the `room` statement; `evening`: the `in` statements for it; `loose`: what a setup states of it at the top of a file.
 */
export function makeRoom(stated: Bound | undefined, evening: readonly Bound[], loose: readonly Bound[]): Room {
  const name = (stated && valueOf(stated, "name", "name")?.text) ?? "room";
  // Later statements of one head win: this evening over the survey.
  const facts = new Map<string, Bound>();
  const things = new Map<string, Bound>();
  for (const fact of [...(stated?.children ?? []), ...evening.flatMap((e) => e.children), ...loose]) {
    const thing = thingOf(fact);
    if (thing !== undefined) things.set(thing, fact);
    else facts.set(fact.row.head, fact);
  }
  const listed = [...things.values()];
  const side = (slot: "length" | "width" | "height"): Ranged => {
    const value = stated && valueOf(stated, slot, "quantity");
    const label = `the ${slot} of ${name}`;
    return known(value) && stated ? fromText(value, stated, `room.${slot}`, label, false) : assumed(`room.${slot}`, label, "length", defaultOf("room", "file", slot));
  };
  const one = (head: string, slot: string, label: string): Ranged | undefined => {
    const fact = facts.get(head);
    const value = fact && valueOf(fact, slot, "quantity");
    return fact !== undefined && known(value) ? fromText(value, fact, `room.${head}`, label, false) : undefined;
  };
  const clap = one("clap", "time", `the reverberation of ${name}, told by a clap`);
  const finish = (head: "floor" | "walls" | "ceiling", otherwise: string): Finish => {
    const fact = facts.get(head);
    const word = fact && valueOf(fact, "finish", "word")?.word;
    return { finish: word ?? otherwise, assumed: word === undefined };
  };
  const area = (head: "curtains" | "windows"): Ranged | undefined => one(head, "area", `the area of the ${head} in ${name}`);
  const curtainArea = area("curtains");
  const windowArea = area("windows");
  const word = (head: string, slot: string): string => {
    const fact = facts.get(head);
    return (fact && valueOf(fact, slot, "word")?.word) ?? "";
  };
  const length = side("length");
  const byHead = (head: string): Bound[] => listed.filter((fact) => fact.row.head === head);
  return {
    name, where: stated?.where, length, width: side("width"), height: side("height"),
    noise: one("noise", "level", `the noise in ${name}`) ?? assumed("room.noise", `the noise in ${name}`, "level", defaultOf("noise", "room", "level")),
    reverberation: one("reverberation", "time", `the reverberation of ${name}`)
      ?? (clap && { ...clap, low: clap.low * NO_CLAP[0], high: clap.high * NO_CLAP[1], from: { ...clap.from, how: "guessed" } }),
    outdoors: facts.has("outdoors"), wind: one("wind", "number", `the wind at ${name}`),
    floor: finish("floor", "wood"), walls: finish("walls", "plaster"), ceiling: finish("ceiling", "plasterboard"),
    curtains: curtainArea && { weight: word("curtains", "weight"), area: curtainArea },
    windows: windowArea && { glass: word("windows", "glass"), area: windowArea },
    seats: byHead("chairs").map((fact) => makeSeats(fact)),
    tables: keyed(byHead("table"), (fact, called) => ({
      name: called, place: valueOf(fact, "place", "place"), where: fact.where,
      length: sizeOf(fact, "length", called), width: sizeOf(fact, "width", called),
    })),
    surfaces: keyed(byHead("screen"), (fact, called) => ({
      name: called, place: valueOf(fact, "place", "place"), where: fact.where,
      width: child(fact, "width", "length", `surface.${called}.width`, `the width of ${called}`)
        ?? assumed(`surface.${called}.width`, `the width of ${called}`, "length", { best: 2, low: 1.5, high: 2.6, source: "common practice, no source" }),
    })),
    outlets: keyed(byHead("outlet"), (fact, called) => ({
      name: called, place: valueOf(fact, "place", "place"), where: fact.where,
      sockets: child(fact, "sockets", "count", `outlet.${called}.sockets`, `the sockets of ${called}`),
    })),
    spots: keyed(byHead("spot"), (fact) => ({ place: valueOf(fact, "place", "place"), where: fact.where })),
  };
}

function makeSeats(fact: Bound): Seats {
  const name = valueOf(fact, "name", "name")?.text ?? "audience";
  const count = Math.max(1, Math.round(valueOf(fact, "count", "quantity")?.best ?? 1));
  const rows = valueOf(fact, "rows", "quantity")?.best;
  const default_ = (slot: "pitch" | "spacing"): Ranged =>
    child(fact, slot, "distance", `seats.${name}.${slot}`, `the ${slot} of the chairs in ${name}`)
    ?? assumed(`seats.${name}.${slot}`, `the ${slot} of the chairs in ${name}`, "length", defaultOf(slot, "seats", "distance"));
  return {
    name, count, rows: Math.min(count, Math.max(1, Number.isFinite(rows) && rows !== undefined ? Math.round(rows) : Math.ceil(count / 8))),
    place: valueOf(fact, "place", "place"),
    first: child(fact, "first", "distance", `seats.${name}.first`, `how far the first row of ${name} is from the front`),
    pitch: default_("pitch"), spacing: default_("spacing"), where: fact.where,
  };
}

function child(fact: Bound, head: string, slot: string, id: string, label: string): Ranged | undefined {
  const inner = fact.children.find((c) => c.row.head === head);
  const value = inner && valueOf(inner, slot, "quantity");
  return inner !== undefined && known(value) ? fromText(value, inner, id, label, false) : undefined;
}

function sizeOf(fact: Bound, slot: "length" | "width", name: string): Ranged {
  const label = `the ${slot} of ${name}`;
  return child(fact, "size", slot, `table.${name}.${slot}`, label)
    ?? assumed(`table.${name}.${slot}`, label, "length", defaultOf("size", "surface", slot));
}

const known = (value: Quantity | undefined): value is Quantity => value !== undefined && value.said !== "unknown";

function keyed<T>(facts: readonly Bound[], make: (fact: Bound, name: string) => T): Map<string, T> {
  const out = new Map<string, T>();
  for (const fact of facts) {
    const name = valueOf(fact, "name", "name")?.text;
    if (name !== undefined) out.set(canonical(name), make(fact, name));
  }
  return out;
}
