import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  acceptableTelr, ECHO_CONTROL_FROM, FAILING_BELOW_ACCEPTABLE, failingTelr, meanOneWayDelay,
} from "../../server/physics/talkerEcho";

describe("acceptable talker echo", () => {
  test("ITU-T G.131: acceptable TELR 33 dB at 25 ms", () => {
    expect(Math.round(acceptableTelr(ECHO_CONTROL_FROM))).toBe(33);
  });
  test("ITU-T G.131: acceptable TELR 47 dB at 100 ms", () => {
    expect(Math.round(acceptableTelr(0.1))).toBe(47);
  });
  test.each([[25, 33.1], [100, 46.8], [150, 50.1], [200, 52.2], [300, 54.6], [400, 55.9]])(
    "computed: acceptable TELR at %d ms is %f dB", (milliseconds, rating) => {
      expect(acceptableTelr(milliseconds / 1000)).toBeCloseTo(rating, 1);
    },
  );
  test("ITU-T G.107, by its formula: TERV equals 14 at the acceptable TELR", () => {
    for (const t of [2, 30, 250]) {
      const terv = acceptableTelr(t / 1000) - 40 * Math.log10((1 + t / 10) / (1 + t / 150)) + 6 * Math.exp(-0.3 * t ** 2);
      expect(terv).toBeCloseTo(14, 9);
    }
  });
  test("model choice: the failing TELR lies 10.5 dB under the acceptable one", () => {
    expect(acceptableTelr(0.15) - failingTelr(0.15)).toBeCloseTo(FAILING_BELOW_ACCEPTABLE, 9);
    expect(FAILING_BELOW_ACCEPTABLE).toBe(10.5);
  });
  test("the delay that counts is half the round trip", () => {
    expect(meanOneWayDelay(0.36)).toBe(0.18);
    expect(() => meanOneWayDelay(-0.1)).toThrow(RangeError);
    expect(() => acceptableTelr(-0.1)).toThrow(/delay/);
  });
});

describe("properties", () => {
  const delay = fc.double({ min: 0, max: 5, noNaN: true });
  test("a later echo never needs less loss, and the need stays under 61.1 dB", () => {
    fc.assert(fc.property(delay, delay, (one, other) => {
      expect(acceptableTelr(Math.max(one, other))).toBeGreaterThanOrEqual(acceptableTelr(Math.min(one, other)) - 1e-9);
      expect(acceptableTelr(one)).toBeLessThan(61.1);
    }));
  });
});
