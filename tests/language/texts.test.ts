import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { VOCABULARY } from "../../grammar/vocabulary";
import { readSetup, TYPICAL_TEXT, typicalKinds } from "../../server/model/setup";
import { BESIDE, bothwaysFiles, inMemory, readText, ROOT, said } from "./folder";

describe("every text that the project shows reads without a problem", () => {
  it.each(VOCABULARY.map((row) => [`${row.head} (${row.within.join(", ")})`, row.example] as const))("the example of %s", (_, example) => {
    expect(said(readText(example))).toEqual([]);
  });

  const files = new Map([...bothwaysFiles("samples"), ...bothwaysFiles("tests/language")]);
  it.each([...files.keys()])("%s", (file) => {
    expect(said(readSetup(inMemory(files), file))).toEqual([]);
  });

  it("there are samples to read, and setups of many shapes", () => {
    expect([...files.keys()].filter((file) => file.startsWith("samples/")).length).toBeGreaterThanOrEqual(5);
    expect([...files.keys()].filter((file) => file.startsWith("tests/language/")).length).toBeGreaterThanOrEqual(5);
  });

  it("the typical equipment", () => {
    expect(said(readText(TYPICAL_TEXT))).toEqual([]);
    expect(typicalKinds().length).toBeGreaterThanOrEqual(20);
  });

  const documents = ["README.md", "grammar/REFERENCE.md"].filter((file) => existsSync(path.join(ROOT, file)));
  it.each(documents.flatMap((file) => blocksOf(readFileSync(path.join(ROOT, file), "utf8")).map((block) => [file, block.line, block.text] as const)))(
    "%s, line %i", (_file, _line, text) => {
      const setup = readSetup(inMemory(new Map([...BESIDE, ...files, ["evening.bothways", text]])), "evening.bothways");
      expect(said(setup)).toEqual([]);
    },
  );
});

/** The blocks of a Markdown text that are marked as texts of the language, and the line at which each begins. */
function blocksOf(markdown: string): { readonly line: number; readonly text: string }[] {
  return [...markdown.matchAll(/^```bothways\n(.*?)^```$/gms)].map((match) => ({
    line: markdown.slice(0, match.index).split("\n").length, text: match[1] ?? "",
  }));
}
