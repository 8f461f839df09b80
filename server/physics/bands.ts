/** The octave bands in which all sound is computed, and what holds for every one of them. */

/** Octave-band mid frequencies, Hz (IEC 61260-1 nominal values). 63 Hz is left out: speech has nothing there. */
export const OCTAVES = [125, 250, 500, 1000, 2000, 4000, 8000] as const;

/** Position of a band in `OCTAVES`. */
export type BandIndex = 0 | 1 | 2 | 3 | 4 | 5 | 6;

/** One number for each octave band, in the order of `OCTAVES`. */
export type Bands = readonly [number, number, number, number, number, number, number];

/** The positions of all bands, for loops that need the type. */
export const BAND_INDICES: readonly BandIndex[] = [0, 1, 2, 3, 4, 5, 6];

/** The bands on which echo and howl are decided: 250 Hz to 4 kHz (model choice: what a call carries well). */
export const DECISION_BANDS: readonly BandIndex[] = [1, 2, 3, 4, 5];

/** Speed of sound c, m/s: 343 at 20 °C. */
export const SPEED_OF_SOUND = 343;

/** A-weighting of the octave bands, dB, by their exact mid-band values (IEC 61672-1, Table of A-weightings; recalled). */
export const A_WEIGHTING: Bands = [-16.1, -8.6, -3.2, 0, 1.2, 1.0, -1.1];

/**
 * Builds a value for every band.
 *
 * @param value gives the value of one band from its position and its mid frequency in Hz
 * @returns the seven values in the order of `OCTAVES`
 */
export function bands(value: (index: BandIndex, frequency: number) => number): Bands {
  const at = (index: BandIndex): number => value(index, OCTAVES[index]);
  return [at(0), at(1), at(2), at(3), at(4), at(5), at(6)];
}

/**
 * The same value in every band.
 *
 * @param value any number
 * @returns seven times that value
 */
export function flat(value: number): Bands {
  return bands(() => value);
}

/**
 * Weighted sum over the bands, Σ wₖ·xₖ. A band of weight 0 counts as 0 even where its value is infinite.
 *
 * @param weights wₖ, dimensionless
 * @param values xₖ, any unit
 * @returns the sum, in the unit of the values
 */
export function weightedSum(weights: Bands, values: Bands): number {
  return BAND_INDICES.reduce<number>((sum, k) => (weights[k] === 0 ? sum : sum + weights[k] * values[k]), 0);
}

/**
 * Time that sound needs for a distance, t = r/c.
 *
 * @param distance r, m, ≥ 0
 * @returns seconds, at 343 m/s
 */
export function travelTime(distance: number): number {
  return distance / SPEED_OF_SOUND;
}
