/** A study after an edit takes over what the edit cannot have changed: it must come out as a study made anew. Chance is the same each time. */
import { describe, expect, test } from "vitest";
import { atOnce } from "../../server/pieces";
import { study, studying, type Study } from "../../server/study";
import { chance, damages } from "../grammar/damages";
import { bothwaysFiles, inMemory } from "../language/folder";

/** More is asked for with PROPERTY_RUNS, times the usual number. */
const TIMES = Number(process.env["PROPERTY_RUNS"] ?? "1");
const SAMPLES = bothwaysFiles("samples");
const { makeSetup, hallOf, callOf } = (await import(new URL("../../.scripts/make-setup.mjs", import.meta.url).href)) as {
  readonly makeSetup: (lines: number) => string; readonly hallOf: (of: { readonly seats: number; readonly speakers: number; readonly mics: number }) => string;
  readonly callOf: (of: { readonly joins: number; readonly items: number }) => string;
};
type Files = ReadonlyMap<string, string>;
const generated = (text: string): Files => new Map([["it.bothways", text]]);

/** What somebody may do to a text in one go. */
type Change = (lines: readonly string[], at: number, random: (below: number) => number) => readonly string[];
const CHANGES: Readonly<Record<string, Change>> = {
  "a comment put in": (lines, at) => lines.toSpliced(at, 0, "# said to somebody"),
  "a comment behind a line": (lines, at) => lines.with(at, `${lines[at] ?? ""}  # later`),
  "a blank line put in": (lines, at) => lines.toSpliced(at, 0, ""),
  "a note put in at the end": (lines) => [...lines, "note \"bring tape\""],
  "a line taken out": (lines, at) => lines.toSpliced(at, 1),
  "a line twice": (lines, at) => lines.toSpliced(at, 0, lines[at] ?? ""),
  "a line changed places": (lines, at) => lines.toSpliced(at, 1).toSpliced(Math.max(0, at - 1), 0, lines[at] ?? ""),
  "a number made greater": (lines, at) => lines.with(at, (lines[at] ?? "").replace(/\d+(\.\d+)?/, (n) => String(Number(n) + 1))),
  "a number made less": (lines, at) => lines.with(at, (lines[at] ?? "").replace(/\d+(\.\d+)?/g, (n) => String(Math.max(0, Number(n) - 0.3)))),
  "a line spoiled": (lines, at, random) => {
    const all = damages(lines.join("\n"), at, random);
    return (all[random(all.length)]?.text ?? "").split("\n");
  },
};

/** Numbers stand on many lines, and what changes them is the edit that is made most. */
const KINDS = [...Object.keys(CHANGES), "a number made greater", "a number made less", "a number made greater"];

const said = (of: Study): unknown => ({
  problems: of.problems, ways: of.ways, findings: of.findings, accepted: of.accepted, disproved: of.disproved, noticed: of.noticed, questions: of.questions,
  remedies: of.findings.slice(0, 4).map((finding) => [finding.identity, of.remedies(finding)]),
});

/** Edits one after the other, each in any of the files of the setup. */
function edit(path: string, start: Files, seed: number, edits: number): void {
  const random = chance(seed);
  let files = start;
  let before = study(inMemory(files), path);
  const done: string[] = [];
  for (let i = 0; i < edits; i += 1) {
    const file = before.files[random(3) === 0 ? random(before.files.length) : 0]?.path ?? path;
    const lines = (files.get(file) ?? "").split("\n");
    const kind = KINDS[random(KINDS.length)] ?? "";
    const at = random(lines.length);
    files = new Map(files).set(file, (CHANGES[kind]?.(lines, at, random) ?? lines).join("\n"));
    done.push(`${kind}, ${file} line ${at + 1}`);
    const after = atOnce(studying(inMemory(files), path, before));
    expect(said(after), done.join("; ")).toEqual(said(study(inMemory(files), path)));
    before = after;
  }
}

const SETUPS = [...SAMPLES.keys()].filter((path) => study(inMemory(SAMPLES), path).isSetup);

describe("a study after each of some edits is as one made anew", () => {
  test.each(SETUPS)("%s", (path) => {
    for (let run = 0; run < TIMES; run += 1) edit(path, SAMPLES, SETUPS.indexOf(path) + 100 * run, 2);
  });

  test.each([["a hundred lines", makeSetup(100)], ["a small hall", hallOf({ seats: 24, speakers: 3, mics: 3 })], ["a call", callOf({ joins: 4, items: 3 })]])("%s", (name, text) => {
    for (let run = 0; run < 2 * TIMES; run += 1) edit("it.bothways", generated(text), name.length + 100 * run, 5);
  });
});

describe("a study after an edit", () => {
  test("takes over all that is judged where only a comment was put in, and only what hangs on nothing else where something was moved", () => {
    const text = hallOf({ seats: 24, speakers: 3, mics: 3 });
    const before = study(inMemory(generated(text)), "it.bothways");
    const judged = (changed: string): number => {
      let pieces = 0;
      const work = studying(inMemory(generated(changed)), "it.bothways", before);
      while (work.next().done !== true) pieces += 1;
      return pieces;
    };
    const anew = [...studying(inMemory(generated(text)), "it.bothways")].length;
    expect(anew).toBeGreaterThan(100);
    expect(judged(`# about the hall\n${text}`)).toBe(0);
    const moved = judged(text.replace(/(place mic-?2 [^\n]*?)(\d+\.\d) m/, (_all, head: string, n: string) => `${head}${(Number(n) + 0.3).toFixed(1)} m`));
    expect(moved).toBeGreaterThan(0);
    expect(moved).toBeLessThan(anew);
  });
});
