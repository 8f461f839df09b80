/** How sources and microphones favour a direction. */
import type { Bands } from "./bands";
import { bands } from "./bands";
import { toPower } from "./decibel";
import { requirePositive, requireWithin } from "./domain";

/** Level below which no real source falls behind its back, dB (model choice: the cabinet and the room's edges scatter). */
export const SOURCE_FLOOR_DB = -15;

/** Level below which no real microphone falls off its axis, dB (model choice). */
export const MICROPHONE_FLOOR_DB = -20;

/** Share a of the pressure response in M(φ) = a + (1 − a)·cos φ, by the name of the pattern. Source: recalled, textbook. */
export const PATTERNS = {
  "omni": 1,
  "cardioid": 0.5,
  "supercardioid": 0.37,
  "hypercardioid": 0.25,
  "figure-8": 0,
} as const;

/** Name of a first-order microphone pattern. */
export type PatternName = keyof typeof PATTERNS;

/**
 * Power of a source off its axis, relative to its axis, γ²(θ) (model choice: exact in Q, and continuous in it).
 *
 * Q ≤ 3: γ = a + (1 − a)·cos θ with a = (1 + √(12/Q − 3))/4. Q > 3: γ² = ((1 + cos θ)/2)^(Q − 1). Both integrate to 4π/Q
 * over the sphere, as the definition of Q demands; the floor adds less than 10^(floor/10) of 4π to that.
 *
 * @param cosine cos θ, −1 … 1
 * @param q directivity factor Q; under 1 counts as 1 (no axis is weaker than the mean)
 * @param floor lowest level, dB; −Infinity for none
 * @returns γ², 0 … 1
 * @throws RangeError when the cosine lies outside −1 … 1
 */
export function sourcePattern(cosine: number, q: number, floor = SOURCE_FLOOR_DB): number {
  requireWithin("cosine", cosine, -1, 1);
  requirePositive("directivity factor", q);
  const factor = Math.max(1, q);
  const lowest = toPower(floor);
  if (factor > 3) return Math.max(lowest, ((1 + cosine) / 2) ** (factor - 1));
  const a = (1 + Math.sqrt(12 / factor - 3)) / 4;
  return Math.max(lowest, (a + (1 - a) * cosine) ** 2);
}

/**
 * Power response of a first-order microphone, M²(φ) = (a + (1 − a)·cos φ)².
 *
 * @param cosine cos φ between its axis and the sound's arrival, −1 … 1
 * @param a pressure share, 0 (figure-8) … 1 (omni), see `PATTERNS`
 * @param floor lowest level, dB; −Infinity for none
 * @returns M², 0 … 1
 * @throws RangeError when the cosine lies outside −1 … 1 or a outside 0 … 1
 */
export function microphonePattern(cosine: number, a: number, floor = MICROPHONE_FLOOR_DB): number {
  requireWithin("cosine", cosine, -1, 1);
  requireWithin("pressure share of a microphone", a, 0, 1);
  return Math.max(toPower(floor), (a + (1 - a) * cosine) ** 2);
}

/**
 * Random energy efficiency of a first-order microphone, REE = a² + (1 − a)²/3: the share of a diffuse field that it takes up.
 *
 * @param a pressure share, 0 … 1
 * @returns REE, 0.25 … 1. Source: recalled, textbook
 * @throws RangeError when a lies outside 0 … 1
 */
export function randomEnergyEfficiency(a: number): number {
  requireWithin("pressure share of a microphone", a, 0, 1);
  return a * a + (1 - a) ** 2 / 3;
}

/**
 * Distance factor of a microphone, 1/√REE: how much farther than an omni it may stand for the same share of reverberation.
 *
 * @param ree random energy efficiency, > 0
 * @returns factor, ≥ 1 for REE ≤ 1
 * @throws RangeError when REE ≤ 0
 */
export function distanceFactor(ree: number): number {
  requirePositive("random energy efficiency", ree);
  return 1 / Math.sqrt(ree);
}

/**
 * Directivity index, DI = 10·lg Q (source) or −10·lg REE = 10·lg(1/REE) (microphone).
 *
 * @param factor Q, or 1/REE; > 0
 * @returns DI, dB
 * @throws RangeError when the factor ≤ 0
 */
export function directivityIndex(factor: number): number {
  requirePositive("directivity factor", factor);
  return 10 * Math.log10(factor);
}

/**
 * Directivity factor of a loudspeaker of stated coverage, Q = 180°/arcsin(sin(h/2)·sin(v/2)).
 *
 * Holds for a loudspeaker that radiates evenly within its −6 dB angles and little beyond.
 *
 * @param horizontal coverage angle h, rad, > 0; wider than π counts as π, where the formula gives a half-space
 * @param vertical coverage angle v, rad, likewise
 * @returns Q, ≥ 2. Source: Molloy 1969 (recalled)
 * @throws RangeError when an angle ≤ 0
 */
export function coverageFactor(horizontal: number, vertical: number): number {
  requirePositive("horizontal coverage angle", horizontal);
  requirePositive("vertical coverage angle", vertical);
  const half = (angle: number): number => Math.sin(Math.min(angle, Math.PI) / 2);
  return Math.PI / Math.asin(half(horizontal) * half(vertical));
}

/** Share of the stated coverage's Q that a box holds in each band (model choice; a box cannot aim a long wave). */
const COVERAGE_SHARE: Bands = [0.1, 0.2, 0.33, 0.65, 1, 1, 1];

/**
 * Directivity factor in all bands of a loudspeaker of stated coverage: the whole Q from 2 kHz up, × 0.65, 0.33, 0.2, 0.1 at
 * 1 kHz, 500, 250, 125 Hz, never under 1 (model choice).
 *
 * @param horizontal coverage angle, rad
 * @param vertical coverage angle, rad
 * @returns Qₖ
 * @throws RangeError when an angle ≤ 0
 */
export function coverageBands(horizontal: number, vertical: number): Bands {
  const q = coverageFactor(horizontal, vertical);
  return bands((k) => Math.max(1, COVERAGE_SHARE[k] * q));
}
