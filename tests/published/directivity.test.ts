import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BAND_INDICES } from "../../server/physics/bands";
import { toDb } from "../../server/physics/decibel";
import type { PatternName } from "../../server/physics/directivity";
import {
  coverageBands, coverageFactor, directivityIndex, distanceFactor, MICROPHONE_FLOOR_DB, microphonePattern, PATTERNS,
  randomEnergyEfficiency, SOURCE_FLOOR_DB, sourcePattern,
} from "../../server/physics/directivity";

const DEGREE = Math.PI / 180;

/** Integral of a pattern over the sphere by its cosine, as a multiple of 4π: ½·∫ g d(cos θ), midpoint rule. */
function overSphere(gain: (cosine: number) => number): number {
  const steps = 4000;
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += gain(-1 + (2 * (i + 0.5)) / steps);
  return sum / steps;
}

describe("microphone patterns", () => {
  test.each<[PatternName, number]>([["cardioid", 4.8], ["figure-8", 4.8]])(
    "IEC 60268-4: directivity index of a %s %f dB", (pattern, index) => {
      expect(directivityIndex(1 / randomEnergyEfficiency(PATTERNS[pattern]))).toBeCloseTo(index, 1);
    },
  );
  test.each<[PatternName, number]>([["cardioid", 1.7], ["supercardioid", 1.9]])(
    "common practice, no source: distance factor of a %s %f", (pattern, factor) => {
      expect(distanceFactor(randomEnergyEfficiency(PATTERNS[pattern]))).toBeCloseTo(factor, 1);
    },
  );
  test.each<[PatternName, number]>([["cardioid", 3.4], ["supercardioid", 3.8]])(
    "common practice, no source: where an omni is acceptable at 2 ft, a %s is at %f ft", (pattern, feet) => {
      expect(Math.abs(2 * distanceFactor(randomEnergyEfficiency(PATTERNS[pattern])) - feet)).toBeLessThan(0.1);
    },
  );
  test.each<[PatternName, number, number]>([
    ["omni", 1, 0], ["cardioid", 0.333, 4.8], ["supercardioid", 0.268, 5.7], ["hypercardioid", 0.25, 6.0], ["figure-8", 0.333, 4.8],
  ])("computed: random energy efficiency of a %s %f, directivity index %f dB", (pattern, ree, index) => {
    expect(randomEnergyEfficiency(PATTERNS[pattern])).toBeCloseTo(ree, 2);
    expect(directivityIndex(1 / randomEnergyEfficiency(PATTERNS[pattern]))).toBeCloseTo(index, 1);
  });
  test("the random energy efficiency is the pattern's integral over the sphere", () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (a) => {
      expect(overSphere((cosine) => microphonePattern(cosine, a, -Infinity))).toBeCloseTo(randomEnergyEfficiency(a), 5);
    }));
  });
  test("model choice: no microphone falls more than 20 dB off its axis", () => {
    expect(toDb(microphonePattern(-1, PATTERNS.cardioid))).toBeCloseTo(MICROPHONE_FLOOR_DB, 9);
    expect(microphonePattern(0, PATTERNS.cardioid)).toBeCloseTo(0.25, 9);
  });
});

describe("source patterns", () => {
  test("common practice, no source (handbook of sound system design): a talker's Q of 2 is a directivity index of 3 dB", () => {
    expect(directivityIndex(2)).toBeCloseTo(3, 1);
  });
  test("the pattern integrates to 4π/Q over the sphere, within 2 %, for Q ≥ 1", () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 40, noNaN: true }), (q) => {
      expect(Math.abs(overSphere((cosine) => sourcePattern(cosine, q, -Infinity)) * q - 1)).toBeLessThan(0.02);
    }));
  });
  test("the floor adds less than its own power to that integral", () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 40, noNaN: true }), (q) => {
      const added = overSphere((cosine) => sourcePattern(cosine, q)) - overSphere((cosine) => sourcePattern(cosine, q, -Infinity));
      expect(added).toBeGreaterThanOrEqual(-1e-12);
      expect(added).toBeLessThan(10 ** (SOURCE_FLOOR_DB / 10));
    }));
  });
  test("it is 1 on the axis, never more, and never rises away from the axis", () => {
    const cosine = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(fc.property(cosine, cosine, fc.double({ min: 1, max: 40, noNaN: true }), (one, other, q) => {
      expect(sourcePattern(1, q)).toBeCloseTo(1, 12);
      expect(sourcePattern(Math.min(one, other), q)).toBeLessThanOrEqual(sourcePattern(Math.max(one, other), q) + 1e-12);
    }));
  });
  test("it is continuous where its two forms meet, at Q = 3", () => {
    for (const cosine of [-1, -0.5, 0, 0.5, 1]) {
      expect(sourcePattern(cosine, 3)).toBeCloseTo(sourcePattern(cosine, 3.0001), 3);
    }
  });
  test("Q 1 is the same all round, and a Q under 1 counts as 1", () => {
    expect(sourcePattern(-1, 1)).toBe(1);
    expect(sourcePattern(-1, 0.4)).toBe(1);
    expect(() => sourcePattern(0, 0)).toThrow(/directivity factor/);
    expect(() => sourcePattern(1.2, 2)).toThrow(/cosine/);
  });
});

describe("coverage angles", () => {
  test("Molloy 1969, recalled: a half-space, 180° × 180°, has Q 2", () => {
    expect(coverageFactor(Math.PI, Math.PI)).toBeCloseTo(2, 9);
  });
  test("computed: 90° × 40° has Q 12.9, directivity index 11.1 dB", () => {
    expect(coverageFactor(90 * DEGREE, 40 * DEGREE)).toBeCloseTo(12.87, 1);
    expect(directivityIndex(coverageFactor(90 * DEGREE, 40 * DEGREE))).toBeCloseTo(11.1, 1);
  });
  test("model choice: the whole Q from 2 kHz up, less below, never under 1", () => {
    const q = coverageFactor(90 * DEGREE, 40 * DEGREE);
    const inBands = coverageBands(90 * DEGREE, 40 * DEGREE);
    expect(inBands.slice(4)).toEqual([q, q, q]);
    expect(inBands[3]).toBeCloseTo(0.65 * q, 9);
    expect(inBands[2]).toBeCloseTo(0.33 * q, 9);
    expect(inBands[1]).toBeCloseTo(0.2 * q, 9);
    for (const k of BAND_INDICES) expect(coverageBands(Math.PI, Math.PI)[k]).toBeGreaterThanOrEqual(1);
    expect(coverageBands(Math.PI, Math.PI)[0]).toBe(1);
  });
  test("narrower is never less directive", () => {
    const angle = fc.double({ min: 0.05, max: Math.PI, noNaN: true });
    fc.assert(fc.property(angle, angle, angle, (one, other, vertical) => {
      expect(coverageFactor(Math.min(one, other), vertical)).toBeGreaterThanOrEqual(coverageFactor(Math.max(one, other), vertical) * (1 - 1e-12));
    }));
  });
});
