import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { shownRange, shownValue } from "../../grammar/figures";
import { highlighting } from "../../grammar/highlighting";
import { lex } from "../../grammar/lexer";
import { pattern, reference } from "../../grammar/reference";
import { HEADS, rowFor, VOCABULARY } from "../../grammar/vocabulary";
import { TYPICAL_TEXT, typicalKinds } from "../../server/model/setup";
import { bothwaysFiles, ROOT } from "./folder";
import { scopesOf } from "./scopes";

const kept = (file: string): string => readFileSync(path.join(ROOT, file), "utf8").replaceAll("\r\n", "\n");
const REFERENCE = reference(TYPICAL_TEXT);

describe("what is generated is as the vocabulary has it: else run npm run generate", () => {
  it("grammar/REFERENCE.md", () => {
    expect(kept("grammar/REFERENCE.md")).toBe(REFERENCE);
  });

  it("grammar/bothways.tmLanguage.json", () => {
    expect(JSON.parse(kept("grammar/bothways.tmLanguage.json"))).toEqual(highlighting());
  });
});

describe("the reference", () => {
  const headings = [...REFERENCE.matchAll(/^#{2,3} (.*)$/gm)].map((match) => match[1] ?? "");

  it("has every statement once, with its pattern, its meaning, and lines that show it", () => {
    for (const row of VOCABULARY) {
      const title = VOCABULARY.filter((other) => other.head === row.head).length > 1 ? `${row.head} (${row.within[0] ?? ""})` : row.head;
      expect(headings.filter((heading) => heading === title)).toHaveLength(1);
      const section = REFERENCE.split(`\n### ${title}\n`)[1]?.split("\n## ")[0]?.split("\n### ")[0] ?? "";
      expect(section).toContain(`\`${pattern(row)}\``);
      expect(section).toContain(row.meaning);
      const shown = /```text\n([^]*?)\n```/.exec(section)?.[1] ?? "";
      expect(lex(shown).tokens.map((token) => token.text)).toContain(row.head);
      expect(section.includes("**only noted so far**")).toBe(row.use === "noted");
    }
  });

  it("every link leads to a heading", () => {
    const slugs = headings.map((heading) => heading.toLowerCase().replace(/[^\p{L}\p{N} -]/gu, "").replaceAll(" ", "-"));
    expect(new Set(slugs).size).toBe(slugs.length);
    const links = [...REFERENCE.matchAll(/\]\(#([^)]*)\)/g)].map((match) => match[1] ?? "");
    expect(links.length).toBeGreaterThan(200);
    expect(links.filter((link) => !slugs.includes(link))).toEqual([]);
  });

  it("names every typical kind, with figures taken from its text", () => {
    for (const kind of typicalKinds()) {
      const name = kind.fact.items[0];
      expect(REFERENCE).toContain(`| \`${name !== undefined && "text" in name ? name.text : ""}\` | `);
    }
    expect(REFERENCE).toContain("| `battery-loudspeaker` | loudspeaker | `line`, `bluetooth` | speech-level 82 dBA (76 to 88 dBA); bluetooth: delay 200 ms (100 to 300 ms)");
  });

  it("patterns read as one would dictate the line", () => {
    const of = (owner: "file" | "join" | "internet", head: string): string => {
      const row = rowFor(owner, head);
      return row === undefined ? "" : pattern(row);
    };
    expect(of("file", "room")).toBe("room [NAME] [LENGTH] [by WIDTH] [by HEIGHT] [{ … }]");
    expect(of("file", "kind")).toBe("kind NAME is [a] TYPE [{ … }]");
    expect(of("join", "plays")).toBe("plays [no] sound [on DEVICE [and …]] [during ITEM]");
    expect(of("internet", "up")).toBe("up RATE");
  });

  it("figures are shown in the units in which one writes them", () => {
    expect(shownValue(1800, "time")).toBe("30 min");
    expect(shownValue(0.023, "share")).toBe("2.3 %");
    expect(shownValue(24, "count")).toBe("24");
    expect(shownRange(6, 14, "length")).toBe("6 to 14 m");
    expect(shownRange(0.05, 20, "length")).toBe("5 cm to 20 m");
    expect(shownRange(0, 4e7, "energy")).toBe("0 to 11100 Wh");
    expect(shownRange(0, 86400, "time")).toBe("0 to 24 h");
  });
});

describe("the colours", () => {
  const scopes = (line: string): string[] => scopesOf(highlighting(), line).map(({ text, scope }) => `${text}|${scope.replace(/\.bothways$/, "")}`);

  it("tell the parts of a line apart", () => {
    expect(scopes('place box is battery-loudspeaker, 1.5 m behind row 3   # a "note"')).toEqual([
      "place|keyword.control.statement", "is|keyword.operator.word", ",|punctuation.separator", "1.5|constant.numeric", "m|keyword.other.unit",
      "behind|keyword.operator.relation", "row|support.variable.spot", "3|constant.numeric", '# a "note"|comment.line.number-sign',
    ]);
    expect(scopes('room hall about 9 m by 6.4m { noise 41 dBA because "it # is {on}" }')).toEqual([
      "room|keyword.control.statement", "about|keyword.operator.modifier", "9|constant.numeric", "m|keyword.other.unit", "by|keyword.operator.word",
      "6.4|constant.numeric", "m|keyword.other.unit", "{|punctuation.section.block", "noise|keyword.other.statement", "41|constant.numeric", "dBA|keyword.other.unit",
      "because|storage.modifier", '"it # is {on}"|string.quoted.double', "}|punctuation.section.block",
    ]);
    expect(scopes("  up unknown, wired")).toEqual([
      "up|keyword.other.statement", "unknown|constant.language", ",|punctuation.separator", "wired|keyword.other.statement",
    ]);
  });

  it("tell dates, times, modes and connectors apart, and what cannot be", () => {
    expect(scopes("down 22 Mb/s measured 2026-10-07 18:40")).toEqual([
      "down|keyword.other.statement", "22|constant.numeric", "Mb/s|keyword.other.unit", "measured|storage.modifier",
      "2026-10-07|constant.numeric.date", "18:40|constant.numeric.clock",
    ]);
    expect(scopes("sends no picture at 720p30")).toEqual([
      "sends|keyword.other.statement", "no|keyword.operator.modifier", "picture|support.constant", "at|keyword.operator.relation", "720p30|constant.numeric.mode",
    ]);
    expect(scopes("port out is an hdmi")).toEqual([
      "port|keyword.control.statement", "is|keyword.operator.word", "an|keyword.operator.word", "hdmi|support.type",
    ]);
    expect(scopes('width 3,2 m, "open')).toContain("3,2|invalid.illegal.decimal-comma");
    expect(scopes('note "open')).toContain('"open|invalid.illegal.unclosed-text');
    expect(scopes("<<<<<<< ours")).toEqual(["<<<<<<< ours|invalid.illegal.merge-conflict"]);
  });

  it("a name is one word, whatever words are in it", () => {
    for (const name of ["front-screen-2", "laptop.camera", "room-2", "to-do", "αίθουσα", "d'on", "is.on"]) {
      expect(scopes(`fills ${name}`)).toEqual(["fills|keyword.other.statement"]);
    }
  });

  it("agree with the lexer on every sample: no rule cuts a word, a number or a text in two", () => {
    const lines = [...bothwaysFiles("samples").values(), ...bothwaysFiles("tests/language").values()].flatMap((text) => text.split("\n"));
    expect(lines.length).toBeGreaterThan(200);
    for (const line of lines) {
      const { tokens, comments } = lex(line);
      const ends = new Set([...tokens, ...comments].flatMap(({ start, end }) => [start, end]));
      const cut = scopesOf(highlighting(), line).filter(({ start, end }) => !ends.has(start) || !ends.has(end));
      expect(cut.map(({ text, scope }) => `${text} as ${scope} in: ${line}`)).toEqual([]);
    }
  });

  it("every statement of the samples has its head drawn as one", () => {
    for (const [file, text] of [...bothwaysFiles("samples"), ...bothwaysFiles("tests/language")]) {
      for (const line of text.split("\n")) {
        const head = /^\s*([a-z-]+)/.exec(line)?.[1];
        if (head === undefined) continue;
        expect(HEADS.has(head), `${file}: ${line}`).toBe(true);
        expect(scopesOf(highlighting(), line)[0]).toMatchObject({ text: head, scope: expect.stringMatching(/^keyword\.(control|other)\.statement/) as string });
      }
    }
  });
});
