import { describe, expect, it } from "vitest";
import type { Ask } from "../../server/signal/ground-plan/plan";
import { isEnough, shownAt } from "../../server/signal/ground-plan/enough";
import type { Study } from "../../server/study";
import { judged, raised } from "../catalogue/harness";
import { CAMERA_PAIRS } from "../catalogue/pairs/cameras";
import { DISPLAY_PAIRS } from "../catalogue/pairs/displays";

/** Which question of the plan asks what a finding measures. */
const ASKED: Readonly<Record<string, Ask>> = { "text-small": "reads", "face-small": "faces", "heads-block": "heads", "off-axis": "aside" };

const answerOf = (study: Study, ask: Ask) => study.plan(undefined, ask).answer ?? expect.fail("no answer");
const pairs = [...DISPLAY_PAIRS, ...CAMERA_PAIRS];

describe("a plan says at the seats what the findings measure", () => {
  it.each(pairs.filter(({ code }) => ASKED[code] !== undefined).map((pair) => [pair.code, pair.about, pair] as const))("%s: %s", (code, _about, pair) => {
    const ask = ASKED[code] ?? expect.fail("no question");
    for (const text of [pair.raises, pair.doesNot]) {
      const study = judged(text, pair.beside);
      const answer = answerOf(study, ask);
      const values = Array.from(answer.values).filter((value) => !Number.isNaN(value));
      expect(values.length).toBeGreaterThan(0);
      // What is sent too coarsely is counted in pixels, and no matter of seats.
      const finding = raised(study, code).find((one) => one.measured?.unit === answer.unit);
      const worst = answer.better === "more" ? Math.min(...values) : Math.max(...values);
      if (finding?.measured !== undefined) expect(worst).toBeCloseTo(finding.measured.value, 9);
      expect(isEnough(answer, worst), `${worst}`).toBe(finding === undefined);
    }
  });

  it.each(pairs.filter(({ code }) => code === "out-of-frame").map((pair) => [pair.about, pair] as const))("out-of-frame: %s", (_about, pair) => {
    const saysOf = (text: string): { study: Study; says: string; framed: number } => {
      const study = judged(text, pair.beside);
      const { beside: people, values } = answerOf(study, "frame");
      return { study, says: people.get("ines") ?? "", framed: Array.from(values).filter((value) => !Number.isNaN(value)).length };
    };
    const bad = saysOf(pair.raises);
    expect(saysOf(pair.doesNot).says).toMatch(/^face \d+ pixels across$/u);
    const [finding] = raised(bad.study, "out-of-frame");
    if (pair.subjects[0] === "audience") expect(finding?.message).toContain(`has ${bad.framed} of 24 faces`);
    else if (pair.severity === "error") {
      expect(bad.says).not.toContain("face");
      expect(finding?.message).toContain(bad.says);
    } else expect(bad.says).toMatch(/walks out of the frame|cut off/u);
  });

  it("of many pixels over few people says the same as the finding on tiny faces", () => {
    for (const pair of pairs.filter(({ code }) => code === "face-tiny")) {
      const study = judged(pair.raises, pair.beside);
      expect(answerOf(study, "frame").beside.get("ines")).toBe(`face ${Math.round(raised(study, "face-tiny")[0]?.measured?.value ?? NaN)} pixels across`);
    }
  });
});

describe("a number on a seat", () => {
  it("is never rounded across the limit", () => {
    const more = { better: "more", enough: 16, decimals: 0 } as const;
    const less = { better: "less", enough: 20, decimals: 0 } as const;
    expect([15.4, 15.6, 15.999, 16, 16.4].map((value) => shownAt(more, value))).toEqual([15, 15, 15, 16, 16]);
    expect([19.6, 20, 20.2, 20.6].map((value) => shownAt(less, value))).toEqual([20, 20, 21, 21]);
    expect(shownAt({ better: "more", enough: 0.6, decimals: 1 }, 0.58)).toBe(0.5);
  });
});
