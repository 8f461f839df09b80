/** Reverberation time and absorption of a room. One frequency at a time; `bands()` does it for all. */
import type { Bands } from "./bands";
import { SPEED_OF_SOUND } from "./bands";
import { requireNonNegative, requirePositive, requireWithin } from "./domain";

/** Constant of Sabine's formula, 24·ln 10/c, s/m: 0.1611 at 343 m/s. */
export const SABINE_CONSTANT = (24 * Math.LN10) / SPEED_OF_SOUND;

/** Constant 55.3/c₀ of EN 12354-6:2003, s/m: the standard rounds it to 0.16. */
export const EN_12354_CONSTANT = 0.16;

/** A plane part of a room: its area S in m² and its absorption coefficient α, 0 … 1 (published tables may exceed 1 slightly). */
export interface Surface {
  readonly area: number;
  readonly alpha: number;
}

/**
 * Power attenuation of air m, Np/m, 125 Hz … 8 kHz, at 20 °C and 50–70 % relative humidity.
 *
 * Source: EN 12354-6:2003, Table 1 (read in a transcription).
 */
export const AIR_HUMID: Bands = [0.1e-3, 0.3e-3, 0.6e-3, 1.0e-3, 1.7e-3, 4.1e-3, 13.5e-3];

/**
 * Power attenuation of air m, Np/m, 125 Hz … 8 kHz, at 20 °C and 30–50 % relative humidity: a heated hall in winter.
 *
 * Source: EN 12354-6:2003, Table 1 (read in a transcription).
 */
export const AIR_DRY: Bands = [0.1e-3, 0.3e-3, 0.6e-3, 1.0e-3, 1.9e-3, 5.8e-3, 20.3e-3];

/**
 * Equivalent absorption area of surfaces, A = Σ αᵢ·Sᵢ.
 *
 * @param surfaces areas in m² with their coefficients
 * @returns A, m²
 * @throws RangeError when an area or coefficient is negative
 */
export function surfaceAbsorption(surfaces: readonly Surface[]): number {
  return surfaces.reduce((sum, { area, alpha }) => {
    requireNonNegative("area of a surface", area);
    requireNonNegative("absorption coefficient", alpha);
    return sum + area * alpha;
  }, 0);
}

/**
 * Mean absorption coefficient, ᾱ = A/S.
 *
 * @param absorption A, m², ≥ 0
 * @param surface S, m², > 0
 * @returns ᾱ; above 1 where more is absorbed than the surfaces could (many people in a small room)
 * @throws RangeError when A < 0 or S ≤ 0
 */
export function meanAlpha(absorption: number, surface: number): number {
  requireNonNegative("absorption area", absorption);
  requirePositive("surface", surface);
  return absorption / surface;
}

/**
 * Absorption of the air in a room, A = 4·m·V·(1 − ψ).
 *
 * @param attenuation m, Np/m
 * @param volume V, m³
 * @param objectFraction ψ, share of the volume taken up by objects, 0 … 1
 * @returns A, m². Source: EN 12354-6:2003
 * @throws RangeError when V ≤ 0, m < 0 or ψ outside 0 … 1
 */
export function airAbsorption(attenuation: number, volume: number, objectFraction = 0): number {
  requireNonNegative("attenuation of air", attenuation);
  requirePositive("volume", volume);
  requireWithin("share of objects", objectFraction, 0, 1);
  return 4 * attenuation * volume * (1 - objectFraction);
}

/**
 * Absorption of a hard, irregular object such as a cupboard, A = V_obj^(2/3).
 *
 * @param objectVolume V_obj, m³
 * @returns A, m². Source: EN 12354-6:2003
 * @throws RangeError when the volume is negative
 */
export function objectAbsorption(objectVolume: number): number {
  requireNonNegative("volume of an object", objectVolume);
  return objectVolume ** (2 / 3);
}

/**
 * Reverberation time after Sabine, T = (24·ln 10/c)·V/A.
 *
 * Valid for a diffuse field, ᾱ below about 0.2, no dimension more than five times another.
 *
 * @param volume V, m³
 * @param absorption A, m², air included (4mV)
 * @returns T, s; Infinity when nothing absorbs
 * @throws RangeError when V ≤ 0 or A < 0
 */
export function sabine(volume: number, absorption: number): number {
  requirePositive("volume", volume);
  requireNonNegative("absorption area", absorption);
  return (SABINE_CONSTANT * volume) / absorption;
}

/**
 * Reverberation time after Eyring, T = (24·ln 10/c)·V/(−S·ln(1 − ᾱ) + A_air).
 *
 * Better than Sabine where ᾱ exceeds about 0.2; never longer than Sabine.
 *
 * @param volume V, m³
 * @param surface S, m²
 * @param surfaceAbsorbing A of the surfaces and people, m², without air; ᾱ = A/S
 * @param air A_air = 4mV, m²
 * @returns T, s; 0 when ᾱ ≥ 1 (every reflection is absorbed), Infinity when nothing absorbs
 * @throws RangeError when V ≤ 0, S ≤ 0 or an absorption is negative
 */
export function eyring(volume: number, surface: number, surfaceAbsorbing: number, air = 0): number {
  requirePositive("volume", volume);
  requireNonNegative("absorption of air", air);
  const alpha = meanAlpha(surfaceAbsorbing, surface);
  if (alpha >= 1) return 0;
  return (SABINE_CONSTANT * volume) / (-surface * Math.log1p(-alpha) + air);
}

/**
 * Reverberation time of a furnished room, T = (55.3/c₀)·V·(1 − ψ)/A.
 *
 * @param volume V of the empty room, m³
 * @param absorption A of surfaces, objects and air together, m²
 * @param objectFraction ψ = ΣV_obj/V, 0 … 1; the standard holds it below 0.2 or so
 * @returns T, s; Infinity when nothing absorbs. Source: EN 12354-6:2003
 * @throws RangeError when V ≤ 0, A < 0 or ψ outside 0 … 1
 */
export function en12354(volume: number, absorption: number, objectFraction = 0): number {
  requirePositive("volume", volume);
  requireNonNegative("absorption area", absorption);
  requireWithin("share of objects", objectFraction, 0, 1);
  return (EN_12354_CONSTANT * volume * (1 - objectFraction)) / absorption;
}

/**
 * Absorption area of a room whose reverberation time is known: Sabine's formula turned round, A = (24·ln 10/c)·V/T.
 *
 * @param volume V, m³
 * @param time T, s
 * @returns A, m², air and people included
 * @throws RangeError when V ≤ 0 or T ≤ 0
 */
export function absorptionFromTime(volume: number, time: number): number {
  requirePositive("volume", volume);
  requirePositive("reverberation time", time);
  return (SABINE_CONSTANT * volume) / time;
}
