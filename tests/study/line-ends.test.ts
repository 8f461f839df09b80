/** A text keeps the line ends that it has: what a mend writes ends its lines as the text around it does. */
import { describe, expect, test } from "vitest";
import { applyEdits, fixesOf } from "../../server/fixes/prove";
import { append, insertInto, remove, type Edit } from "../../server/model/edits";
import type { SourceFile } from "../../server/model/files";
import type { Bound } from "../../server/model/bound";
import { study } from "../../server/study";
import { bothwaysFiles, inMemory, readText } from "../language/folder";

/** The file of a text, and its first statement with that head. */
function read(text: string, head: string): { file: SourceFile; bound: Bound } {
  const file = readText(text).files[0] ?? expect.fail("no file");
  return { file, bound: file.statements.find((s) => s.row.head === head) ?? expect.fail(`no ${head}`) };
}
const after = (text: string, edit: Edit): string => applyEdits(text, [edit]);
const lone = (text: string): number => text.replaceAll("\r\n", "").match(/[\r\n]/g)?.length ?? 0;
const crlf = (text: string): string => text.replace(/\r?\n/g, "\r\n");
const JOIN = 'setup "Ends"\nplace laptop is laptop\njoin laptop {\n  sends no sound\n}\n';

describe("an edit ends its lines as the text does", () => {
  test.each([["\n", JOIN], ["\r\n", crlf(JOIN)]])("%j: put into a block, after its kin, at the end, taken away", (eol, text) => {
    const { file, bound } = read(text, "join");
    expect(after(text, insertInto(file, bound, ["plays no sound", "cancels echo"]))).toBe(text.replace(`sound${eol}`, `sound${eol}  plays no sound${eol}  cancels echo${eol}`));
    expect(after(text, append(file, "place box is battery-loudspeaker", ["place"]))).toBe(text.replace(`laptop${eol}join`, `laptop${eol}place box is battery-loudspeaker${eol}join`));
    expect(after(text, append(file, "online 4 people", ["online"]))).toBe(`${text}online 4 people${eol}`);
    expect(after(text, append(file, "join phone {\n  sends no sound\n}", ["join"]))).toBe(`${text}join phone {${eol}  sends no sound${eol}}${eol}`);
    expect(after(text, remove(file, read(text, "place").bound))).toBe(`setup "Ends"${eol}${text.slice(text.indexOf("join"))}`);
  });

  test("a brace that closes on the last statement's line", () => {
    const text = crlf(JOIN).replace("sound\r\n}", "sound }");
    const { file, bound } = read(text, "join");
    expect(after(text, insertInto(file, bound, ["plays no sound"]))).toContain("\r\n  plays no sound\r\n}");
  });

  test("the last line has no end", () => {
    const text = crlf(JOIN).trimEnd();
    const { file } = read(text, "join");
    expect(after(text, append(file, "online 4 people", ["join"]))).toBe(`${text}\r\nonline 4 people\r\n`);
  });

  test("of a text with both, as the line before", () => {
    const text = `${JOIN}${crlf("talker Ines at lectern\nonline 4 people\n")}`;
    const { file, bound } = read(text, "join");
    expect(after(text, insertInto(file, bound, ["plays no sound"]))).toContain("\n  plays no sound\n}");
    expect(after(text, append(file, "talker Ruan at lectern", ["talker"]))).toContain("lectern\r\ntalker Ruan at lectern\r\nonline");
  });
});

describe("every mend that is offered for a sample with CRLF keeps it CRLF", () => {
  const FILES = new Map([...bothwaysFiles("samples")].map(([path, text]) => [path, crlf(text)]));
  test("and there are mends that write whole lines", () => {
    let lines = 0;
    for (const path of FILES.keys()) {
      const before = study(inMemory(FILES), path);
      for (const finding of before.findings) {
        for (const fix of fixesOf(inMemory(FILES), before, finding)) {
          for (const file of before.files) {
            const mended = applyEdits(file.text, fix.edits.filter((edit) => edit.path === file.path));
            expect(lone(mended), `${path}: ${fix.title}`).toBe(0);
          }
          lines += fix.edits.filter((edit) => edit.newText.includes("\r\n")).length;
        }
      }
    }
    expect(lines).toBeGreaterThan(3);
  }, 120_000);
});
