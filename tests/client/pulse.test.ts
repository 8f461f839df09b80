/** A worker that falls silent is found dead, and one that works long is not. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Pulse } from "../../client/pulse";

const EVERY = 1000;

describe("the pulse of a worker", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());
  /** `answers`: whether it answers the nth question. */
  function watched(answers: (nth: number) => boolean): { asked: () => number; deaths: () => number; pulse: Pulse } {
    let [asked, deaths] = [0, 0];
    const pulse: Pulse = new Pulse({ ask: () => {
      asked += 1;
      if (answers(asked)) pulse.heard();
    }, died: () => (deaths += 1) }, EVERY, 3);
    return { asked: () => asked, deaths: () => deaths, pulse };
  }

  it("goes on while it answers", () => {
    const it = watched(() => true);
    vi.advanceTimersByTime(100 * EVERY);
    expect([it.asked(), it.deaths()]).toEqual([100, 0]);
  });

  it("is dead once it has left three questions open, is told so once, and is asked no more", () => {
    const it = watched((nth) => nth <= 5);
    vi.advanceTimersByTime(8 * EVERY);
    expect(it.deaths()).toBe(0);
    vi.advanceTimersByTime(EVERY);
    expect([it.asked(), it.deaths()]).toEqual([8, 1]);
    vi.advanceTimersByTime(100 * EVERY);
    expect([it.asked(), it.deaths()]).toEqual([8, 1]);
  });

  it("lives where anything else comes from it meanwhile", () => {
    const it = watched(() => false);
    for (let i = 0; i < 20; i += 1) {
      vi.advanceTimersByTime(2 * EVERY);
      it.pulse.heard();
    }
    expect(it.deaths()).toBe(0);
  });

  it("is dead at once where its script fails, and not where it was ended on purpose", () => {
    const failed = watched(() => true);
    failed.pulse.failed();
    failed.pulse.failed();
    expect(failed.deaths()).toBe(1);
    const ended = watched(() => false);
    ended.pulse.stop();
    ended.pulse.failed();
    vi.advanceTimersByTime(10 * EVERY);
    expect([ended.asked(), ended.deaths()]).toEqual([0, 0]);
  });
});
