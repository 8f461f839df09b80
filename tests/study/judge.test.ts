/** The one mechanism that decides how loud an alarm is, on cases made by hand: a measure, its limit, and values with ranges. */
import { describe, expect, test } from "vitest";
import type { Case, Outcome } from "../../server/checks/check";
import { rank, type Severity } from "../../server/finding";
import { judge, Trials } from "../../server/judge";
import { assumed } from "../../server/model/make-ranged";
import type { Ranged } from "../../server/model/ranged";
import type { Trial } from "../../server/model/trial";
import { questionOf } from "../../server/questions";

const value = (id: string, low: number, best: number, high: number): Ranged => assumed(id, `the ${id}`, "level", { best, low, high, source: "made by hand" });
const a = value("a", -5, 0, 5);
const b = value("b", -5, 0, 5);

/** Warned above 0, an error above 10. */
function limited(measure: (trial: Trial) => number): Case {
  return {
    key: "made by hand", ways: ["call"],
    measure: (trial): Outcome => {
      const over = measure(trial);
      return {
        severity: over > 10 ? "error" : over > 0 ? "warning" : undefined, badness: over, cause: { key: "k", subjects: [], where: { path: "it", start: 0, end: 0 } },
        say: () => ({ because: "it is", effect: "too much", summary: "s", chain: [] }),
      };
    },
  };
}
const of = (measure: (trial: Trial) => number): NonNullable<ReturnType<typeof judge>> => judge(limited(measure), new Trials()) ?? expect.fail("not judged");

describe("the level of a case", () => {
  test("nothing open: as measured", () => {
    expect(of(() => 11)).toMatchObject({ severity: "error", atBest: "error", swings: [] });
    expect(of(() => 5)).toMatchObject({ severity: "warning" });
    expect(of(() => -1).severity).toBeUndefined();
  });

  test("holds over the range: kept", () => {
    const it = of((t) => 20 + t.value(a));
    expect(it).toMatchObject({ severity: "error", turnedBy: [] });
    expect(it.swings.map((s) => s.value.id)).toEqual(["a"]);
  });

  test("one end softens it: no more than that end leaves", () => {
    expect(of((t) => 12 + t.value(a))).toMatchObject({ severity: "warning", atBest: "error", turnedBy: [] });
  });

  test("one end removes it: one level down, by that value", () => {
    const it = of((t) => 12 + 3 * t.value(a) + 0.1 * t.value(b));
    expect(it.severity).toBe("warning");
    expect(it.turnedBy.map((s) => s.value.id)).toEqual(["a"]);
    expect(of((t) => 3 + t.value(a)).severity).toBe("hint");
  });

  test("no end alone removes it, but all kind ends together do: one level down, and both are asked for at once", () => {
    const it = of((t) => 7 + t.value(a) + t.value(b));
    expect(it.severity).toBe("hint");
    expect(it.turnedBy.map((s) => s.value.id).sort()).toEqual(["a", "b"]);
    const [swing] = it.turnedBy;
    if (swing === undefined) throw new Error("nothing turns it");
    expect(questionOf(it, swing, ["call"], "A made thing")).toMatchObject({ id: expect.stringMatching(/^[ab] \+ [ab]$/) as string, answers: [{ then: "in order" }, { then: "too much" }] });
  });

  test("kindest in the middle of one value, at an end of the other: the middle is kept", () => {
    // |a| is least at its best guess, and worse by unequal steps at its ends; only there do b and c together remove it.
    const uneven = value("a", -5, 0, 4);
    const joint = of((t) => 7 + 10 * Math.abs(t.value(uneven)) + t.value(b) + t.value(value("c", -5, 0, 5)));
    expect(joint).toMatchObject({ severity: "hint", atBest: "warning" });
  });

  test("bad at the best guess alone: the two ends are one answer", () => {
    const it = of((t) => 5 - 2 * Math.abs(t.value(a)));
    expect(it.severity).toBe("hint");
    const [swing] = it.turnedBy;
    if (swing === undefined) throw new Error("nothing turns it");
    expect(questionOf(it, swing, ["call"], "A made thing").answers).toEqual([{ when: "about 0 dB", then: "too much" }, { when: "well off that, either way", then: "in order" }]);
  });

  test("in order at the best guess is never raised; one end that would be an error is remembered", () => {
    expect(of((t) => -1 + t.value(a)).severity).toBeUndefined();
    expect(of((t) => -1 + t.value(a)).couldFail).toEqual([]);
    expect(of((t) => -1 + 3 * t.value(a)).couldFail.map((s) => s.value.id)).toEqual(["a"]);
  });

  test("a gap in the plan stays one, whatever is open", () => {
    const missing: Case = { ...limited(() => 5), measure: (t) => ({ severity: "plan", badness: t.value(a), cause: { key: "k", subjects: [], where: { path: "it", start: 0, end: 0 } }, say: () => ({ because: "", effect: "", summary: "", chain: [] }) }) };
    expect(judge(missing, new Trials())).toMatchObject({ severity: "plan", atBest: "plan", swings: [], couldFail: [] });
    expect([undefined, "plan", "hint", "warning", "error"].map((s) => rank(s as Severity | undefined))).toEqual([0, 0.5, 1, 2, 3]);
  });

  test("two values of one name are one unknown", () => {
    const twin = value("a", -5, 0, 5);
    // Tried apart they would not cancel; as one they always do.
    expect(of((t) => 3 + t.value(a) - t.value(twin))).toMatchObject({ severity: "warning", turnedBy: [] });
  });

  test("what is kept in a trial is read by whoever asks for it", () => {
    const trials = new Trials();
    const shared = (t: Trial): number => t.keep("shared", () => t.value(a));
    for (const add of [3, 4]) expect(judge(limited((t) => add + shared(t)), trials)).toMatchObject({ severity: "hint" });
  });

  test("a case with nothing to measure is none; one that can vanish at an end is removed there", () => {
    const measured = limited(() => 5);
    expect(judge({ ...measured, measure: () => undefined }, new Trials())).toBeUndefined();
    expect(judge({ ...measured, measure: (t) => (t.value(a) < -1 ? undefined : measured.measure(t)) }, new Trials())).toMatchObject({ severity: "hint" });
  });
});
