/** Points and directions in space: x from the front wall to the back, y from left to right, z up; metres. */

/** A point, or a direction of any length. */
export type Vec3 = readonly [x: number, y: number, z: number];

/**
 * The way from one point to another, b − a.
 *
 * @param from a, m
 * @param to b, m
 * @returns vector from a to b, m
 */
export function between(from: Vec3, to: Vec3): Vec3 {
  return [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
}

/**
 * Inner product a·b.
 *
 * @param a vector
 * @param b vector
 * @returns the product, in the product of their units
 */
export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/**
 * Length of a vector.
 *
 * @param vector any vector
 * @returns its length, in its own unit
 */
export function length(vector: Vec3): number {
  return Math.hypot(vector[0], vector[1], vector[2]);
}

/**
 * Distance between two points.
 *
 * @param a point, m
 * @param b point, m
 * @returns distance, m
 */
export function distance(a: Vec3, b: Vec3): number {
  return length(between(a, b));
}

/**
 * Cosine of the angle between two directions, a·b/(|a|·|b|), kept within −1 … 1 against rounding.
 *
 * @param a direction of any length
 * @param b direction of any length
 * @returns cosine; 1 when either has no length (a thing at the spot it is aimed at counts as on its axis)
 */
export function cosineBetween(a: Vec3, b: Vec3): number {
  const lengths = length(a) * length(b);
  return lengths === 0 ? 1 : Math.min(1, Math.max(-1, dot(a, b) / lengths));
}

/**
 * Angle between two directions.
 *
 * @param a direction of any length
 * @param b direction of any length
 * @returns angle, rad, 0 … π; 0 when either has no length
 */
export function angleBetween(a: Vec3, b: Vec3): number {
  return Math.acos(cosineBetween(a, b));
}

/**
 * Cosine of the angle under which a point lies off the axis of something that is aimed.
 *
 * @param position where the thing stands, m
 * @param aim direction of its axis, any length
 * @param point the point seen from it, m
 * @returns cosine, 1 on the axis, −1 behind
 */
export function cosineOffAxis(position: Vec3, aim: Vec3, point: Vec3): number {
  return cosineBetween(aim, between(position, point));
}
