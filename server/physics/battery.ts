/** How long a battery lasts. Energy in joules, 1 Wh = 3600 J; charge in coulombs, 1 mAh = 3.6 C. */
import { requireNonNegative, requirePositive, requireWithin } from "./domain";

/** Nominal voltage of a lithium-ion cell, V (recalled): what the mAh of a power bank are printed for. */
export const CELL_VOLTAGE = 3.7;

/**
 * Time that a battery feeds a load, t = E·η·(1 − reserve)/P.
 *
 * @param energy E, J (or Wh: then the result is in hours)
 * @param load P, W, ≥ 0
 * @param efficiency η, share of the printed energy that reaches the load, 0 … 1: converter losses and ageing
 * @param reserve share kept back, 0 … 1
 * @returns t, s; Infinity without a load
 * @throws RangeError when energy or load is negative, or a share outside 0 … 1
 */
export function runtime(energy: number, load: number, efficiency = 1, reserve = 0): number {
  requireNonNegative("energy", energy);
  requireNonNegative("load", load);
  requireWithin("efficiency", efficiency, 0, 1);
  requireWithin("reserve", reserve, 0, 1);
  return load === 0 ? Infinity : (energy * efficiency * (1 - reserve)) / load;
}

/**
 * Energy of a charge, E = Q·U.
 *
 * @param charge Q, C (or Ah: then the result is in Wh)
 * @param voltage U at which the charge is printed, V, > 0: the cell's, not the plug's
 * @returns E, J
 * @throws RangeError when the charge is negative or the voltage ≤ 0
 */
export function energyOfCharge(charge: number, voltage = CELL_VOLTAGE): number {
  requireNonNegative("charge", charge);
  requirePositive("voltage", voltage);
  return charge * voltage;
}
