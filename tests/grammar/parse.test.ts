import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse";
import { DEEPEST, LONGEST, isPoint, type SyntaxProblem } from "../../grammar/tree";
import { outline } from "./outline";

const problems = (text: string): readonly SyntaxProblem[] => parse(text).problems;
/** Each problem as its code and the text it stands at. */
const marks = (text: string): string[] => problems(text).map(({ code, start, end }) => `${code} at ${text.slice(start, end)}`);

describe("statements", () => {
  it("a line is a fact, a comma begins another of the same owner, a block belongs to the line", () => {
    const text = "item talk from 18:30, talkers Ines { note \"x\" }\nonline 8 people";
    const tree = parse(text);
    expect(tree.problems).toEqual([]);
    expect(outline(tree)).toBe('item talk from 18:30, talkers Ines\n  note "x"\nonline 8 people');
    const [first] = tree.root.facts;
    expect(first?.also).toHaveLength(1);
    expect(first?.also[0]?.block).toBeUndefined();
    expect(text.slice(first?.start, first?.end)).toBe("item talk from 18:30");
    expect(text.slice(first?.start, first?.fullEnd)).toBe('item talk from 18:30, talkers Ines { note "x" }');
    expect(text.slice(first?.block?.start, first?.block?.end)).toBe('{ note "x" }');
  });

  it("a point is one value, split at its commas", () => {
    const tree = parse("place box at (3.2 m, -1.0 m, 1.4m), height 2 m");
    expect(tree.problems).toEqual([]);
    const point = tree.root.facts[0]?.items[2];
    expect(point !== undefined && isPoint(point) && point.coordinates.map((c) => c.map((token) => token.text))).toEqual([
      ["3.2", "m"], ["-1.0", "m"], ["1.4", "m"],
    ]);
    expect(outline(tree)).toBe("place box at (3.2 m, -1.0 m, 1.4 m), height 2 m");
  });

  it("any token may be a value or a head", () => {
    const tree = parse("3 % 2026-10-14 18:30 720p 1x1 \"t\"\n“x” 5\n(3 m, 2 m) x");
    expect(tree.problems).toEqual([]);
    expect(outline(tree)).toBe("3 % 2026-10-14 18:30 720p 1x1 \"t\"\n“x” 5\n( 3 m 2 m x");
  });

  it("blocks nest, on one line or on several", () => {
    expect(outline(parse("a { b { c 1, d } }\ne {\n  f { g\n  }\n}"))).toBe("a\n  b\n    c 1, d\ne\n  f\n    g");
    expect(problems("a { b { c 1, d } }\ne {\n  f { g\n  }\n}")).toEqual([]);
  });

  it("an empty block is a block", () => {
    const [fact] = parse("a {\n}").root.facts;
    expect(fact?.block?.facts).toEqual([]);
  });

  it("a brace may stand on the line below its head, also below a comment, but not below a blank line", () => {
    for (const text of ["a\n{\n  b\n}", "a # note\n# more\n{\n  b\n}", "a\r\n{ b }"]) {
      expect(outline(parse(text))).toBe("a\n  b");
      expect(problems(text)).toEqual([]);
    }
    expect(outline(parse("a\n\n{\n  b\n}"))).toBe("a\nb");
    expect(marks("a\n\n{\n  b\n}")).toEqual(["surplus-brace at {"]);
  });

  it("empty texts and texts of comments have no statements and no problems", () => {
    for (const text of ["", "\n\n", "# a\n  # b", "\ufeff"]) {
      expect(parse(text).root.facts).toEqual([]);
      expect(problems(text)).toEqual([]);
    }
  });
});

describe("problems: one for each mistake, at its place, in words that show what to write", () => {
  it("unclosed-text", () => {
    expect(marks('note "the key\nx 1')).toEqual(['unclosed-text at "the key']);
    expect(outline(parse('note "the key\nx 1'))).toBe('note "the key\nx 1');
  });

  it("unclosed-point: ends with its line, or before a brace", () => {
    expect(marks("a at (1 m, 2 m\nb")).toEqual(["unclosed-point at ("]);
    expect(outline(parse("a at (1 m, 2 m\nb"))).toBe("a at (1 m, 2 m)\nb");
    expect(outline(parse("a at (1 m { b }"))).toBe("a at (1 m)\n  b");
    const point = parse("a at (1 m, 2 m\nb").root.facts[0]?.items[1];
    expect(point !== undefined && isPoint(point) && point.close).toBeUndefined();
  });

  it("stray-sign: parentheses", () => {
    expect(marks("a b) c")).toEqual(["stray-sign at )"]);
    expect(outline(parse("a b) c"))).toBe("a b c");
    expect(marks("a (1 (2)")).toEqual(["stray-sign at ("]);
  });

  it("stray-sign: commas", () => {
    expect(marks(", a")).toEqual(["stray-sign at ,"]);
    expect(marks("a,, b")).toEqual(["stray-sign at ,"]);
    expect(outline(parse("a,, b"))).toBe("a, b");
    expect(outline(parse("a\n, b"))).toBe("a\nb");
  });

  it("stray-sign: signs that mean nothing are left out, one problem a line", () => {
    expect(marks("noise = 41 ;; dBA\nx: 5")).toEqual(["stray-sign at =", "stray-sign at :"]);
    expect(outline(parse("noise = 41 ;; dBA\nx: 5"))).toBe("noise 41 dBA\nx 5");
    expect(outline(parse("- item"))).toBe("item");
  });

  it("stray-sign: a fact of nothing but signs keeps one as its head, so that its block stays with it", () => {
    expect(outline(parse("@@ ?? {\n  a\n}\n& , b"))).toBe("@\n  a\n&, b");
    expect(parse("@@").root.facts[0]?.head.kind).toBe("unknown");
  });

  it.each([
    ["8-10 m", "to"], ["price €120", "EUR 120"], ["noise = 41 dBA", "noise 41 dBA"], ["lectern & audience", "and"],
    ["lapel -> laptop", "from lapel to laptop"], ["a; b", "comma"], ["~9 m", "about"], ["at [3 m]", "parentheses"],
    ["// note", "#"], ["a \u0001 b and some more words", "U+0001"], ["say 🎤", "🎤"],
  ])("%s: the message shows %s", (text, wanted) => {
    const found = problems(`x ${text}`);
    expect(found.map((problem) => problem.code)).toEqual(["stray-sign"]);
    expect(found[0]?.message).toContain(wanted);
  });

  it.each([
    ["3,2", "3.2 with a point, not 3,2"], ["0,125", "0.125 with a point"], ["1,000", "1000 without a comma"],
    ["12,345,678.5", "12345678.5 without a comma"], ["1,2,3", "1, 2, 3"], ["-3,25", "-3.25"],
  ])("decimal-comma: %s asks for %s", (number, wanted) => {
    expect(marks(`length ${number} m`)).toEqual([`decimal-comma at ${number}`]);
    expect(problems(`length ${number} m`)[0]?.message).toContain(wanted);
  });

  it("decimal-comma: in a point both readings are offered", () => {
    expect(problems("at (3,2)").map(({ code, message }) => [code, message])).toEqual([
      ["decimal-comma", "Write one number with a point, 3.2, or two with a blank after the comma, 3, 2."],
    ]);
  });

  it("dangling-comma: the next line is a line of its own", () => {
    expect(marks("a 1,\nb 2")).toEqual(["dangling-comma at ,"]);
    expect(outline(parse("a 1,\nb 2"))).toBe("a 1\nb 2");
    expect(outline(parse("a 1, { b, }\nc"))).toBe("a 1\n  b\nc");
    expect(marks("a 1, { b, }\nc,")).toHaveLength(3);
    expect(marks("a, # note\nb")).toEqual(["dangling-comma at ,"]);
  });

  it("after-block: what follows a } begins a new line", () => {
    expect(marks("a { b } c 1 d 2\ne")).toEqual(["after-block at c"]);
    expect(outline(parse("a { b } c 1 d 2\ne"))).toBe("a\n  b\nc 1 d 2\ne");
    expect(marks("a { b { c }, d }")).toEqual(["after-block at ,"]);
    expect(outline(parse("a { b { c }, d }"))).toBe("a\n  b\n    c\n  d");
  });

  it("surplus-brace: a block that belongs to nothing gives its lines to the block around it", () => {
    expect(marks("{ a }\nb")).toEqual(["surplus-brace at {"]);
    expect(outline(parse("{ a }\nb"))).toBe("a\nb");
    expect(outline(parse("a { b } { c }"))).toBe("a\n  b\nc");
    expect(outline(parse("a {\n  {\n  b\n  }\n  c\n}"))).toBe("a\n  b\n  c");
  });

  it("merge-conflict: one problem for the file, and the marks are no statements", () => {
    const text = "a {\n<<<<<<< HEAD\n  b 1,2\n=======\n  b 3 {\n>>>>>>> other\n}\nc (";
    expect(problems(text).map((problem) => problem.code)).toEqual(["merge-conflict"]);
    expect(outline(parse("a\n<<<<<<< HEAD\nb\n=======\nc\n>>>>>>> other\nd"))).toBe("a\nb\nc\nd");
  });

  it("too-deep: one problem, the lines beyond belong to the deepest block that is read", () => {
    const deep = (levels: number): string => "a {\n".repeat(levels) + "b\n" + "}\n".repeat(levels);
    expect(problems(deep(DEEPEST))).toEqual([]);
    expect(problems(deep(DEEPEST + 5)).map((problem) => problem.code)).toEqual(["too-deep"]);
    expect(outline(parse(deep(DEEPEST + 5))).split("\n").at(-1)).toBe(`${"  ".repeat(DEEPEST)}b`);
  });

  it.each(["{", "a {\n", "a { ", " {\n"])("too-deep: 100,000 times %j is one problem and no overflow", (piece) => {
    expect(problems(piece.repeat(100_000)).map((problem) => problem.code)).toEqual(["too-deep"]);
  });

  it("too-large: one problem and an empty tree", () => {
    const tree = parse("a".repeat(LONGEST + 1));
    expect(tree.problems.map((problem) => problem.code)).toEqual(["too-large"]);
    expect(tree.root.facts).toEqual([]);
    expect(parse("a".repeat(LONGEST)).problems).toEqual([]);
  });

  it("not-text: nothing of a picture or an archive is read", () => {
    for (const text of ["setup\0 x", "\u0001\u0002\u0003abc", "\ufffd\ufffd\ufffdPNG"]) {
      expect(problems(text).map((problem) => problem.code)).toEqual(["not-text"]);
      expect(parse(text).tokens).toEqual([]);
    }
  });

  it("problems stand in the order of the text", () => {
    const starts = problems("a 1,2\nb {\n  c (1\nd )\n").map((problem) => problem.start);
    expect(starts).toEqual([...starts].sort((one, other) => one - other));
    expect(starts.length).toBeGreaterThan(2);
  });

  it("each message is one sentence that begins with a capital and ends with a full stop", () => {
    const all = ["a 1,2", "a 1,", ", a", "{ a }", "a }", "a {", "a (1", "a )", '"', "a { b } c", "= 5", "\0"].flatMap(problems);
    expect(all.length).toBeGreaterThanOrEqual(12);
    for (const { message } of all) expect(message).toMatch(/^\p{Lu}.*[.]$/u);
  });
});
