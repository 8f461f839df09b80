import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  basicRatio, delayImpairment, lineNoise, listenerEchoImpairment, NO_LISTENER_ECHO, NO_TALKER_ECHO, talkerEchoImpairment,
} from "../../server/physics/echoImpairment";
import { acceptableTelr, failingTelr } from "../../server/physics/talkerEcho";

/** Simultaneous impairment Is at the defaults, as published; side tone and echo change it by little. */
const SIMULTANEOUS = 1.41;

/** Rating at the defaults but for one echo, with Is as it stands without any. */
const rating = (telr: number, delay: number, wepl = NO_LISTENER_ECHO): number =>
  basicRatio() - SIMULTANEOUS - talkerEchoImpairment(telr, delay) - listenerEchoImpairment(wepl, 2 * delay) - delayImpairment(delay);

describe("echo and delay in the E-model", () => {
  test("ITU-T G.107 (as transcribed), defaults: Ro 94.77", () => {
    expect(basicRatio()).toBeCloseTo(94.77, 2);
    expect(lineNoise()).toBeCloseTo(-61.18, 2);
  });
  test("ITU-T G.107 (as transcribed), defaults: impairment by delay and echo 0.15", () => {
    const all = talkerEchoImpairment(NO_TALKER_ECHO, 0) + listenerEchoImpairment(NO_LISTENER_ECHO, 0) + delayImpairment(0);
    expect(all).toBeCloseTo(0.15, 2);
  });
  test("ITU-T G.107 (as transcribed), defaults: R 93.206 from Ro, Is 1.41 and these terms", () => {
    expect(Math.abs(rating(NO_TALKER_ECHO, 0) - 93.206)).toBeLessThan(0.01);
  });
  test("ITU-T G.107, short form at 150 ms (as transcribed): impairment 3.6; the whole model gives 3.8", () => {
    const all = talkerEchoImpairment(NO_TALKER_ECHO, 0.15) + listenerEchoImpairment(NO_LISTENER_ECHO, 0.3) + delayImpairment(0.15);
    expect(Math.abs(all - 3.6)).toBeLessThan(0.4);
    expect(all).toBeCloseTo(3.8, 1);
  });
  test.each([
    [25, [92.4, 91.5, 88.9, 77.7]], [100, [90.7, 86.1, 70.1, 47.2]], [150, [89.5, 82, 62.5, 38.9]], [200, [85.8, 75.8, 54.9, 31]],
    [300, [72.7, 59.5, 37.4, 13.3]],
  ])("computed: T = Ta = %d ms, TELR 65 55 45 35 dB: R %j", (milliseconds, wanted) => {
    [65, 55, 45, 35].forEach((telr, at) => {
      // Is grows with echo in the side tone by up to 0.3, which is left out here.
      expect(Math.abs(rating(telr, milliseconds / 1000) - (wanted[at] ?? NaN)), `TELR ${telr}`).toBeLessThan(0.35);
    });
  });
});

describe("the limit of an echo that alone spoils a call", () => {
  const alone = (telr: number, delay: number): number =>
    basicRatio() - SIMULTANEOUS - talkerEchoImpairment(telr, delay) - listenerEchoImpairment(NO_LISTENER_ECHO, 0);
  test("computed: 10.5 dB below the acceptable rating talker echo alone leaves R 51, at any delay above 10 ms", () => {
    for (const delay of [0.01, 0.05, 0.15, 0.3, 0.6]) expect(Math.abs(alone(failingTelr(delay), delay) - 51)).toBeLessThan(0.35);
  });
  test("computed: R 50 is reached another 0.4 to 0.6 dB below, 10.9 to 11.1 dB in all", () => {
    for (const delay of [0.05, 0.15, 0.3]) {
      let [low, high] = [8, 14];
      while (high - low > 1e-6) {
        const middle = (low + high) / 2;
        if (alone(acceptableTelr(delay) - middle, delay) > 50) low = middle;
        else high = middle;
      }
      expect(low).toBeGreaterThan(10.8);
      expect(low).toBeLessThan(11.1);
    }
  });
  test("computed: at the acceptable rating talker echo alone leaves R above 70", () => {
    expect(alone(acceptableTelr(0.15), 0.15)).toBeGreaterThan(70);
  });
});

describe("properties", () => {
  const delay = fc.double({ min: 0, max: 3, noNaN: true });
  const loss = fc.double({ min: -20, max: 110, noNaN: true });
  test("more echo loss never impairs more; later echo never impairs less; neither impairs less than nothing", () => {
    fc.assert(fc.property(delay, delay, loss, loss, (one, other, a, b) => {
      const [early, late] = [Math.min(one, other), Math.max(one, other)];
      const [weak, strong] = [Math.min(a, b), Math.max(a, b)];
      expect(talkerEchoImpairment(strong, early)).toBeLessThanOrEqual(talkerEchoImpairment(weak, early) + 1e-9);
      expect(listenerEchoImpairment(strong, early)).toBeLessThanOrEqual(listenerEchoImpairment(weak, early) + 1e-9);
      expect(talkerEchoImpairment(weak, late)).toBeGreaterThanOrEqual(talkerEchoImpairment(weak, early) - 1e-9);
      expect(listenerEchoImpairment(Math.max(0, weak), late)).toBeGreaterThanOrEqual(listenerEchoImpairment(Math.max(0, weak), early) - 1e-9);
      expect(delayImpairment(late)).toBeGreaterThanOrEqual(delayImpairment(early) - 1e-9);
      expect(talkerEchoImpairment(strong, early)).toBeGreaterThanOrEqual(0);
      expect(listenerEchoImpairment(strong, early)).toBeGreaterThanOrEqual(0);
    }));
  });
  test("no echo at all impairs nothing; a delay before its cause is refused by name", () => {
    expect(talkerEchoImpairment(Infinity, 0.2)).toBe(0);
    expect(listenerEchoImpairment(Infinity, 0.2)).toBe(0);
    expect(() => delayImpairment(-1)).toThrow(/delay/);
    expect(() => listenerEchoImpairment(60, -1)).toThrow(/round trip/);
  });
});
