/** Background noise of a room. */
import type { Bands } from "./bands";
import { A_WEIGHTING, BAND_INDICES, bands } from "./bands";
import { powerSum } from "./decibel";

/**
 * Octave levels of the noise criterion curves, dB, 125 Hz … 8 kHz (63 Hz left out).
 *
 * Source: ANSI S12.2 (read in a transcription).
 */
export const NOISE_CRITERIA = {
  25: [44, 37, 31, 27, 24, 22, 22],
  30: [48, 41, 35, 32, 29, 28, 27],
  35: [52, 45, 40, 36, 34, 33, 32],
  40: [56, 50, 44, 41, 39, 38, 37],
} as const satisfies Record<number, Bands>;

/**
 * A-weighted level of a sound given in octaves, L = 10·lg Σ 10^((Lₖ + Aₖ)/10).
 *
 * @param levels Lₖ, dB, 125 Hz … 8 kHz
 * @returns L, dBA, of these seven bands
 */
export function aWeighted(levels: Bands): number {
  return powerSum(BAND_INDICES.map((k) => levels[k] + A_WEIGHTING[k]));
}

/**
 * Octave levels of room noise of which only the A-weighted level is known: the shape of NC-35, shifted (model choice; the hum
 * of ventilation and heating).
 *
 * @param level N, dBA
 * @returns Nₖ, dB, whose A-weighted sum is N
 */
export function noiseBands(level: number): Bands {
  const shape = NOISE_CRITERIA[35];
  const shift = level - aWeighted(shape);
  return bands((k) => shape[k] + shift);
}

/** Coefficients a and b of the noise rating curves, 125 Hz … 8 kHz. Source: common practice, published coefficients (as transcribed). */
const RATING_BASE: Bands = [22, 12, 4.8, 0, -3.5, -6.1, -8];
const RATING_SLOPE: Bands = [0.87, 0.93, 0.974, 1, 1.015, 1.025, 1.03];

/**
 * Octave levels of a noise rating curve, Lₖ = aₖ + bₖ·NR.
 *
 * @param rating NR, dB; by its definition the level at 1 kHz
 * @returns Lₖ, dB. Source: the noise rating's published coefficients (as transcribed)
 */
export function noiseRatingBands(rating: number): Bands {
  return bands((k) => RATING_BASE[k] + RATING_SLOPE[k] * rating);
}
