/**
 * The domain in which a formula holds. A value outside it is a mistake of the calling program, not of the meeting: it is
 * refused by name, so that no nonsense travels on as NaN.
 */

/**
 * Refuses a quantity that is not greater than zero.
 *
 * @param name what the quantity is, as the sentence should call it
 * @param value the quantity; +Infinity passes, NaN does not
 * @throws RangeError when value ≤ 0 or NaN
 */
export function requirePositive(name: string, value: number): void {
  if (!(value > 0)) throw new RangeError(`The ${name} must be greater than 0, not ${value}.`);
}

/**
 * Refuses a quantity that is less than zero.
 *
 * @param name what the quantity is, as the sentence should call it
 * @param value the quantity; +Infinity passes, NaN does not
 * @throws RangeError when value < 0 or NaN
 */
export function requireNonNegative(name: string, value: number): void {
  if (!(value >= 0)) throw new RangeError(`The ${name} must not be less than 0, not ${value}.`);
}

/**
 * Refuses a quantity outside a closed interval.
 *
 * @param name what the quantity is, as the sentence should call it
 * @param value the quantity
 * @param least lower end, included
 * @param most upper end, included
 * @throws RangeError when value lies outside or is NaN
 */
export function requireWithin(name: string, value: number, least: number, most: number): void {
  if (!(value >= least && value <= most)) {
    throw new RangeError(`The ${name} must lie between ${least} and ${most}, not ${value}.`);
  }
}
