import { describe, expect, test } from "vitest";
import { FINISH_NAMES, FINISHES, PERSON_ON_WOODEN_CHAIR, TWO_PEOPLE_PER_SQUARE_METRE } from "../../server/physics/finishes";
import type { FinishName } from "../../server/physics/finishes";
import { BAND_INDICES } from "../../server/physics/bands";

// Typed in a second time from the tables, against slips of the pen.
const read: [FinishName, string, number[]][] = [
  ["carpet-heavy", "common practice, no source (handbook table)", [0.02, 0.06, 0.14, 0.37, 0.6, 0.65]],
  ["carpet-thin", "Vorländer 2008", [0.02, 0.04, 0.08, 0.2, 0.35, 0.4]],
  ["plasterboard", "common practice, no source (handbook table)", [0.1, 0.08, 0.05, 0.03, 0.03, 0.03]],
  ["plasterboard-double", "Vorländer 2008", [0.15, 0.1, 0.06, 0.04, 0.04, 0.05]],
  ["plasterboard-ceiling", "Vorländer 2008", [0.2, 0.15, 0.1, 0.08, 0.04, 0.02]],
  ["glass", "common practice, no source (handbook table)", [0.35, 0.25, 0.18, 0.12, 0.07, 0.04]],
  ["double-glazing", "Vorländer 2008", [0.1, 0.07, 0.05, 0.03, 0.02, 0.02]],
  ["curtain-light", "common practice, no source (handbook table)", [0.03, 0.04, 0.11, 0.17, 0.24, 0.35]],
  ["curtain-medium", "common practice, no source (handbook table)", [0.07, 0.31, 0.49, 0.75, 0.7, 0.6]],
  ["curtain-heavy", "common practice, no source (handbook table)", [0.14, 0.35, 0.55, 0.72, 0.7, 0.65]],
  ["acoustic-tile", "Vorländer 2008", [0.49, 0.53, 0.53, 0.75, 0.92, 0.99]],
  ["wood-floor", "common practice, no source (handbook table)", [0.15, 0.11, 0.1, 0.07, 0.06, 0.07]],
  ["concrete", "common practice, no source (handbook table)", [0.01, 0.01, 0.02, 0.02, 0.02, 0.02]],
  ["block-painted", "common practice, no source (handbook table)", [0.1, 0.05, 0.06, 0.07, 0.09, 0.08]],
  ["wooden-door", "Vorländer 2008", [0.14, 0.1, 0.06, 0.08, 0.1, 0.1]],
  ["plaster", "recalled, handbook table", [0.013, 0.015, 0.02, 0.03, 0.04, 0.05]],
  ["plaster-on-lath", "recalled, handbook table", [0.14, 0.1, 0.06, 0.05, 0.04, 0.03]],
  ["brick", "recalled, handbook table", [0.03, 0.03, 0.03, 0.04, 0.05, 0.07]],
  ["stone", "recalled, handbook table", [0.01, 0.01, 0.01, 0.01, 0.02, 0.02]],
  ["parquet", "recalled, handbook table", [0.04, 0.04, 0.07, 0.06, 0.06, 0.07]],
  ["linoleum", "recalled, handbook table", [0.02, 0.03, 0.03, 0.03, 0.03, 0.02]],
  ["wood-panelling", "recalled, handbook table", [0.28, 0.22, 0.17, 0.09, 0.1, 0.11]],
  ["seats-upholstered", "Vorländer 2008", [0.49, 0.66, 0.8, 0.88, 0.82, 0.7]],
  ["seats-occupied", "common practice, no source (handbook table)", [0.6, 0.74, 0.88, 0.96, 0.93, 0.85]],
];

describe("finishes", () => {
  test.each(read)("%s, %s: 125 Hz … 4 kHz", (name, _source, alpha) => {
    expect(FINISHES[name].alpha.slice(0, 6)).toEqual(alpha);
  });
  test("every row lies between 0 and 1, repeats 4 kHz at 8 kHz and names what was measured and where", () => {
    expect([...FINISH_NAMES].sort()).toEqual(read.map(([name]) => name).sort());
    for (const name of FINISH_NAMES) {
      const { alpha, meaning, source } = FINISHES[name];
      for (const k of BAND_INDICES) {
        expect(alpha[k], name).toBeGreaterThan(0);
        expect(alpha[k], name).toBeLessThanOrEqual(1);
      }
      expect(alpha[6], name).toBe(alpha[5]);
      expect(meaning.length, name).toBeGreaterThan(3);
      expect(source.length, name).toBeGreaterThan(3);
    }
  });
  test("common practice, no source: a heavier curtain absorbs no less from 125 Hz to 1 kHz than a light one", () => {
    for (const k of [0, 1, 2, 3] as const) {
      expect(FINISHES["curtain-heavy"].alpha[k]).toBeGreaterThanOrEqual(FINISHES["curtain-light"].alpha[k]);
    }
  });
  test("Vorländer 2008: audience on wooden chairs, one and two to the square metre", () => {
    expect(PERSON_ON_WOODEN_CHAIR.slice(0, 6)).toEqual([0.16, 0.24, 0.56, 0.69, 0.81, 0.78]);
    expect(TWO_PEOPLE_PER_SQUARE_METRE.slice(0, 6)).toEqual([0.24, 0.4, 0.78, 0.98, 0.96, 0.87]);
  });
});
