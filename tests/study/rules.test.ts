/** What may not matter to a study, and what has to agree in it: order and layout of the text, its units, findings and figures, items of the programme. */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse";
import { format } from "../../grammar/printer";
import { study, type Study } from "../../server/study";
import { judged } from "../catalogue/harness";
import { chance } from "../grammar/damages";
import { bothwaysFiles, inMemory } from "../language/folder";
import { hall, IN_ORDER } from "./setups";

const FILES = bothwaysFiles("samples");
const SETUPS = [...FILES.keys()].filter((path) => study(inMemory(FILES), path).isSetup);
const EVENING = "samples/association/autumn.bothways";
const textOf = (path: string): string => FILES.get(path) ?? expect.fail(`no sample ${path}`);
const written = (path: string, text: string): Study => study(inMemory(new Map(FILES).set(path, text)), path);

/** All that a study says, without places in the text and without the order in which it is said. */
function said(of: Study): unknown {
  const sorted = (all: readonly unknown[]): string[] => all.map((one) => JSON.stringify(one)).sort();
  return {
    problems: sorted(of.problems.map((p) => p.message)),
    ways: sorted(of.ways.map((w) => [w.way, w.item, w.verdict])),
    findings: sorted(of.findings.map((f) => [f.severity, f.identity, f.measured, f.limit, f.folded.map((g) => g.identity).sort()])),
    accepted: sorted(of.accepted.map((f) => f.identity)),
    questions: sorted(of.questions.map((q) => [q.id, q.weight])),
  };
}

describe("what does not change a study", () => {
  /** Statements in another order; the version stays first. */
  function shuffled(text: string, random: (below: number) => number): string {
    const blocks = parse(text).root.facts.map((fact) => text.slice(fact.start, fact.fullEnd));
    const version = blocks.filter((block) => block.startsWith("bothways "));
    const rest = blocks.filter((block) => !block.startsWith("bothways "));
    for (let i = rest.length - 1; i > 0; i -= 1) {
      const j = random(i + 1);
      [rest[i], rest[j]] = [rest[j] ?? "", rest[i] ?? ""];
    }
    return `${[...version, ...rest].join("\n")}\n`;
  }

  test.each(SETUPS)("%s: the order of its statements", (path) => {
    const random = chance(31);
    const before = textOf(path);
    let tried = 0;
    for (let turn = 0; tried < 3 && turn < 60; turn += 1) {
      const after = shuffled(before, random);
      if (after === before) continue;
      tried += 1;
      expect(said(written(path, after)), after).toEqual(said(study(inMemory(FILES), path)));
    }
    expect(tried).toBe(3);
  });

  test.each(SETUPS)("%s: blanks, empty lines, comments and how the file is laid out", (path) => {
    const before = said(study(inMemory(FILES), path));
    const loose = textOf(path).split("\n").map((line) => (line.trim() === "" ? line : `   ${line}   # by hand`)).join("\r\n\r\n");
    expect(loose).not.toBe(textOf(path));
    expect(said(written(path, loose))).toEqual(before);
    const laid = format(loose);
    if (!("text" in laid)) throw new Error(laid.refused);
    expect(said(written(path, laid.text))).toEqual(before);
  });

  test("the unit in which the room is measured", () => {
    const room = "samples/association/rooms/old-schoolroom.bothways";
    const inCentimetres = textOf(room).replace(/(\d+\.\d+) m\b/g, (_, metres: string) => `${Math.round(Number(metres) * 100)} cm`);
    expect(inCentimetres).toContain("920 cm by 640 cm by 310 cm");
    const numbers = (of: Study): unknown => of.figures().map((f) => [f.name, f.of, f.at, f.item, f.band, Number(f.value.toPrecision(5))]);
    const [metres, centimetres] = [study(inMemory(FILES), EVENING), study(inMemory(new Map(FILES).set(room, inCentimetres)), EVENING)];
    expect(centimetres.problems).toEqual([]);
    expect(numbers(centimetres)).toEqual(numbers(metres));
    expect(centimetres.ways.map((w) => w.verdict)).toEqual(metres.ways.map((w) => w.verdict));
  });
});

describe("a number that is told twice is one number", () => {
  const NAMES: Readonly<Record<string, readonly string[]>> = {
    "uplink-short": ["sent in all"], "battery-short": ["battery life"],
    "seat-unheard": ["direct to reverberant ratio"],
    "speech-unclear": ["speech transmission index"], "late-arrival": ["how late"],
  };

  test("what a finding of uplink, battery, hearing or sight measures stands among the figures", () => {
    const met = new Set<string>();
    for (const path of SETUPS) {
      const it = study(inMemory(FILES), path);
      const figures = it.figures();
      for (const finding of it.findings.flatMap((f) => [f, ...f.folded])) {
        const names = NAMES[finding.code];
        const { measured } = finding;
        if (names === undefined || measured === undefined) continue;
        met.add(finding.code);
        const same = figures.filter((f) => names.includes(f.name) && f.unit === measured.unit && finding.subjects.some((s) => f.of.includes(s)));
        expect(same.map((f) => f.value), `${path}: ${finding.message}`).toContain(Number(measured.value.toPrecision(6)));
      }
    }
    expect([...met].sort()).toEqual(Object.keys(NAMES).sort());
  });

  test("no figure of one thing stands there with two values, unless it says in which item each is so", () => {
    let byItem = 0;
    for (const path of SETUPS) {
      const it = study(inMemory(FILES), path);
      const seen = new Map<string, (string | undefined)[]>();
      for (const f of it.figures()) {
        const key = [f.name, f.of.join(" "), f.at, f.band].join("|");
        seen.set(key, [...(seen.get(key) ?? []), f.item]);
      }
      for (const [key, items] of seen) {
        expect(new Set(items).size, `${path}: ${key}`).toBe(items.length);
        if (items.length > 1) expect(items, `${path}: ${key}`).not.toContain(undefined);
        if (items.length > 1) byItem += 1;
        for (const item of items) if (item !== undefined) expect(it.items).toContain(item);
      }
    }
    expect(byItem).toBeGreaterThan(5);
  });

  test("of a voice and of a picture, too, where an item differs", () => {
    const figures = (text: string): unknown[] => judged(hall(text)).figures().filter((f) => f.name === "height of the picture" || f.name === "speech over noise at the microphone").map((f) => [f.of.join(" "), f.item]);
    const items = `meeting { start 18:00, end 20:00 }\nprogramme {\n  item talk from 18:00, talkers Ines\n  item questions from 19:00, talkers Ines\n}\n`;
    expect(figures(`${items}${IN_ORDER.replace("shows call on laptop.screen, ", "")}`)).toEqual([["Ines lapel", undefined], ["beamer", undefined]]);
    // What is not sent or shown in an item has no figure in it, and the other says where it holds.
    expect(figures(`${items}${IN_ORDER.replace("shows call on laptop.screen, ", "").replace("shows call on beamer", "shows call on beamer during questions, sends no sound during questions")}`)).toEqual([["Ines lapel", "talk"], ["laptop.screen", "talk"], ["beamer", "questions"]]);
  });

  test("what a formula says gives the number beside it", () => {
    const it = judged(hall(IN_ORDER));
    const of = (name: string, band?: number) => it.figures().find((f) => f.name === name && f.band === band) ?? expect.fail(`no ${name}`);
    const constant = of("room constant", 1000);
    const [k, v, s] = ["K", "volume", "surface"].map((name) => constant.inputs.find((i) => i.name === name)?.value ?? NaN) as [number, number, number];
    const a = (k * v) / of("reverberation time", 1000).value;
    expect(constant.value / (a / (1 - a / s))).toBeCloseTo(1, 4);
    expect(k).toBe(Number(((24 * Math.LN10) / 343).toPrecision(6)));
  });

  test("how loud a voice comes back to the room is a figure, of the number that the finding tells", () => {
    const it = judged(hall(`${IN_ORDER}place phone is phone, at (3 m, 3 m)\njoin phone { sends no picture }\n`));
    const [finding] = it.findings.flatMap((f) => f.folded).filter((f) => f.code === "hears-itself");
    const found = it.figures().filter((f) => f.name === "voice coming back, over the voice itself");
    expect(found.map((f) => f.value)).toContain(Number((finding?.measured?.value ?? NaN).toPrecision(6)));
    for (const f of found) expect(f.value).toBeCloseTo((f.inputs[0]?.value ?? NaN) - (f.inputs[1]?.value ?? NaN), 3);
    expect(it.figures().filter((f) => f.name === "voice coming back, how late")).toHaveLength(found.length);
  });

  test("the limits of uplink and battery stand among the figures, too", () => {
    const dark = study(inMemory(FILES), "samples/gone-wrong/in-the-dark.bothways");
    const all = dark.findings.flatMap((f) => [f, ...f.folded]);
    const limit = (code: string): number => all.find((f) => f.code === code)?.limit?.value ?? expect.fail(`no ${code}`);
    const figure = (name: string): number[] => dark.figures().filter((f) => f.name === name).map((f) => f.value);
    expect(figure("battery life needed")).toContain(limit("battery-short"));
    expect(figure("uplink that can be counted on")).toContain(limit("uplink-short"));
  });
});

describe("each item of the programme has its verdict", () => {
  test("who talks in an item decides who must be heard in it", () => {
    // The audience's words are repeated by Ines while questions are asked; take that away and they hang on her lapel microphone.
    const it = written(EVENING, textOf(EVENING).replace(", repeats audience during questions", ""));
    expect(it.problems).toEqual([]);
    expect(it.ways.filter((w) => w.way === "online-hears-room").map((w) => [w.item, w.verdict])).toEqual([["talk", "works"], ["questions", "doubtful"]]);
    const found = it.findings.filter((f) => f.severity !== "plan" && f.ways.includes("online-hears-room"));
    expect(found.map((f) => [f.severity, f.items, f.subjects])).toEqual([["warning", ["questions"], ["audience"]]]);
    // So far from the lapel microphone that no end of the reverberation, which was guessed, would mend it: nothing is asked.
    expect(found.map((f) => [f.code, f.question])).toEqual([["seat-unheard", undefined]]);
  });

  test("a finding of several items tells the worst of them, whichever comes first", () => {
    for (const text of [textOf(EVENING), textOf(EVENING).replace("at 360p15", "at 1080p30").replace("at 720p30 during questions", "at 360p15 during questions")]) {
      const it = written(EVENING, text);
      const sent = it.figures().filter((f) => f.name === "sent in all");
      expect(sent.map((f) => f.item).sort()).toEqual(["questions", "talk"]);
      const [short] = it.findings.filter((f) => f.code === "uplink-short");
      expect(short?.items).toEqual([]);
      expect(short?.measured?.value).toBeCloseTo(Math.max(...sent.map((f) => f.value)), 4);
    }
  });
});

describe("a way across whose fact could still be its end", () => {
  const internet = (up: string): string[] => judged(hall(IN_ORDER, `internet venue { up ${up} measured 2026-10-07 18:40, wired }`)).ways.filter((w) => w.way === "internet").map((w) => w.verdict);

  test("is doubtful where one end of a range is an error, and works where none is", () => {
    expect(internet("10 Mb/s")).toEqual(["works"]);
    expect(internet("10 Mb/s within 8 to 20 Mb/s")).toEqual(["works"]);
    expect(internet("10 Mb/s within 20 kb/s to 20 Mb/s")).toEqual(["doubtful"]);
  });
});

test("that a device ails is an error of its own; the way it serves is doubtful, for another route may be left", () => {
  // 20 Wh × 0.8 / 20 W = 48 min of a meeting of two hours; nothing else is wrong.
  const text = hall(IN_ORDER).replace("mains from left-wall to laptop\n", "").replace("aim Ines\n", "aim Ines { battery 20 Wh, draws 20 W }\n");
  const it = judged(`${text}meeting { start 18:00, end 20:00 }\n`);
  const errors = it.findings.filter((f) => f.severity === "error");
  expect(errors.map((f) => [f.code, f.subjects])).toEqual([["battery-short", ["laptop"]]]);
  const served = it.ways.filter((w) => errors[0]?.ways.includes(w.way));
  expect(served.length).toBeGreaterThan(0);
  expect(new Set(served.map((w) => w.verdict))).toEqual(new Set(["doubtful"]));
});
