import { describe, expect, it } from "vitest";
import { place } from "../../server/views/plan/place";
import { judged, raised } from "../catalogue/harness";
import { CAMERA_PAIRS } from "../catalogue/pairs/cameras";
import { overlapsIn, SCHOOLROOM, studyOf, textsIn } from "./plans";

const lit = (facts: string) => studyOf(SCHOOLROOM.replace("  noise 38 dBA\n", `  noise 38 dBA\n  ${facts}\n`)).plan(undefined, "light");
const wordsIn = (plan: ReturnType<typeof lit>): string => textsIn(place(plan)).map(({ text }) => text).join(" ");

describe("a plan asked where light falls", () => {
  it("says at every seat what the finding on dark faces measures", () => {
    for (const pair of CAMERA_PAIRS.filter(({ code }) => code === "dark-face")) {
      const study = judged(pair.raises);
      const plan = study.plan(undefined, "light");
      const [value] = Array.from(plan.answer?.values ?? []);
      expect(value).toBe(raised(study, "dark-face")[0]?.measured?.value);
      expect(new Set(Array.from(plan.answer?.values ?? [])).size).toBe(1);
    }
  });

  it("tells what is stated from what is taken, and that it is one value for the room", () => {
    expect(lit("light 180 lx on faces").asked?.result).toContain("180 lx on every face, as the text states. One value for the whole room");
    // 300 lx where lamps are on, 0.4 of it upright: common practice, no source.
    expect(lit("lamps on").asked?.result).toContain("About 120 lx on every face, of about 300 lx on tables, which is taken by what is said of the lamps");
    expect(lit("light 500 lx on tables, lamps off").asked?.result).toContain("of about 500 lx on tables, which is stated. One value for the whole room: it is lighter under lamps and at windows. Lamps are off.");
  });

  it("says at who speaks and at each picture how much falls there", () => {
    const words = wordsIn(lit("light 90 lx on screen, light 180 lx on faces"));
    expect(words).toContain("180 lx on the face");
    expect(words).toContain("90 lx of room light on its picture");
  });

  it("says to which side windows look where north is known, and that it does not know where it is not", () => {
    const windows = "window street-side at left, width 2 m, curtains heavy over street-side";
    // North ahead, so that the left wall looks west.
    const known = lit(`north 0 deg, ${windows}`);
    expect(wordsIn(known)).toContain("window to the west, heavy curtain");
    expect(overlapsIn(place(known))).toEqual([]);
    const unknown = lit(windows);
    expect(wordsIn(unknown)).not.toContain("window to the");
    expect(unknown.asked?.result).toContain("neither does the plan say which way its windows look");
  });
});
