import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { SPEED_OF_SOUND, travelTime } from "../../server/physics/bands";
import { powerSum, toDb, toPower } from "../../server/physics/decibel";

describe("levels", () => {
  test("computed: twice the power is 3.01 dB more, N equal levels 10·lg N", () => {
    expect(toDb(2)).toBeCloseTo(3.0103, 4);
    expect(powerSum([40, 40, 40, 40])).toBeCloseTo(46.0206, 4);
  });
  test("silence is −Infinity and adds nothing", () => {
    expect(toDb(0)).toBe(-Infinity);
    expect(powerSum([])).toBe(-Infinity);
    expect(powerSum([-Infinity, 30])).toBe(30);
    expect(() => toDb(-1)).toThrow(RangeError);
  });
  test("sums of extreme levels stay finite", () => {
    expect(powerSum([4000, 4000])).toBeCloseTo(4003.0103, 4);
    expect(powerSum([-4000, -4000])).toBeCloseTo(-3996.9897, 4);
  });
  test("a level and its power undo each other; a sum does not depend on order", () => {
    const level = fc.double({ min: -200, max: 200, noNaN: true });
    fc.assert(fc.property(level, fc.array(level, { minLength: 1, maxLength: 9 }), (one, levels) => {
      expect(toDb(toPower(one))).toBeCloseTo(one, 9);
      expect(powerSum(levels)).toBeCloseTo(powerSum([...levels].reverse()), 9);
      expect(powerSum([...levels, one])).toBeGreaterThanOrEqual(powerSum(levels) - 1e-9);
    }));
  });
  test("sound needs a second for 343 m", () => {
    expect(travelTime(SPEED_OF_SOUND)).toBe(1);
  });
});
