/** Exposure of ears: how long a level may last. */
import { requireNonNegative } from "./domain";

/** Level that may last eight hours, dBA. Source: NIOSH 1998. */
export const CRITERION_LEVEL = 85;

/** Time for which it may last, s. Source: NIOSH 1998. */
export const CRITERION_TIME = 8 * 3600;

/** Rise that halves the time, dB: equal energy. Source: NIOSH 1998. */
export const EXCHANGE_RATE = 3;

/**
 * Time for which a level may last, t = 8 h/2^((L − 85)/3).
 *
 * @param level L at the ear, dBA
 * @returns s; Infinity in silence. Source: NIOSH 1998
 */
export function permittedTime(level: number): number {
  return CRITERION_TIME / 2 ** ((level - CRITERION_LEVEL) / EXCHANGE_RATE);
}

/** A level and how long it lasts. */
export interface Exposure {
  /** dBA */
  readonly level: number;
  /** s */
  readonly time: number;
}

/**
 * Dose of an evening, D = Σ Cᵢ/tᵢ: times at each level over the times permitted.
 *
 * @param exposures one after the other
 * @returns D; 1 is a whole day's dose. Source: NIOSH 1998
 * @throws RangeError when a time is negative
 */
export function dose(exposures: readonly Exposure[]): number {
  return exposures.reduce((sum, { level, time }) => {
    requireNonNegative("time of exposure", time);
    return time === 0 ? sum : sum + time / permittedTime(level);
  }, 0);
}

/**
 * Level that fills a whole day's dose in a given time, L = 85 + 3·log₂(8 h/t).
 *
 * @param time t, s, > 0
 * @returns dBA; Infinity for no time. Source: NIOSH 1998
 * @throws RangeError when the time is negative
 */
export function permittedLevel(time: number): number {
  requireNonNegative("time of exposure", time);
  return CRITERION_LEVEL + EXCHANGE_RATE * Math.log2(CRITERION_TIME / time);
}
