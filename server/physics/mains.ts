/** Load on mains outlets and circuits. Planning figures: the venue, the local code and licensed people have the last word. */
import { requirePositive } from "./domain";

/** Share of a circuit's rating for a load of three hours or more (US National Electrical Code 210.20(A); caution elsewhere). */
export const CONTINUOUS_SHARE = 0.8;

/** Duration from which a load counts as continuous, s. */
export const CONTINUOUS_FROM = 3 * 3600;

/**
 * Power that an outlet, lead or circuit may carry, P = I·U, or 80 % of it for a continuous load.
 *
 * @param amperes I, rating of the weakest part, A, > 0
 * @param volts U, V, > 0
 * @param continuous the load lasts three hours or more
 * @returns P, W. Source: arithmetic; NEC 210.20(A) for the 80 %
 * @throws RangeError when a rating ≤ 0
 */
export function ratedPower(amperes: number, volts: number, continuous = false): number {
  requirePositive("current rating", amperes);
  requirePositive("voltage", volts);
  return amperes * volts * (continuous ? CONTINUOUS_SHARE : 1);
}
