/** A projector's picture: how wide from how far, how much light falls on it, how far out of square it is. SI units. */
import { requireNonNegative, requirePositive } from "./domain";
import { between, dot, type Vec3 } from "./geometry";
import type { Rectangle } from "./hidden";

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

/** How a projector has to look for its picture to fall where it is to be. */
export interface Skew {
  /** How far it looks up, negative down, rad. */
  readonly tilt: number;
  /** How far it looks aside, ≥ 0, rad. */
  readonly turn: number;
  /** Half the angle that the picture takes up from top to bottom, and from side to side, rad. */
  readonly halfHeight: number;
  readonly halfWidth: number;
}

/**
 * How far a projector has to be tilted and turned for a picture, if its lens throws as kindly as lenses do.
 *
 * Lenses without a shift throw anything from straight ahead to wholly above themselves, or, hung upside down, wholly below: whoever
 * stands no lower than the lower edge of the picture and no higher than its upper edge may be level. To the side they throw straight.
 *
 * @param lens where it is, m
 * @param picture upright rectangle, m
 * @returns the angles; level and straight where the lens lies in the plane of the picture. Elementary geometry; the reach of lenses: common practice
 */
export function skewOf(lens: Vec3, picture: Rectangle): Skew {
  const { right, up, centre, width, height } = picture;
  const normal: Vec3 = [right[1] * up[2] - right[2] * up[1], right[2] * up[0] - right[0] * up[2], right[0] * up[1] - right[1] * up[0]];
  const way = between(centre, lens);
  const far = Math.abs(dot(way, normal));
  if (far < 1e-9) return { tilt: 0, turn: 0, halfHeight: Math.PI / 4, halfWidth: Math.PI / 4 };
  const above = dot(way, up);
  const out = above < -height / 2 ? -height / 2 - above : above > height / 2 ? height / 2 - above : 0;
  return { tilt: Math.atan(out / far), turn: Math.atan(Math.abs(dot(way, right)) / far), halfHeight: Math.atan(height / 2 / far), halfWidth: Math.atan(width / 2 / far) };
}
