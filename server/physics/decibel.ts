/** Levels and powers. */

/**
 * Level of a power ratio, L = 10·lg p.
 *
 * @param power p, ratio to the reference, ≥ 0; 0 gives −Infinity, Infinity gives Infinity
 * @returns level, dB
 * @throws RangeError when the power is negative or NaN
 */
export function toDb(power: number): number {
  if (!(power >= 0)) throw new RangeError(`A power must not be less than 0, not ${power}.`);
  return 10 * Math.log10(power);
}

/**
 * Power ratio of a level, p = 10^(L/10).
 *
 * @param level L, dB; −Infinity gives 0
 * @returns ratio to the reference
 */
export function toPower(level: number): number {
  return 10 ** (level / 10);
}

/**
 * Level of several incoherent contributions together, L = 10·lg Σ 10^(Lᵢ/10).
 *
 * The greatest level is taken out of the sum first, so that very high or very low levels neither overflow nor vanish.
 *
 * @param levels Lᵢ, dB; an empty list gives −Infinity (silence)
 * @returns level of the sum, dB
 */
export function powerSum(levels: readonly number[]): number {
  const greatest = levels.reduce((most, level) => Math.max(most, level), -Infinity);
  if (!Number.isFinite(greatest)) return greatest;
  return greatest + toDb(levels.reduce((sum, level) => sum + toPower(level - greatest), 0));
}
