/** Seeing over the people in front: the section through rows of seats. Metres. */
import { requireNonNegative, requirePositive } from "./domain";

/**
 * By how much the line from an eye to the lowest point that it must see passes over the eye of the person in front,
 * C = D·(N + R)/(D + T) − R.
 *
 * @param distance D, from the eye in front to the point, m, > 0
 * @param row T, from row to row, m, > 0
 * @param rise N, by how much a row stands above the one in front, m
 * @param above R, height of the eye in front above the point, m; negative where the point is higher
 * @returns C, m: 0.06 sees between heads, 0.09 with the head tilted back, 0.12 well (Shepherd 2012). Follows from similar triangles
 * @throws RangeError when a distance ≤ 0
 */
export function sightClearance(distance: number, row: number, rise: number, above: number): number {
  requirePositive("distance", distance);
  requirePositive("row distance", row);
  return (distance * (rise + above)) / (distance + row) - above;
}

/**
 * By how much a row must stand above the one in front for a clearance, N = (R + C)·(D + T)/D − R.
 *
 * @param distance D, m, > 0
 * @param row T, m, > 0
 * @param clearance C wanted, m
 * @param above R, m
 * @returns N, m. Source: Shepherd 2012
 * @throws RangeError when a distance ≤ 0
 */
export function riseFor(distance: number, row: number, clearance: number, above: number): number {
  requirePositive("distance", distance);
  requirePositive("row distance", row);
  return ((above + clearance) * (distance + row)) / distance - above;
}

/**
 * How high the lowest point must be for a clearance on a level floor: −R = C·(D + T)/T.
 *
 * @param distance D, m, ≥ 0
 * @param row T, m, > 0
 * @param clearance C wanted, m, ≥ 0
 * @returns height of the point above the eyes, m
 * @throws RangeError when the row distance ≤ 0 or another quantity is negative
 */
export function heightOverHeads(distance: number, row: number, clearance: number): number {
  requireNonNegative("distance", distance);
  requirePositive("row distance", row);
  requireNonNegative("clearance", clearance);
  return (clearance * (distance + row)) / row;
}
