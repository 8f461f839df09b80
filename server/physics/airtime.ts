/** How stations share one radio channel, where each may send equally often: whoever is slow takes time from all. */
import { requireNonNegative, requirePositive } from "./domain";

/**
 * What each of several stations gets when all send as much as they can: 1/Σ(1/Rᵢ). With equal frames they get the same, near
 * that of the slowest. Headers, pauses and collisions come on top and are left out.
 *
 * @param rates Rᵢ, what each station reaches alone, bit/s, > 0
 * @returns bit/s for each of them. Source: arithmetic of equal frames, as measured by Heusse, Rousseau, Berger-Sabbatel and
 *   Duda 2003 (recalled)
 * @throws RangeError when a rate is ≤ 0 or there is none
 */
export function sharedRate(rates: readonly number[]): number {
  if (rates.length === 0) throw new RangeError("there must be at least one station");
  for (const rate of rates) requirePositive("rate", rate);
  return 1 / rates.reduce((sum, rate) => sum + 1 / rate, 0);
}

/**
 * Share of the time for which a channel is taken, Σ sᵢ/Rᵢ: over 1 it cannot be.
 *
 * @param stations sᵢ, what a station has to carry, and Rᵢ, what it reaches alone, bit/s
 * @returns share, 0 …
 * @throws RangeError when a rate is ≤ 0 or a load negative
 */
export function airtime(stations: readonly { readonly load: number; readonly rate: number }[]): number {
  for (const { load, rate } of stations) {
    requireNonNegative("load", load);
    requirePositive("rate", rate);
  }
  return stations.reduce((sum, { load, rate }) => sum + load / rate, 0);
}
