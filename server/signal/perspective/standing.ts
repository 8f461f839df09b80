/** Things as they stand in the room, before anybody looks at them. Metres. */
import type { Where } from "../../model/where";
import type { Vec3 } from "../../physics/geometry";
import type { Point2 } from "../../physics/polygon";
import type { Look, ThingKind } from "./perspective";

/** A flat surface in the room. */
export interface Face {
  readonly look: Look;
  readonly ring: readonly Vec3[];
  readonly lines?: readonly (readonly Vec3[])[];
}

export interface Standing {
  readonly kind: ThingKind;
  readonly name: string;
  readonly says: string;
  readonly where: Where | undefined;
  readonly at: Point2;
  /** What it covers of the floor, where others can stand before it, on it and behind it: two points of a wall, a door, a picture. */
  readonly outline?: readonly Point2[];
  /** Upper side of what one can stand on or put things on. */
  readonly top?: number;
  /** The farthest first. */
  readonly faces: readonly Face[];
}
