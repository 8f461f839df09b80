import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { A_WEIGHTING, BAND_INDICES, bands, flat, OCTAVES, weightedSum } from "../../server/physics/bands";
import { aWeighted, NOISE_CRITERIA, noiseBands, noiseRatingBands } from "../../server/physics/noise";
import { levelInNoise, SPEECH_SHARES, speechBands, VOCAL_EFFORT } from "../../server/physics/speech";

describe("A-weighting", () => {
  test("IEC 61672-1, by its formula (recalled): the tabled octave values agree within 0.1 dB", () => {
    // R_A(f) = 12194²·f⁴/((f² + 20.6²)·√((f² + 107.7²)(f² + 737.9²))·(f² + 12194²)); A = 20·lg R_A + 2.00 dB, at 10^(3n/10) Hz.
    for (const k of BAND_INDICES) {
      const f2 = (1000 * 10 ** ((3 * (k - 3)) / 10)) ** 2;
      const response = (12194 ** 2 * f2 ** 2)
        / ((f2 + 20.6 ** 2) * Math.sqrt((f2 + 107.7 ** 2) * (f2 + 737.9 ** 2)) * (f2 + 12194 ** 2));
      expect(Math.abs(20 * Math.log10(response) + 2 - A_WEIGHTING[k]), `${OCTAVES[k]} Hz`).toBeLessThan(0.1);
    }
  });
});

describe("speech", () => {
  test("ISO 9921 Table H.2: the male octave levels sum to the normal effort of 60 dBA", () => {
    expect(Math.abs(aWeighted([62.9, 62.9, 59.2, 53.2, 47.2, 41.2, 35.2]) - VOCAL_EFFORT.normal)).toBeLessThan(0.1);
  });
  test("ISO 9921: vocal efforts 54, 60, 66, 72, 78 dBA at 1 m", () => {
    expect(Object.values(VOCAL_EFFORT)).toEqual([54, 60, 66, 72, 78]);
  });
  test("computed: shares of the bands in A-weighted speech, from the IEC 60268-16 Ed. 5 male spectrum", () => {
    const wanted = [0.014, 0.154, 0.476, 0.25, 0.083, 0.02, 0.003];
    for (const k of BAND_INDICES) expect(Math.abs(SPEECH_SHARES[k] - (wanted[k] ?? NaN))).toBeLessThan(0.0006);
    expect(weightedSum(SPEECH_SHARES, flat(1))).toBeCloseTo(1, 12);
  });
  test("IEC 60268-16 Ed. 5, male: octaves relative to 500 Hz", () => {
    const levels = speechBands(66);
    expect(levels.map((level) => Math.round((level - levels[2]) * 10) / 10)).toEqual([-2.5, 0.5, 0, -6, -12, -18, -24]);
    expect(aWeighted(levels)).toBeCloseTo(66, 9);
  });
  test("computed: 10 dB of noise above 45 dBA raise the voice by 5 dB, as far as 72 dBA", () => {
    expect(levelInNoise(60, 45)).toBe(60);
    expect(levelInNoise(60, 55)).toBe(65);
    expect(levelInNoise(66, 80)).toBe(72);
    expect(levelInNoise(78, 80)).toBe(78);
  });
  test("more noise never quietens a talker", () => {
    const level = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(fc.property(level, level, level, (quiet, one, other) => {
      expect(levelInNoise(quiet, Math.max(one, other))).toBeGreaterThanOrEqual(levelInNoise(quiet, Math.min(one, other)) - 1e-9);
      expect(levelInNoise(quiet, one)).toBeGreaterThanOrEqual(quiet);
    }));
  });
});

describe("noise", () => {
  test("ANSI S12.2: room noise at the level of NC-35 has its octave levels 52 45 40 36 34 33 32 dB", () => {
    const levels = noiseBands(aWeighted(NOISE_CRITERIA[35]));
    expect(levels.map((level) => Math.round(level * 100) / 100)).toEqual([52, 45, 40, 36, 34, 33, 32]);
  });
  test("computed: NC-35 from 125 Hz up is 43.8 dBA", () => {
    expect(aWeighted(NOISE_CRITERIA[35])).toBeCloseTo(43.8, 1);
  });
  test("ANSI S12.2: a higher criterion is higher in every band", () => {
    for (const [lower, upper] of [[25, 30], [30, 35], [35, 40]] as const) {
      for (const k of BAND_INDICES) expect(NOISE_CRITERIA[upper][k]).toBeGreaterThan(NOISE_CRITERIA[lower][k]);
    }
  });
  test("noise in bands sums to the level that it was made from", () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (level) => {
      expect(aWeighted(noiseBands(level))).toBeCloseTo(level, 9);
    }));
  });
  test("common practice, no source (published coefficients, as transcribed): noise rating curve 0 and the rise of each band", () => {
    expect(noiseRatingBands(0)).toEqual([22, 12, 4.8, 0, -3.5, -6.1, -8]);
    const rise = noiseRatingBands(100).map((level, k) => Math.round(level * 10 - (noiseRatingBands(0)[k] ?? NaN) * 10) / 1000);
    expect(rise).toEqual([0.87, 0.93, 0.974, 1, 1.015, 1.025, 1.03]);
    expect(noiseRatingBands(35)[3]).toBe(35);
  });
  test("a tone of one band is weighted as that band", () => {
    for (const k of BAND_INDICES) expect(aWeighted(bands((j) => (j === k ? 70 : -Infinity)))).toBeCloseTo(70 + A_WEIGHTING[k], 9);
  });
});
