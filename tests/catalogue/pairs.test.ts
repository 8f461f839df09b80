import { describe, expect, test } from "vitest";
import { CATALOGUE } from "../../server/checks/catalogue";
import { BREAKS } from "./breaks";
import { holdsTrue, judged, raised } from "./harness";
import { PAIRS } from "./pairs";

describe("each code has a setup that raises it and a neighbour that does not", () => {
  test.each([...PAIRS, ...BREAKS].map((pair) => [pair.code, pair.about, pair] as const))("%s: %s", (_code, _about, pair) => holdsTrue(pair));

  test("no code is without its pair, and no pair without its code", () => {
    expect([...new Set(PAIRS.map((pair) => pair.code))].sort()).toEqual(CATALOGUE.map((entry) => entry.code).sort());
  });
});

describe("gaps in the plan", () => {
  test("of each it is said with whom it is settled", () => {
    const gaps = CATALOGUE.filter((entry) => entry.severity === "plan");
    expect(gaps.length).toBeGreaterThan(10);
    expect(gaps.filter((entry) => entry.settle === undefined).map((entry) => entry.code)).toEqual([]);
  });
});

describe("what is judged rightly without a finding", () => {
  test("an uplink that nobody measured is a question, never a finding", () => {
    const it = judged('setup "Q"\nroom 8 m by 6 m\nplace laptop is laptop, at lectern\njoin laptop\nonline 3 people\n');
    expect(raised(it, "uplink-short")).toEqual([]);
    expect(it.ways.find((w) => w.way === "internet")?.verdict).toBe("cannot-tell");
    expect(it.questions.some((q) => q.ways.includes("internet"))).toBe(true);
  });

  test("one device that plays and sends: its canceller holds what it plays itself", () => {
    const it = judged('setup "Q"\nroom 8 m by 6 m\nplace laptop is laptop, at lectern\njoin laptop { sends sound, plays sound }\nonline 3 people\n');
    expect(raised(it, "echo-path")).toEqual([]);
    expect(it.ways.find((w) => w.way === "call")?.verdict).toBe("works");
  });

  test("forty live devices in one room are one finding, and one mend silences all but the first", () => {
    const joins = Array.from({ length: 40 }, (_, i) => `place l${i} is laptop, at (${1 + (i % 8)} m, ${1 + Math.floor(i / 8)} m)\njoin l${i} { sends sound, plays sound, sends no picture }\n`).join("");
    const it = judged(`setup "Forty"\nroom 10 m by 7 m\nonline 3 people\n${joins}`);
    expect(raised(it, "echo-path")).toHaveLength(1);
    const titles = it.remedies(it.findings.find((f) => f.code === "echo-path") ?? expect.fail("no echo")).map((r) => r.title);
    expect(titles[0]).toBe("Turn off the sound of every device but l0");
  });
});
