/** How loud a loudspeaker will be set when nobody has said. */

/** Level of speech that listeners want in quiet, dBA (common practice). */
export const LISTENING_LEVEL = 65;

/** Speech over noise that listeners want, dB (common practice). */
export const WANTED_OVER_NOISE = 20;

/** A loudspeaker's level as a volunteer would set it. */
export interface SolvedLevel {
  /** Level at 1 m on the axis, dBA. */
  readonly level: number;
  /** The wanted level lies above the maximum: the median listener gets less. */
  readonly capped: boolean;
}

/**
 * Median of a list.
 *
 * @param values any numbers
 * @returns the middle one, or the mean of the two middle ones; NaN for an empty list
 */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? NaN;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] ?? NaN;
  return (upper + lower) / 2;
}

/**
 * Level at 1 m at which the median seat gets max(65, noise + 20) dBA, no more than the device can give (model choice: whoever
 * sets the volume goes by the middle of the room).
 *
 * @param seats H of each seat, A-weighted, dB; with no seats, as for one listener at 1 m (H = 0)
 * @param noise N in the room, dBA
 * @param maximum greatest speech level of the device at 1 m, dBA; Infinity where unknown
 * @returns the level and whether the maximum caps it
 */
export function solveLevel(seats: readonly number[], noise: number, maximum: number): SolvedLevel {
  const wanted = Math.max(LISTENING_LEVEL, noise + WANTED_OVER_NOISE) - (seats.length === 0 ? 0 : median(seats));
  return { level: Math.min(wanted, maximum), capped: wanted > maximum };
}
