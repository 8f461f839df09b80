import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { listenerEchoImpairment, NO_LISTENER_ECHO, NO_TALKER_ECHO, talkerEchoImpairment } from "../../server/physics/echoImpairment";
import { BEST_RATING, lossImpairment, opinionScore, satisfaction, simultaneousImpairment, voiceRating } from "../../server/physics/voiceRating";

describe("the rating of a voice connection", () => {
  test("ITU-T G.107 (06/2015, as transcribed), defaults: Is 1.41, R 93.206, MOS 4.41", () => {
    expect(simultaneousImpairment()).toBeCloseTo(1.41, 2);
    expect(Math.abs(voiceRating({ delay: 0, loss: 0 }).rating - 93.206208)).toBeLessThan(0.01);
    expect(Math.abs(BEST_RATING - voiceRating({ delay: 0, loss: 0 }).rating)).toBeLessThan(0.01);
    expect(opinionScore(93.206208)).toBeCloseTo(4.41, 2);
  });
  test("ITU-T G.107 (as transcribed): Bpl 25.1, 2 % lost, Ta 150 ms: Ie,eff 7.0; with all of its echo terms R 82.5 and MOS 4.12", () => {
    expect(lossImpairment(0.02)).toBeCloseTo(7.0, 1);
    // The published case has an echo at T = 150 ms and TELR 65 dB, too, and the listener's at Tr = 300 ms.
    const echo = talkerEchoImpairment(NO_TALKER_ECHO, 0.15) + listenerEchoImpairment(NO_LISTENER_ECHO, 0.3) - listenerEchoImpairment(NO_LISTENER_ECHO, 0);
    const rating = voiceRating({ delay: 0.15, loss: 0.02 }).rating - echo;
    expect(Math.abs(rating - 82.5)).toBeLessThan(0.06);
    expect(Math.abs(opinionScore(rating) - 4.12)).toBeLessThan(0.01);
  });
  test.each([[1, 30.2], [2, 35.8]])("ITU-T G.107 (as transcribed): Bpl 4.3, 2 %% lost, BurstR %d: Ie,eff %d", (burst, wanted) => {
    expect(lossImpairment(0.02, 0, 4.3, burst)).toBeCloseTo(wanted, 1);
  });
  test.each([[90, 4.34], [80, 4.02], [70, 3.6], [60, 3.1], [50, 2.58]])("ITU-T G.109 bounds through the score of G.107 Annex B (computed): R %d is MOS %d", (rating, score) => {
    expect(opinionScore(rating)).toBeCloseTo(score, 2);
  });
  test("ITU-T G.109 (as transcribed): classes begin at 90, 80, 70, 60 and 50", () => {
    expect([95, 90, 89.9, 80, 70, 60, 50, 49.9, -5].map(satisfaction)).toEqual([
      "everybody is very satisfied", "everybody is very satisfied", "everybody is satisfied", "everybody is satisfied", "some are dissatisfied",
      "many are dissatisfied", "nearly all are dissatisfied", "not to be recommended", "not to be recommended",
    ]);
  });
  test("computed: 400 ms from mouth to ear without loss leave R 69", () => {
    // 25·[(1 + 2⁶)^(1/6) − 3·(1 + (2/3)⁶)^(1/6) + 2] = 24.07, from 93.21.
    expect(voiceRating({ delay: 0.4, loss: 0 }).byDelay).toBeCloseTo(24.07, 2);
    expect(voiceRating({ delay: 0.4, loss: 0 }).rating).toBeCloseTo(69.15, 1);
  });
  test("the parts and what is left add up; more delay or loss is never better; scores lie between 1 and 4.5", () => {
    const delay = fc.double({ min: 0, max: 5, noNaN: true });
    const loss = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(fc.property(delay, delay, loss, loss, (a, b, x, y) => {
      const better = voiceRating({ delay: Math.min(a, b), loss: Math.min(x, y) });
      const worse = voiceRating({ delay: Math.max(a, b), loss: Math.max(x, y) });
      expect(worse.rating).toBeLessThanOrEqual(better.rating + 1e-9);
      expect(Math.abs(better.rating + better.byDelay + better.byLoss - BEST_RATING)).toBeLessThan(0.01);
      for (const one of [better, worse]) {
        expect(opinionScore(one.rating)).toBeGreaterThanOrEqual(1);
        expect(opinionScore(one.rating)).toBeLessThanOrEqual(4.5);
      }
    }));
  });
  test("what cannot be is refused by name", () => {
    expect(() => voiceRating({ delay: -1, loss: 0 })).toThrow(/delay/);
    expect(() => voiceRating({ delay: 0, loss: -0.1 })).toThrow(/loss/);
    expect(() => lossImpairment(0, 0, 0)).toThrow(/robustness/);
    expect(() => lossImpairment(0, 0, 1, 0)).toThrow(/burst/);
  });
});
