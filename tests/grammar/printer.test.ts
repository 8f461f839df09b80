import { describe, expect, it } from "vitest";
import { format } from "../../grammar/printer";

const laidOut = (text: string): string => {
  const result = format(text);
  if ("refused" in result) throw new Error(result.refused);
  return result.text;
};

describe("layout", () => {
  it.each([
    ["one blank between tokens, none before a comma, one after", "place  box\tat   lectern ,aim audience", "place box at lectern, aim audience"],
    ["no blanks inside parentheses", "at( 3.2m ,1 m )", "at (3.2 m, 1 m)"],
    ["one blank between number and unit", "length 3.2m, share 50%", "length 3.2 m, share 50 %"],
    ["degrees, minutes and seconds of angle stand at their number", "aim 60 °, turn 5 ° 30 ′", "aim 60°, turn 5° 30′"],
    ["degrees of temperature are a unit", "air 21°C, hall 19 °C", "air 21 °C, hall 19 °C"],
    ["a brace stands on its head's line after a blank", "a{ b }", "a { b }"],
    ["a brace on the line below its head is fetched", "a\n{\nb\n}", "a {\n  b\n}"],
    ["but not over a comment", "a # c\n{\nb\n}", "a   # c\n{\n  b\n}"],
    ["nor to a text that is not closed and would swallow it", 'a "b\n{ c }', 'a "b\n{ c }'],
    ["nor over a blank line", "a\n\n{\nb\n}", "a\n\n{\n  b\n}"],
    ["two blanks for each block", "a {\nb {\n\t\tc\n      }\n}", "a {\n  b {\n    c\n  }\n}"],
    ["a block on one line stays there", "a {b{c},}", "a { b { c }, }"],
    ["an empty block too", "a {}\nb {\n\n}", "a { }\nb {\n}"],
    ["a block on several lines gets a line for each brace", "a { b\nc }", "a {\n  b\n  c\n}"],
    ["what follows a } goes to a new line", "a { b } c", "a { b }\nc"],
    ["also out of a block on one line", "a { b { c } d }", "a {\n  b { c }\n  d\n}"],
    ["at most one blank line in a row", "a\n\n\n\nb\n\nc", "a\n\nb\n\nc"],
    ["no blank line at the beginning or end of a block", "\n\na {\n\n  b\n\n}\n\n", "a {\n  b\n}"],
    ["nor below a comment on the brace's line", "a { # c\n\n  b\n}", "a {   # c\n  b\n}"],
    ["comments three blanks after what they follow, not aligned", "a # one\nbcd      # two", "a   # one\nbcd   # two"],
    ["comments on lines of their own are indented as their block", "# top\na {\n# in\n  b\n    # end\n}", "# top\na {\n  # in\n  b\n  # end\n}"],
    ["texts are left as they are", 'note "a  ,  b {"', 'note "a  ,  b {"'],
    ["a mark of byte order is left out", "\ufeffa", "a"],
  ])("%s", (_title, text, wanted) => {
    expect(laidOut(text)).toBe(`${wanted}\n`);
    expect(laidOut(`${wanted}\n`)).toBe(`${wanted}\n`);
  });

  it("keeps the line ends of the first line", () => {
    expect(laidOut("a\r\n\r\n\r\nb\n")).toBe("a\r\n\r\nb\r\n");
    expect(laidOut("a\rb")).toBe("a\nb\n");
  });

  it("an empty text stays empty", () => {
    expect(laidOut("")).toBe("");
    expect(laidOut(" \n\n")).toBe("");
  });
});

describe("refusals", () => {
  it.each([
    ["braces that do not balance", "a {\nb", /balance/],
    ["braces that close first", "} a {", /balance/],
    ["both sides of a merge", "<<<<<<< a\nb\n=======\nc\n>>>>>>> d", /merge/],
    ["what is no text", "a\0b", /not text/],
    ["a file too long", "a ".repeat(1_000_001), /too long/],
    ["blocks too deep", "a { ".repeat(40) + "}".repeat(40), /deep/],
  ])("%s", (_title, text, reason) => {
    const result = format(text);
    expect("refused" in result && result.refused).toMatch(reason);
  });
});
