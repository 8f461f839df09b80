/** Light on faces, and what a camera makes of it. SI units; angles in radians. */
import { requireNonNegative, requirePositive } from "./domain";
import { between, dot, length, type Vec3 } from "./geometry";

/** Reflectance of skin, about the middle of what there is. Common practice, no source. */
export const SKIN = 0.35;

/**
 * Light of a small lamp on a small surface, E = I·cos ε/d² (inverse square and cosine law).
 *
 * @param intensity I toward the surface, cd, ≥ 0
 * @param lamp where the lamp is, m
 * @param spot where the surface is, m
 * @param facing direction of the surface's normal, any length
 * @returns lx; 0 where the lamp is behind the surface
 * @throws RangeError when the intensity is negative or the lamp is at the surface
 */
export function illuminance(intensity: number, lamp: Vec3, spot: Vec3, facing: Vec3): number {
  requireNonNegative("luminous intensity", intensity);
  const way = between(spot, lamp);
  const far = length(way);
  requirePositive("distance of the lamp", far);
  const cosine = dot(way, facing) / (far * length(facing));
  return cosine > 0 ? (intensity * cosine) / far ** 2 : 0;
}

/**
 * Mean light on the mantle of a small upright cylinder, E_z = I·sin γ/(π·d²): what lights a face from whichever side it is seen.
 *
 * @param intensity I toward the spot, cd, ≥ 0
 * @param lamp where the lamp is, m
 * @param spot where the cylinder is, m
 * @returns lx, γ being the angle of the light from straight down. Source: EN 12464-1:2021 uses this measure; the formula is recalled
 * @throws RangeError when the intensity is negative or the lamp is at the spot
 */
export function cylindricalIlluminance(intensity: number, lamp: Vec3, spot: Vec3): number {
  requireNonNegative("luminous intensity", intensity);
  const way = between(spot, lamp);
  const far = length(way);
  requirePositive("distance of the lamp", far);
  return (intensity * (Math.hypot(way[0], way[1]) / far)) / (Math.PI * far ** 2);
}

/**
 * Exposure value at film speed S, EV = log₂(E·S/C).
 *
 * @param illuminance E, lx, > 0
 * @param speed S, ISO arithmetic, > 0
 * @param constant C of an incident-light meter, 240 to 400 (ISO 2720); 250 for a flat receptor
 * @returns EV
 * @throws RangeError when a quantity ≤ 0
 */
export function exposureValue(illuminance: number, speed: number, constant = 250): number {
  requirePositive("illuminance", illuminance);
  requirePositive("film speed", speed);
  requirePositive("meter constant", constant);
  return Math.log2((illuminance * speed) / constant);
}

/**
 * Speed that an exposure needs, S = C·N²/(t·E).
 *
 * @param illuminance E, lx, > 0
 * @param aperture N, > 0
 * @param time t, s, > 0
 * @param constant C, as for `exposureValue`
 * @returns ISO arithmetic speed
 * @throws RangeError when a quantity ≤ 0
 */
export function speedNeeded(illuminance: number, aperture: number, time: number, constant = 250): number {
  requirePositive("illuminance", illuminance);
  requirePositive("aperture", aperture);
  requirePositive("exposure time", time);
  return (constant * aperture ** 2) / (time * illuminance);
}

/**
 * How much of the flicker of mains light an exposure lets through: |sinc(2·f·t)|, the light swinging at twice the mains frequency.
 * An exposure of whole swings lets nothing through.
 *
 * @param time t, s, ≥ 0
 * @param mains f, Hz, > 0; 50 or 60
 * @returns share of the swing that is left from frame to frame, 0 … 1. Elementary: the mean of a sine over a window
 * @throws RangeError when the time is negative or the frequency ≤ 0
 */
export function flickerLeft(time: number, mains: number): number {
  requireNonNegative("exposure time", time);
  requirePositive("mains frequency", mains);
  const x = 2 * Math.PI * mains * time;
  return x < 1e-9 ? 1 : Math.abs(Math.sin(x) / x);
}
