/** One finding for one cause: what is said of a cause with consequences, and of one cause in several items. */
import { describe, expect, test } from "vitest";
import type { Case, Check, Outcome } from "../../server/checks/check";
import type { Judged } from "../../server/judge";
import { merge } from "../../server/merge";
import { judged } from "../catalogue/harness";

const where = { path: "it", start: 0, end: 1 };
/** A case of one code and cause that was judged an error. */
function one(code: string, key: string, words: { readonly because: string; readonly effect: string }, foldUnder?: string): Judged {
  const best: Outcome = {
    severity: "error", badness: 1, cause: { key, subjects: [], where }, ...(foldUnder === undefined ? {} : { foldUnder }), say: () => ({ ...words, summary: "", chain: [] }),
  };
  const subject: Case = { key, ways: ["call"], measure: () => best };
  const check: Check = { entry: { code, title: code, severity: "error", group: "Echo and howl", notice: "", why: "", todo: [], source: "", symptoms: [], limit: "" }, cases: () => [subject] };
  return { check, item: undefined, judgement: { case: subject, best, said: best.say(), severity: "error", atBest: "error", swings: [], turnedBy: [], couldFail: [] } };
}

describe("a consequence", () => {
  const root = one("echo-path", "echo", { because: "the phone sends what the box plays", effect: "there is an echo" });

  test("with an effect adds it to what its cause says", () => {
    const [found] = merge([root, one("howl-loop", "howl", { because: "it goes round", effect: "it howls" }, "echo")], 1);
    expect(found?.finding.message).toBe("The phone sends what the box plays: there is an echo; so it howls.");
  });

  test("with an empty effect folds silently, and stays to be read", () => {
    const [found, ...others] = merge([root, one("howl-loop", "howl", { because: "it goes round", effect: "" }, "echo")], 1);
    expect(others).toEqual([]);
    expect(found?.finding.message).toBe("The phone sends what the box plays: there is an echo.");
    expect(found?.finding.folded.map((f) => [f.code, f.message])).toEqual([["howl-loop", "It goes round."]]);
  });

  test("whose effect is its cause over again says it once by itself, and whole under another", () => {
    const alone = one("no-power", "power", { because: "nothing powers the box", effect: "nothing powers the box" });
    expect(merge([alone], 1)[0]?.finding.message).toBe("Nothing powers the box.");
    const [found] = merge([root, one("no-power", "power", { because: "nothing powers the box", effect: "nothing powers the box" }, "echo")], 1);
    expect(found?.finding.message).toBe("The phone sends what the box plays: there is an echo; so nothing powers the box.");
  });
});

describe("what howls through one mixer", () => {
  const study = judged(`setup "Two who speak"
room hall 12 m by 8 m by 4 m {
  noise 50 dBA
  reverberation 1 s
  chairs 24 in 4 rows { first 6 m }
  outlet wall at left
}
meeting { date 2026-10-14, access 17:00, start 18:30, end 19:30, online 4 people }
internet venue { up 20 Mb/s measured 2026-10-07 18:40, wired }
place desk is mixer, at operator
mains from wall to desk
place laptop is laptop, at operator
mains from wall to laptop
${[1, 2].map((i) => `talker speaker-${i} at (1 m, ${i * 3} m)
place mic-${i} is gooseneck-microphone, at (1.3 m, ${i * 3} m) { mouth 0.4 m }
place box-${i} is mains-loudspeaker, at (1.8 m, ${i * 3 - 0.6} m) { speech-level 95 dBA }
mains from wall to box-${i}
cable from mic-${i}.plug to desk.in-${i}`).join("\n")}
cable from desk.main-left to box-1.line
cable from desk.main-right to box-2.line
cable from desk.usb to laptop.usb-1
mixer desk {
  channel one from desk.in-1
  channel two from desk.in-2
  bus left to desk.main-left { holds one }
  bus right to desk.main-right { holds two }
  bus far-end to desk.usb { holds all }
}
item first from 18:30, talkers speaker-1
item second from 19:00, talkers speaker-2
join laptop { sends sound from desk, plays no sound, sends no picture }
`);

  test("is one finding, whichever loudspeaker is the worst in an item", () => {
    expect(study.problems).toEqual([]);
    const found = study.findings.filter((f) => f.code === "howl-loop");
    expect(found.map((f) => [f.identity, f.items])).toEqual([["howl-loop | howl desk", []]]);
  });
});
