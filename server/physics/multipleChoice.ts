/**
 * The best choice of one option from each of several groups that together cost no more than there is: the multiple-choice knapsack
 * problem, groups in classes of which the first counts before all others. Exact, by dynamic programming over values.
 */
import { requireNonNegative } from "./domain";

/** One way to have what a group stands for. */
export interface Option {
  /** What it takes, in whatever whole unit the budget has; ≥ 0. */
  readonly cost: number;
  /** What it is worth within its class: a whole number ≥ 1. */
  readonly value: number;
}

/** Options of which at most one is taken. */
export type Group = readonly Option[];

/** More worth than this in one class is refused: the table of a class has as many entries for each group. */
const MOST_WORTH = 4096;

/**
 * For each group of each class which option is taken; −1 where none is.
 *
 * Of all choices that cost no more than the budget it is the one whose first class is worth most; of those, the one whose second
 * class is worth most, and so on. Of choices worth the same in a class the cheapest is taken, and of those equally cheap the one
 * whose earlier group has the more valuable option.
 *
 * Classes do not compete for worth, only for what is left, and the cheapest choice of greatest worth leaves most: so one class
 * after the other is exact.
 *
 * @param classes most important first
 * @param budget what there is, ≥ 0
 * @returns the index of the option taken, by class and group
 * @throws RangeError when budget or a cost is negative, or a value is no whole number ≥ 1
 */
export function bestWithin(classes: readonly (readonly Group[])[], budget: number): number[][] {
  requireNonNegative("budget", budget);
  let left = budget;
  return classes.map((groups) => {
    const { taken, cost } = bestOfClass(groups, left);
    left -= cost;
    return taken;
  });
}

function bestOfClass(groups: readonly Group[], budget: number): { taken: number[]; cost: number } {
  for (const option of groups.flat()) {
    requireNonNegative("cost", option.cost);
    if (!Number.isInteger(option.value) || option.value < 1) throw new RangeError(`value must be a whole number of at least 1, is ${option.value}`);
  }
  const most = groups.reduce((sum, group) => sum + Math.max(0, ...group.map((option) => option.value)), 0);
  if (most > MOST_WORTH) throw new RangeError(`a class must be worth no more than ${MOST_WORTH}, is worth ${most}`);
  // least[g][v]: least cost at which groups g and later are worth v.
  const least: Float64Array[] = Array.from({ length: groups.length + 1 }, () => new Float64Array(most + 1).fill(Infinity));
  const behind = least[groups.length];
  if (behind !== undefined) behind[0] = 0;
  for (let g = groups.length - 1; g >= 0; g -= 1) {
    const [here, next] = [least[g], least[g + 1]];
    if (here === undefined || next === undefined) continue;
    for (let v = 0; v <= most; v += 1) {
      let cost = next[v] ?? Infinity;
      for (const option of groups[g] ?? []) if (option.value <= v) cost = Math.min(cost, option.cost + (next[v - option.value] ?? Infinity));
      here[v] = cost;
    }
  }
  let worth = most;
  while (worth > 0 && (least[0]?.[worth] ?? Infinity) > budget) worth -= 1;
  const cost = least[0]?.[worth] ?? 0;
  const taken = groups.map((group, g) => {
    const now = least[g]?.[worth] ?? 0;
    const next = least[g + 1];
    let pick = -1;
    group.forEach((option, i) => {
      const fits = option.value <= worth && option.cost + (next?.[worth - option.value] ?? Infinity) === now;
      if (fits && option.value > (group[pick]?.value ?? 0)) pick = i;
    });
    worth -= group[pick]?.value ?? 0;
    return pick;
  });
  return { taken, cost };
}
