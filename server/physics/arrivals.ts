/** Sounds that come to one place one after the other, and sound against picture. */
import { bands, type Bands } from "./bands";
import { powerSum } from "./decibel";

/** Gap from which two arrivals are heard as two, s. Source: common practice. */
export const LATE_FROM = 0.05;

/** How far below the other an arrival may be and still be heard apart, dB. Source: common practice. */
export const LATE_WITHIN = 10;

/** An arrival at a place: when, counted from the same moment for all, and how loud. */
export interface TimedLevel {
  /** s */
  readonly time: number;
  /** dB or dBA, alike for all. */
  readonly level: number;
}

/** Two arrivals that are heard apart, by their places in the list. */
export interface LatePair {
  readonly first: number;
  readonly later: number;
  /** s */
  readonly gap: number;
  /** How far the later one is below the first, dB; negative where it is louder. */
  readonly below: number;
}

/**
 * The widest gap between two arrivals that are heard apart: at least 50 ms, neither more than 10 dB below the other.
 *
 * An early arrival far weaker than the later is not noticed, as little as a late one.
 *
 * @param arrivals any order
 * @returns the pair of widest gap; undefined where all melt into one
 */
export function lateArrival(arrivals: readonly TimedLevel[]): LatePair | undefined {
  let worst: LatePair | undefined;
  arrivals.forEach((one, first) => {
    arrivals.forEach((other, later) => {
      const gap = other.time - one.time;
      const below = one.level - other.level;
      if (gap < LATE_FROM || Math.abs(below) > LATE_WITHIN || gap <= (worst?.gap ?? 0)) return;
      worst = { first, later, gap, below };
    });
  });
  return worst;
}

/**
 * Level of several incoherent sounds in bands, Lₖ = 10·lg Σ 10^(Lᵢₖ/10): what several loudspeakers give a seat.
 *
 * @param levels of each, dB; an empty list is silence
 * @returns Lₖ, dB
 */
export function sumOfLevels(levels: readonly Bands[]): Bands {
  return bands((k) => powerSum(levels.map((level) => level[k])));
}

/** Sound early (positive) or late (negative) against the picture that is just noticed, s. Source: ITU-R BT.1359 (by two secondary sources). */
export const SYNC_NOTICED = { early: 0.045, late: 0.125 } as const;

/** The same that is no longer accepted, s. Source: ITU-R BT.1359 (by two secondary sources). */
export const SYNC_ACCEPTED = { early: 0.09, late: 0.185 } as const;

/** How sound and picture go together. */
export type Sync = "together" | "noticed" | "unacceptable";

/**
 * Whether sound and picture are together: noticed beyond +45/−125 ms, unacceptable beyond +90/−185 ms (sound early/late).
 *
 * @param soundDelay delay of the sound, s
 * @param pictureDelay delay of the picture, s
 * @returns how it is taken. Source: ITU-R BT.1359 (by two secondary sources)
 */
export function lipSync(soundDelay: number, pictureDelay: number): Sync {
  const early = pictureDelay - soundDelay;
  const beyond = (limits: { early: number; late: number }): boolean => early > limits.early || -early > limits.late;
  return beyond(SYNC_ACCEPTED) ? "unacceptable" : beyond(SYNC_NOTICED) ? "noticed" : "together";
}
