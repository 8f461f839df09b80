/** Hearing loops, receivers, interpreters' earphones and recorders: whose words they get, and how the drawing shows them. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { flowOf } from "../../server/signal/drawing";
import { makeGraph } from "../../server/signal/graph";
import type { Run } from "../../server/signal/drawing/flow";
import { judged, raised } from "../catalogue/harness";

const LOFT = readFileSync("samples/two-languages.bothways", "utf8");
const CHAPEL = ["kit", "chapel", "harvest-sent-back"].map((name) => readFileSync(`samples/low-moor-chapel/${name}.bothways`, "utf8").replace(/^(bothways|use) .*$/gmu, "")).join("\n");

function flow(text: string, item: string) {
  const study = judged(text);
  return flowOf(makeGraph(study.setup, item), study.ways);
}
const feeds = (text: string, item = "talk"): Run[] => flow(text, item).bands.flatMap((band) => band.runs.filter((run) => run.id.startsWith("feed ")));
const way = (run: Run | undefined): string => (run === undefined ? "" : [run.hops[0]?.from, ...run.hops.map((hop) => hop.to)].join(" > "));

describe("an evening in two languages", () => {
  test("is in order, and the interpreter need not be heard by the call", () => {
    const study = judged(LOFT);
    expect(study.problems).toEqual([]);
    // The display beside the lectern is in the picture of whoever stands there: a small loft has no other place for it.
    expect(study.findings.map((f) => `${f.severity} ${f.code}`)).toEqual(["hint picture-loop"]);
    expect(study.ways.filter((w) => w.verdict !== "works")).toEqual([]);
  });

  test.each([
    ["the interpreter hears nobody", ["bus floor to desk.phones { holds reader and online }", "bus floor to desk.phones { holds booth }"], "headpiece", "Lena"],
    ["the interpreter does not hear those online", ["holds reader and online }        #", "holds reader }        #"], "headpiece", "the people online"],
    ["the receivers give the floor in place of the booth", ["{ holds booth }", "{ holds reader }"], "receivers", "Lena"],
    ["the recorder gets the booth alone", ["bus to-keep to desk.main-left { holds reader and online }", "bus to-keep to desk.main-left { holds booth }"], "memory", "Ines"],
  ] as const)("%s", (_, [from, to], device, named) => {
    expect(LOFT).toContain(from);
    const found = raised(judged(LOFT.replace(from, to)), "loop-misses");
    expect(found.map((f) => f.subjects)).toEqual([[device]]);
    expect(found[0]?.severity).toBe("error");
    expect(found[0]?.message).toContain(named);
  });

  test("without carries, receivers and recorders are taken to hold what they hold", () => {
    const text = LOFT.replace(", carries Lena", "").replace(", carries Ines", "").replace("{ holds booth }", "{ holds reader }");
    expect(raised(judged(text), "loop-misses")).toEqual([]);
    expect(feeds(text).filter((run) => run.id.includes("receivers")).map(way)).toEqual(["Ines > lectern-mic > desk > receivers > audience"]);
  });

  test("is drawn: each feed a run to those who listen, or into the recorder", () => {
    expect(feeds(LOFT).map(way).sort()).toEqual([
      "Ines > lectern-mic > desk > headpiece > Lena", "Ines > lectern-mic > desk > memory", "Lena > headpiece > desk > receivers > audience",
      "people online > the call > laptop > desk > headpiece > Lena", "people online > the call > laptop > desk > memory",
    ]);
  });
});

test("a loop that nothing leads to is drawn as a gap", () => {
  const text = readFileSync("samples/reading-room/poetry-loop-forgotten.bothways", "utf8");
  const runs = feeds(text, "poems").filter((run) => !run.complete);
  expect(runs.map(way)).toEqual(["people online > loop > audience"]);
  expect(runs[0]?.hops[0]?.gap).toBe("nothing leads there");
});

describe("a mix that holds the call, held by a canceller alone", () => {
  test("is drawn as an echo that turns in the mixer", () => {
    const [mix, ...more] = flow(CHAPEL, "readings").echoes;
    expect(more).toEqual([]);
    expect(way(mix)).toBe("people online > the call > laptop > interface > desk > interface > laptop > the call > people online");
    expect(mix?.hops[mix.turnsAt ?? 0]?.to).toBe("desk");
  });

  test("without the return there is none", () => {
    expect(flow(CHAPEL.replace("    holds all\n", "    holds all\n    holds no online\n"), "readings").echoes).toEqual([]);
  });
});
