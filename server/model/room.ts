import type { Quantity } from "../../grammar/quantity";
import type { Point2 } from "../physics/polygon";
import { valueOf, valuesOf, type Bound, type PlaceValue } from "./bound";
import { defaultOf } from "./defaults";
import { readLights, type Lamps, type Light } from "./lights";
import { assumed, fromText } from "./make-ranged";
import { canonical } from "./names";
import type { Ranged } from "./ranged";
import { readSeats, type Seats } from "./seating";
import { pointsOf, readBuilt, type Built } from "./shape/built";
import { encloses } from "./shape/corners";
import type { Where } from "./where";

export interface Surface {
  readonly name: string;
  readonly place: PlaceValue | undefined;
  readonly width: Ranged;
  /** How high the lower edge of a picture on it is, m. */
  readonly lowerEdge: Ranged;
  /** Of a board: how high its letters are, m. */
  readonly letters: Ranged | undefined;
  /** Width to height, where stated. */
  readonly aspect: number | undefined;
  /** Beside a surface that scatters all light evenly. */
  readonly gain: Ranged;
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
  /** A, where the text says so. */
  readonly rated: Ranged | undefined;
  /** The circuit behind whose breaker it is, where stated. */
  readonly fedBy: string | undefined;
  readonly where: Where;
}

/** Outlets behind one breaker. */
export interface Circuit {
  readonly name: string;
  /** A, where the text says so. */
  readonly rated: Ranged | undefined;
  /** W that hang on it besides, where stated. */
  readonly draws: Ranged | undefined;
  readonly where: Where;
}

export type { Seats } from "./seating";
export type { Area, Column, Opening } from "./shape/built";

export interface Finish {
  /** A key of the table of finishes. */
  readonly finish: string;
  readonly assumed: boolean;
}

export interface Room extends Built {
  readonly lights: readonly Light[];
  readonly lamps: readonly Lamps[];
  /** Curtains over windows that the text names; besides `curtains`, which says how much is drawn in all the rest. */
  readonly overWindows: readonly { readonly weight: string; readonly area: Ranged | undefined; readonly over: string; readonly where: Where }[];
  readonly name: string;
  /** Absent where no text states a room: everything about it is assumed. */
  readonly where: Where | undefined;
  readonly length: Ranged;
  readonly width: Ranged;
  readonly height: Ranged;
  /** Going round, m, at their best guesses: a room that is no box. `length` and `width` are those of the box around it. */
  readonly corners: readonly Point2[] | undefined;
  readonly cornersWhere: Where | undefined;
  /** How much the floor rises, and from where to where, from the front wall. */
  readonly slope: { readonly rise: Ranged; readonly from: Ranged | undefined; readonly to: Ranged | undefined; readonly where: Where } | undefined;
  /** Where north is: degrees with the clock, seen from above, from the way to the front wall. */
  readonly north: Ranged | undefined;
  /** Degrees north of the equator, where stated. */
  readonly latitude: Ranged | undefined;
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
  readonly circuits: ReadonlyMap<string, Circuit>;
  /** V, where stated. */
  readonly voltage: Ranged | undefined;
  readonly spots: ReadonlyMap<string, { readonly place: PlaceValue | undefined; readonly where: Where }>;
}

const LISTS: ReadonlySet<string> = new Set(["chairs", "seat", "spot", "table", "screen", "outlet", "circuit", "stage", "walkway", "column", "door", "window", "light", "lamps"]);

/**
 * Which of the things in a room a statement is about, where it is about one of several: `chairs audience`. What is stated of the same
 * thing for this evening takes the place of what the room says.
 */
export function thingOf(fact: Bound): string | undefined {
  const { head } = fact.row;
  if (head === "light" || head === "lamps") {
    const of = valueOf(fact, head === "light" ? "on" : "which", "word")?.word ?? "";
    return [head, of, ...fact.tails.during.map((name) => canonical(name.text))].join(" ");
  }
  const over = head === "curtains" ? valueOf(fact, "over", "name") : undefined;
  if (over !== undefined) return `curtains over ${canonical(over.text)}`;
  if (!LISTS.has(head)) return undefined;
  const name = valueOf(fact, "name", "name")?.text ?? (head === "chairs" ? "audience" : head === "stage" ? "stage" : undefined);
  // Of columns and doors there may be many without a name.
  return name === undefined ? `${head} at ${fact.where.path} ${fact.where.start}` : `${head} ${canonical(name)}`;
}

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
  const corners = facts.get("corners");
  const outline = corners === undefined ? [] : pointsOf(corners);
  const side = (slot: "length" | "width" | "height"): Ranged => {
    const round = slot === "height" || corners === undefined || !encloses(outline) ? undefined : reachOf(corners, slot === "length" ? 0 : 1);
    if (round !== undefined && corners !== undefined) return fromText(round, corners, `room.${slot}`, `the ${slot} of ${name}`, false);
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
  const slope = facts.get("slope");
  const rise = one("slope", "rise", `how much the floor of ${name} rises`);
  const sloping = (slot: "from" | "to"): Ranged | undefined => {
    const value = slope && valueOf(slope, slot, "quantity");
    return slope !== undefined && known(value) ? fromText(value, slope, `room.slope-${slot}`, `where the floor of ${name} ${slot === "from" ? "begins" : "ends"} to rise`, false) : undefined;
  };
  const length = side("length");
  const byHead = (head: string): Bound[] => listed.filter((fact) => fact.row.head === head);
  return {
    name, where: stated?.where, length, width: side("width"), height: side("height"),
    corners: corners === undefined || !encloses(outline) ? undefined : outline, cornersWhere: corners?.where,
    slope: slope === undefined || rise === undefined ? undefined : { rise, from: sloping("from"), to: sloping("to"), where: slope.where },
    north: northOf(facts.get("north"), name), latitude: one("latitude", "angle", `the latitude of ${name}`), ...readBuilt(listed), ...readLights(listed),
    overWindows: byHead("curtains").flatMap((fact) => {
      const over = valueOf(fact, "over", "name")?.text;
      const area = valueOf(fact, "area", "quantity");
      const size = known(area) ? fromText(area, fact, `room.curtains.${over ?? ""}`, `the area of the curtains over ${over ?? ""}`, false) : undefined;
      return over === undefined ? [] : [{ weight: valueOf(fact, "weight", "word")?.word ?? "", area: size, over, where: fact.where }];
    }),
    noise: one("noise", "level", `the noise in ${name}`) ?? assumed("room.noise", `the noise in ${name}`, "level", defaultOf("noise", "room", "level")),
    reverberation: one("reverberation", "time", `the reverberation of ${name}`)
      ?? (clap && { ...clap, low: clap.low * NO_CLAP[0], high: clap.high * NO_CLAP[1], from: { ...clap.from, how: "guessed" } }),
    outdoors: facts.has("outdoors"), wind: one("wind", "number", `the wind at ${name}`),
    floor: finish("floor", "wood"), walls: finish("walls", "plaster"), ceiling: finish("ceiling", "plasterboard"),
    curtains: curtainArea && { weight: word("curtains", "weight"), area: curtainArea },
    windows: windowArea && { glass: word("windows", "glass"), area: windowArea },
    // Whoever asks for the seats without a name means those in rows.
    seats: [...byHead("chairs"), ...byHead("seat")].map(readSeats),
    tables: keyed(byHead("table"), (fact, called) => ({
      name: called, place: valueOf(fact, "place", "place"), where: fact.where,
      length: sizeOf(fact, "length", called), width: sizeOf(fact, "width", called),
    })),
    surfaces: keyed(byHead("screen"), (fact, called) => ({
      aspect: aspectOf(fact),
      gain: child(fact, "gain", "factor", `surface.${called}.gain`, `the gain of ${called}`) ?? assumed(`surface.${called}.gain`, `the gain of ${called}`, "ratio", defaultOf("gain", "surface", "factor")),
      name: called, place: valueOf(fact, "place", "place"), where: fact.where,
      width: child(fact, "width", "length", `surface.${called}.width`, `the width of ${called}`)
        ?? assumed(`surface.${called}.width`, `the width of ${called}`, "length", { best: 2, low: 1.5, high: 2.6, source: "common practice, no source" }),
      letters: child(fact, "letters", "height", `surface.${called}.letters`, `how high the letters on ${called} are`),
      lowerEdge: child(fact, "lower-edge", "height", `surface.${called}.lower-edge`, `how high above the floor the lower edge of ${called} is`)
        ?? { ...assumed(`surface.${called}.lower-edge`, `how high above the floor the lower edge of ${called} is`, "length", defaultOf("lower-edge", "surface", "height")), ask: `How high above the floor is the lower edge of ${called}?` },
    })),
    outlets: keyed(byHead("outlet"), (fact, called) => ({
      name: called, place: valueOf(fact, "place", "place"), where: fact.where,
      sockets: child(fact, "sockets", "count", `outlet.${called}.sockets`, `the sockets of ${called}`),
      rated: child(fact, "rated", "current", `outlet.${called}.rated`, `what ${called} may carry`),
      fedBy: fedBy(fact),
    })),
    circuits: keyed(byHead("circuit"), (fact, called) => ({
      name: called, where: fact.where, rated: child(fact, "rated", "current", `circuit.${called}.rated`, `what ${called} may carry`),
      draws: child(fact, "draws", "power", `circuit.${called}.draws`, `what hangs on ${called} besides`),
    })),
    voltage: one("voltage", "volts", `the voltage of the mains in ${name}`),
    spots: keyed(byHead("spot"), (fact) => ({ place: valueOf(fact, "place", "place"), where: fact.where })),
  };
}

function fedBy(fact: Bound): string | undefined {
  const stated = fact.children.find((c) => c.row.head === "fed-by");
  return stated && valueOf(stated, "circuit", "name")?.text;
}

function aspectOf(fact: Bound): number | undefined {
  const stated = fact.children.find((c) => c.row.head === "aspect");
  return stated && valueOf(stated, "ratio", "ratio")?.ratio;
}

/** From the front wall, or the left one, to the corner that is farthest from it. */
function reachOf(corners: Bound, axis: 0 | 1): Quantity | undefined {
  const along = valuesOf(corners, "points", "point").flatMap((p) => { const q = p.coordinates[axis]; return known(q) ? [q] : []; });
  const [first] = along;
  if (first === undefined || along.length < 3) return undefined;
  const most = (end: "low" | "best" | "high"): number => Math.max(0.1, ...along.map((q) => q[end]));
  const said = along.some((q) => q.said === "about") ? "about" : "exact";
  return { ...first, low: most("low"), best: most("best"), high: most("high"), said };
}

const NORTH: Readonly<Record<string, number>> = { front: 0, right: 90, back: 180, left: 270 };

function northOf(stated: Bound | undefined, name: string): Ranged | undefined {
  if (stated === undefined) return undefined;
  const word = valueOf(stated, "side", "word");
  const angle = word === undefined ? valueOf(stated, "angle", "quantity") : undefined;
  const turn = NORTH[word?.word ?? ""] ?? 0;
  const value: Quantity | undefined = word === undefined ? angle
    : { kind: "quantity", dimension: "angle", low: turn, best: turn, high: turn, said: "exact", start: word.start, end: word.end };
  return known(value) ? fromText(value, stated, "room.north", `where north of ${name} is`, false) : undefined;
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
