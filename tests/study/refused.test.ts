/** A remedy that mends its finding and costs something else is not offered. */
import { describe, expect, test } from "vitest";
import { applyEdits, fixesOf } from "../../server/fixes/prove";
import { rank } from "../../server/finding";
import type { Study } from "../../server/study";
import { judged, one } from "../catalogue/harness";
import { hall, IN_ORDER } from "./setups";

/** A phone amid the seats plays too, beside a weak loudspeaker: the room hears itself by it, and through it hears the people online. */
const beside = (noise: number): string => hall(`${IN_ORDER.replace("aim audience", "aim audience, speech-level 66 dBA").replace("delay 100 ms", "delay 5 ms")}place phone is phone, at (5.5 m, 3 m), aim audience, speech-level 66 dBA
join phone { sends no picture, sends no sound }
`).replace("noise 38 dBA", `noise ${noise} dBA`);
const hears = (study: Study): string[] => study.ways.filter((w) => w.way === "room-hears-online").map((w) => w.verdict);
const SILENCE = "Turn off the sound of phone";

describe("to silence the second device", () => {
  test.each([[38, ["works"], ["works"]], [55, ["works"], ["doubtful"]]] as const)("in %i dBA of noise: offered only where no way across stands worse for it", (noise, now, then) => {
    const text = beside(noise);
    const before = judged(text);
    expect(before.problems).toEqual([]);
    const finding = before.findings.find((f) => f.code === "hears-itself") ?? expect.fail("the room does not hear itself");
    const remedy = before.remedies(finding).find((r) => r.title === SILENCE) ?? expect.fail("no such remedy");
    const after = judged(applyEdits(text, remedy.edits));
    // The finding is gone, and nothing is raised that was not there and is as bad: the way alone decides.
    expect(after.findings.some((f) => f.code === "hears-itself")).toBe(false);
    const known = new Set(before.findings.map((f) => f.identity));
    expect(after.findings.filter((f) => !known.has(f.identity) && rank(f.severity) >= rank(finding.severity))).toEqual([]);
    expect([hears(before), hears(after)]).toEqual([now, then]);
    expect(fixesOf(one(text), before, finding).some((fix) => fix.title === SILENCE)).toBe(now[0] === then[0]);
  });
});
