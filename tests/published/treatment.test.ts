import { describe, expect, test } from "vitest";
import { bands, flat } from "../../server/physics/bands";
import { FINISHES } from "../../server/physics/finishes";
import { eyring, SABINE_CONSTANT, sabine } from "../../server/physics/reverberation";
import {
  classroomTime, EYRING_FROM, midFrequencyTime, reverberationTime, timeFromClap, treatedTime, treatedTimes, treatmentArea,
} from "../../server/physics/treatment";

// A hall of 200 m³ and 220 m² that rings for 1.4 s: A = 23.0 m², mean α 0.105.
const hall = { volume: 200, surface: 220, time: 1.4, alpha: 0.72, covered: 0.03 };

describe("which formula when", () => {
  test("common practice, no source (as transcribed): the constant is 0.16111 at 343 m/s", () => {
    expect(SABINE_CONSTANT).toBeCloseTo(0.16111, 4);
  });
  test("common practice, no source (hand value of a measuring program): at a mean α of 0.2 Eyring's 0.5484 s", () => {
    expect(EYRING_FROM).toBe(0.2);
    expect(reverberationTime(120, 158, 0.2 * 158)).toBeCloseTo(0.5484, 4);
  });
  test("computed: Sabine below a mean α of 0.2, Eyring from there, air beside both", () => {
    expect(reverberationTime(120, 158, 0.19 * 158, 2)).toBeCloseTo(sabine(120, 0.19 * 158 + 2), 12);
    expect(reverberationTime(120, 158, 0.3 * 158, 2)).toBeCloseTo(eyring(120, 158, 0.3 * 158, 2), 12);
    expect(reverberationTime(120, 158, 200)).toBe(0);
    expect(reverberationTime(120, 158, 0)).toBe(Infinity);
  });
});

describe("what curtains would do", () => {
  test("computed: 20 m² of heavy curtain take a hall from 1.40 to 0.87 s", () => {
    // A′ = 23.02 + 20·0.69 = 36.82 m², mean α 0.167: Sabine.
    expect(treatedTime(hall, 20)).toBeCloseTo((0.161116 * 200) / (23.0166 + 13.8), 3);
  });
  test("computed: nothing treated changes nothing, by either formula", () => {
    expect(treatedTime(hall, 0)).toBeCloseTo(1.4, 12);
    expect(treatedTime({ ...hall, time: 0.4 }, 0)).toBeCloseTo(0.4, 12);
  });
  test("computed: the area that is needed gives the time that is wanted, and no less would do", () => {
    for (const wanted of [1.2, 0.9, 0.5, 0.3]) {
      const area = treatmentArea(hall, wanted);
      expect(treatedTime(hall, area)).toBeLessThanOrEqual(wanted * (1 + 1e-9));
      expect(treatedTime(hall, area * 0.999)).toBeGreaterThan(wanted);
    }
  });
  test("computed: short enough needs none; a curtain over what absorbs as much never helps", () => {
    expect(treatmentArea(hall, 1.4)).toBe(0);
    expect(treatmentArea({ ...hall, alpha: 0.03 }, 1)).toBe(Infinity);
    expect(() => treatedTime({ ...hall, covered: 0.9, alpha: 0 }, 100)).toThrow(/covered/);
    expect(() => treatmentArea(hall, 0)).toThrow(/wanted/);
  });
  test("computed: a room in which nothing absorbs has only what is hung in it", () => {
    expect(treatedTime({ ...hall, time: Infinity, alpha: 0.5, covered: 0 }, 20)).toBeCloseTo(sabine(200, 10), 12);
  });
  test("computed: each band by itself; a curtain helps least at 125 Hz", () => {
    const room = { volume: 200, surface: 220, time: flat(1.4), alpha: FINISHES["curtain-heavy"].alpha, covered: flat(0.03) };
    const times = treatedTimes(room, 20);
    expect(times).toEqual(bands((k) => treatedTime({ ...room, time: 1.4, alpha: room.alpha[k], covered: 0.03 }, 20)));
    expect(times[0]).toBe(Math.max(...times));
    expect(midFrequencyTime(times)).toBeCloseTo((times[2] + times[3]) / 2, 12);
  });
});

describe("rules of thumb", () => {
  test("computed: a clap heard for 1 s, 60 dB over the noise, is T 1 s; 46 and 80 dB are the factors 1.3 and 0.75", () => {
    expect(timeFromClap(1)).toBe(1);
    expect(timeFromClap(1, 46)).toBeCloseTo(1.3, 2);
    expect(timeFromClap(1, 80)).toBeCloseTo(0.75, 12);
    expect(() => timeFromClap(1, 0)).toThrow(/clap/);
  });
  test("ANSI S12.60-2002 (as transcribed): 0.6 s below 10 000 ft³, 0.7 s to 20 000 ft³", () => {
    expect([283, 284, 566, 567].map(classroomTime)).toEqual([0.6, 0.7, 0.7, undefined]);
  });
});
