import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse";
import { readQuantity, type Quantity } from "../../grammar/quantity";
import { DIMENSIONS, UNITS, type Dimension } from "../../grammar/units";
import { HEADS, RELATIONS, TOP_HEADS, VOCABULARY } from "../../grammar/vocabulary";
import { bind } from "../../server/model/bind";
import type { Bound } from "../../server/model/bound";
import { resolve } from "../../server/model/files";
import { canonical } from "../../server/model/names";
import { HEIGHTS } from "../../server/model/position";
import { readSetup, typicalKinds, type Setup } from "../../server/model/setup";
import { Trial, type End } from "../../server/model/trial";
import { bothwaysFiles, inMemory, readText } from "../language/folder";

/** Chance is the same each time; more runs are asked for with PROPERTY_RUNS, times the usual number. */
const runs = (count: number): { numRuns: number; seed?: number } => {
  const times = Number(process.env["PROPERTY_RUNS"] ?? "1");
  return times === 1 ? { numRuns: count, seed: 20261125 } : { numRuns: count * times };
};

const dimensions = Object.keys(DIMENSIONS) as Dimension[];
const number = fc.oneof(
  fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((n) => n.toFixed(3)), fc.nat({ max: 3000 }).map(String), fc.constantFrom("0", "-0", "1,000", "3,2", "00012", "−6", "+3", "1e5", "9".repeat(20), "9".repeat(400)),
);
const unit = fc.constantFrom(...UNITS.keys(), "people", "", "parsec", "MB/s");
const amount = fc.tuple(number, unit).map((parts) => parts.join(" "));
const quantityText = fc.oneof(
  amount, fc.tuple(fc.constantFrom("about", "about about"), amount).map((p) => p.join(" ")), fc.tuple(amount, amount).map((p) => p.join(" to ")), fc.tuple(amount, amount).map((p) => p.join(" within ")),
  fc.tuple(amount, amount, amount).map(([a, b, c]) => `${a} within ${b} to ${c}`), fc.tuple(amount, amount).map((p) => p.join(" ")), fc.constant("unknown"),
  fc.array(fc.oneof(amount, fc.constantFrom("to", "within", "about", "unknown", "(", ")", "at", '"text"')), { maxLength: 6 }).map((p) => p.join(" ")),
);

const sound = (q: Quantity): boolean => q.said === "unknown" || (Number.isFinite(q.low) && Number.isFinite(q.high) && q.low <= q.best && q.best <= q.high);

describe("any quantity that reads", () => {
  it("has its best guess in its range, is a number, and ends where its words end", () => {
    let read = 0;
    fc.assert(fc.property(quantityText, fc.constantFrom(...dimensions), fc.boolean(), (text, dimension, ranges) => {
      const items = parse(`x ${text}`).root.facts[0]?.items ?? [];
      for (let at = 0; at < items.length; at += 1) {
        const found = readQuantity(items, at, dimension, ranges);
        if (found === undefined) continue;
        expect(found.next).toBeGreaterThan(at);
        expect(found.next).toBeLessThanOrEqual(items.length);
        expect(found.value.start).toBeGreaterThanOrEqual(items[at]?.start ?? Infinity);
        expect(found.value.end).toBeLessThanOrEqual(items[found.next - 1]?.end ?? -1);
        if (found.value.kind === "quantity-error") {
          expect(found.value.message).toContain(DIMENSIONS[dimension].example);
          continue;
        }
        read += 1;
        expect(found.value.dimension).toBe(dimension);
        expect(sound(found.value), text).toBe(true);
      }
    }), runs(3000));
    expect(read).toBeGreaterThan(500);
  });

  it("reads the same in any unit of its dimension", () => {
    const standard = [...UNITS].filter(([, of]) => of.spread === undefined);
    fc.assert(fc.property(fc.constantFrom(...standard), fc.constantFrom(...standard), fc.integer({ min: 1, max: 1000 }), ([one, a], [other, b], n) => {
      // Beyond 10^15 bits, cells or what else, nothing reads: see the test of bounds.
      fc.pre(a.dimension === b.dimension && n * a.factor <= 1e15);
      const best = (text: string): number => {
        const found = readQuantity(parse(`x ${text}`).root.facts[0]?.items ?? [], 0, a.dimension);
        return found?.value.kind === "quantity" ? found.value.best : NaN;
      };
      const scaled = ((n * a.factor) / b.factor).toFixed(12);
      fc.pre(Number(scaled) > 1e-6);
      expect(best(`${scaled} ${other}`) / best(`${n} ${one}`)).toBeCloseTo(1, 5);
    }), runs(1000));
  });
});

/** Everything that a setup knows as a range. */
function rangesOf(setup: Setup): { id: string; low: number; best: number; high: number }[] {
  const out: { id: string; low: number; best: number; high: number }[] = [];
  const seen = new Set<unknown>();
  const visit = (value: unknown): void => {
    if (typeof value !== "object" || value === null || seen.has(value)) return;
    seen.add(value);
    if ("low" in value && "best" in value && "high" in value && "from" in value && "id" in value) out.push(value as (typeof out)[number]);
    for (const inner of value instanceof Map ? value.values() : Object.values(value)) visit(inner);
  };
  for (const part of [setup.room, setup.devices, setup.voices, setup.links, setup.internets, setup.online, setup.reserve]) visit(part);
  return out;
}

const files = new Map([...bothwaysFiles("samples"), ...bothwaysFiles("tests/language")]);
const setups = [...files].filter(([, text]) => /^setup "/m.test(text));
const WORDS = [
  ...HEADS, ...Object.keys(RELATIONS), "is", "from", "to", "by", "of", "as", "and", "in", "over", "for", "because", "measured", "guessed", "during", "no", "each", "about", "unknown", "within", "a", "the",
  "row", "table", "audience", "lectern", "laptop", "laptop.hdmi", "battery-loudspeaker", "webcam", "box", "hall", "talk", "front", "left", "corner", "sound", "picture", "all", "mixer", "desk.in-1",
];
/** Words, figures and signs of the language in any order, in lines. */
const soup = fc.array(fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...WORDS) }, { weight: 2, arbitrary: amount },
  { weight: 3, arbitrary: fc.constantFrom("\n", "\n", "{", "}", ",", "(2 m, 3 m)", "(", '"x"', "18:30", "720p30", "2026-10-14", "16:9", "3,2", "?", "%", "_", "__proto__", "constructor", "x.toString") },
), { maxLength: 60 }).map((parts) => parts.join(" "));
/** A setup in which up to four lines are replaced. */
const mutated = fc.tuple(fc.constantFrom(...setups), fc.array(fc.tuple(fc.nat(), soup), { maxLength: 4 })).map(([[, text], edits]) => edits.reduce((lines, [at, by]) => {
  lines[at % lines.length] = by;
  return lines;
}, text.split("\n")).join("\n"));

describe("any text at all", () => {
  it("is read without a throw; every range is one, every place a point in the room, every problem lies in its file", () => {
    let stated = 0;
    fc.assert(fc.property(fc.oneof(soup, mutated, fc.string({ unit: "binary", maxLength: 200 })), (text) => {
      const setup = readSetup(inMemory(new Map([...files, ["samples/any.bothways", text]])), "samples/any.bothways");
      for (const problem of setup.problems) {
        const length = setup.files.find((file) => file.path === problem.where.path)?.text.length ?? 0;
        expect(problem.where.start).toBeGreaterThanOrEqual(0);
        expect(problem.where.start).toBeLessThanOrEqual(problem.where.end);
        expect(problem.where.end).toBeLessThanOrEqual(length);
        expect(problem.message).toMatch(/^[^]{8,}[.?)}]$/);
        // Words of the text are cut short.
        expect(problem.message.length).toBeLessThan(400);
      }
      const ranges = rangesOf(setup);
      stated += ranges.length;
      for (const { id, low, best, high } of ranges) expect([low, best, high].every(Number.isFinite) && low <= best && best <= high, `${id} in ${text}`).toBe(true);
      const trial = new Trial();
      const size = { x: trial.value(setup.room.length), y: trial.value(setup.room.width), z: trial.value(setup.room.height) };
      const places = [
        ...[...setup.devices.values()].map((d) => setup.floor.position(d.name, d.place, "operator", d.height ?? HEIGHTS.lens, d.ring).at(trial)),
        ...[...setup.voices.values()].map((voice) => voice.position.at(trial)), ...setup.room.seats.flatMap((group) => setup.floor.seats(group, trial).map((seat) => seat.at)),
      ];
      for (const point of places) for (const axis of ["x", "y", "z"] as const) expect(point[axis] > 0 && point[axis] < size[axis], `${axis} ${point[axis]} in ${text}`).toBe(true);
    }), runs(1500));
    expect(stated).toBeGreaterThan(5000);
  });

  it("one mistake is told once: no two problems of one code at one place", () => {
    fc.assert(fc.property(fc.oneof(soup, mutated), (text) => {
      const keys = readText(text).problems.map((p) => `${p.where.path} ${p.where.start} ${p.code}`);
      expect(new Set(keys).size).toBe(keys.length);
    }), runs(500));
  });

  it("every statement that is bound is one of the table, where it may stand, with values in its slots", () => {
    fc.assert(fc.property(fc.oneof(soup, mutated), (text) => {
      const table = new Set(VOCABULARY);
      const check = (bound: Bound): void => {
        expect(table.has(bound.row)).toBe(true);
        expect(bound.row.within).toContain(bound.owner);
        for (const slot of bound.values.keys()) expect(bound.row.slots.map((s) => s.id)).toContain(slot);
        for (const child of bound.children) check(child);
      };
      for (const statement of bind(parse(text, { topHeads: TOP_HEADS }), "x").statements) check(statement);
    }), runs(500));
  });
});

describe("what does not change anything", () => {
  it("the order of the top statements, but for the order in which things are listed", () => {
    fc.assert(fc.property(fc.constantFrom(...setups), fc.integer(), ([path, text], turn) => {
      const blocks = parse(text, { topHeads: TOP_HEADS }).root.facts.map((fact) => text.slice(fact.start, fact.fullEnd));
      const by = Math.abs(turn) % blocks.length;
      const read = (t: string): Setup => readSetup(inMemory(new Map([...files, [path, t]])), path);
      const [before, after] = [read(blocks.join("\n")), read([...blocks.slice(by), ...blocks.slice(0, by)].join("\n"))];
      expect(after.problems.map((p) => p.message).sort()).toEqual(before.problems.map((p) => p.message).sort());
      const figures = (s: Setup): unknown[] => rangesOf(s).map(({ id, low, best, high }) => [id, low, best, high].join(" ")).sort();
      expect(figures(after)).toEqual(figures(before));
      const trial = (ends: readonly (readonly [string, End])[]): Trial => new Trial(new Map(ends));
      for (const [name, device] of before.devices) {
        const place = (s: Setup): unknown => s.floor.position(device.name, s.devices.get(name)?.place, "operator", 1, s.devices.get(name)?.ring).at(trial([[`${name}.place-0.offset`, "high"]]));
        if (device.ring === undefined) expect(place(after)).toEqual(place(before));
      }
    }), runs(100));
  });

  it("what a device is called: all figures stay when it is renamed throughout", () => {
    const letters = fc.stringMatching(/^q[a-z]{3,8}$/);
    fc.assert(fc.property(letters, fc.constantFrom("laptop", "box", "beamer", "Ines"), (to, from) => {
      const text = `room hall 9 m by 6 m, chairs 24 in 4 rows
talker Ines at lectern
device laptop is tablet
device beamer is projector
place laptop near lectern
place box is battery-loudspeaker, beside laptop
place beamer behind box
place lapel is lapel-microphone, on Ines
cable from laptop.usb-c to beamer.hdmi
join laptop { plays sound on box }`;
      fc.pre(!typicalKinds().some((kind) => canonical(kind.fact.items[0] !== undefined && "text" in kind.fact.items[0] ? kind.fact.items[0].text : "") === to) && !HEADS.has(to));
      const renamed = text.replace(new RegExp(`(?<![\\w-])${from}(?![\\w-])`, "g"), to);
      const places = (s: Setup): unknown[] => [...s.devices.values()].map((d) => s.floor.position(d.name, d.place, "operator", 1).at(new Trial()));
      const [before, after] = [readText(text), readText(renamed)];
      expect(after.problems).toEqual([]);
      expect(places(after)).toEqual(places(before));
      expect(rangesOf(after).map(({ low, best, high }) => [low, best, high])).toEqual(rangesOf(before).map(({ low, best, high }) => [low, best, high]));
    }), runs(100));
  });

  it("the path of a used file: none leads out of the root, whatever it says", () => {
    const part = fc.constantFrom("..", ".", "", "a", "b c", "x.bothways", "~", "C:", "\\", "%2e%2e", "…");
    fc.assert(fc.property(fc.array(part, { maxLength: 6 }), fc.array(part, { maxLength: 8 }), (from, use) => {
      const path = resolve([...from.filter((p) => p !== ".." && p !== "." && p !== "" && p !== "\\"), "here.bothways"].join("/"), use.join("/"));
      if (path === undefined) return;
      expect(path.split("/").some((p) => p === "" || p === "." || p === "..")).toBe(false);
      expect(path.startsWith("/") || path.includes("\\")).toBe(false);
    }), runs(2000));
  });
});
