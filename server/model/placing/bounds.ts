/** The room as a box or an outline: its middle, its sides, and what would stand outside brought in. */
import type { Vec3 } from "../geometry";
import type { Room } from "../room";
import { broughtIn, FROM_WALL, middleOfOutline, outlineOf, sidesIn } from "../shape/outline";
import type { Trial } from "../trial";

export { FROM_WALL };

/** The side, or the corner, that those words mean; along what they do not name, the middle. On the floor. */
export function sidesOf(room: Room, sides: readonly string[], trial: Trial): Vec3 {
  const length = trial.value(room.length);
  const width = trial.value(room.width);
  if (room.corners !== undefined) return sidesIn(outlineOf(room, trial), sides, length, width);
  const corner = sides.includes("corner") ? 0.5 : 0.2;
  let x = length / 2;
  let y = width / 2;
  if (sides.includes("front")) x = corner;
  if (sides.includes("back")) x = length - corner;
  if (sides.includes("left")) y = corner;
  if (sides.includes("right")) y = width - corner;
  return { x, y, z: 0 };
}

/** The middle of the floor. */
export function middleOf(room: Room, trial: Trial): Vec3 {
  const length = trial.value(room.length);
  const width = trial.value(room.width);
  if (room.corners !== undefined) return { ...middleOfOutline(outlineOf(room, trial), length, width), z: 0 };
  return { x: length / 2, y: width / 2, z: 0 };
}

/** The point, kept in the room. */
export const inside = (room: Room, point: Vec3, trial: Trial): Vec3 => keeper(room, trial)(point);

/** What keeps points in the room: for many of them, since the room is looked at once. */
export function keeper(room: Room, trial: Trial): (point: Vec3) => Vec3 {
  const keep = (n: number, most: number): number => Math.min(Math.max(n, FROM_WALL), Math.max(FROM_WALL, most - FROM_WALL));
  const height = trial.value(room.height);
  if (room.corners !== undefined) {
    const outline = outlineOf(room, trial);
    return (point) => ({ ...broughtIn(outline, point), z: keep(point.z, height) });
  }
  const [length, width] = [trial.value(room.length), trial.value(room.width)];
  return (point) => ({ x: keep(point.x, length), y: keep(point.y, width), z: keep(point.z, height) });
}
