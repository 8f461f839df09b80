/** What holds of every study, whatever the text: no throw, six verdicts, levels that only fall, fixes that fix. Chance is the same each time. */
import { describe, expect, test } from "vitest";
import { HEADS } from "../../grammar/vocabulary";
import { CHECKS } from "../../server/checks/catalogue";
import type { Scene } from "../../server/checks/check";
import { applyEdits, fixesOf } from "../../server/fixes/prove";
import { rank } from "../../server/finding";
import { judge, Trials } from "../../server/judge";
import { isAssumed } from "../../server/model/ranged";
import { Trial, type End } from "../../server/model/trial";
import { VERDICTS, WAYS } from "../../server/model/ways";
import { makeGraph } from "../../server/signal/graph";
import { study, type Study } from "../../server/study";
import { chance, damages } from "../grammar/damages";
import { bothwaysFiles, inMemory } from "../language/folder";

/** More is asked for with PROPERTY_RUNS, times the usual number. */
const TIMES = Number(process.env["PROPERTY_RUNS"] ?? "1");
const SAMPLES = new Map([...bothwaysFiles("samples"), ...bothwaysFiles("tests/language")]);
const SETUPS = [...SAMPLES.keys()].filter((path) => study(inMemory(SAMPLES), path).isSetup);

interface Text {
  readonly path: string;
  readonly files: ReadonlyMap<string, string>;
  readonly what: string;
}
const sound: readonly Text[] = SETUPS.map((path) => ({ path, files: SAMPLES, what: path }));
const studied = ({ path, files }: Text): Study => study(inMemory(files), path);

/** Setups with one line spoiled, and setups with one or two lines gone: the second kind is what somebody forgot to write. */
function spoiled(count: number, seed: number): Text[] {
  const random = chance(seed);
  return Array.from({ length: count }, (_, i): Text => {
    const path = SETUPS[i % SETUPS.length] ?? expect.fail("no setups");
    const lines = (SAMPLES.get(path) ?? "").split("\n");
    const at = random(lines.length);
    if (random(2) === 1) {
      const gone = new Set([at, random(2) === 0 ? at : random(lines.length)]);
      return { path, files: new Map(SAMPLES).set(path, lines.filter((_line, j) => !gone.has(j)).join("\n")), what: `${path} without lines ${[...gone].map((n) => n + 1).join(", ")}` };
    }
    const all = damages(lines.join("\n"), at, random);
    const one = all[random(all.length)] ?? expect.fail("no damage");
    return { path, files: new Map(SAMPLES).set(path, one.text), what: `${path} line ${at + 1}: ${one.kind}` };
  });
}

/** Setups whose room or kit, in a file of its own, has a line spoiled. */
function spoiledBeside(count: number, seed: number): Text[] {
  const random = chance(seed);
  const used = SETUPS.flatMap((path) => studied({ path, files: SAMPLES, what: path }).files.map((file) => file.path).filter((file) => file !== path).map((file) => ({ path, file })));
  return Array.from({ length: count }, (): Text => {
    const { path, file } = used[random(used.length)] ?? expect.fail("no setup uses a file");
    const text = SAMPLES.get(file) ?? expect.fail(`no file ${file}`);
    const at = random(text.split("\n").length);
    const all = damages(text, at, random);
    const one = all[random(all.length)] ?? expect.fail("no damage");
    return { path, files: new Map(SAMPLES).set(file, one.text), what: `${path} with ${file} line ${at + 1}: ${one.kind}` };
  });
}

/** Words of the language in any order. */
function soup(seed: number): Text {
  const random = chance(seed);
  const words = [...HEADS, "laptop", "phone", "box", "Ines", "audience", "front", "is", "at", "on", "from", "to", "and", "during", "no", "each", "sound", "picture", "call", "laptop.usb-1", "box.line", "720p30",
    "3 m", "40 dBA", "2 Mb/s", "(1 m, 2 m)", "24", "unknown", "about", '"x"', "{", "}", "{", "}", "\n", "\n", "\n", ","];
  const body = Array.from({ length: 20 + random(200) }, () => words[random(words.length)] ?? "").join(" ");
  return { path: "it", files: new Map([["it", `setup "Soup"\nroom hall 8 m by 6 m\nplace laptop is laptop, at lectern\njoin laptop\n${body}`]]), what: `soup ${seed}` };
}

/** Everything that a study says, as one text. */
const whole = (of: Study): string => JSON.stringify([of.problems, of.ways, of.findings, of.accepted, of.questions, of.figures()]);
const causeOf = (identity: string): string => identity.split(" | ").slice(0, 2).join(" | ");

describe("any study", () => {
  const texts = [...sound, ...spoiled(40 * TIMES, 11), ...spoiledBeside(24 * TIMES, 15), ...Array.from({ length: 80 * TIMES }, (_, i) => soup(i + 1))];

  test("does not throw, gives each way one verdict in each item, and each finding a place and words", () => {
    let findings = 0;
    for (const text of texts) {
      let it: Study;
      try {
        it = studied(text);
        it.figures();
        it.flow();
      } catch (cause) {
        throw new Error(text.what, { cause });
      }
      if (!it.isSetup) continue;
      expect([...new Set(it.ways.map((w) => w.way))], text.what).toEqual([...WAYS]);
      for (const way of it.ways) {
        expect(VERDICTS).toContain(way.verdict);
        expect(way.weakest, `${text.what}: ${way.way}`).not.toBe("");
      }
      for (const item of it.items) for (const way of WAYS) expect(it.ways.filter((w) => w.way === way && (w.item === undefined || w.item === item)), text.what).toHaveLength(1);
      expect(new Set(it.findings.map((f) => f.identity)).size, text.what).toBe(it.findings.length);
      for (const finding of it.findings) {
        findings += 1;
        const file = it.files.find((f) => f.path === finding.where.path)?.text ?? "";
        expect(finding.where.start >= 0 && finding.where.end <= file.length && finding.where.start <= finding.where.end, text.what).toBe(true);
        expect(finding.message, text.what).toMatch(/^\S.*[.?!]$/);
        expect(finding.message, text.what).not.toMatch(/undefined|NaN|Infinity|\[object/);
      }
      for (const question of it.questions) expect(`${question.ask} ${question.answers.map((a) => `${a.when} ${a.then}`).join(" ")}`, text.what).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }
    expect(findings).toBeGreaterThan(200);
  });

  test("comes out the same a second time", () => {
    for (const text of [...sound, ...spoiled(6 * TIMES, 12)]) expect(whole(studied(text)), text.what).toBe(whole(studied(text)));
  });
});

describe("any case, over the ranges of all that it reads", () => {
  test("is never raised above its best guess, nor above what every end of every value leaves standing", () => {
    let lowered = 0;
    let kept = 0;
    for (const text of [...sound, ...spoiled(8 * TIMES, 13)]) {
      const { setup, isSetup } = studied(text);
      if (!isSetup) continue;
      const items = setup.items.length > 0 ? setup.items.map((item) => item.name) : [undefined];
      for (const item of items) {
        const scene: Scene = { setup, item, graph: makeGraph(setup, item) };
        for (const subject of CHECKS.flatMap((check) => check.cases(scene))) {
          const trials = new Trials();
          const judged = judge(subject, trials);
          if (judged === undefined) continue;
          const level = rank(judged.severity);
          const best = rank(subject.measure(trials.best)?.severity);
          const ends = judged.swings.flatMap((s) => (["low", "high"] as const).map((end) => rank(subject.measure(trials.at(s.value.id, end))?.severity)));
          const least = Math.min(best, ...ends);
          expect(level, text.what).toBeLessThanOrEqual(best);
          // An end that removes it lowers it by one, or to a question; one that only softens it lowers it to that.
          if (subject.asks === true && judged.turnedBy.some((s) => isAssumed(s.value))) expect(level, text.what).toBe(0);
          else if (least > 0) expect(level, text.what).toBeLessThanOrEqual(least);
          else expect(level, text.what).toBe(Math.max(0, best - 1));
          if (best > 0 && least === 0) expect(judged.turnedBy.length, text.what).toBeGreaterThan(0);
          if (best > level) lowered += 1;
          else if (best > 0) kept += 1;
          for (const s of judged.swings) expect(s.value.low < s.value.high && s.value.low <= s.value.best && s.value.best <= s.value.high, s.value.id).toBe(true);
        }
      }
    }
    expect(lowered).toBeGreaterThan(5);
    expect(kept).toBeGreaterThan(50);
  });
});

describe("a case that keeps its level because it holds over all ranges", () => {
  test("is in order at no corner of them, tried at random", () => {
    const random = chance(17);
    let corners = 0;
    let worse = 0;
    for (const text of [...sound, ...spoiled(6 * TIMES, 16)]) {
      const { setup, isSetup } = studied(text);
      if (!isSetup) continue;
      const items = setup.items.length > 0 ? setup.items.map((item) => item.name) : [undefined];
      for (const item of items) {
        const scene: Scene = { setup, item, graph: makeGraph(setup, item) };
        for (const subject of CHECKS.flatMap((check) => check.cases(scene))) {
          const judged = judge(subject, new Trials());
          if (judged?.severity === undefined || judged.severity !== judged.atBest || judged.swings.length < 2) continue;
          for (let i = 0; i < 6; i += 1) {
            const ends = new Map(judged.swings.map((s): [string, End] => [s.value.id, random(2) === 0 ? "low" : "high"]));
            const there = subject.measure(new Trial(ends));
            corners += 1;
            if (there !== undefined && there.badness > judged.best.badness) worse += 1;
            expect(rank(there?.severity), `${text.what}: ${judged.said.because} at ${[...ends].join(" ")}`).toBeGreaterThan(0);
          }
        }
      }
    }
    expect(corners).toBeGreaterThan(50);
    expect(worse).toBeGreaterThan(0);
    expect(worse).toBeLessThan(corners);
  });
});

describe("any fix that is offered", () => {
  const worstOf = (of: Study, way: string): number => Math.max(...of.ways.filter((w) => w.way === way).map((w) => VERDICTS.indexOf(w.verdict)));
  const mistakes = (of: Study): number => of.problems.filter((p) => p.severity === "error").length;
  // Chairs may be moved back.
  const hidden = new Set(["where", "whole", "statements", "bound", "fact", "first"]);
  // Where in the text a place or a quantity stands is no fact: a line that is put in before it moves it.
  const facts = (of: Study): string => JSON.stringify([of.setup.room, of.setup.internets, of.setup.online, of.setup.items, of.setup.start, of.setup.end, of.setup.access], function (this: object, key, value: unknown) {
    const inText = (key === "start" || key === "end") && ["said", "relation", "relations", "text", "path"].some((beside) => beside in this);
    return hidden.has(key) || inText ? undefined : value instanceof Map ? [...(value as Map<string, unknown>)] : value;
  });

  test("removes its finding and what was folded under it, brings nothing as bad, and leaves no way worse and no fact changed", () => {
    let tried = 0;
    for (const text of [...sound, ...spoiled(3 * TIMES, 14)]) {
      const before = studied(text);
      const known = new Set(before.findings.flatMap((f) => [f, ...f.folded]).map((f) => causeOf(f.identity)));
      for (const finding of before.findings) {
        for (const fix of fixesOf(inMemory(text.files), before, finding)) {
          tried += 1;
          const what = `${text.what}: ${fix.title}`;
          const files = new Map(text.files);
          for (const file of before.files) files.set(file.path, applyEdits(file.text, fix.edits.filter((edit) => edit.path === file.path)));
          expect(fix.edits.every((edit) => before.files.some((file) => file.path === edit.path)), what).toBe(true);
          const after = study(inMemory(files), text.path);
          for (const part of [finding, ...finding.folded]) {
            expect(after.findings.filter((f) => causeOf(f.identity) === causeOf(part.identity) && rank(f.severity) >= rank(part.severity)), what).toEqual([]);
          }
          for (const f of after.findings) if (!known.has(causeOf(f.identity))) expect(rank(f.severity), `${what} brings ${f.message}`).toBeLessThan(Math.min(3, rank(finding.severity)));
          expect(mistakes(after), what).toBeLessThanOrEqual(mistakes(before));
          for (const way of WAYS) expect(worstOf(after, way), `${what}: ${way}`).toBeLessThanOrEqual(worstOf(before, way));
          expect(facts(after), what).toBe(facts(before));
        }
      }
    }
    expect(tried).toBeGreaterThan(30);
  });
});

describe("what a device is called", () => {
  test.each(SETUPS)("%s: every device renamed throughout, no verdict and no level changes", (path) => {
    const before = studied({ path, files: SAMPLES, what: path });
    const levels = (of: Study): unknown => [of.ways.map((w) => [w.way, w.item, w.verdict]), of.findings.map((f) => [f.code, f.severity, f.folded.length]).sort(), of.questions.length];
    let renamings = 0;
    for (const device of before.setup.devices.values()) {
      // Sets of devices have figures in their names and are left out.
      if (!/^[\p{L}-]+$/u.test(device.name)) continue;
      const own = new RegExp(`(?<![\\p{L}\\p{N}.-])(?<!\\bis )(?<!\\bis a )(?<!\\bis an )${device.name}(?![\\p{L}\\p{N}-])`, "gu");
      const outsideQuotes = (line: string): string => line.split('"').map((part, i) => (i % 2 === 1 ? part : part.replace(own, "zzz-renamed"))).join('"');
      const renamed = new Map([...SAMPLES].map(([file, text]) => [file, text.split("\n").map(outsideQuotes).join("\n")]));
      const after = studied({ path, files: renamed, what: path });
      if (after.problems.length !== before.problems.length) continue; // the name is a word of the language elsewhere in the text
      if (after.setup.devices.has("zzz-renamed")) renamings += 1;
      expect(levels(after), `${device.name} renamed`).toEqual(levels(before));
    }
    expect(renamings).toBeGreaterThan(0);
  });
});
