import { describe, expect, it } from "vitest";
import { fitted } from "../../server/views/handout/floor-plan";
import { handout } from "../../server/views/handout/handout";
import { place } from "../../server/views/plan/place";
import { overlapsIn, SCHOOLROOM, studyOf, textsIn } from "./plans";

const planIn = (page: string): string => /<section class="plan"[\s\S]*?<\/section>/u.exec(page)?.[0] ?? "";

describe("the floor plan on the hand-out", () => {
  it("is one plan on a page of its own, to a scale that is said, numbered as the lists are", () => {
    const plan = planIn(handout(studyOf(SCHOOLROOM)));
    expect(plan).toMatch(/1:\d+ where this page is printed at its full size: 1 cm is [\d.]+ m\./u);
    expect(plan.match(/<svg/gu)).toHaveLength(1);
    expect(plan).toMatch(/>\d+ · projector</u);
    expect(plan).toMatch(/with \d+ · lapel/u);
    // Nothing of it is reached by the keyboard but the frame that is moved sideways on a telephone.
    expect(plan.match(/tabindex="/gu)).toHaveLength(1);
  });

  it("is left out where nobody says how large the room is: a guess would be measured from", () => {
    expect(planIn(handout(studyOf("setup \"October\"\nplace laptop is laptop\n")))).toBe("");
  });

  it("takes the largest scale that fits the page", () => {
    // 1,000 pixels at 100 to the metre are 10 m: 190 mm at most, so 1:52.6 or smaller; 1:60 is the next that has a name.
    expect(fitted({ width: 1000, height: 500, scale: 100 })).toEqual({ one: 60, wide: 10_000 / 60 });
    // Height decides: 20 m on 245 mm are 1:81.6.
    expect(fitted({ width: 500, height: 2000, scale: 100 }).one).toBe(100);
  });

  it("has no words on words", () => expect(overlapsIn(place(studyOf(SCHOOLROOM).plan(), "sheet"))).toEqual([]));
});

describe("outlets on a plan", () => {
  const words = (ask?: "cables" | "hears"): string => textsIn(place(studyOf(SCHOOLROOM.replace("sockets 2", "sockets 2, rated 13 A")).plan(undefined, ask))).map(({ text }) => text).join(" ");
  it("say how many sockets they have and for how much they are rated, alone and asked how cables run", () => {
    expect(words()).toContain("back-wall 2 sockets, rated 13 A");
    expect(words("cables")).toContain("back-wall 2 sockets, rated 13 A");
    expect(words("hears")).not.toContain("sockets");
  });
});
