/** Whether what a plan answers is enough, and how it is shown. */
import type { Answer } from "./plan";

/** Whether a value is enough: at least so much, or, of what one wants little of, at most. */
export const isEnough = ({ better, enough }: Pick<Answer, "better" | "enough">, value: number): boolean => (better === "more" ? value >= enough : value <= enough);

/**
 * A value as it is shown, rounded, but never across the limit: a seat on which 16 stands is no seat that has less than 16, and what
 * falls short of 16 is shown as 15.
 */
export function shownAt(answer: Pick<Answer, "better" | "enough" | "decimals">, value: number): number {
  const rounded = Number(value.toFixed(answer.decimals));
  if (isEnough(answer, rounded) === isEnough(answer, value)) return rounded;
  const step = 10 ** -answer.decimals;
  return Number((isEnough(answer, value) === (answer.better === "more") ? rounded + step : rounded - step).toFixed(answer.decimals));
}
