/** What is given up first: the best set for every uplink against a general-purpose optimiser, and what must hold on the way down. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { solve } from "yalps";
import { readSetup, type Setup } from "../../server/model/setup";
import { fittingSet, fittingSets, fittingWithAll, laddersOf, stepsDown, type FittingSet, type Ladders } from "../../server/signal/giving-up";
import { sendingIn, streamsOver, Wrap } from "../../server/signal/streams";

const read = (text: string): Setup => readSetup({ read: (path) => (path === "it.bothways" ? { text } : { problem: "none" }) }, "it.bothways");
const ladders = (text: string): Ladders => {
  const setup = read(text);
  expect(setup.problems.map((p) => p.message)).toEqual([]);
  const internet = setup.internets[0];
  return laddersOf(setup, streamsOver(sendingIn(setup, undefined), internet), new Wrap(setup, internet));
};
const evening = (call: string): string => `setup "E"
room hall 8 m by 6 m
place laptop is laptop, at lectern
place stage is webcam, behind lectern
place phone is phone, at left
place tablet is tablet, at right
cable from stage.usb to laptop.usb-1
internet venue { up 4 Mb/s }
${call}
join laptop {
  sends sound
  sends picture from stage at 720p30
  shows slides
}
join phone { sends sound, sends picture at 720p30 }
join tablet { sends no sound, sends picture at 540p30 }
`;

/** The worth of each class by the optimiser, one after the other; a step up counts one. */
function byOptimiser(all: Ladders, budget: number): number[] {
  const reached: number[] = [];
  all.forEach((_, now) => {
    const constraints: Record<string, { max?: number; min?: number }> = { cost: { max: budget } };
    const variables: Record<string, Record<string, number>> = {};
    all.forEach((one, c) => one.forEach((ladder, g) => {
      constraints[`one ${c} ${g}`] = { max: 1 };
      ladder.levels.forEach((level, o) => { variables[`${c} ${g} ${o}`] = { cost: level.cost, [`one ${c} ${g}`]: 1, [`worth ${c}`]: ladder.levels.length - o }; });
    }));
    reached.forEach((least, c) => { constraints[`worth ${c}`] = { min: least }; });
    const found = solve({ direction: "maximize", objective: `worth ${now}`, constraints, variables, binaries: true }, { tolerance: 0 });
    expect(found.status).toBe("optimal");
    reached.push(Math.abs(Math.round(found.result)));
  });
  return reached;
}
const worth = (all: Ladders, set: FittingSet): number[] => all.map((one) => one.reduce((sum, ladder) => {
  const level = set.levels.get(ladder);
  return sum + (level === undefined ? 0 : ladder.levels.length - ladder.levels.indexOf(level));
}, 0));

describe("what is given up first", () => {
  test.each(["", "call { keeps phone and laptop }", "call { codec vp9, packets 40 ms, keeps laptop }"])("at every uplink the set is as good as a general-purpose optimiser's: %s", (call) => {
    const all = ladders(evening(call));
    const most = fittingSet(all, Infinity).cost;
    fc.assert(fc.property(fc.integer({ min: 0, max: Math.ceil(most * 1.1) }), (budget) => {
      const set = fittingSet(all, budget);
      expect(set.cost).toBeLessThanOrEqual(budget);
      expect(worth(all, set)).toEqual(byOptimiser(all, budget));
    }), { numRuns: 60 });
  });
  test("the table is complete: between two of its rows the upper one is not to be had, and the lower one is the best", () => {
    const all = ladders(evening(""));
    const sets = fittingSets(all);
    expect(sets[0]?.cost).toBe(fittingSet(all, Infinity).cost);
    expect(sets.at(-1)?.cost).toBe(0);
    sets.forEach((set, i) => {
      const above = sets[i - 1];
      if (above === undefined) return;
      expect(set.cost).toBeLessThan(above.cost);
      for (const budget of [set.cost, above.cost - 1]) expect(worth(all, fittingSet(all, budget))).toEqual(worth(all, set));
    });
  });
  test("sound comes before every picture: as long as any picture or slide is there, all sound is as planned", () => {
    const all = ladders(evening(""));
    for (const set of fittingSets(all)) {
      const sounds = all.flat().filter((ladder) => ladder.stream.what === "sound");
      const others = all.flat().filter((ladder) => ladder.stream.what !== "sound" && set.levels.get(ladder) !== undefined);
      if (others.length > 0) for (const ladder of sounds) expect(set.levels.get(ladder)?.planned).toBe(true);
    }
  });
  test("walking down, nothing is turned up again, and each step takes less", () => {
    const all = ladders(evening(""));
    const steps = stepsDown(all);
    steps.forEach((set, i) => {
      const before = steps[i - 1];
      if (before === undefined) return;
      expect(set.cost).toBeLessThan(before.cost);
      for (const ladder of all.flat()) {
        const at = (one: FittingSet): number => { const level = one.levels.get(ladder); return level === undefined ? 99 : ladder.levels.indexOf(level); };
        expect(at(set)).toBeGreaterThanOrEqual(at(before));
      }
    });
  });
  test("the order is the author's where the text states one: the phone's picture outlasts slides and stage", () => {
    const last = (call: string): string | undefined => {
      const all = ladders(evening(call));
      const set = stepsDown(all).filter((one) => all.flat().some((ladder) => ladder.stream.what !== "sound" && one.levels.get(ladder) !== undefined)).at(-1);
      return all.flat().find((ladder) => ladder.stream.what !== "sound" && set?.levels.get(ladder) !== undefined)?.stream.title;
    };
    expect(last("")).toBe("the slides of laptop");
    expect(last("call { keeps phone and laptop }")).toBe("phone.camera at 720p30");
    expect(last("call { keeps stage }")).toBe("stage at 720p30");
  });
  test("where every picture is to stay, each does, and nothing fits under the least of them", () => {
    const all = ladders(evening(""));
    const pictures = all.flat().filter((ladder) => ladder.stream.picture !== undefined);
    const least = pictures.reduce((sum, ladder) => sum + (ladder.levels.at(-1)?.cost ?? 0), 0);
    expect(fittingWithAll(all, least - 1)).toBeUndefined();
    const set = fittingWithAll(all, 2_600_000);
    expect(set?.cost).toBeLessThanOrEqual(2_600_000);
    for (const ladder of pictures) expect(set?.levels.get(ladder)).toBeDefined();
  });
});
