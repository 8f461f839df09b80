/** How cables run: straight across the floor where it is a step or two, else to the nearest wall and along it. */
import type { Point } from "./plan";
import { alongWalls, lengthOf, nearestWall, offset } from "./walls";

/** So near, one lays a cable straight, m. Common practice, no source. */
export const STRAIGHT = 2.5;

/** So far from a wall a cable lies that runs along it, m. Common practice, no source. */
const FROM_WALL = 0.08;

/** An end of a cable: where it is, how high above the floor of the room, and how high the floor under it is: a stage, a step; m. */
export interface CableEnd extends Point {
  readonly z: number;
  readonly floor: number;
}

/** The way of a cable on the floor, and its whole length with what hangs down at both ends, m. */
export function routeOf(outline: readonly Point[], from: CableEnd, to: CableEnd): { readonly points: readonly Point[]; readonly length: number } {
  const apart = Math.hypot(from.x - to.x, from.y - to.y);
  // Two things at one place are joined at their own height; else a cable hangs down to the floor at both ends, and goes up and down with it.
  const hanging = apart < 0.6 ? Math.abs(from.z - to.z) : from.z - from.floor + (to.z - to.floor) + Math.abs(from.floor - to.floor);
  const flat = (p: Point): Point => ({ x: p.x, y: p.y });
  const direct = [flat(from), flat(to)];
  if (apart <= STRAIGHT) return { points: direct, length: apart + hanging };
  const along = offset(outline, -FROM_WALL);
  const a = nearestWall(along, from);
  const b = nearestWall(along, to);
  const points = [flat(from), a.at, ...alongWalls(along, a.along, b.along), b.at, flat(to)];
  return { points, length: lengthOf(points) + hanging };
}
