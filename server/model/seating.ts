/** Groups of seats, as the text states them. */
import type { Quantity } from "../../grammar/quantity";
import { valueOf, type Bound, type PlaceValue } from "./bound";
import { defaultOf } from "./defaults";
import { assumed, fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Where } from "./where";

/** Which seats a statement is about: of one row or all, from one seat to another or all. */
export interface Which {
  readonly row: number | undefined;
  readonly first: number | undefined;
  readonly last: number | undefined;
  readonly where: Where;
}

export interface Seats {
  readonly name: string;
  /** One seat with a name of its own. */
  readonly single: boolean;
  readonly count: number;
  readonly rows: number;
  readonly place: PlaceValue | undefined;
  /** From the wall that they face to row 1; where nothing is said it follows from the room. */
  readonly first: Ranged | undefined;
  readonly pitch: Ranged;
  readonly spacing: Ranged;
  /** How much higher each row stands than the one before it. */
  readonly riser: Ranged | undefined;
  /** Every second row is shifted by half a chair. */
  readonly staggered: boolean;
  /** Rows are arcs: with this radius of the first, around this. */
  readonly curved: { readonly radius: Ranged | undefined; readonly around: PlaceValue | undefined } | undefined;
  /** Gangways through the rows: so wide, behind so many chairs from the left, or in the middle. */
  readonly aisles: readonly { readonly width: Ranged; readonly after: number | undefined; readonly where: Where }[];
  readonly faces: PlaceValue | undefined;
  /** By how many degrees the block is turned to the right of those who sit there. */
  readonly turned: Ranged | undefined;
  readonly wheelchair: readonly Which[];
  readonly offCamera: readonly Which[];
  /** Above the floor on which people sit, where stated. */
  readonly eyes: Ranged | undefined;
  readonly mouth: Ranged | undefined;
  readonly head: Ranged | undefined;
  readonly where: Where;
}

/** The seats that a `chairs` or a `seat` statement states. */
export function readSeats(fact: Bound): Seats {
  const single = fact.row.head === "seat";
  const name = valueOf(fact, "name", "name")?.text ?? "audience";
  const count = single ? 1 : Math.max(1, Math.round(valueOf(fact, "count", "quantity")?.best ?? 1));
  const rows = single ? 1 : valueOf(fact, "rows", "quantity")?.best;
  const of = (head: string): Bound | undefined => fact.children.find((c) => c.row.head === head);
  const length = (head: string, slot: string, label: string): Ranged | undefined => {
    const inner = of(head);
    const value = inner && valueOf(inner, slot, "quantity");
    return inner !== undefined && known(value) ? fromText(value, inner, `seats.${name}.${head}`, label, false) : undefined;
  };
  const usual = (slot: "pitch" | "spacing"): Ranged => {
    const label = `the ${slot} of the chairs in ${name}`;
    return length(slot, "distance", label) ?? assumed(`seats.${name}.${slot}`, label, "length", defaultOf(slot, "seats", "distance"));
  };
  const curved = of("curved");
  const faces = of("faces");
  const turned = length("turned", "angle", `how far the chairs of ${name} are turned`);
  const way = of("turned");
  return {
    name, single, count, rows: Math.min(count, Math.max(1, Number.isFinite(rows) && rows !== undefined ? Math.round(rows) : Math.ceil(count / 8))),
    place: valueOf(fact, "place", "place"),
    first: length("first", "distance", `how far the first row of ${name} is from the front`),
    pitch: usual("pitch"), spacing: usual("spacing"),
    riser: length("riser", "height", `how much higher each row of ${name} stands`), staggered: of("staggered") !== undefined,
    curved: curved && { radius: length("curved", "radius", `the radius of the first row of ${name}`), around: valueOf(curved, "place", "place") },
    aisles: fact.children.filter((c) => c.row.head === "aisle").map((aisle, i) => ({
      width: aisleOf(aisle, `seats.${name}.aisle-${i + 1}`, `the width of the aisle through ${name}`), after: valueOf(aisle, "after", "quantity")?.best, where: aisle.where,
    })),
    faces: faces && valueOf(faces, "at", "place"),
    turned: turned === undefined || way === undefined || valueOf(way, "way", "word")?.word !== "left" ? turned : { ...turned, low: -turned.high, best: -turned.best, high: -turned.low },
    wheelchair: which(fact, "wheelchair"), offCamera: which(fact, "off-camera"),
    eyes: length("eyes", "height", `how high the eyes in ${name} are`), mouth: length("mouth", "height", `how high the mouths in ${name} are`),
    head: length("head", "height", `how high the heads in ${name} reach`), where: fact.where,
  };
}

function aisleOf(aisle: Bound, id: string, label: string): Ranged {
  const value = valueOf(aisle, "width", "quantity");
  return known(value) ? fromText(value, aisle, id, label, false) : assumed(id, label, "length", defaultOf("aisle", "seats", "width"));
}

const which = (fact: Bound, head: string): Which[] => fact.children.filter((c) => c.row.head === head).map((c) => {
  const first = valueOf(c, "first", "quantity")?.best;
  return { row: valueOf(c, "row", "quantity")?.best, first, last: valueOf(c, "last", "quantity")?.best ?? first, where: c.where };
});

const known = (value: Quantity | undefined): value is Quantity => value !== undefined && value.said !== "unknown";

/** How many seats a row has, counted from 1: as even as the count allows, the longer rows in front. */
export const seatsInRow = (group: Seats, row: number): number => Math.floor(group.count / group.rows) + (row <= group.count % group.rows ? 1 : 0);

/** Whether a statement about some seats is about this one. */
export const isAmong = (some: readonly Which[], row: number, seat: number): boolean => some.some((one) =>
  (one.row === undefined || one.row === row) && (one.first === undefined || (seat >= Math.min(one.first, one.last ?? one.first) && seat <= Math.max(one.first, one.last ?? one.first))));
