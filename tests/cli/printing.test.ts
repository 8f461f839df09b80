import { describe, expect, it } from "vitest";
import { excerpt } from "../../server/cli/excerpt";
import { printFigures, figureJson } from "../../server/cli/figures";
import { printStudy } from "../../server/cli/printStudy";
import { plainPage } from "../../server/cli/terminal";
import { columns, lines, number, plain, shortened } from "../../server/cli/wording";
import { WAYS } from "../../server/model/ways";
import { finding, place, places, question, study, TEXT, verdict } from "./studies";

const page = plainPage(90);
const print = (over: Parameters<typeof study>[0] = {}, width = 90): string => {
  const one = study(over);
  return printStudy(one, places(one), () => [{ title: "Turn off the sound of phone", edits: [] }], plainPage(width));
};

describe("what check prints", () => {
  it("begins with the title and the six verdicts in their order, before any finding", () => {
    const out = print();
    const at = ["Tuesday Fern Society", "The room hears the people online", "The people online hear the room", "The room sees the people online",
      "The people online see the room", "The call", "The internet", "error echo-path"].map((words) => out.indexOf(words));
    expect(at).not.toContain(-1);
    expect(at).toEqual([...at].sort((a, b) => a - b));
  });

  it("tells each verdict by a mark and a word of its own, with what it hangs on", () => {
    const ways = [
      verdict("room-hears-online"), verdict("online-hears-room", { verdict: "fails", weakest: "no microphone is sent", hangsOn: ["the noise", "box"] }),
      verdict("room-sees-online", { verdict: "doubtful" }), verdict("online-sees-room", { verdict: "cannot-tell", weakest: "" }),
    ];
    for (const unicode of [true, false]) {
      const one = study({ ways });
      const out = printStudy(one, places(one), () => [], plainPage(90, unicode));
      const marks = ["The room hears", "The people online hear", "The room sees", "The people online see"]
        .map((title) => out.split("\n").find((line) => line.includes(title))?.trim().split(" ")[0] ?? "none");
      expect(new Set(marks).size).toBe(4);
      if (!unicode) expect(out.replace(/…/gu, "")).toMatch(/^[\u0000-\u007f]*$/u);
      expect(out).toContain("no microphone is sent; hangs on the noise and box");
    }
  });

  it("shows a way whose items differ once, as bad as its worst item, with each item below", () => {
    const out = print({ ways: [
      verdict("online-hears-room", { item: "talk" }), verdict("online-hears-room", { item: "questions", verdict: "fails", weakest: "row 3 has no microphone" }),
    ] });
    expect(out.match(/The people online hear the room/gu)).toHaveLength(1);
    expect(out).toMatch(/✗ fails\s+The people online hear the room/u);
    expect(out).toMatch(/✓ works in talk: row 4/u);
    expect(out).toMatch(/✗ fails in questions: row 3 has no microphone/u);
  });

  it("gives a finding its place, excerpt, caret, reasons, assumptions and mend", () => {
    const out = print();
    expect(out).toContain("error echo-path  fern.bothways:5:3");
    expect(out).toMatch(/ 5 │ plays sound on box\n +│ \^{18}\n/u);
    for (const words of ["laptop plays the call on box; phone picks it up", "They hear their own words", "room noise 40 dBA", "Turn off the sound of phone", "kit.bothways:1: phone stands here"]) {
      expect(out).toContain(words);
    }
  });

  it("says with a finding that hangs on an assumption what to find out", () => {
    const findings = [finding({ severity: "warning", question })];
    expect(print({ findings, questions: [] })).toMatch(/open +What uplink does the venue have\?/u);
    // Once is enough where it is asked below anyway.
    expect(print({ findings }).match(/What uplink/gu)).toHaveLength(1);
  });

  it("asks at most three questions, with what each answer means and a line to write", () => {
    const out = print({ questions: [1, 2, 3, 4, 5].map((n) => ({ ...question, id: String(n), ask: `Question ${n}?` })) });
    expect(out).toContain("3. Question 3?");
    expect(out).not.toContain("Question 4?");
    expect(out).toContain("2.7 Mb/s or more: everything can be sent");
    expect(out).toContain("internet venue { up 4 Mb/s measured 2026-11-20 19:00 }");
    expect(out).toContain("2 more questions");
  });

  it("keeps gaps in the plan in one list and accepted risks to a line each", () => {
    const out = print({
      findings: [finding({ severity: "plan", code: "role-open", message: "Nobody is named to listen." })],
      accepted: [finding({ code: "one-device-carries-all", message: "laptop carries everything." })],
    });
    expect(out).toMatch(/Gaps in the plan\n {2}role-open {2}Nobody is named to listen\.\n/u);
    expect(out).toMatch(/Accepted\n {2}one-device-carries-all {2}laptop carries everything\.\n/u);
    expect(out).toContain("1 gap in the plan; 1 question open; 1 accepted.");
    expect(out).not.toContain("plan role-open");
  });

  it("keeps within the width of the page", () => {
    const long = "word ".repeat(100);
    for (const width of [40, 80, 100]) {
      const out = print({ findings: [finding({ message: long, chain: [long, long], notice: long }), finding({ severity: "plan", code: "a-gap-with-a-long-code", message: long })], ways: [verdict("call", { weakest: long }), verdict("internet", { weakest: long, item: "a" }), verdict("internet", { item: "b" })],
        accepted: [finding({ message: long })], questions: [{ ...question, ask: long, answers: [{ when: long, then: long }] }] }, width);
      // What is to be typed stands on one line, so that it can be copied.
      const wide = out.split("\n").filter((line) => columns(line) > width && !line.includes("write  ") && !/survey/u.test(line));
      expect(wide).toEqual([]);
    }
  });

  it("counts instead of flooding where a text is full of mistakes", () => {
    const problems = Array.from({ length: 500 }, (_, i) => ({ code: "unknown-name", severity: "error" as const, message: `mistake ${i}`, where: place("box"), related: [] }));
    const out = print({ problems });
    expect(out.match(/error unknown-name/gu)).toHaveLength(20);
    expect(out).toContain("480 more mistakes");
    expect(out).toContain("501 errors");
  });

  it("prints a mistake of a shared file once for a whole folder", () => {
    const problem = { code: "unknown-name", severity: "error" as const, message: "there is no phone", where: { path: "kit.bothways", start: 7, end: 12 }, related: [] };
    const one = study({ problems: [problem] });
    const seen = new Set<string>();
    const first = printStudy(one, places(one), () => [], page, seen);
    const second = printStudy(study({ root: "other.bothways", problems: [problem] }), places(one), () => [], page, seen);
    expect(first).toContain("there is no phone");
    expect(second).not.toContain("there is no phone");
    expect(second).toContain("1 mistake in files that it uses");
  });

  it("obeys nothing that a file says to the terminal", () => {
    const evil = "\u001b[31mred\u001b[0m\u0007\u202egnp\r";
    const one = study({
      title: evil, files: [{ path: "fern.bothways", text: TEXT.replace("box\n", `box ${evil}\n`) }],
      findings: [finding({ message: evil, chain: [evil], notice: evil, subjects: [evil] })], ways: [verdict("call", { weakest: evil, hangsOn: [evil] })],
      questions: [{ ...question, ask: evil, write: evil }],
    });
    const out = printStudy(one, places(one), () => [{ title: evil, edits: [] }], page);
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/u);
    expect(out).toContain("red");
  });
});

describe("excerpts", () => {
  const at = (text: string, start: number, end: number, width = 60): string[] => {
    const before = text.slice(0, start).split("\n");
    const line = before.length - 1;
    const character = before[line]?.length ?? 0;
    return excerpt({ path: "x", text, range: { start: { line, character }, end: { line, character: character + end - start } } }, plainPage(width), 0);
  };
  const under = ([line, caret]: string[]): string => {
    const from = caret?.indexOf("^") ?? -1;
    return line?.slice(from, (caret?.lastIndexOf("^") ?? -1) + 1) ?? "";
  };

  it("puts carets under what is meant, also behind tabs", () => {
    const text = "join laptop {\n\tplays sound on box\n}";
    expect(under(at(text, text.indexOf("box"), text.indexOf("box") + 3))).toBe("box");
  });

  it("shows the part around the carets of a line that is too long", () => {
    const text = `${"filler ".repeat(5000)}needle ${"filler ".repeat(5000)}`;
    const shown = at(text, text.indexOf("needle"), text.indexOf("needle") + 6);
    expect(under(shown)).toBe("needle");
    expect(shown.every((line) => columns(line) <= 60)).toBe(true);
  });

  it("counts wide signs as two columns", () => {
    const text = "talker 陽子 at lectern";
    const [line, caret] = at(text, text.indexOf("at"), text.indexOf("at") + 2);
    expect(columns((caret ?? "").slice(0, caret?.indexOf("^")))).toBe(columns((line ?? "").slice(0, line?.indexOf("at lectern"))));
  });

  it("has a caret for an empty place at the end of the text", () => {
    expect(at("setup", 5, 5)[1]).toMatch(/\^$/u);
    expect(at("", 0, 0)[1]).toMatch(/\^$/u);
  });
});

describe("wording", () => {
  it("wraps without losing a word", () => {
    const words = "one two three four five six seven eight nine ten".split(" ");
    for (const width of [12, 20, 33, 200]) expect(lines(words.join(" "), width).join(" ").split(" ")).toEqual(words);
    expect(lines("x".repeat(500), 40).join("")).toBe("x".repeat(500));
    expect(lines("aaaa bbbb cccc dddd", 14, 6)).toEqual(["aaaa", "bbbb cccc dddd"]);
    expect(lines("aaaaaaaaaa b", 14, 6)).toEqual(["", "aaaaaaaaaa b"]);
  });

  it("shortens to the columns that are there", () => {
    expect(shortened("abcdef", 6)).toBe("abcdef");
    expect(shortened("abcdefg", 6)).toBe("abcde…");
    expect(columns(shortened("陽".repeat(50), 11))).toBeLessThanOrEqual(11);
  });

  it("writes numbers with the figures that count", () => {
    expect([38.2345, 0, 1234.567, 0.001234, 1e-7, 2_700_000].map(number)).toEqual(["38.2", "0", "1234.6", "0.00123", "1.00e-7", "2700000"]);
  });

  it("replaces half of a surrogate pair, which no encoding has", () => {
    expect(plain("a\ud800b")).toBe("a·b");
    expect(plain("😀")).toBe("😀");
  });
});

describe("figures", () => {
  const figure = {
    name: "speech level", of: ["box"], at: "row 4", band: 1000, value: 61.234, unit: "dB", formula: "level − 20 lg distance",
    inputs: [{ name: "distance", value: 6.2, unit: "m", assumed: true }], source: "inverse square law",
  };
  it("prints value, unit, working, source and what was assumed", () => {
    const out = printFigures([figure, { ...figure, at: "row 3", value: 63 }, { ...figure, at: "row 3", band: 250, value: 58 }, { ...figure, band: undefined, value: 64 }], page);
    for (const words of ["61.2 dB  box, at row 4, 1 kHz", "box, at row 3: 1 kHz 63 dB; 250 Hz 58 dB", "64 dB  box, at row 4\n", "distance 6.2 m (assumed)", "inverse square law"]) expect(out).toContain(words);
    expect(out.match(/level − 20 lg distance/gu)).toHaveLength(1);
  });
  it("has the keys that scripts count on, the optional ones only where they say something", () => {
    expect(Object.keys(figureJson(figure))).toEqual(["name", "of", "at", "band", "value", "unit", "formula", "inputs", "source"]);
    expect(Object.keys(figureJson({ ...figure, at: undefined, band: undefined }))).toEqual(["name", "of", "value", "unit", "formula", "inputs", "source"]);
  });
});

it("the six ways are those of the product", () => {
  expect(study().ways.map((w) => w.way)).toEqual(WAYS);
});
