/** From relations to metres: every place is a point that depends on the trial, since most of it is known only roughly. */
import { centroidOf, type Point2 } from "../physics/polygon";
import type { PlaceValue } from "./bound";
import type { Vec3 } from "./geometry";
import { canonical } from "./names";
import { blockOf, outOfBlock, besideMiddle } from "./placing/block";
import { inside, middleOf, sidesOf } from "./placing/bounds";
import type { Ground } from "./placing/ground";
import { HEIGHTS } from "./placing/heights";
import { lean } from "./placing/lean";
import { offset } from "./placing/offset";
import { layOut, onRing, seatOf, type Ring, type Seat } from "./placing/seats";
import { stepOf } from "./placing/steps";
import { add, mean } from "./placing/vectors";
import type { Ranged } from "./ranged";
import type { Room, Seats } from "./room";
import { areaAt, baseAt, columnAt, openingAt } from "./shape/built-at";
import { outlineOf, wallOf } from "./shape/outline";
import type { Trial } from "./trial";

// Whoever asks for places finds here what they are made of.
export { HEIGHTS } from "./placing/heights";
export { seatOf, type Ring, type Seat } from "./placing/seats";

export interface Position {
  at(trial: Trial): Vec3;
  /** As the text says it: `beside lectern`. */
  readonly words: string;
  /** Worn by, or held by, whoever speaks: the name of a talker or of seats. */
  readonly held: { readonly by: string; readonly how: "worn" | "handed" } | undefined;
}

/** Where things are placed, by canonical name. */
export type Places = Pick<ReadonlyMap<string, PlaceValue | undefined>, "get" | "has">;

/** What the places of one setup are reckoned from. */
export class Floor implements Ground {
  readonly #talkers: Places;
  readonly #devices: Places;
  /** What is being reckoned: things that lean on each other in a circle find nothing to lean on. */
  readonly #open = new Set<string>();

  constructor(
    readonly room: Room,
    talkers: Places,
    devices: Places,
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
        at: (trial) => {
          const so = add(this.spot(otherwise, trial) ?? middleOf(this.room, trial), trial.value(dx), trial.value(dy), height(z, trial));
          return inside(this.room, { ...so, z: so.z + this.floorAt(so, trial) }, trial);
        },
      };
    }
    const around = place.relations.find((r) => r.relation === "around");
    if (around !== undefined && ring !== undefined) {
      return { words: place.words, held, at: (trial) => trial.keep(`place ${owner}`, () => {
        const so = onRing(this, around, ring, trial);
        return inside(this.room, { ...so, z: height(z, trial) + this.floorAt(so, trial) }, trial);
      }) };
    }
    const steps = place.relations.map((relation, i) => stepOf(this, owner, relation, i));
    const stated = isHigh(place);
    return {
      words: place.words, held,
      at: (trial) => trial.keep(`place ${owner}`, () => {
        const point = steps.reduce<Vec3 | undefined>((so, step) => step(trial, so) ?? so, undefined) ?? middleOf(this.room, trial);
        const onTable = place.relations.some((r) => r.relation === "on") && held === undefined;
        const floor = stated ? 0 : this.floorAt(point, trial);
        const raised = stated ? point.z : onTable && typeof z === "number" ? floor + HEIGHTS.table + 0.15 : height(z, trial) + Math.max(point.z > 0.2 ? point.z : 0, floor);
        return inside(this.room, { ...point, z: raised }, trial);
      }),
    };
  }

  /** The seats of a group, row by row. */
  seats(group: Seats, trial: Trial): readonly Seat[] {
    return this.once(`seats ${canonical(group.name)}`, () => trial.keep(`seats ${canonical(group.name)}`, () => layOut(this, group, trial))) ?? [];
  }

  baseAt(p: Point2, trial: Trial): number {
    return baseAt(this, p, trial);
  }

  /** How high the floor is there, m: slope, stage, and the steps on which rows stand, which go on behind the last one. */
  floorAt(p: Point2, trial: Trial): number {
    let height = this.baseAt(p, trial);
    for (const group of this.room.seats) {
      if (group.riser === undefined) continue;
      const block = this.once(`block ${canonical(group.name)}`, () => trial.keep(`block ${canonical(group.name)}`, () => blockOf(this, group, trial, true)));
      if (block === undefined) continue;
      const { u, v } = outOfBlock(block, p);
      const half = Math.abs(besideMiddle(block, group, 1, 1)) + 1;
      if (u > -block.pitch / 2 && Math.abs(v) <= half) height = Math.max(height, Math.min(group.rows - 1, Math.round(u / block.pitch)) * block.riser + this.baseAt(p, trial));
    }
    return height;
  }

  group(name: string): Seats | undefined {
    const wanted = canonical(name);
    return this.room.seats.find((seats) => canonical(seats.name) === wanted) ?? (wanted === "audience" ? this.room.seats[0] : undefined);
  }

  isDevice(name: string): boolean {
    return this.#devices.has(canonical(name));
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

  /** A named spot: what the room states, then people, devices and seats, then what every room has. */
  spot(name: string, trial: Trial): Vec3 | undefined {
    const key = canonical(name);
    return this.once(`spot ${key}`, () => trial.keep(`spot ${key}`, () => {
      const { room } = this;
      const fixed = room.spots.get(key)?.place ?? room.surfaces.get(key)?.place;
      if (fixed !== undefined) return lean(this, key, fixed, trial);
      const placed = room.tables.get(key)?.place ?? room.outlets.get(key)?.place ?? this.#talkers.get(key) ?? this.#devices.get(key);
      if (placed !== undefined) {
        const point = lean(this, key, placed, trial);
        // The third figure of a spot is how high one stands there; that of a thing is its own height, which nobody beside it shares.
        return point !== undefined && isHigh(placed) ? { ...point, z: 0 } : point;
      }
      const builtIn = this.builtIn(key, trial);
      if (builtIn !== undefined) return builtIn;
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
        case "front-screen": {
          const [a, b] = room.corners === undefined ? [] : wallOf(outlineOf(room, trial), "front") ?? [];
          return a === undefined || b === undefined ? { x: 0.05, y: width / 2, z: 0 } : { ...inside(room, { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, z: 0.05 }, trial), z: 0 };
        }
        case "audience": return { x: length * 0.6, y: width / 2, z: 0 };
        case "front": case "back": case "left": case "right": case "middle": return sidesOf(this.room, [key], trial);
        case "table": {
          // `on table`: any table, where none bears the name.
          const [any] = room.tables.keys();
          return any === undefined ? undefined : this.spot(any, trial);
        }
        default: return this.#talkers.has(key) ? this.spot("lectern", trial) : undefined;
      }
    }));
  }

  /** The middle of a stage, which is as high as the stage, of a walkway, a column, a door or a window. */
  private builtIn(key: string, trial: Trial): Vec3 | undefined {
    const { areas, columns, openings } = this.room;
    const area = areas.find((one) => canonical(one.name) === key);
    if (area !== undefined) {
      const { outlines, height: z } = areaAt(this, area, trial);
      return { ...centroidOf(outlines[0] ?? []), z };
    }
    const column = columns.find((one) => canonical(one.name) === key);
    if (column !== undefined) return { ...columnAt(this, column, trial).at, z: 0 };
    const opening = openings.find((one) => canonical(one.name) === key);
    return opening === undefined ? undefined : { ...openingAt(this, opening, trial).at, z: 0 };
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
}

/** Whether the place itself says how high. */
const isHigh = (place: PlaceValue): boolean => place.relations.some((r) => r.anchor.kind === "point" && r.anchor.coordinates.length === 3);
const height = (z: number | Ranged, trial: Trial): number => (typeof z === "number" ? z : trial.value(z));
