import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { median, solveLevel } from "../../server/physics/loudspeaker";

describe("the level that a volunteer would set", () => {
  test("computed: in quiet the median seat gets 65 dBA", () => {
    expect(solveLevel([-4, -10, -7], 40, 100)).toEqual({ level: 72, capped: false });
  });
  test("computed: in 50 dBA of noise the median seat gets 70 dBA", () => {
    expect(solveLevel([-4, -10, -7, -9], 50, 100)).toEqual({ level: 78, capped: false });
  });
  test("computed: the device's maximum caps it", () => {
    expect(solveLevel([-4, -10, -7], 50, 68)).toEqual({ level: 68, capped: true });
  });
  test("with no seats it is set as for a listener at 1 m", () => {
    expect(solveLevel([], 40, Infinity)).toEqual({ level: 65, capped: false });
  });
  test("the median is the middle value, or the mean of the two middle ones", () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([7])).toBe(7);
    expect(median([])).toBeNaN();
  });
  test("more noise never lowers it, and it never exceeds the maximum", () => {
    const seats = fc.array(fc.double({ min: -40, max: 20, noNaN: true }), { maxLength: 20 });
    const level = fc.double({ min: 0, max: 110, noNaN: true });
    fc.assert(fc.property(seats, level, level, level, (transfers, one, other, maximum) => {
      const quiet = solveLevel(transfers, Math.min(one, other), maximum).level;
      expect(solveLevel(transfers, Math.max(one, other), maximum).level).toBeGreaterThanOrEqual(quiet - 1e-9);
      expect(quiet).toBeLessThanOrEqual(maximum);
    }));
  });
});
