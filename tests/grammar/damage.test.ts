import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { lineTable } from "../../grammar/lines";
import { parse } from "../../grammar/parse";
import type { Fact, Tree } from "../../grammar/tree";
import { chance, damages, type Damaged } from "./damages";
import { sayFact } from "./outline";

const root = path.resolve(import.meta.dirname, "../..");
const FILES = ["samples", "tests/grammar/setups"].flatMap((folder) =>
  readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".bothways"))
    .sort()
    .map((file) => path.join(folder, file)));
const read = (file: string): string => readFileSync(path.join(root, file), "utf8").replaceAll("\r\n", "\n");

/** What each line says: its facts in order, and for those that begin a statement the line of the owner (-1: the file). */
interface Said {
  readonly words: string;
  readonly owner: number;
}

function whatLinesSay(tree: Tree): Map<number, Said> {
  const table = lineTable(tree.text);
  const said = new Map<number, Said>();
  const visit = (facts: readonly Fact[], owner: number): void => {
    for (const fact of facts) {
      const { line } = table.at(fact.start);
      const words = [fact, ...fact.also].map(sayFact).join(", ");
      const before = said.get(line);
      // A line may hold several statements, one in the block of another.
      said.set(line, before === undefined ? { words, owner } : { words: `${before.words} | ${words}`, owner: before.owner });
      if (fact.block !== undefined) visit(fact.block.facts, line);
    }
  };
  visit(tree.root.facts, -1);
  return said;
}

/**
 * Whether a damage costs only its line: every other line says the same and keeps its owner. Where the spoiled line owns others,
 * they may hang under it still, or under something else, but together.
 */
function costsOnlyItsLine(sound: ReadonlyMap<number, Said>, damaged: Damaged, topHeads: ReadonlySet<string>): boolean {
  const now = whatLinesSay(parse(damaged.text, { topHeads }));
  const was = (line: number): number | undefined => (line < 0 ? line : damaged.was(line));
  const spoiled = was(damaged.line);
  const found = new Map<number, Said>();
  for (const [line, said] of now) {
    const before = was(line);
    if (line !== damaged.line && before !== undefined) found.set(before, said);
  }
  const orphans = new Set<number>();
  for (const [line, said] of sound) {
    if (line === spoiled) continue;
    const after = found.get(line);
    if (after?.words !== said.words) return false;
    if (said.owner === spoiled) orphans.add(after.owner);
    else if (was(after.owner) !== said.owner) return false;
  }
  return orphans.size <= 1;
}

/** Heads that in the setups at hand stand at top level and nowhere else. */
function headsOfTopLevel(): Set<string> {
  const top = new Set<string>();
  const inner = new Set<string>();
  const visit = (facts: readonly Fact[], into: Set<string>): void => {
    for (const fact of facts) {
      into.add(fact.head.text.toLowerCase());
      for (const other of fact.also) inner.add(other.head.text.toLowerCase());
      if (fact.block !== undefined) visit(fact.block.facts, inner);
    }
  };
  for (const file of FILES) visit(parse(read(file)).root.facts, top);
  for (const head of inner) top.delete(head);
  return top;
}

interface Tally {
  readonly all: number;
  readonly kept: number;
  /** Share of damages that cost only their line, and the same by kind, worst first. */
  readonly summary: string;
}

function tally(prepare: (text: string) => string, topHeads: ReadonlySet<string>): Tally {
  const kinds = new Map<string, { all: number; kept: number }>();
  for (const file of FILES) {
    const text = prepare(read(file));
    const sound = whatLinesSay(parse(text));
    const random = chance(20261125 + text.length);
    text.split("\n").forEach((_line, at) => {
      for (const damaged of damages(text, at, random)) {
        const count = kinds.get(damaged.kind) ?? { all: 0, kept: 0 };
        const kept = costsOnlyItsLine(sound, damaged, topHeads);
        if (!kept && process.env["BOTHWAYS_SHOW_DAMAGE"] !== undefined) {
          console.log(`${file}:${at + 1} ${damaged.kind}: ${damaged.text.split("\n")[damaged.line] ?? ""}`);
        }
        kinds.set(damaged.kind, { all: count.all + 1, kept: count.kept + (kept ? 1 : 0) });
      }
    });
  }
  const rows = [...kinds].sort(([, one], [, other]) => one.kept / one.all - other.kept / other.all);
  const all = rows.reduce((sum, [, row]) => sum + row.all, 0);
  const kept = rows.reduce((sum, [, row]) => sum + row.kept, 0);
  const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(2)} %`;
  const summary = [
    `${kept} of ${all} damages cost only their line: ${percent(kept, all)}`,
    ...rows.map(([kind, row]) => `  ${percent(row.kept, row.all)} of ${row.all}: ${kind}`),
  ].join("\n");
  return { all, kept, summary };
}

describe("a broken line costs that line", () => {
  it("the setups at hand are sound", () => {
    expect(FILES.length).toBeGreaterThanOrEqual(3);
    for (const file of FILES) expect(parse(read(file)).problems, file).toEqual([]);
  });

  it("at least 99 % of the damages to one line, in text as it is indented", () => {
    const { all, kept, summary } = tally((text) => text, headsOfTopLevel());
    console.log(summary);
    expect(all).toBeGreaterThan(1000);
    expect(kept / all, summary).toBeGreaterThanOrEqual(0.99);
  });

  it("at least 96 % where nothing is indented, by the heads that stand only at top level", () => {
    const { all, kept, summary } = tally((text) => text.replace(/^[ \t]+/gm, ""), headsOfTopLevel());
    console.log(summary);
    expect(all).toBeGreaterThan(1000);
    expect(kept / all, summary).toBeGreaterThanOrEqual(0.96);
  });

  it("a brace that is taken away is one problem, in its line or the line before", () => {
    let all = 0;
    let right = 0;
    for (const file of FILES) {
      const text = read(file);
      text.split("\n").forEach((_line, at) => {
        for (const damaged of damages(text, at, chance(at))) {
          if (!damaged.kind.endsWith("brace deleted")) continue;
          const { problems } = parse(damaged.text);
          const line = lineTable(damaged.text).at(problems[0]?.start ?? -1).line;
          all += 1;
          if (problems.length === 1 && (line === at || line === at - 1)) right += 1;
        }
      });
    }
    expect(all).toBeGreaterThan(40);
    expect(right / all, `${right} of ${all} braces taken away are found in one problem at their place`).toBeGreaterThanOrEqual(0.95);
  });
});
