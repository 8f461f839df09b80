/** What one trial has computed serves another that differs only in values which the result did not read: it must come out as computed anew. */
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../server/checks/catalogue";
import { judge, Trials } from "../../server/judge";
import { Trial, shelfOf } from "../../server/model/trial";
import { readSetup } from "../../server/model/setup";
import { makeGraph } from "../../server/signal/graph";
import { bothwaysFiles, inMemory } from "../language/folder";

const SAMPLES = bothwaysFiles("samples");
const { makeSetup, hallOf } = (await import(new URL("../../.scripts/make-setup.mjs", import.meta.url).href)) as {
  readonly makeSetup: (lines: number) => string; readonly hallOf: (of: { readonly seats: number; readonly speakers: number; readonly mics: number }) => string;
};
const own = (text: string): readonly [string, ReadonlyMap<string, string>] => ["it.bothways", new Map([["it.bothways", text]])];
const TEXTS: readonly (readonly [path: string, files: ReadonlyMap<string, string>])[] = [
  ...["parish-council/chamber-all-open", "low-moor-chapel/harvest-sent-back", "rowing-club/two-laptops", "association/autumn"]
    .map((name) => [[...SAMPLES.keys()].find((path) => path.endsWith(`${name}.bothways`)) ?? expect.fail(name), SAMPLES] as const),
  own(makeSetup(100)), own(hallOf({ seats: 24, speakers: 3, mics: 3 })),
];

describe("a case at either end of each value that it reads", () => {
  test.each(TEXTS)("comes out of trials that share as out of a trial by itself: %s", (path, files) => {
    const setup = readSetup(inMemory(files), path);
    // One shelf for all cases and items, as in a study.
    const trials = new Trials(shelfOf(setup));
    let compared = 0;
    for (const item of [setup.items[0]?.name, setup.items.at(-1)?.name]) {
      const scene = { setup, item, graph: makeGraph(setup, item) };
      for (const subject of CHECKS.flatMap((check) => check.cases(scene))) {
        const judged = judge(subject, trials);
        for (const { value } of judged?.swings ?? []) {
          for (const end of ["low", "high"] as const) {
            const shared = subject.measure(trials.at(value.id, end));
            const alone = subject.measure(new Trial(new Map([[value.id, end]])));
            expect([shared?.severity, shared?.badness, shared?.cause.key, shared?.measured], `${subject.key} with ${value.id} at its ${end} end`)
              .toEqual([alone?.severity, alone?.badness, alone?.cause.key, alone?.measured]);
            compared += 1;
          }
        }
      }
    }
    expect(compared).toBeGreaterThan(20);
  });
});
