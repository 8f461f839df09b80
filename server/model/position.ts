/** From relations to metres: every place is a point that depends on the trial, since most of it is known only roughly. */
import type { PlaceValue } from "./bound";
import type { Vec3 } from "./geometry";
import { canonical } from "./names";
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

/** What the places of one setup are reckoned from. */
export class Floor implements Ground {
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
        at: (trial) => inside(this.room, add(this.spot(otherwise, trial) ?? middleOf(this.room, trial), trial.value(dx), trial.value(dy), height(z, trial)), trial),
      };
    }
    const around = place.relations.find((r) => r.relation === "around");
    if (around !== undefined && ring !== undefined) {
      return { words: place.words, held, at: (trial) => trial.keep(`place ${owner}`, () => inside(this.room, { ...onRing(this, around, ring, trial), z: height(z, trial) }, trial)) };
    }
    const steps = place.relations.map((relation, i) => stepOf(this, owner, relation, i));
    const stated = isHigh(place);
    return {
      words: place.words, held,
      at: (trial) => trial.keep(`place ${owner}`, () => {
        const point = steps.reduce<Vec3 | undefined>((so, step) => step(trial, so) ?? so, undefined) ?? middleOf(this.room, trial);
        const onTable = place.relations.some((r) => r.relation === "on") && held === undefined;
        const raised = stated ? point.z : onTable && typeof z === "number" ? HEIGHTS.table + 0.15 : height(z, trial) + (point.z > 0.2 ? point.z : 0);
        return inside(this.room, { ...point, z: raised }, trial);
      }),
    };
  }

  /** The seats of a group, row by row. */
  seats(group: Seats, trial: Trial): readonly Seat[] {
    return this.once(`seats ${canonical(group.name)}`, () => trial.keep(`seats ${canonical(group.name)}`, () => layOut(this, group, trial))) ?? [];
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
