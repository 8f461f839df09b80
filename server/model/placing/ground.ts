import type { Point2 } from "../../physics/polygon";
import type { Vec3 } from "../geometry";
import type { Room, Seats } from "../room";
import type { Trial } from "../trial";
import type { Seat } from "./seats";

/** What a place is reckoned from: the room, and where the things and people are that it leans on. */
export interface Ground {
  readonly room: Room;
  /** A device of that name is placed somewhere. */
  isDevice(name: string): boolean;
  /** The group of seats of that name. */
  group(name: string): Seats | undefined;
  /** How high the bare floor is there: slope and stages, without the steps of rows. */
  baseAt(p: Point2, trial: Trial): number;
  seats(group: Seats, trial: Trial): readonly Seat[];
  /** Where the named spot, thing or person is. */
  spot(name: string, trial: Trial): Vec3 | undefined;
}
