import fc from "fast-check";
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { lex } from "../../grammar/lexer";
import { lineTable } from "../../grammar/lines";
import { parse } from "../../grammar/parse";
import { format } from "../../grammar/printer";
import { isPoint, type Block, type Fact, type Tree } from "../../grammar/tree";
import { outline, sayFact } from "../grammar/outline";

const FOLDER = path.resolve(import.meta.dirname, "../grammar/setups");
const SETUPS = readdirSync(FOLDER).filter((file) => file.endsWith(".bothways")).sort()
  .map((file) => readFileSync(path.join(FOLDER, file), "utf8").replaceAll("\r\n", "\n"));
const TOP = new Set(["setup", "meeting", "join", "place", "talker", "programme", "note"]);

/** Any string of whole and broken characters. */
const anything = fc.string({ unit: "binary", maxLength: 200 });

/** Pieces of the language, so that a run of them is nearly a setup. */
const pieces = fc.array(fc.constantFrom(
  "place", "laptop", "at", "join", "meeting", "setup", " ", " ", "  ", "\t", "\n", "\n", "\r\n", "\r", "{", "}", "{", "}", "(", ")", ",", ", ",
  '"', '"talk"', "“", "”", "\\", "# note", "#", "3", "3.2", "-6", "3,2", "m", "%", "°", "16:9", "18:30", "720p30", "1920x1080",
  "2026-10-14", "-", ".", "=", "é", "🎤", "\u00a0", "\ufeff", "<<<<<<< a\n", "=======\n", ">>>>>>> b\n", "\u200b", "\ud800",
), { maxLength: 80 }).map((parts) => parts.join(""));

/** A sound setup with up to four stretches of it replaced by something else. */
const mutated = fc.tuple(
  fc.constantFrom(...SETUPS),
  fc.array(fc.tuple(fc.nat(), fc.nat({ max: 30 }), fc.oneof(pieces, fc.constant(""), anything)), { maxLength: 4 }),
).map(([setup, edits]) => edits.reduce((text, [at, length, by]) => {
  const from = at % (text.length + 1);
  return text.slice(0, from) + by + text.slice(from + length);
}, setup));

const texts = fc.oneof(anything, pieces, mutated);
/** Chance is the same each time; more runs are asked for with PROPERTY_RUNS, times the usual number. */
const runs = (count: number): { numRuns: number; seed?: number } => {
  const times = Number(process.env["PROPERTY_RUNS"] ?? "1");
  return times === 1 ? { numRuns: count, seed: 20261125 } : { numRuns: count * times };
};
/** An expectation without vitest's machinery, which is slow where millions are checked. */
function must(holds: boolean, what: string): void {
  if (!holds) throw new Error(what);
}
/** White space that ends no line, and characters that nobody sees. */
const BLANKS = /^(?:(?![\r\n])[\s\u0085\u200b\u2060\ufeff])*$/;
const isRead = (tree: Tree): boolean => !tree.problems.some(({ code }) => code === "not-text" || code === "too-large");

describe("any text", () => {
  it("is read without a throw, with problems inside it, each with something to say", () => {
    fc.assert(fc.property(texts, (text) => {
      const tree = parse(text, { topHeads: TOP });
      for (const { start, end, message } of tree.problems) {
        must(0 <= start && start <= end && end <= text.length, "a problem lies in the text");
        must(message.length > 10, "a problem has something to say");
      }
      expect(tree.root.end).toBe(text.length);
    }), runs(500));
  });

  it("has each character in exactly one token, comment or blank", () => {
    fc.assert(fc.property(texts, (text) => {
      const { tokens, comments } = lex(text);
      const all = [...tokens, ...comments].sort((one, other) => one.start - other.start);
      let end = 0;
      let rebuilt = "";
      for (const piece of all) {
        must(end <= piece.start && piece.start < piece.end, "pieces follow one another");
        const gap = text.slice(end, piece.start);
        must(BLANKS.test(gap), "only blanks lie between");
        rebuilt += gap + piece.text;
        end = piece.end;
      }
      expect(rebuilt + text.slice(end)).toBe(text);
      must(BLANKS.test(text.slice(end)), "only blanks lie at the end");
    }), runs(500));
  });

  it("gives a tree whose parts lie inside and after one another", () => {
    const checkFact = (fact: Fact, from: number, to: number): void => {
      must(from <= fact.start && fact.fullEnd <= to, "a fact lies in its block, after the one before");
      must(fact.head.start === fact.start, "a fact begins with its head");
      let at = fact.head.end;
      for (const item of fact.items) {
        must(item.start >= at, "items follow one another");
        at = item.end;
        if (!isPoint(item)) continue;
        let inside = item.open.end;
        for (const token of item.coordinates.flat()) {
          must(token.start >= inside, "coordinates follow one another");
          inside = token.end;
        }
        must(item.end >= inside && (item.close === undefined || item.close.end === item.end), "a point ends with its )");
      }
      must(fact.end === at, "a fact ends with its last item");
      for (const other of fact.also) {
        must(other.also.length === 0 && other.block === undefined, "only a line's first fact owns");
        checkFact(other, at, fact.fullEnd);
        at = other.end;
      }
      if (fact.block !== undefined) {
        must(fact.block.start >= at && fact.block.end === fact.fullEnd, "a block ends its statement");
        checkBlock(fact.block);
      } else must(fact.fullEnd === at, "a statement without a block ends with its last fact");
    };
    const checkBlock = (block: Block): void => {
      let at = block.start;
      for (const fact of block.facts) {
        checkFact(fact, at, block.end);
        at = fact.fullEnd;
      }
    };
    fc.assert(fc.property(texts, (text) => {
      const tree = parse(text, { topHeads: TOP });
      checkBlock(tree.root);
      expect(tree.tokens.every((token) => token.text !== "")).toBe(true);
    }), runs(500));
  });

  it("finds each offset again from its line and character", () => {
    fc.assert(fc.property(texts, fc.nat(), (text, some) => {
      const table = lineTable(text);
      const offset = some % (text.length + 1);
      const { line, character } = table.at(offset);
      const back = table.offset(line, character);
      // Between CR and LF there is no place of its own.
      expect(back === offset || text.slice(offset - 1, offset + 1) === "\r\n").toBe(true);
      expect(table.count).toBe(text.split(/\r\n|\n|\r/).length);
    }), runs(300));
  });
});

describe("layout", () => {
  it("keeps tokens, comments and tree, and changes nothing the second time", () => {
    let laidOut = 0;
    fc.assert(fc.property(texts, (text) => {
      const result = format(text);
      if ("refused" in result) {
        expect(result.refused).not.toContain("mistake in Bothways");
        return;
      }
      laidOut += 1;
      const words = (of: string): string[] => lex(of).tokens.filter(({ kind }) => kind !== "newline").map(({ kind, text: t }) => `${kind} ${t}`);
      expect(words(result.text)).toEqual(words(text));
      expect(lex(result.text).comments.map((comment) => comment.text)).toEqual(lex(text).comments.map((comment) => comment.text));
      expect(outline(parse(result.text))).toBe(outline(parse(text)));
      expect(format(result.text)).toEqual(result);
    }), runs(600));
    expect(laidOut).toBeGreaterThan(60);
  });

  it("leaves the sample setups as they are", () => {
    for (const setup of SETUPS) expect(format(setup)).toEqual({ text: setup });
  });
});

describe("damage", () => {
  it("leaves the statements before it as they were", () => {
    const cut = fc.tuple(fc.constantFrom(...SETUPS), fc.nat(), fc.oneof(pieces, anything)).map(([setup, some, rest]) => {
      // Cut where a statement of the top level begins.
      const starts = parse(setup).root.facts.map((fact) => fact.start).slice(2);
      return { before: setup.slice(0, starts[some % starts.length]), rest };
    });
    let compared = 0;
    fc.assert(fc.property(cut, ({ before, rest }) => {
      const tree = parse(before + rest, { topHeads: TOP });
      if (!isRead(tree)) return;
      const sound = parse(before).root.facts;
      // A { in what follows may belong to the last statement.
      sound.slice(0, -1).forEach((fact, index) => {
        const now = tree.root.facts[index];
        expect(now === undefined ? undefined : say(now)).toBe(say(fact));
        compared += 1;
      });
    }), runs(500));
    expect(compared).toBeGreaterThan(2000);
  });
});

/** A statement with all that it owns. */
function say(fact: Fact): string {
  return [[fact, ...fact.also].map(sayFact).join(", "), ...(fact.block?.facts ?? []).map((inner) => `{ ${say(inner)} }`)].join("\n");
}
