import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Surface } from "../../server/physics/reverberation";
import {
  absorptionFromTime, AIR_DRY, AIR_HUMID, airAbsorption, en12354, eyring, meanAlpha, objectAbsorption, sabine, surfaceAbsorption,
} from "../../server/physics/reverberation";

// The furnished room of the standard's example at 1 kHz.
const VOLUME = 29.75;
const longWall: Surface = { area: 10.9, alpha: 0.04 };
const bare: Surface[] = [
  { area: 12.39, alpha: 0.05 }, { area: 12.39, alpha: 0.02 }, longWall, longWall,
  { area: 6.55, alpha: 0.04 }, { area: 6.55, alpha: 0.04 },
];
const objects = [0.15, 0.6, 0.05, 0.05, 0.65, 0.65];
const treated: Surface[] = [
  ...bare.filter((surface) => surface !== longWall), longWall, { area: 9.81, alpha: 0.85 }, { area: 1.09, alpha: 0.04 },
];

describe("reverberation against the example of the standard", () => {
  test("EN 12354-6:2003 Annex E, bare room: A 2.26 m²", () => {
    expect(surfaceAbsorption(bare)).toBeCloseTo(2.26, 2);
  });
  test("EN 12354-6:2003 Annex E, bare room: T 2.1 s", () => {
    expect(en12354(VOLUME, surfaceAbsorption(bare))).toBeCloseTo(2.1, 1);
  });
  test("EN 12354-6:2003 Annex E, air at 1 kHz: A 0.12 m²", () => {
    expect(airAbsorption(1e-3, VOLUME)).toBeCloseTo(0.12, 2);
  });
  test("EN 12354-6:2003 Table 1: attenuation of air at 20 °C, 10⁻³ Np/m, humid and dry", () => {
    const thousandths = (values: readonly number[]): number[] => values.map((value) => Math.round(value * 1e4) / 10);
    expect(thousandths(AIR_HUMID)).toEqual([0.1, 0.3, 0.6, 1.0, 1.7, 4.1, 13.5]);
    expect(thousandths(AIR_DRY)).toEqual([0.1, 0.3, 0.6, 1.0, 1.9, 5.8, 20.3]);
  });
  test("EN 12354-6:2003, by its formula: objects displace the air that absorbs", () => {
    expect(airAbsorption(1e-3, 100, 0.25)).toBeCloseTo(0.3, 9);
  });
  test("EN 12354-6:2003 Annex E, with air: T 2.0 s", () => {
    expect(en12354(VOLUME, surfaceAbsorption(bare) + airAbsorption(1e-3, VOLUME))).toBeCloseTo(2.0, 1);
  });
  test("EN 12354-6:2003 Annex E, six objects: A 2.77 m²", () => {
    expect(objects.reduce((sum, volume) => sum + objectAbsorption(volume), 0)).toBeCloseTo(2.77, 2);
  });
  test("EN 12354-6:2003 Annex E, with objects: A 5.03 m², object share 0.072, T 0.9 s", () => {
    const absorption = surfaceAbsorption(bare) + objects.reduce((sum, volume) => sum + objectAbsorption(volume), 0);
    const share = objects.reduce((sum, volume) => sum + volume, 0) / VOLUME;
    expect(absorption).toBeCloseTo(5.03, 2);
    expect(share).toBeCloseTo(0.072, 3);
    expect(en12354(VOLUME, absorption, share)).toBeCloseTo(0.9, 1);
  });
  test("EN 12354-6:2003 Annex E, one long wall treated: A 10.21 m², T 0.5 s", () => {
    expect(surfaceAbsorption(treated)).toBeCloseTo(10.21, 2);
    expect(en12354(VOLUME, surfaceAbsorption(treated))).toBeCloseTo(0.5, 1);
  });
});

describe("Sabine and Eyring", () => {
  const surface = 2 * (8 * 5 + 8 * 3 + 5 * 3);
  test("common practice, no source (hand value of a measuring program): 8 × 5 × 3 m, α 0.2: Sabine 0.6118 s", () => {
    expect(sabine(120, 0.2 * surface)).toBeCloseTo(0.6118, 4);
  });
  test("common practice, no source (hand value of a measuring program): 8 × 5 × 3 m, α 0.2: Eyring 0.5484 s", () => {
    expect(eyring(120, surface, 0.2 * surface)).toBeCloseTo(0.5484, 4);
  });
  test("common practice, no source (school exercise): 10 × 8 × 6 m, T 3 s: A 25.76 m², mean α 0.068", () => {
    const absorption = absorptionFromTime(480, 3);
    expect(Math.abs(absorption - 25.76)).toBeLessThan(0.03); // the exercise rounds the constant to 0.161
    expect(Math.abs(meanAlpha(absorption, 376) - 0.068)).toBeLessThan(0.001);
  });
  test("a negative or empty volume is refused by name", () => {
    expect(() => sabine(-1, 10)).toThrow(/volume/);
    expect(() => sabine(0, 10)).toThrow(RangeError);
    expect(() => surfaceAbsorption([{ area: -1, alpha: 0.1 }])).toThrow(/area/);
    expect(() => absorptionFromTime(100, 0)).toThrow(/reverberation time/);
    expect(() => en12354(100, 5, 1.5)).toThrow(/share of objects/);
  });
  test("extremes give what the docstrings say: no absorption never dies away, full absorption at once", () => {
    expect(sabine(100, 0)).toBe(Infinity);
    expect(eyring(100, 130, 0)).toBe(Infinity);
    expect(eyring(100, 130, 130)).toBe(0);
    expect(eyring(100, 130, 260)).toBe(0);
  });
});

describe("properties", () => {
  /** Room for the last digits of a floating-point number. */
  const ROUNDING = 1 + 1e-12;
  const volume = fc.double({ min: 10, max: 20_000, noNaN: true });
  const area = fc.double({ min: 0.1, max: 3000, noNaN: true });
  test("more absorption never lengthens the reverberation time", () => {
    fc.assert(fc.property(volume, area, area, fc.double({ min: 0, max: 500, noNaN: true }), (v, s, a, more) => {
      expect(sabine(v, a + more)).toBeLessThanOrEqual(sabine(v, a) * ROUNDING);
      expect(eyring(v, s, a + more)).toBeLessThanOrEqual(eyring(v, s, a) * ROUNDING);
      expect(en12354(v, a + more)).toBeLessThanOrEqual(en12354(v, a) * ROUNDING);
    }));
  });
  test("Eyring never exceeds Sabine", () => {
    fc.assert(fc.property(volume, area, fc.double({ min: 0.001, max: 1.2, noNaN: true }), (v, s, alpha) => {
      expect(eyring(v, s, alpha * s)).toBeLessThanOrEqual(sabine(v, alpha * s) * ROUNDING);
    }));
  });
  test("Sabine undoes its own inverse", () => {
    fc.assert(fc.property(volume, fc.double({ min: 0.1, max: 10, noNaN: true }), (v, t) => {
      expect(sabine(v, absorptionFromTime(v, t))).toBeCloseTo(t, 9);
    }));
  });
});
