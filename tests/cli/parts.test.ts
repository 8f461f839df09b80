import fc from "fast-check";
import { existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync, chmodSync, statSync, readdirSync } from "node:fs";
import { spawnSync } from "node:child_process";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { readArguments, type Shape } from "../../server/cli/arguments";
import { CannotRun } from "../../server/cli/cannotRun";
import { changes } from "../../server/cli/diff";
import { asName, starter, STARTER_KINDS } from "../../server/views/starter";
import { blankHtml, blankMarkdown, htmlText, markdownText, openHtml, openMarkdown } from "../../server/cli/surveySheet";
import { bySymptom } from "../../server/cli/symptoms";
import { Folders, FolderTexts, LARGEST, rootOf, setupsBelow } from "../../server/cli/texts";
import { writeWhole } from "../../server/cli/write";
import type { Entry } from "../../server/checks/catalogue";
import { folder, project } from "./built";
import { question } from "./studies";

const messageOf = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    if (error instanceof CannotRun) return error.message;
    throw error;
  }
  throw new Error("it ran, and should not have");
};

describe("arguments", () => {
  const shape: Shape = {
    name: "check", usage: "check PATH…", summary: "", about: [], least: 1, most: 2, example: "bothways check a.bothways",
    options: [{ name: "format", value: "FORMAT", choices: ["text", "json"], meaning: "" }, { name: "check", meaning: "" }, { name: "out", value: "FILE", meaning: "" }],
  };
  it("reads words, switches and values in any order and both ways of writing", () => {
    const read = readArguments(shape, ["a", "--format", "json", "--check", "b", "--out=-x"]);
    expect(read.words).toEqual(["a", "b"]);
    expect([read.value("format"), read.has("check"), read.value("out")]).toEqual(["json", true, "-x"]);
    expect(readArguments(shape, ["--", "--check"]).words).toEqual(["--check"]);
  });
  it.each([
    [["a", "--fromat", "json"], /no option --fromat: did you mean --format\?/u],
    [["a", "--zzz"], /its options are --format, --check, --out/u],
    [["a", "--format", "yaml"], /one of text, json, not “yaml”/u],
    [["a", "--format"], /wants a value: --format text\|json/u],
    [["a", "--out", "--check"], /--out wants a value/u],
    [["a", "--check=yes"], /takes no value/u],
    [["a", "-x"], /no option -x/u],
    [[], /wants a file or a folder/u],
    [["a", "b", "c"], /“c” is too much/u],
  ])("says in one line what is wrong with %j, and shows one", (argv, words) => {
    const message = messageOf(() => readArguments(shape, argv));
    expect(message).toMatch(words);
    expect(message.split("\n")).toHaveLength(1);
    expect(message).toContain("For example:");
  });
});

describe("texts, confined to the open folder", () => {
  it("reads what is inside and nothing else", () => {
    const root = folder({ "in/a.bothways": "setup \"a\"", "secret.bothways": "kind x is a hub" });
    const texts = new FolderTexts(path.join(root, "in"));
    expect(texts.read("a.bothways")).toEqual({ text: "setup \"a\"" });
    for (const out of ["../secret.bothways", "x/../../secret.bothways", path.join(root, "secret.bothways"), "", "a\0b"]) {
      expect(texts.read(out)).toHaveProperty("problem");
    }
    expect(texts.read("../secret.bothways")).toEqual({ problem: "it lies outside the folder that is open" });
  });

  it("follows a link inside, and none that leads out, whether of a file or of a folder on the way", () => {
    const root = folder({ "in/a.bothways": "A", "out/b.bothways": "B" });
    const inside = path.join(root, "in");
    symlinkSync(path.join(root, "out/b.bothways"), path.join(inside, "link.bothways"));
    symlinkSync(path.join(root, "out"), path.join(inside, "folder"));
    symlinkSync(path.join(inside, "a.bothways"), path.join(inside, "own.bothways"));
    symlinkSync(path.join(inside, "circle.bothways"), path.join(inside, "circle.bothways"));
    const texts = new FolderTexts(inside);
    expect(texts.read("own.bothways")).toEqual({ text: "A" });
    expect(texts.read("link.bothways")).toEqual({ problem: "it is a link that leads outside the folder that is open" });
    expect(texts.read("folder/b.bothways")).toEqual({ problem: "it is a link that leads outside the folder that is open" });
    expect(texts.read("circle.bothways")).toEqual({ problem: "it is a link that leads round in a circle" });
  });

  it("says in a few words why a file cannot be read", () => {
    const root = folder({ "latin.bothways": new Uint8Array([0x73, 0xe9, 0x74]), "utf16.bothways": new Uint8Array([0xff, 0xfe, 0x73, 0]), "large.bothways": "x".repeat(LARGEST + 1), "d.bothways/x": "" });
    const texts = new FolderTexts(root);
    expect(texts.read("latin.bothways")).toEqual({ problem: "it is not UTF-8 text: save it as UTF-8" });
    expect(texts.read("utf16.bothways")).toEqual({ problem: "it is UTF-16 text: save it as UTF-8" });
    expect(texts.read("large.bothways")).toEqual({ problem: "it is larger than 2 MB, and no setup is" });
    expect(texts.read("d.bothways")).toEqual({ problem: "it is a folder, not a file" });
    expect(texts.read("none.bothways")).toEqual({ problem: "there is no such file" });
  });

  it.skipIf(process.platform === "win32")("does not wait for a named pipe", () => {
    const root = folder();
    spawnSync("mkfifo", [path.join(root, "pipe.bothways")]);
    expect(new FolderTexts(root).read("pipe.bothways")).toEqual({ problem: "it is not an ordinary file" });
  });

  it("keeps a byte order mark, so that offsets count what stands in the file", () => {
    const root = folder({ "bom.bothways": "\ufeffsetup" });
    expect(new FolderTexts(root).read("bom.bothways")).toEqual({ text: "\ufeffsetup" });
  });

  it("takes the nearest folder upwards with a .git as open, else the file's own", () => {
    const root = folder({ "repo/deep/er/a.bothways": "", "plain/a.bothways": "" });
    mkdirSync(path.join(root, "repo/.git"));
    expect(rootOf(path.join(root, "repo/deep/er"))).toBe(path.join(root, "repo"));
    expect(rootOf(path.join(root, "plain"))).toBe(path.join(root, "plain"));
  });

  it("finds setups below a folder, sorted, without hidden folders, packages and linked folders", () => {
    const root = folder({ "b.bothways": "", "a/c.bothways": "", ".hidden/d.bothways": "", "node_modules/e.bothways": "", "f.txt": "", "Z.bothways": "" });
    symlinkSync(root, path.join(root, "again"));
    expect(setupsBelow(root).map((file) => path.relative(root, file))).toEqual(["Z.bothways", path.join("a", "c.bothways"), "b.bothways"]);
  });

  it("opens no file outside the folder that --root names", () => {
    const root = folder({ "in/a.bothways": "", "out.bothways": "" });
    expect(messageOf(() => new Folders(path.join(root, "in")).file(path.join(root, "out.bothways")))).toContain("outside");
    expect(messageOf(() => new Folders(path.join(root, "none")))).toContain("no such folder");
  });
});

describe("writing", () => {
  it("replaces a file whole, keeps its rights, leaves nothing beside it", () => {
    const root = folder({ "a.bothways": "old" });
    const file = path.join(root, "a.bothways");
    chmodSync(file, 0o640);
    writeWhole(file, "new", "old");
    expect(readFileSync(file, "utf8")).toBe("new");
    if (process.platform !== "win32") expect(statSync(file).mode & 0o777).toBe(0o640);
    expect(readdirSync(root)).toEqual(["a.bothways"]);
  });
  it("refuses where the file was changed meanwhile", () => {
    const root = folder({ "a.bothways": "somebody else's" });
    const file = path.join(root, "a.bothways");
    expect(messageOf(() => { writeWhole(file, "new", "old"); })).toContain("changed meanwhile");
    expect(readFileSync(file, "utf8")).toBe("somebody else's");
    expect(readdirSync(root)).toEqual(["a.bothways"]);
  });
  it("says what is wrong where it cannot write", () => {
    const root = folder();
    expect(messageOf(() => { writeWhole(path.join(root, "none/a.bothways"), "new"); })).toContain("cannot be written");
  });
  it("does not touch a file that has the name of its own intermediate one", () => {
    const root = folder({ "a.bothways": "old" });
    const beside = path.join(root, `.a.bothways.${process.pid}.new`);
    writeFileSync(beside, "somebody's");
    expect(() => { writeWhole(path.join(root, "a.bothways"), "new", "old"); }).toThrow(CannotRun);
    expect(existsSync(beside)).toBe(true);
    rmSync(beside);
  });
});

describe("differences", () => {
  const text = fc.array(fc.constantFrom("a", "b", "c", "  d", ""), { maxLength: 12 }).map((all) => all.join("\n"));
  it("with all lines around it a difference holds both texts (property)", () => {
    fc.assert(fc.property(text, text, (before, after) => {
      const all = changes(before, after, 1000).flat();
      if (before === after) return all.length === 0;
      const kept = (sign: string): string => all.filter((c) => c.sign === " " || c.sign === sign).map((c) => c.line).join("\n");
      return kept("-") === before && kept("+") === after;
    }));
  });
  it("shows one changed line with its neighbours", () => {
    expect(changes("a\nb\nc\nd\ne", "a\nb\nX\nd\ne")).toEqual([[
      { sign: " ", line: "b", at: 2 }, { sign: "-", line: "c", at: 3 }, { sign: "+", line: "X", at: 3 }, { sign: " ", line: "d", at: 4 },
    ]]);
  });
  it("keeps changes that are far apart in groups of their own, each line once", () => {
    const before = Array.from({ length: 30 }, (_, i) => `line ${i}`);
    const after = before.map((line, i) => (i === 3 || i === 5 || i === 20 ? `${line}!` : line));
    const groups = changes(before.join("\n"), after.join("\n"));
    expect(groups.map((group) => group.map((c) => `${c.sign}${c.at}`))).toEqual([
      [" 3", "-4", "+4", " 5", "-6", "+6", " 7"], [" 20", "-21", "+21", " 22"],
    ]);
  });
});

describe("symptoms", () => {
  const entry = (code: string, symptoms: string[], notice = "", title = ""): Entry => ({
    code, title, severity: "error", group: "g", notice, why: "", todo: [], source: "", symptoms, limit: "",
  });
  const catalogue = [
    entry("echo-path", ["they hear themselves", "echo"], "Those online hear their own words a moment later."),
    entry("battery-short", ["the loudspeaker dies before the end"], "The loudspeaker falls silent.", "A battery does not last"),
    entry("uplink-short", ["the picture freezes", "the picture stutters"], "Pictures freeze and words are lost."),
  ];
  it.each([
    ["they hear themselves", "echo-path"], ["They hear THEMSELVES!", "echo-path"], ["picture is freezing or it freezes", "uplink-short"],
    ["the box's battery is empty", "battery-short"], ["echoes", "echo-path"], ["people hear their own words later", "echo-path"],
  ])("“%s” leads to %s", (words, code) => {
    expect(bySymptom(words, catalogue)[0]?.code).toBe(code);
  });
  it("finds nothing where no word is in common", () => {
    expect(bySymptom("the tea is cold", catalogue)).toEqual([]);
    expect(bySymptom("", catalogue)).toEqual([]);
  });
});

describe("a first setup", () => {
  it("holds the answers in a dozen lines", () => {
    const { text, assumed, unknown } = starter({
      title: "Fern \"night\"", talkers: "Ines at lectern", seats: 24, online: 8, size: "9 m by 6 m", own: "a laptop, lapel mic and battery loudspeaker", audience: true,
    });
    expect(text).toBe(`setup "Fern 'night'"
room hall 9 m by 6 m, chairs 24 in 4 rows
online 8 people
talker Ines at lectern
talker anybody at audience
place laptop is laptop, beside lectern
place lapel is lapel-microphone, on Ines
place box is battery-loudspeaker, near front, aim audience
join laptop {
  sends sound from lapel
  plays sound on box
}
`);
    expect(text.trimEnd().split("\n").length).toBeLessThanOrEqual(12);
    expect(assumed).toEqual([]);
    expect(unknown).toEqual([]);
  });
  it("says what it assumed and what it did not understand", () => {
    const { text, assumed, unknown } = starter({ own: "two phones, a trombone" });
    expect(unknown).toEqual(["a trombone"]);
    expect(assumed).toHaveLength(5);
    expect(text).toContain("device phone-2 is phone");
    expect(text).toContain("join phone");
  });
  it("knows all the typical equipment, and nothing that is not among it", () => {
    const text = readFileSync(path.join(project, "server/model/typical/equipment.bothways"), "utf8");
    expect([...STARTER_KINDS].sort()).toEqual([...text.matchAll(/^kind ([a-z-]+)/gmu)].map((m) => m[1]).sort());
  });
  it("understands each kind by its own name, in the plural too", () => {
    for (const kind of STARTER_KINDS) {
      for (const words of [kind, kind.replaceAll("-", " ").toUpperCase(), `2 ${kind.replaceAll("-", " ")}s`]) {
        const { text, unknown } = starter({ own: words });
        expect([words, unknown]).toEqual([words, []]);
        expect(text).toContain(` is ${kind}`);
      }
    }
  });
  it("makes names that the language takes", () => {
    expect(asName("Ines María")).toBe("Ines-María");
    expect(asName("\"; rm -rf {")).toBe("rm-rf");
    expect(asName("12")).toBe("");
  });
});

describe("the survey sheet", () => {
  it("has room to write behind every question of the blank form", () => {
    const items = blankMarkdown().split("\n").filter((line) => line.startsWith("- [ ]"));
    expect(items.length).toBeGreaterThan(20);
    expect(items.filter((line) => !line.includes("…………"))).toEqual([]);
  });
  it("stands alone as a page and keeps every script out", () => {
    const html = blankHtml();
    expect(html).toMatch(/^<!DOCTYPE html>/u);
    expect(html).toContain("default-src 'none'");
    expect(html).not.toMatch(/<script|<img|<link|https?:/u);
  });
  it("gives the open questions in their order with answers, a line to write and a place", () => {
    const open = [{ question, place: "fern.bothways, line 4" }, { question: { ...question, ask: "How is box connected?", write: undefined }, place: undefined }];
    for (const sheet of [openMarkdown({ title: "Fern", open }), openHtml({ title: "Fern", open })]) {
      expect(sheet.indexOf("1. What uplink")).toBeGreaterThan(-1);
      expect(sheet.indexOf("2. How is box")).toBeGreaterThan(sheet.indexOf("1. What uplink"));
      for (const words of ["2.7 Mb/s or more: everything can be sent", "internet venue { up 4 Mb/s", "fern.bothways, line 4", "Found"]) expect(sheet).toContain(words);
    }
  });
  it("lets no name become markup", () => {
    const evil = "<script>alert(1)</script> [x](y) `c` *b* \u202e";
    const open = [{ question: { ...question, ask: evil, answers: [{ when: evil, then: evil }], write: evil }, place: evil }];
    const html = openHtml({ title: evil, open });
    expect(html).not.toContain("<script");
    expect(html).not.toContain("\u202e");
    expect(openMarkdown({ title: evil, open }).split("\n").filter((line) => !line.startsWith("In the file:")).join("\n")).not.toMatch(/(?<!\\)[<[`*](?! \])/u);
    expect(htmlText("a&b<\"'")).toBe("a&amp;b&lt;&quot;&#39;");
    expect(markdownText("1. a_b")).toBe("1\\. a\\_b");
  });
});
