/** A projector's picture: how wide from how far, how much light falls on it, how far out of square it is. SI units. */
import { requireNonNegative, requirePositive } from "./domain";

/** A foot-lambert, cd/m²: 1/π candela to the square foot. */
export const FOOT_LAMBERT = 1 / (Math.PI * 0.3048 ** 2);

/**
 * Throw ratio, distance to width.
 *
 * @param distance from the lens to the surface, m, ≥ 0
 * @param width of the picture, m, > 0
 * @returns the ratio
 * @throws RangeError when the distance is negative or the width ≤ 0
 */
export function throwRatio(distance: number, width: number): number {
  requireNonNegative("throw distance", distance);
  requirePositive("picture width", width);
  return distance / width;
}

/**
 * Width of the picture at a distance, D/ratio.
 *
 * @param distance D, m, ≥ 0
 * @param ratio throw ratio of the lens as it is set, > 0
 * @returns width, m
 * @throws RangeError when the distance is negative or the ratio ≤ 0
 */
export function thrownWidth(distance: number, ratio: number): number {
  requireNonNegative("throw distance", distance);
  requirePositive("throw ratio", ratio);
  return distance / ratio;
}

/**
 * Light that a projector throws on a picture, E = Φ/A.
 *
 * @param flux Φ, lm, ≥ 0
 * @param area of the picture, m², > 0
 * @returns lx
 * @throws RangeError when the flux is negative or the area ≤ 0
 */
export function thrownLight(flux: number, area: number): number {
  requireNonNegative("luminous flux", flux);
  requirePositive("picture area", area);
  return flux / area;
}

/**
 * Luminance of a diffusing surface under light, L = E·g/π.
 *
 * @param illuminance E, lx, ≥ 0
 * @param gain g, of a screen; for a plain surface its reflectance, ≥ 0
 * @returns cd/m²
 * @throws RangeError when a quantity is negative
 */
export function luminanceOf(illuminance: number, gain: number): number {
  requireNonNegative("illuminance", illuminance);
  requireNonNegative("gain", gain);
  return (illuminance * gain) / Math.PI;
}

/**
 * How far out of square the picture of a projector is that is tilted or turned, unless it is set straight: the longer of two
 * opposite edges over the shorter, (1 + tan α·tan β)/(1 − tan α·tan β) with β half the angle over which the lens throws in that
 * direction.
 *
 * @param tilt α, angle between the lens's axis and the surface's normal, rad, ≥ 0
 * @param halfAngle β, rad, > 0
 * @returns ratio of the edges, ≥ 1; Infinity where an edge never meets the surface. Elementary geometry
 * @throws RangeError when the tilt is negative or the half angle ≤ 0
 */
export function keystone(tilt: number, halfAngle: number): number {
  requireNonNegative("tilt", tilt);
  requirePositive("half angle", halfAngle);
  const k = Math.tan(tilt) * Math.tan(halfAngle);
  return tilt >= Math.PI / 2 || k >= 1 ? Infinity : (1 + k) / (1 - k);
}
