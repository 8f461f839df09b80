/** Articulation loss of consonants, an older measure of clarity in reverberation; kept for comparison with the index. */
import { requireNonNegative, requirePositive } from "./domain";

/** Critical distances beyond which only the reverberation counts. Another source has 3.5 and a term for the listener. */
export const ARTICULATION_LIMIT = 3.16;

/** Articulation loss that is a common maximum, %; an older one is 15. Source: common practice. */
export const ARTICULATION_ACCEPTABLE = 10;

/**
 * Articulation loss of consonants, ALcons = 200·r²·T²/(V·Q) up to 3.16 Dc, 9·T beyond, %, at most 100.
 *
 * Valid without noise, T about that of 2 kHz. The two forms do not meet: at 3.16 Dc the first gives about 6.5·T. Whichever says so is
 * taken as it stands, so the loss jumps there.
 *
 * @param distance r, m, ≥ 0
 * @param time T, s, ≥ 0
 * @param volume V, m³, > 0
 * @param q directivity factor of the source, > 0
 * @param limit distance up to which the first form holds, m; 3.16·0.057·√(QV/T) when left out
 * @returns %, 0 … 100. Source: Peutz 1971 (as transcribed)
 * @throws RangeError when a value lies outside its range
 */
export function articulationLoss(
  distance: number, time: number, volume: number, q: number, limit = articulationLimit(time, volume, q),
): number {
  requireNonNegative("distance", distance);
  requireNonNegative("reverberation time", time);
  requirePositive("volume", volume);
  requirePositive("directivity factor", q);
  return Math.min(100, distance <= limit ? (200 * distance ** 2 * time ** 2) / (volume * q) : 9 * time);
}

/**
 * Distance up to which articulation loss grows, 3.16·Dc, Dc = 0.057·√(QV/T).
 *
 * @returns m; Infinity without reverberation. Source: Peutz 1971 (as transcribed)
 */
export function articulationLimit(time: number, volume: number, q: number): number {
  return ARTICULATION_LIMIT * 0.057 * Math.sqrt((q * volume) / time);
}

/**
 * Speech transmission index of an articulation loss, STI = 0.9482 − 0.1845·ln ALcons, kept within 0 … 1.
 *
 * @param loss ALcons, %, > 0
 * @returns STI. Source: common practice, an empirical fit
 * @throws RangeError when the loss is not above 0
 */
export function stiFromArticulationLoss(loss: number): number {
  requirePositive("articulation loss", loss);
  return Math.min(1, Math.max(0, 0.9482 - 0.1845 * Math.log(loss)));
}
