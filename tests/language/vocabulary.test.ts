import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse";
import type { Fact } from "../../grammar/tree";
import { DIMENSIONS, unitOf, UNITS } from "../../grammar/units";
import {
  CONNECTOR_TYPES, CONNECTORS, HEADS, isRelation, rowFor, rowsOf, SPOTS, TOP_HEADS, VOCABULARY, type Owner, type Row,
} from "../../grammar/vocabulary";
import type { Bound } from "../../server/model/bound";
import { readText } from "./folder";

const called = (row: Row): string => `${row.head} (${row.within.join(", ")})`;
const rows = VOCABULARY.map((row) => [called(row), row] as const);
const everything = (statements: readonly Bound[]): Bound[] => statements.flatMap((s) => [s, ...everything(s.children)]);

describe("the vocabulary agrees with itself", () => {
  it.each(rows)("%s", (_, row) => {
    for (const owner of row.within) expect(rowFor(owner, row.head)).toBe(row);
    const ids = row.slots.map((slot) => slot.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const slot of row.slots) {
      if (slot.after !== undefined) expect(CONNECTORS).toContain(slot.after);
      if (slot.exactly !== undefined) expect(slot.many).toBe(true);
      if (slot.takes.kind === "word") for (const word of Object.keys(slot.takes.words)) expect(word).toBe(word.toLowerCase());
      if (slot.takes.kind === "quantity") {
        const { min = -Infinity, max = Infinity, dimension } = slot.takes;
        expect(min).toBeLessThanOrEqual(max);
        expect(Object.keys(DIMENSIONS)).toContain(dimension);
        if (slot.default !== undefined) {
          const { low, best, high, source } = slot.default;
          expect([min, low, best, high, max]).toEqual([min, low, best, high, max].sort((a, b) => a - b));
          expect(source).not.toBe("");
        }
      } else expect(slot.default).toBeUndefined();
    }
    if (row.during?.key !== undefined) expect(ids).toContain(row.during.key);
    if (row.body !== undefined) expect(rowsOf(row.body).length).toBeGreaterThan(0);
    expect(row.meaning).toMatch(/\.$/);
  });

  it.each(rows)("the example of %s states it", (_, row) => {
    const found = readText(row.example).files.flatMap((file) => everything(file.statements)).filter((bound) => bound.row === row);
    expect(found.length).toBeGreaterThan(0);
  });

  it("every block that may be opened can be reached from the top of a file", () => {
    const reached = new Set<Owner>(["file"]);
    for (let size = 0; size !== reached.size;) {
      size = reached.size;
      for (const row of VOCABULARY) if (row.body !== undefined && row.within.some((owner) => reached.has(owner))) reached.add(row.body);
    }
    expect(VOCABULARY.filter((row) => !row.within.every((owner) => reached.has(owner))).map(called)).toEqual([]);
  });

  it("optional slots with the same little word stand in the order in which they are filled", () => {
    for (const row of VOCABULARY) {
      const afters = row.slots.flatMap((slot) => (slot.after === undefined ? [] : [slot.after]));
      const twice = afters.filter((after, index) => afters.indexOf(after) !== index);
      // Only a room has two: by its width, by its height.
      expect(twice, called(row)).toEqual(row.head === "room" ? ["by"] : []);
    }
  });

  it("no connector and no relation begins a statement, but for the words that can be told apart by where they stand", () => {
    expect([...HEADS].filter((head) => CONNECTORS.has(head) || isRelation(head))).toEqual(["in"]);
  });

  it("units: a word for one dimension only, also where its case is let go", () => {
    for (const [word, unit] of UNITS) {
      expect(unitOf(word)).toBe(unit);
      expect(unit.factor).toBeGreaterThan(0);
    }
    expect(unitOf("MB/s")).toBeUndefined();
    expect(unitOf("MBps")).toBeUndefined();
    expect(unitOf("MW")).toBeUndefined();
    expect(unitOf("DBA")).toBe(unitOf("dBA"));
    expect(unitOf("WH")).toBe(unitOf("Wh"));
    expect(unitOf("constructor")).toBeUndefined();
  });

  it("every connector carries something and goes together with something; every spot that needs no statement is told", () => {
    for (const connector of Object.values(CONNECTOR_TYPES)) {
      expect(connector.families.length).toBeGreaterThan(0);
      expect(connector.carries.length).toBeGreaterThan(0);
    }
    for (const spot of ["front", "back", "left", "right", "middle", "lectern", "operator", "audience", "front-screen"]) expect(Object.keys(SPOTS)).toContain(spot);
  });
});

describe("heads that stand only at the top", () => {
  it("are those whose every row stands there alone", () => {
    for (const head of HEADS) {
      const owners = VOCABULARY.filter((row) => row.head === head).flatMap((row) => row.within);
      expect(TOP_HEADS.has(head)).toBe(owners.every((owner) => owner === "file"));
    }
    expect(TOP_HEADS.size).toBeGreaterThan(10);
  });

  it("stand nowhere else in any example", () => {
    const inner = (fact: Fact): Fact[] => [...fact.also, ...(fact.block?.facts ?? [])].flatMap((one) => [one, ...inner(one)]);
    for (const row of VOCABULARY) {
      for (const fact of parse(row.example).root.facts.flatMap((one) => (one.block?.facts ?? []).flatMap((f) => [f, ...inner(f)]))) {
        expect(TOP_HEADS.has(fact.head.text), `${fact.head.text} in the example of ${row.head}`).toBe(false);
      }
    }
  });
});
