/** From relations to metres: every place is a point that depends on the trial, since most of it is known only roughly. */
import type { Anchor, PlaceValue, Relation } from "./bound";
import type { Vec3 } from "./geometry";
import { assumed } from "./make-ranged";
import { canonical } from "./names";
import type { Ranged } from "./ranged";
import type { Room, Seats, Table } from "./room";
import type { Trial } from "./trial";

export interface Position {
  at(trial: Trial): Vec3;
  /** As the text says it: `beside lectern`. */
  readonly words: string;
  /** Worn by, or held by, whoever speaks: the name of a talker or of seats. */
  readonly held: { readonly by: string; readonly how: "worn" | "handed" } | undefined;
}

export interface Seat {
  /** `audience.row-2.seat-5`, or `audience.seat-3` where there are no rows. */
  readonly name: string;
  readonly row: number;
  /** Its number in the row, as one faces the front from it: 1 is at the left. */
  readonly inRow: number;
  readonly at: Vec3;
}

/** `audience.row-2.seat-5`, `audience.row-2` or, around a table, `audience.seat-5`: which seats a name means, if it is such a name. */
export function seatOf(name: string): { readonly group: string; readonly row: number; readonly seat: number | undefined } | undefined {
  const found = /^(.+?)(?:\.row-(\d{1,5}))?(?:\.seat-(\d{1,5}))?$/i.exec(name);
  const [, group, row, seat] = found ?? [];
  if (group === undefined || (row === undefined && seat === undefined)) return undefined;
  return { group, row: Number(row ?? 1), seat: seat === undefined ? undefined : Number(seat) };
}

/** Which one of how many: things or people that one statement places together, around a table or along a line. */
export interface Ring {
  readonly index: number;
  readonly count: number;
}

/** Heights above the floor, in metres. Seated eyes 1.2: planning practice; the others: common practice, no source. */
export const HEIGHTS = { seatedMouth: 1.15, seatedEye: 1.2, standingMouth: 1.55, table: 0.75, lens: 1.3, wall: 1.6, floor: 0.1 } as const;

const CP = "common practice, no source";
const offset = (id: string, label: string, best: number, low: number, high: number): Ranged => assumed(id, label, "length", { best, low, high, source: CP });

/** What the places of one setup are reckoned from. */
export class Floor {
  readonly #talkers: ReadonlyMap<string, PlaceValue | undefined>;
  readonly #devices: ReadonlyMap<string, PlaceValue | undefined>;
  /** What is being reckoned: things that lean on each other in a circle find nothing to lean on. */
  readonly #open = new Set<string>();

  constructor(
    readonly room: Room,
    talkers: ReadonlyMap<string, PlaceValue | undefined>,
    devices: ReadonlyMap<string, PlaceValue | undefined>,
  ) {
    this.#talkers = talkers;
    this.#devices = devices;
  }

  /**
   * The position of `owner`, placed by `place`; where nothing is said, near `otherwise`.
   * `z`: its height above the floor where the place does not say.
   */
  position(owner: string, place: PlaceValue | undefined, otherwise: string, z: number | Ranged, ring?: Ring): Position {
    const held = place === undefined ? undefined : this.holder(place);
    if (place === undefined) {
      const dx = offset(`${canonical(owner)}.x`, `where ${owner} is`, 0, -2, 2);
      const dy = offset(`${canonical(owner)}.y`, `where ${owner} is`, 0, -1.5, 1.5);
      return {
        words: `at ${otherwise}, nothing being said`, held: undefined,
        at: (trial) => this.inside(add(this.spot(otherwise, trial) ?? this.middle(trial), trial.value(dx), trial.value(dy), height(z, trial)), trial),
      };
    }
    const around = place.relations.find((r) => r.relation === "around");
    if (around !== undefined && ring !== undefined) {
      return { words: place.words, held, at: (trial) => trial.keep(`place ${owner}`, () => this.inside({ ...this.onRing(around, ring, trial), z: height(z, trial) }, trial)) };
    }
    const steps = place.relations.map((relation, i) => this.step(owner, relation, i));
    const stated = isHigh(place);
    return {
      words: place.words, held,
      at: (trial) => trial.keep(`place ${owner}`, () => {
        const point = steps.reduce<Vec3 | undefined>((so, step) => step(trial, so) ?? so, undefined) ?? this.middle(trial);
        const onTable = place.relations.some((r) => r.relation === "on") && held === undefined;
        const raised = stated ? point.z : onTable && typeof z === "number" ? HEIGHTS.table + 0.15 : height(z, trial) + (point.z > 0.2 ? point.z : 0);
        return this.inside({ ...point, z: raised }, trial);
      }),
    };
  }

  /** The seats of a group, row by row. */
  seats(group: Seats, trial: Trial): readonly Seat[] {
    return this.once(`seats ${canonical(group.name)}`, () => trial.keep(`seats ${canonical(group.name)}`, () => this.layOut(group, trial))) ?? [];
  }

  group(name: string): Seats | undefined {
    const wanted = canonical(name);
    return this.room.seats.find((seats) => canonical(seats.name) === wanted) ?? (wanted === "audience" ? this.room.seats[0] : undefined);
  }

  private holder(place: PlaceValue): Position["held"] {
    for (const { relation, anchor } of place.relations) {
      if (anchor.kind !== "name") continue;
      const name = anchor.name.text;
      const person = this.#talkers.has(canonical(name));
      if (relation === "on" && person) return { by: name, how: "worn" };
      if (relation === "with" && (person || this.group(name) !== undefined)) return { by: name, how: "handed" };
    }
    return undefined;
  }

  private step(owner: string, relation: Relation, index: number): (trial: Trial, so: Vec3 | undefined) => Vec3 | undefined {
    const id = `${canonical(owner)}.place-${index}`;
    const anchored = this.anchor(owner, relation.anchor, relation.relation);
    const given = relation.offset;
    const amount = (best: number, low: number, high: number): Ranged => given === undefined
      ? offset(`${id}.offset`, `how far ${owner} is ${relation.relation} ${anchored.words}`, best, low, high)
      : { ...offset(`${id}.offset`, `how far ${owner} is ${relation.relation} ${anchored.words}`, given.best, given.low, given.high), from: { how: "stated" } };
    const exact = relation.anchor.kind === "point";
    switch (relation.relation) {
      case "on": case "with": case "around":
        // `on table` says on what, and only where no other relation says where.
        return (trial, so) => so ?? anchored.at(trial);
      case "behind": {
        const d = amount(0.6, 0.3, 1.2);
        return (trial) => move(anchored.at(trial), trial.value(d), 0);
      }
      case "before": {
        const d = amount(0.8, 0.4, 1.5);
        return (trial) => move(anchored.at(trial), -trial.value(d), 0);
      }
      case "beside": {
        const d = amount(anchored.halfWidth + 0.5, anchored.halfWidth + 0.2, anchored.halfWidth + 1.2);
        return (trial) => {
          const point = anchored.at(trial);
          // Beside means where there is room: away from the nearer side wall.
          const way = point !== undefined && point.y > trial.value(this.room.width) * 0.55 ? -1 : 1;
          return move(point, 0.3, way * trial.value(d));
        };
      }
      case "near": {
        const d = amount(0.8, 0.2, 2);
        return (trial) => {
          const point = anchored.at(trial);
          const middle = this.middle(trial);
          return point === undefined ? undefined : toward(point, middle, trial.value(d));
        };
      }
      case "under": return (trial) => anchored.at(trial);
      default: {
        if (exact || anchored.kind !== "spot") return (trial) => anchored.at(trial);
        const dx = offset(`${id}.x`, `where exactly ${owner} is at ${anchored.words}`, 0, -0.4, 0.4);
        return (trial) => move(anchored.at(trial), trial.value(dx), 0);
      }
    }
  }

  private anchor(owner: string, anchor: Anchor, relation: string): { at: (trial: Trial) => Vec3 | undefined; words: string; halfWidth: number; kind: "spot" | "other" } {
    switch (anchor.kind) {
      case "point": {
        const axis = (i: number, name: string): Ranged | undefined => {
          const q = anchor.coordinates[i];
          return q === undefined ? undefined : { ...offset(`${canonical(owner)}.${name}`, `where ${owner} is`, q.best, q.low, q.high), from: { how: "stated" } };
        };
        const [x, y, z] = [axis(0, "x"), axis(1, "y"), axis(2, "z")];
        return {
          words: "that point", halfWidth: 0, kind: "other",
          at: (trial) => ({ x: x ? trial.value(x) : 0, y: y ? trial.value(y) : 0, z: z ? trial.value(z) : 0 }),
        };
      }
      case "sides": return { words: anchor.sides.join(" "), halfWidth: 0, kind: "spot", at: (trial) => this.sides(anchor.sides, trial) };
      case "row": return {
        words: `row ${anchor.row}`, halfWidth: 0, kind: "other",
        at: (trial) => {
          const group = anchor.of === undefined ? this.room.seats[0] : this.group(anchor.of.text);
          const row = group === undefined ? [] : this.seats(group, trial).filter((seat) => seat.row === Math.min(anchor.row, group.rows));
          return row.length === 0 ? undefined : { ...mean(row.map((seat) => seat.at)), z: 0 };
        },
      };
      case "name": {
        const name = anchor.name.text;
        const surface = this.room.surfaces.get(canonical(name));
        const spot = relation === "at" && surface === undefined && !this.#devices.has(canonical(name));
        return {
          words: name, kind: spot ? "spot" : "other",
          halfWidth: surface !== undefined ? surface.width.best / 2 : canonical(name) === "front-screen" ? 1 : 0,
          at: (trial) => this.spot(name, trial),
        };
      }
      case "names": return {
        words: anchor.names.map((n) => n.text).join(" and "), halfWidth: 0, kind: "other",
        at: (trial) => {
          const points = anchor.names.map((n) => this.spot(n.text, trial)).filter((p): p is Vec3 => p !== undefined);
          return points.length === 0 ? undefined : mean(points);
        },
      };
    }
  }

  /** A named spot: what the room states, then people, devices and seats, then what every room has. */
  spot(name: string, trial: Trial): Vec3 | undefined {
    const key = canonical(name);
    return this.once(`spot ${key}`, () => trial.keep(`spot ${key}`, () => {
      const { room } = this;
      const fixed = room.spots.get(key)?.place ?? room.surfaces.get(key)?.place;
      if (fixed !== undefined) return this.lean(key, fixed, trial);
      const placed = room.tables.get(key)?.place ?? room.outlets.get(key)?.place ?? this.#talkers.get(key) ?? this.#devices.get(key);
      if (placed !== undefined) {
        const point = this.lean(key, placed, trial);
        // The third figure of a spot is how high one stands there; that of a thing is its own height, which nobody beside it shares.
        return point !== undefined && isHigh(placed) ? { ...point, z: 0 } : point;
      }
      const named = seatOf(name);
      const group = this.group(named?.group ?? name);
      const seats = (group === undefined ? [] : this.seats(group, trial))
        .filter((seat) => named === undefined || (seat.row === named.row && (named.seat === undefined || seat.inRow === named.seat)));
      if (seats.length > 0) return { ...mean(seats.map((seat) => seat.at)), z: 0 };
      const length = trial.value(room.length);
      const width = trial.value(room.width);
      switch (key) {
        case "lectern": return { x: Math.min(1.2, length * 0.18), y: width * 0.36, z: 0 };
        case "operator": return { x: Math.max(length * 0.5, length - 0.8), y: width * 0.62, z: 0 };
        case "front-screen": return { x: 0.05, y: width / 2, z: 0 };
        case "audience": return { x: length * 0.6, y: width / 2, z: 0 };
        case "front": case "back": case "left": case "right": case "middle": return this.sides([key], trial);
        case "table": {
          // `on table`: any table, where none bears the name.
          const [any] = room.tables.keys();
          return any === undefined ? undefined : this.spot(any, trial);
        }
        default: return this.#talkers.has(key) ? this.spot("lectern", trial) : undefined;
      }
    }));
  }

  /** The result of `run`, or nothing where it has been begun and not ended. */
  private once<T>(key: string, run: () => T): T | undefined {
    if (this.#open.has(key)) return undefined;
    this.#open.add(key);
    try {
      return run();
    } finally {
      this.#open.delete(key);
    }
  }

  /** One thing placed by another: follows its own relations, without the heights. */
  private lean(owner: string, place: PlaceValue, trial: Trial): Vec3 | undefined {
    const steps = place.relations.map((relation, i) => this.step(owner, relation, i));
    return steps.reduce<Vec3 | undefined>((so, step) => step(trial, so) ?? so, undefined);
  }

  private sides(sides: readonly string[], trial: Trial): Vec3 {
    const length = trial.value(this.room.length);
    const width = trial.value(this.room.width);
    const corner = sides.includes("corner") ? 0.5 : 0.2;
    let x = length / 2;
    let y = width / 2;
    if (sides.includes("front")) x = corner;
    if (sides.includes("back")) x = length - corner;
    if (sides.includes("left")) y = corner;
    if (sides.includes("right")) y = width - corner;
    return { x, y, z: 0 };
  }

  private middle(trial: Trial): Vec3 {
    return { x: trial.value(this.room.length) / 2, y: trial.value(this.room.width) / 2, z: 0 };
  }

  private inside(point: Vec3, trial: Trial): Vec3 {
    const keep = (n: number, most: number): number => Math.min(Math.max(n, 0.05), Math.max(0.05, most - 0.05));
    return {
      x: keep(point.x, trial.value(this.room.length)), y: keep(point.y, trial.value(this.room.width)), z: keep(point.z, trial.value(this.room.height)),
    };
  }

  private layOut(group: Seats, trial: Trial): Seat[] {
    const length = trial.value(this.room.length);
    const width = trial.value(this.room.width);
    const around = group.place?.relations.find((r) => r.relation === "around");
    if (around !== undefined) return this.layAround(group, around, trial);
    const pitch = trial.value(group.pitch);
    const spacing = trial.value(group.spacing);
    const depth = (group.rows - 1) * pitch;
    const { place } = group;
    let first = group.first === undefined ? Math.max(0.8, Math.min(3, length - depth - 0.6)) : trial.value(group.first);
    let middle = width / 2;
    if (group.first === undefined && place !== undefined) {
      const point = this.lean(group.name, place, trial);
      if (point !== undefined) {
        middle = point.y < 0.5 || point.y > width - 0.5 ? middle : point.y;
        first = Math.min(Math.max(0.8, point.x - depth / 2), Math.max(0.8, length - depth - 0.4));
      }
    }
    // Rows as even as the count allows, the longer ones in front.
    const seats: Seat[] = [];
    for (let row = 0; row < group.rows; row += 1) {
      const inRow = Math.floor(group.count / group.rows) + (row < group.count % group.rows ? 1 : 0);
      const apart = Math.min(spacing, (width - 0.4) / Math.max(1, inRow));
      for (let i = 0; i < inRow; i += 1) {
        seats.push({
          name: `${group.name}.row-${row + 1}.seat-${i + 1}`, row: row + 1, inRow: i + 1,
          at: this.inside({ x: first + row * pitch, y: middle + (i - (inRow - 1) / 2) * apart, z: HEIGHTS.seatedEye }, trial),
        });
      }
    }
    return seats;
  }

  private layAround(group: Seats, around: Relation, trial: Trial): Seat[] {
    return Array.from({ length: group.count }, (_, i) => ({
      name: `${group.name}.seat-${i + 1}`, row: 1, inRow: i + 1,
      at: this.inside({ ...this.onRing(around, { index: i, count: group.count }, trial), z: HEIGHTS.seatedEye }, trial),
    }));
  }

  /** Evenly around a table, a chair's depth from its edge. */
  private onRing(around: Relation, ring: Ring, trial: Trial): Vec3 {
    const table: Table | undefined = around.anchor.kind === "name" ? this.room.tables.get(canonical(around.anchor.name.text)) : undefined;
    const centre = this.anchor("", around.anchor, "around").at(trial) ?? this.middle(trial);
    const a = (table === undefined ? 1.6 : trial.value(table.length)) / 2 + 0.3;
    const b = (table === undefined ? 0.9 : trial.value(table.width)) / 2 + 0.3;
    const angle = (2 * Math.PI * ring.index) / ring.count;
    return { x: centre.x + a * Math.cos(angle), y: centre.y + b * Math.sin(angle), z: 0 };
  }
}

/** Whether the place itself says how high. */
const isHigh = (place: PlaceValue): boolean => place.relations.some((r) => r.anchor.kind === "point" && r.anchor.coordinates.length === 3);
const height = (z: number | Ranged, trial: Trial): number => (typeof z === "number" ? z : trial.value(z));
const add = (p: Vec3, x: number, y: number, z: number): Vec3 => ({ x: p.x + x, y: p.y + y, z });
const move = (p: Vec3 | undefined, x: number, y: number): Vec3 | undefined => (p === undefined ? undefined : { x: p.x + x, y: p.y + y, z: p.z });

function toward(from: Vec3, to: Vec3, metres: number): Vec3 {
  const distance = Math.hypot(to.x - from.x, to.y - from.y);
  const share = distance === 0 ? 0 : Math.min(1, metres / distance);
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share, z: from.z };
}

function mean(points: readonly Vec3[]): Vec3 {
  const n = Math.max(1, points.length);
  return {
    x: points.reduce((sum, p) => sum + p.x, 0) / n, y: points.reduce((sum, p) => sum + p.y, 0) / n, z: points.reduce((sum, p) => sum + p.z, 0) / n,
  };
}
