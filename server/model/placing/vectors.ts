/** Points moved and put together. */
import type { Vec3 } from "../geometry";

/** The point moved along the floor and to another height, m. */
export const add = (p: Vec3, x: number, y: number, z: number): Vec3 => ({ x: p.x + x, y: p.y + y, z });

/** The point, if there is one, moved along the floor, m. */
export const move = (p: Vec3 | undefined, x: number, y: number): Vec3 | undefined => (p === undefined ? undefined : { x: p.x + x, y: p.y + y, z: p.z });

/** The point that lies `metres` from one toward another, and no farther than that other; at the height of the first. */
export function toward(from: Vec3, to: Vec3, metres: number): Vec3 {
  const distance = Math.hypot(to.x - from.x, to.y - from.y);
  const share = distance === 0 ? 0 : Math.min(1, metres / distance);
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share, z: from.z };
}

/** The middle of some points. */
export function mean(points: readonly Vec3[]): Vec3 {
  const n = Math.max(1, points.length);
  return {
    x: points.reduce((sum, p) => sum + p.x, 0) / n, y: points.reduce((sum, p) => sum + p.y, 0) / n, z: points.reduce((sum, p) => sum + p.z, 0) / n,
  };
}
