import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solve } from "yalps";
import { bestWithin, type Group } from "../../server/physics/multipleChoice";

const cost = (classes: readonly (readonly Group[])[], taken: readonly (readonly number[])[]): number =>
  classes.reduce((sum, groups, c) => sum + groups.reduce((s, group, g) => s + (group[taken[c]?.[g] ?? -1]?.cost ?? 0), 0), 0);
const worth = (groups: readonly Group[], taken: readonly number[]): number => groups.reduce((s, group, g) => s + (group[taken[g] ?? -1]?.value ?? 0), 0);

/** The worth of each class by the general-purpose integer optimiser: one class after the other, those before held at what they reached. */
function byOptimiser(classes: readonly (readonly Group[])[], budget: number): number[] {
  const reached: number[] = [];
  classes.forEach((_, now) => {
    const constraints: Record<string, { max?: number; min?: number }> = { cost: { max: budget } };
    const variables: Record<string, Record<string, number>> = {};
    classes.forEach((groups, c) => groups.forEach((group, g) => {
      constraints[`one ${c} ${g}`] = { max: 1 };
      group.forEach((option, o) => { variables[`${c} ${g} ${o}`] = { cost: option.cost, [`one ${c} ${g}`]: 1, [`worth ${c}`]: option.value }; });
    }));
    reached.forEach((least, c) => { constraints[`worth ${c}`] = { min: least }; });
    const found = solve({ direction: "maximize", objective: `worth ${now}`, constraints, variables, binaries: true }, { tolerance: 0 });
    expect(found.status).toBe("optimal");
    reached.push(Math.abs(Math.round(found.result)));
  });
  return reached;
}

const option = fc.record({ cost: fc.integer({ min: 1, max: 60 }), value: fc.integer({ min: 1, max: 6 }) });
const classesOf = fc.array(fc.array(fc.array(option, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 3 });

describe("the best choice of one option from each group", () => {
  test("common practice, no source: where taking the dearest that fits leaves worth behind, the best does not", () => {
    // By greed the first group takes 3 for 6 and leaves 4: 3 in all. The best is 2 + 2 for 4 + 4.
    const groups: Group[] = [[{ cost: 6, value: 3 }, { cost: 4, value: 2 }], [{ cost: 4.5, value: 2 }]];
    expect(bestWithin([groups], 9)).toEqual([[1, 0]]);
    expect(bestWithin([groups], 10.5)).toEqual([[0, 0]]);
  });
  test("what comes first counts before all else, and of equal worth the cheapest leaves most", () => {
    const sound: Group = [{ cost: 5, value: 2 }, { cost: 3, value: 1 }];
    const picture: Group = [{ cost: 20, value: 9 }, { cost: 4, value: 1 }];
    expect(bestWithin([[sound], [picture]], 23)).toEqual([[0], [1]]);
    expect(bestWithin([[sound], [picture]], 25)).toEqual([[0], [0]]);
    expect(bestWithin([[sound], [picture]], 4)).toEqual([[1], [-1]]);
    expect(bestWithin([[sound], [picture]], 2)).toEqual([[-1], [-1]]);
    expect(bestWithin([[[{ cost: 5, value: 1 }, { cost: 2, value: 1 }]], [[{ cost: 4, value: 1 }]]], 6)).toEqual([[1], [0]]);
  });
  test("a general-purpose optimiser for integer programs reaches the same worth in every class", () => {
    fc.assert(fc.property(classesOf, fc.integer({ min: 0, max: 250 }), (classes, budget) => {
      const taken = bestWithin(classes, budget);
      expect(cost(classes, taken)).toBeLessThanOrEqual(budget);
      expect(classes.map((groups, c) => worth(groups, taken[c] ?? []))).toEqual(byOptimiser(classes, budget));
    }), { numRuns: 200 });
  });
  // Of forty groups the twenty cheapest at 4 each would cost 8190; at 78 in all they cost 7990.
  test("what cannot be is refused by name, and forty groups are no burden", () => {
    expect(() => bestWithin([], -1)).toThrow(/budget/);
    expect(() => bestWithin([[[{ cost: -1, value: 1 }]]], 1)).toThrow(/cost/);
    expect(() => bestWithin([[[{ cost: 1, value: 0.5 }]]], 1)).toThrow(/value/);
    expect(() => bestWithin([[[{ cost: 1, value: 1e6 }]]], 1)).toThrow(/worth/);
    const forty: Group[] = Array.from({ length: 40 }, (_, i) => [4, 3, 2, 1].map((value) => ({ cost: value * 100 + i, value })));
    expect(worth(forty, bestWithin([forty], 8000)[0] ?? [])).toBe(78);
  });
});
