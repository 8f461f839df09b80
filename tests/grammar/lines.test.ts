import { describe, expect, it } from "vitest";
import { lineTable } from "../../grammar/lines";

describe("line table", () => {
  it("counts an empty text as one line", () => {
    const table = lineTable("");
    expect(table.count).toBe(1);
    expect(table.at(0)).toEqual({ line: 0, character: 0 });
    expect(table.offset(0, 5)).toBe(0);
  });

  it("knows CR LF, LF and a lone CR as line ends, and nothing else", () => {
    const table = lineTable("a\r\nb\nc\rd\u2028e");
    expect(table.count).toBe(4);
    expect(table.at(3)).toEqual({ line: 1, character: 0 });
    expect(table.at(5)).toEqual({ line: 2, character: 0 });
    expect(table.at(9)).toEqual({ line: 3, character: 2 });
  });

  it("counts UTF-16 units: a microphone sign takes two", () => {
    const table = lineTable("x\n🎤 y");
    expect(table.at(5)).toEqual({ line: 1, character: 3 });
    expect(table.offset(1, 3)).toBe(5);
  });

  it("moves what lies outside the text or the line to the nearest place in it", () => {
    const table = lineTable("ab\r\ncd");
    expect(table.at(99)).toEqual({ line: 1, character: 2 });
    expect(table.at(-1)).toEqual({ line: 0, character: 0 });
    expect(table.offset(0, 99)).toBe(2);
    expect(table.offset(7, 0)).toBe(6);
    expect(table.offset(-1, 3)).toBe(0);
  });
});
