import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse";
import { outline } from "./outline";

const lines = (...of: string[]): string => of.join("\n");
const TOP = new Set(["meeting", "join", "place", "talker"]);
const said = (text: string, topHeads?: ReadonlySet<string>): string[] =>
  parse(text, topHeads === undefined ? {} : { topHeads }).problems.map(({ code, message, start }) => {
    const line = text.slice(0, start).split("\n").length;
    return `${code} in line ${line}${/before line \d+/.test(message) ? ` (${/before line \d+/.exec(message)?.[0]})` : ""}`;
  });

describe("indented text", () => {
  it("a } that is missing is put before the next line of the owner's column", () => {
    const text = lines("meeting {", "  date 1", "  start 2", "place box", "join x { a }");
    expect(said(text)).toEqual(["unclosed-block in line 3 (before line 4)"]);
    expect(outline(parse(text))).toBe(lines("meeting", "  date 1", "  start 2", "place box", "join x", "  a"));
  });

  it("the } of an outer block closes an inner one", () => {
    const text = lines("mixer desk {", "  bus hall {", "    holds all", "}", "place box");
    expect(said(text)).toEqual(["unclosed-block in line 3 (before line 4)"]);
    expect(outline(parse(text))).toBe(lines("mixer desk", "  bus hall", "    holds all", "place box"));
  });

  it("a } that is missing at the end", () => {
    expect(said(lines("join x {", "  a"))).toEqual(["unclosed-block in line 2"]);
    expect(parse("join x {").problems[0]?.message).toContain("“join”");
  });

  it("a { that is missing is put at the end of the line that lacks it", () => {
    const text = lines("place a", "meeting", "  date 1", "  start 2", "}", "place box");
    expect(said(text)).toEqual(["missing-brace in line 2"]);
    expect(outline(parse(text))).toBe(lines("place a", "meeting", "  date 1", "  start 2", "place box"));
  });

  it("a very long head is cut short in what is said of it", () => {
    const long = "x".repeat(300);
    const messages = [lines("place a", long, "  date 1", "}", "place b"), `${long} {`].flatMap((text) => parse(text).problems.map(({ code, message }) => `${code} ${message}`));
    expect(messages.map((message) => message.split(" ")[0])).toEqual(["missing-brace", "unclosed-block"]);
    for (const message of messages) {
      expect(message).toContain(`“${"x".repeat(39)}…`);
      expect(message.length).toBeLessThan(140);
    }
  });

  it("also of an inner block", () => {
    const text = lines("mixer desk {", "  bus hall", "    holds all", "  }", "  bus far {", "    holds x", "  }", "}");
    expect(said(text)).toEqual(["missing-brace in line 2"]);
    expect(outline(parse(text))).toBe(lines("mixer desk", "  bus hall", "    holds all", "  bus far", "    holds x"));
  });

  it("a } amid a block closes nothing", () => {
    const text = lines("meeting {", "  date } 1", "  start 2", "}", "place box");
    expect(said(text)).toEqual(["surplus-brace in line 2"]);
    expect(outline(parse(text))).toBe(lines("meeting", "  date 1", "  start 2", "place box"));
  });

  it("a } more than was opened", () => {
    expect(said(lines("a {", "  b", "}", "}", "c"))).toEqual(["surplus-brace in line 4"]);
    expect(said(lines("a {", "  b", "}}", "c"))).toEqual(["surplus-brace in line 3"]);
    expect(said("in x noise 41 }")).toEqual(["surplus-brace in line 1"]);
  });

  it("a { amid a line costs that line", () => {
    const text = lines("meeting {", "  date 1", "  start { 2", "  end 3", "}", "place box");
    expect(said(text)).toEqual(["unclosed-block in line 3 (before line 4)"]);
    expect(outline(parse(text))).toBe(lines("meeting", "  date 1", "  start", "    2", "  end 3", "place box"));
  });

  it("a block begun and not ended on one line", () => {
    const text = lines("meeting {", "  date 1", "}", "join x { a", "place box");
    expect(said(text)).toEqual(["unclosed-block in line 4 (before line 5)"]);
    expect(outline(parse(text))).toBe(lines("meeting", "  date 1", "join x", "  a", "place box"));
  });

  it("braces at the end of the last line inside are as good as on a line of their own", () => {
    const text = lines("a {", "  b {", "    c } }", "d {", "  e", "f");
    expect(said(text)).toEqual(["unclosed-block in line 5 (before line 6)"]);
    expect(outline(parse(text))).toBe(lines("a", "  b", "    c", "d", "  e", "f"));
  });

  it("one line out of its column is that line's slip", () => {
    const text = lines("meeting {", "  date 1", "noise", "  start 2", "}", "join x {", "  a", "place box");
    expect(outline(parse(text))).toBe(lines("meeting", "  date 1", "  noise", "  start 2", "join x", "  a", "place box"));
  });

  it("two mistakes are two problems", () => {
    const text = lines("a {", "  b", "c {", "  d", "e", "f", "  g", "}");
    expect(said(text)).toEqual(["unclosed-block in line 2 (before line 3)", "unclosed-block in line 4 (before line 5)", "missing-brace in line 6"]);
    expect(outline(parse(text))).toBe(lines("a", "  b", "c", "  d", "e", "f", "  g"));
  });

  it("a quotation mark that took a brace along is one problem, not two", () => {
    expect(said(lines('meeting "x {', "  date 1", "}", "place box"))).toEqual(["unclosed-text in line 1"]);
    expect(said(lines("meeting {", "  date 1", '"}', "place box"))).toEqual(["unclosed-text in line 3"]);
    expect(outline(parse(lines('meeting "x {', "  date 1", "}", "place box")))).toBe(lines('meeting "x {', "  date 1", "place box"));
  });

  it("tabs indent as well", () => {
    const text = "a {\n\tb {\n\t\tc\n}\nd";
    expect(outline(parse(text))).toBe(lines("a", "  b", "    c", "d"));
    expect(parse(text).problems).toHaveLength(1);
  });
});

describe("text that balances is read by its braces, however it is indented", () => {
  it("lines at the left in a block", () => {
    const text = lines("a {", "b", "  c {", "d", "    }", "}", "e");
    expect(said(text)).toEqual([]);
    expect(outline(parse(text))).toBe(lines("a", "  b", "  c", "    d", "e"));
  });
});

describe("text that is not indented", () => {
  it("a head that stands only at top level ends the blocks before it", () => {
    const text = lines("meeting {", "date 1", "start 2", "place box", "join x {", "a", "}");
    expect(said(text, TOP)).toEqual(["unclosed-block in line 3 (before line 4)"]);
    expect(outline(parse(text, { topHeads: TOP }))).toBe(lines("meeting", "  date 1", "  start 2", "place box", "join x", "  a"));
  });

  it("heads are compared without regard to case", () => {
    const text = lines("meeting {", "date 1", "PLACE box");
    expect(outline(parse(text, { topHeads: TOP }))).toBe(lines("meeting", "  date 1", "PLACE box"));
  });

  it("a } too many shows which head lost its {", () => {
    const text = lines("place box", "join x", "a", "b", "}", "meeting {", "date 1", "}");
    expect(said(text, TOP)).toEqual(["missing-brace in line 2"]);
    expect(outline(parse(text, { topHeads: TOP }))).toBe(lines("place box", "join x", "  a", "  b", "meeting", "  date 1"));
  });

  it("a stray } amid a line is left out", () => {
    const text = lines("meeting {", "date } 1", "start 2", "}", "place box");
    expect(said(text, TOP)).toEqual(["surplus-brace in line 2"]);
    expect(outline(parse(text, { topHeads: TOP }))).toBe(lines("meeting", "  date 1", "  start 2", "place box"));
  });

  it("a stray { amid a line ends with it", () => {
    const text = lines("meeting {", "date { 1", "start 2", "}", "place box");
    expect(outline(parse(text, { topHeads: TOP }))).toBe(lines("meeting", "  date", "    1", "  start 2", "place box"));
  });

  it("a { written twice", () => {
    const text = lines("meeting { {", "date 1", "}", "join x {", "a", "}");
    expect(said(text, TOP)).toEqual(["surplus-brace in line 1"]);
    expect(outline(parse(text, { topHeads: TOP }))).toBe(lines("meeting", "  date 1", "join x", "  a"));
  });
});
