/** How the people online hear the room: one finding for one cause, silence where nothing is carried, and mends that change choices alone. */
import { describe, expect, test } from "vitest";
import { applyEdits } from "../../server/fixes/prove";
import type { Study } from "../../server/study";
import { judged, raised } from "../catalogue/harness";
import { BEAMER, BOX, hall } from "./setups";

const CODES = ["talker-far", "talker-unclear", "mic-noise", "seat-unheard", "talker-roams"];
const OWN = `${BOX}${BEAMER}device clip is lapel-microphone, owned by Marit\njoin laptop { sends sound from laptop.microphone, plays sound on box, shows call on beamer }\n`;
/** A laptop in the rows, in a hall that rings and in which a machine runs. */
const BAD = hall(OWN).replace("at (1.2 m, 2.4 m), aim Ines", "at (6 m, 1 m), aim Ines").replace("reverberation 0.8 s", "reverberation 4 s").replace("noise 38 dBA", "noise 62 dBA");
const tops = (study: Study): string[] => study.findings.filter((f) => CODES.includes(f.code)).map((f) => f.code);
const verdict = (study: Study): string | undefined => study.ways.find((w) => w.way === "online-hears-room")?.verdict;

describe("one finding for one pick-up", () => {
  test("far, noisy and unclear at once: the worst leads, the others stand under it", () => {
    const study = judged(BAD);
    expect(tops(study)).toHaveLength(1);
    const [lead] = study.findings.filter((f) => CODES.includes(f.code));
    expect([lead?.code, ...(lead?.folded.map((f) => f.code) ?? [])].sort()).toEqual(["mic-noise", "talker-far", "talker-unclear"]);
    expect(verdict(study)).toBe("fails");
  });

  test("two talkers far from one microphone are one finding that names both", () => {
    const study = judged(hall(`talker Bo at (1 m, 5 m), standing\n${OWN}`).replace("at (1.2 m, 2.4 m), aim Ines", "at (5.5 m, 4 m), aim Ines"));
    expect(raised(study, "talker-far").map((f) => [f.severity, [...f.subjects].sort()])).toEqual([["warning", ["Bo", "Ines", "laptop"]]]);
  });

  test("where nothing gets to the call, that is the finding, and nothing else is said of it", () => {
    const study = judged(BAD.replace("sends sound from laptop.microphone", "sends no sound"));
    expect(CODES.flatMap((code) => raised(study, code))).toEqual([]);
    expect(raised(study, "uncovered-direction").filter((f) => f.ways.includes("online-hears-room"))).toHaveLength(1);
  });

  test("the cause is said, not the value alone: what takes most from the index", () => {
    const of = (text: string): string => raised(judged(text), "talker-unclear")[0]?.chain.join("; ") ?? "";
    expect(of(BAD.replace("noise 62 dBA", "noise 38 dBA"))).toMatch(/^the reverberation of hall does it, 4 s: without it 0\.\d+$/);
    expect(of(BAD.replace("reverberation 4 s", "reverberation 0.4 s"))).toMatch(/^the noise does it, 62 dBA in hall: without it 0\.\d+$/);
  });
});

test("no mend changes a fact, and none puts a microphone in among the chairs", () => {
  const among = BAD.replace("talker Ines at (1.0 m, 3.2 m)", "talker Ines at (5 m, 3.2 m)");
  for (const text of [BAD, among]) {
    const study = judged(text);
    const remedies = study.findings.filter((f) => CODES.includes(f.code)).flatMap((f) => study.remedies(f));
    expect(remedies.length).toBeGreaterThan(1);
    const facts = (of: string): string[] => of.split("\n").filter((line) => /^\s*(room|noise|reverberation|chairs|talker|internet)\b/.test(line));
    for (const remedy of remedies) expect(facts(applyEdits(text, remedy.edits)), remedy.title).toEqual(facts(text));
    expect(remedies.some((r) => r.title === "Move laptop beside Ines")).toBe(text === BAD);
  }
});

test("heard by whoever listened: it was clear, or it was not", () => {
  const far = hall(OWN).replace("at (1.2 m, 2.4 m), aim Ines", "at (5 m, 3.2 m), aim Ines");
  expect(raised(judged(far), "talker-far")).toHaveLength(1);
  const clear = judged(`${far}observed Ines clear\n`);
  expect(raised(clear, "talker-far")).toEqual([]);
  expect(clear.disproved.map((f) => f.code)).toEqual(["talker-far"]);
  expect(judged(`${far}observed Ines unclear\n`).problems).toEqual([]);
});
