/** What is built into a room, as the text states it: stages, walkways, columns, doors, windows. */
import type { Quantity } from "../../../grammar/quantity";
import type { Point2 } from "../../physics/polygon";
import { valueOf, valuesOf, type Bound, type PlaceValue } from "../bound";
import { assumed, fromText } from "../make-ranged";
import type { Ranged } from "../ranged";
import type { Where } from "../where";

/** A part of the floor: a stage, or where people walk. */
export interface Area {
  readonly name: string;
  /** Whether the text gives it that name. */
  readonly named: boolean;
  readonly kind: "stage" | "walkway";
  readonly place: PlaceValue | undefined;
  readonly from: PlaceValue | undefined;
  readonly to: readonly PlaceValue[];
  /** As stated, going round, m; then place and size say nothing. */
  readonly corners: readonly Point2[] | undefined;
  /** From the front to the back, and from left to right. */
  readonly length: Ranged;
  readonly width: Ranged;
  /** Above the floor; of a walkway 0. */
  readonly height: Ranged;
  readonly where: Where;
}

export interface Column {
  readonly name: string;
  readonly named: boolean;
  readonly place: PlaceValue | undefined;
  /** How thick, side to side. */
  readonly width: Ranged;
  readonly where: Where;
}

export type Compass = "north" | "north-east" | "east" | "south-east" | "south" | "south-west" | "west" | "north-west";

export interface Opening {
  readonly name: string;
  readonly named: boolean;
  readonly kind: "door" | "window";
  readonly place: PlaceValue | undefined;
  readonly width: Ranged;
  /** From its lower edge to its upper one. */
  readonly height: Ranged;
  /** Lower edge above the floor. */
  readonly sill: Ranged;
  /** Which way one looks out, where stated. */
  readonly looks: Compass | undefined;
  readonly where: Where;
}

const CP = "common practice, no source";
/** Where the text says nothing, m: best guess, low, high. */
const USUAL = {
  stage: { length: [2, 1.5, 3], width: [4, 3, 6], height: [0.4, 0.2, 0.8] },
  walkway: { length: [2, 1.5, 3], width: [1.2, 0.9, 1.5], height: [0, 0, 0] },
  door: { width: [0.9, 0.8, 1.8], height: [2, 1.95, 2.2], sill: [0, 0, 0] },
  window: { width: [1.2, 0.8, 2], height: [1.4, 1, 2], sill: [0.9, 0, 1.2] },
  column: { width: [0.4, 0.2, 0.6] },
} as const;

/** A length that a statement within another gives, or the usual one. */
function length(fact: Bound, name: string, head: string, slot: string, says: string, usual: readonly [number, number, number]): Ranged {
  const id = `${fact.row.head}.${name}.${says}`;
  const label = `the ${says} of ${name}`;
  const inner = fact.children.find((c) => c.row.head === head);
  const value = inner && valueOf(inner, slot, "quantity");
  if (inner !== undefined && value !== undefined && value.said !== "unknown") return fromText(value, inner, id, label, false);
  return assumed(id, label, "length", { best: usual[0], low: usual[1], high: usual[2], source: CP });
}

/** The points of a `corners` statement, at their best guesses. */
export const pointsOf = (corners: Bound): Point2[] => valuesOf(corners, "points", "point").map(({ coordinates: [x, y] }) => ({ x: best(x), y: best(y) }));

const best = (q: Quantity | undefined): number => (q === undefined || !Number.isFinite(q.best) ? 0 : q.best);

/** Names for things that bear none: `column-2`, unless the text uses that name. */
function calling(facts: readonly Bound[]): (fact: Bound) => { readonly name: string; readonly named: boolean } {
  const counts = new Map<string, number>();
  return (fact) => {
    const name = valueOf(fact, "name", "name")?.text;
    if (name !== undefined) return { name, named: true };
    const n = (counts.get(fact.row.head) ?? 0) + 1;
    counts.set(fact.row.head, n);
    const alone = facts.filter((other) => other.row.head === fact.row.head && !other.values.has("name")).length === 1;
    return { name: alone ? fact.row.head : `${fact.row.head}-${n}`, named: false };
  };
}

export interface Built {
  readonly areas: readonly Area[];
  readonly columns: readonly Column[];
  readonly openings: readonly Opening[];
}

/** Reads what `facts` state of a room. */
export function readBuilt(facts: readonly Bound[]): Built {
  const called = calling(facts);
  const areas: Area[] = [];
  const columns: Column[] = [];
  const openings: Opening[] = [];
  for (const fact of facts) {
    const kind = fact.row.head;
    if (kind === "stage" || kind === "walkway") {
      const { name, named } = called(fact);
      const usual = USUAL[kind];
      const corners = fact.children.find((c) => c.row.head === "corners");
      const across = fact.children.some((c) => c.row.head === "size") ? "size" : "width";
      areas.push({
        name, named, kind, place: valueOf(fact, "place", "place"), from: valueOf(fact, "from", "place"), to: valuesOf(fact, "to", "place"),
        corners: corners && pointsOf(corners), where: fact.where,
        length: length(fact, name, "size", "length", "length", usual.length), width: length(fact, name, across, across === "size" ? "width" : "length", "width", usual.width),
        height: length(fact, name, "height", "height", "height", usual.height),
      });
    } else if (kind === "column") {
      const { name, named } = called(fact);
      columns.push({ name, named, place: valueOf(fact, "place", "place"), width: length(fact, name, "width", "length", "width", USUAL.column.width), where: fact.where });
    } else if (kind === "door" || kind === "window") {
      const { name, named } = called(fact);
      const usual = USUAL[kind];
      const looks = fact.children.find((c) => c.row.head === "looks");
      openings.push({
        name, named, kind, place: valueOf(fact, "place", "place"), where: fact.where,
        width: length(fact, name, "width", "length", "width", usual.width), height: length(fact, name, "height", "height", "height", usual.height),
        sill: length(fact, name, "sill", "height", "sill", usual.sill), looks: (looks && valueOf(looks, "way", "word")?.word) as Compass | undefined,
      });
    }
  }
  return { areas, columns, openings };
}
