/** What was noticed on the evening: it narrows what was assumed, quiets what it disproves, and says where the model is wrong. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fileJson } from "../../server/cli/json";
import { Places } from "../../server/cli/places";
import { printStudy } from "../../server/cli/printStudy";
import { plainPage } from "../../server/cli/terminal";
import { rank } from "../../server/finding";
import { shown } from "../../server/model/show";
import type { Study } from "../../server/study";
import { judged, raised } from "../catalogue/harness";
import { hall, IN_ORDER } from "./setups";

const PHONE = `${IN_ORDER}place phone is phone, at (3 m, 3 m)\njoin phone { sends no picture }\n`;
/** Nobody says how loud it is in the room, how it rings, or how loud anybody speaks. */
const OPEN = `setup "Little is known"
room hall 14 m by 9 m
chairs 40 in 5 rows
talker Ines at lectern
place laptop is laptop, at lectern
place box is battery-loudspeaker, near front
place phone is phone, at back
cable from laptop.headset to box.line-in
internet venue { up 4 Mb/s guessed }
join laptop { plays sound on box }
`;
const said = (study: Study): string[] => study.problems.map((p) => `${p.code}: ${p.message}`);
const codes = (study: Study): string[] => study.problems.map((p) => p.code);
const verdict = (study: Study, way: string): string | undefined => study.ways.find((w) => w.way === way)?.verdict;

describe("a statement that denies a finding", () => {
  test("quiets it, whole, lists it as disproved, and fails no way by it", () => {
    const before = judged(hall(PHONE));
    expect(before.ways.find((w) => w.way === "call")?.verdict).toBe("fails");
    const study = judged(hall(`${PHONE}observed no echo\nobserved no howl\n`));
    for (const code of ["echo-path", "hears-itself", "howl-loop"]) expect(raised(study, code), code).toEqual([]);
    expect(study.disproved.flatMap((f) => [f, ...f.folded]).map((f) => f.code).sort()).toEqual(["echo-path", "hears-itself", "howl-loop"]);
    expect(verdict(study, "call")).toBe("works");
  });

  test("says nothing of what it does not speak of: echo is no howl", () => {
    const study = judged(hall(`${PHONE}observed no echo\n`));
    expect(raised(study, "echo-path")).toEqual([]);
    expect(raised(study, "howl-loop")).toHaveLength(1);
  });

  test("of one device, also behind the word, it is of what that device takes part in", () => {
    expect(raised(judged(hall(`${PHONE}observed no echo of phone\n`)), "echo-path")).toEqual([]);
    expect(raised(judged(hall(`${PHONE}observed no echo of beamer\n`)), "echo-path")).toHaveLength(1);
  });
});

test("check shows in words what was disproved and what came of each statement; JSON has the former", () => {
  const study = judged(hall(`${PHONE.replace("sends no picture", "sends no picture, plays no sound")}observed no echo\nobserved box clear at row 4\n`));
  const places = new Places(study, (name) => name);
  const out = printStudy(study, places, () => [], plainPage(100));
  expect(out).toMatch(/Disproved by what was noticed\n {2}echo-path {2}Phone sends what laptop plays/);
  expect(out).toMatch(/Noticed on the evening\n {2}no echo {2}the model says otherwise\n {2}box clear at row 4 {2}agrees with the best guess/);
  expect(out).toMatch(/1 disproved\.\n$/);
  expect(fileJson(study, places, () => []).disproved?.map((f) => f.code)).toEqual(["echo-path"]);
  expect("disproved" in fileJson(judged(hall(PHONE)), places, () => [])).toBe(false);
});

describe("where the model says otherwise over its whole range", () => {
  test("that is said once at the statement: what, by how much, and what comes nearest", () => {
    const study = judged(hall(`${IN_ORDER}observed box unclear at row 1\n`));
    expect(said(study)).toHaveLength(1);
    expect(said(study)[0]).toMatch(/^observed-otherwise: “box unclear at row 1” was noticed, and the model says otherwise over its whole range: (speech over the noise|a speech transmission index of) [\d.]+( dB)? there, where [\d.]+( dB)? is needed, [\d.]+( dB)? off\. Nearest to it comes .+ at .+ in place of .+, and even then it is [\d.]+( dB)? off/);
    expect(study.problems[0]?.severity).toBe("warning");
  });

  test("no echo through a second live device is doubted, and the finding disproved", () => {
    const study = judged(hall(`${PHONE}observed no echo\n`));
    expect(codes(study)).toEqual(["observed-otherwise"]);
  });
});

describe("statements that do nothing", () => {
  test("speak about nothing that is judged, and are told so", () => {
    expect(codes(judged(hall(`${IN_ORDER}observed beamer howl\n`)))).toEqual(["observed-idle"]);
    expect(codes(judged(hall(`${IN_ORDER}observed box clear at row 4\n`)))).toEqual([]);
  });

  test("a name that is not known is that mistake alone", () => {
    expect(codes(judged(hall(`${IN_ORDER}observed tuba clear\n`)))).toEqual(["unknown-name"]);
  });
});

describe("statements that contradict each other", () => {
  test("are set aside, both, with one message, whichever stands first", () => {
    const none = judged(hall(PHONE));
    for (const lines of ["observed no echo\nobserved echo\n", "observed echo\nobserved no echo\n"]) {
      const study = judged(hall(`${PHONE}${lines}`));
      expect(codes(study)).toEqual(["observed-both-ways"]);
      expect(study.findings.map((f) => f.identity)).toEqual(none.findings.map((f) => f.identity));
      expect(study.ways).toEqual(none.ways);
    }
  });

  test("of different rows they do not", () => {
    expect(codes(judged(hall(`${IN_ORDER}observed box clear at row 1\nobserved box clear at row 4\n`)))).toEqual([]);
    expect(codes(judged(hall(`${IN_ORDER}observed box clear at row 1\nobserved box unclear at row 4\n`)))).not.toContain("observed-both-ways");
  });
});

describe("the uplink that was measured on the evening", () => {
  test("counts as measured, and no more is asked", () => {
    const guessed = judged(hall(IN_ORDER, "internet venue { up 2.6 Mb/s guessed, wired }"));
    expect(guessed.questions.map((q) => q.id)).toContain("internet.venue.up");
    const study = judged(hall(`${IN_ORDER}observed uplink 3.1 Mb/s measured 2026-10-14 19:40\n`, "internet venue { up 2.6 Mb/s guessed, wired }"));
    expect(study.questions.map((q) => q.id)).not.toContain("internet.venue.up");
    const [venue] = study.setup.internets;
    expect([venue?.up?.low, venue?.up?.best, venue?.up?.high, venue?.up?.from.how, venue?.up?.from.when]).toEqual([3.1e6, 3.1e6, 3.1e6, "measured", "2026-10-14 19:40"]);
    expect(said(study)).toEqual([]);
  });

  test("beside another that is stated, the difference is said", () => {
    const study = judged(hall(`${IN_ORDER}observed uplink 3.1 Mb/s measured 2026-10-14 19:40\n`));
    expect(said(study)).toEqual(["observed-otherwise: The text has the uplink of venue 20 Mb/s; what was measured is off by 17 Mb/s, and counts instead. Correct what is stated."]);
  });
});

describe("a level that was read", () => {
  const read = (level: number): Study => judged(hall(`${IN_ORDER}observed box level ${level} dBA at row 3\n`));
  const volume = (study: Study): readonly [number, number] | undefined => {
    const value = study.narrowed.get("box.volume");
    return value && [value.low, value.high];
  };

  test("narrows how loud the loudspeaker was turned up, or is doubted, with both figures", () => {
    const far = read(100);
    expect(said(far)).toHaveLength(1);
    const model = Number(/the level of box at row 3 is ([\d.]+) dBA/.exec(said(far)[0] ?? "")?.[1]);
    expect(model).toBeGreaterThan(40);
    const near = read(Math.round(model));
    expect(said(near)).toEqual([]);
    const [low, high] = volume(near) ?? [];
    expect(low).toBeGreaterThan(-4);
    expect(high).toBeLessThan(4);
    expect(low).toBeLessThan(0);
    expect(high).toBeGreaterThan(0);
  });

  test("twice, far apart, in one row is a contradiction; in two rows it is none", () => {
    expect(codes(judged(hall(`${IN_ORDER}observed box level 50 dBA at row 3\nobserved box level 90 dBA at row 3\n`)))).toEqual(["observed-both-ways"]);
    expect(codes(judged(hall(`${IN_ORDER}observed box level 50 dBA at row 3\nobserved box level 90 dBA at row 4\n`)))).not.toContain("observed-both-ways");
  });
});

describe("narrowing", () => {
  const FAR = `setup "Far"\nroom hall 12 m by 8 m {\n  chairs 20 in 4 rows\n}\ntalker Ines at (1 m, 2 m)\nplace laptop is laptop, at (2.2 m, 2 m)\njoin laptop { sends sound, plays sound }\n`;
  const NEAR = FAR.replace("2.2 m", "1.8 m");
  const LINES = ["observed no echo", "observed no howl", "observed clear", "observed echo", "observed box clear at row 5", "observed box unclear", "observed Ines unclear", "observed Ines clear", "observed uplink 4 Mb/s"];
  const texts = [FAR, NEAR, OPEN, hall(IN_ORDER), hall(PHONE), hall(IN_ORDER, "internet venue { up 2.6 Mb/s guessed, wired }")];
  const levels = (study: Study): Map<string, number> => new Map(study.findings.flatMap((f) => [f, ...f.folded]).map((f) => [f.identity, rank(f.severity)]));

  test("bisects to where the model would no longer agree, and says by which statement", () => {
    const clear = judged(`${FAR}observed Ines clear\n`).narrowed.get("room.reverberation-factor");
    expect(clear?.low).toBe(0.75);
    expect(clear?.high).toBeGreaterThan(1.12);
    expect(clear?.high).toBeLessThan(1.15);
    expect(clear && shown(clear)).toMatch(/, narrowed by “observed Ines clear”\)$/);
    const unclear = judged(`${NEAR}observed Ines unclear\n`).narrowed.get("room.reverberation-factor");
    expect([unclear?.low !== undefined && unclear.low > 0.86, unclear?.high]).toEqual([true, 1.3]);
  });

  test("takes ends off what was assumed, keeps the best guess, and names the statement wherever the value is shown", () => {
    const found = texts.flatMap((text) => LINES.flatMap((line) => [...judged(`${text}${line}\n`).narrowed.values()].map((value) => ({ value, line }))));
    expect(found.length).toBeGreaterThan(0);
    for (const { value, line } of found) {
      expect(value.from.narrowed?.by).toBe(line);
      expect(value.low).toBeLessThanOrEqual(value.best);
      expect(value.high).toBeGreaterThanOrEqual(value.best);
    }
  });

  test("of one statement or several, in any order, no range is widened and no level raised", () => {
    fc.assert(fc.property(fc.constantFrom(...texts), fc.shuffledSubarray(LINES, { minLength: 1, maxLength: 3 }), (text, lines) => {
      const before = judged(text);
      const study = judged(`${text}${lines.join("\n")}\n`);
      const turned = judged(`${text}${[...lines].reverse().join("\n")}\n`);
      expect([...turned.narrowed.values()].map((v) => [v.id, v.low, v.high]).sort()).toEqual([...study.narrowed.values()].map((v) => [v.id, v.low, v.high]).sort());
      expect(turned.findings.map((f) => f.identity)).toEqual(study.findings.map((f) => f.identity));
      if (lines.includes("observed uplink 4 Mb/s")) return;
      const known = levels(before);
      for (const [identity, level] of levels(study)) expect(level, `${identity} after ${lines.join(", ")}`).toBeLessThanOrEqual(known.get(identity) ?? 0);
    }), { numRuns: 12, seed: 20261125 });
  });
});
