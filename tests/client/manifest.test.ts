/** What package.json promises an editor, against what is there: commands, files, snippets, grammar, and what is packed. */
import { settingsFrom, USUAL } from "../../server/protocol/settings";
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { highlighting } from "../../grammar/highlighting";
import { lex } from "../../grammar/lexer";
import { COMMANDS } from "../../server/protocol/messages";
import { readSetup } from "../../server/model/setup";
import { build } from "../cli/built";

const root = path.dirname(path.dirname(path.dirname(fileURLToPath(import.meta.url))));
const read = (file: string): string => readFileSync(path.join(root, file), "utf8");
const json = <T>(file: string): T => JSON.parse(read(file)) as T;

interface Command { command: string; title: string; category: string }
interface Menu { command: string }
interface Step { id: string; description: string; media: { svg: string; altText: string }; completionEvents: string[] }
interface Manifest {
  main: string; browser: string; icon: string; activationEvents: string[];
  capabilities: { untrustedWorkspaces: { supported: boolean }; virtualWorkspaces: boolean };
  contributes: {
    languages: { id: string; extensions: string[]; configuration: string; icon: { light: string; dark: string } }[];
    grammars: { language: string; scopeName: string; path: string }[];
    snippets: { language: string; path: string }[];
    commands: Command[]; menus: Record<string, Menu[]>;
    configuration: { properties: Record<string, { description: string }> };
    walkthroughs: { steps: Step[] }[];
  };
}
const manifest = json<Manifest>("package.json");
const { contributes } = manifest;
const client = readdirSync(path.join(root, "client")).filter((name) => name.endsWith(".ts")).map((name) => read(`client/${name}`)).join("\n");
const commands = contributes.commands.map((one) => one.command);

describe("commands", () => {
  it("are registered by the client, all that are promised and no other", () => {
    const literal = [...read("client/begin.ts").matchAll(/command\("(bothways\.\w+)"/gu)].map((found) => found[1] ?? "");
    const named = [...read("client/begin.ts").matchAll(/command\(COMMANDS\.(\w+)/gu)].map((found) => COMMANDS[found[1] as keyof typeof COMMANDS]);
    expect([...literal, ...named].sort()).toEqual([...commands].sort());
  });
  it("that the server puts into lenses are among them", () => expect(commands).toEqual(expect.arrayContaining(Object.values(COMMANDS))));
  it("of menus and of the walkthrough exist", () => {
    for (const menu of Object.values(contributes.menus)) for (const { command } of menu) expect(commands).toContain(command);
    for (const { description, completionEvents } of contributes.walkthroughs.flatMap((one) => one.steps)) {
      const linked = [...description.matchAll(/\(command:([\w.]+)\)/gu)].map((found) => found[1] ?? "");
      expect(linked).toHaveLength(1);
      // Besides ours, the one command of the editor that offers mends.
      for (const name of linked) expect([...commands, "editor.action.quickFix"]).toContain(name);
      expect(completionEvents).toEqual(linked.map((name) => `onCommand:${name}`));
    }
  });
  it("have one category and titles without it", () => {
    for (const one of contributes.commands) expect(one).toMatchObject({ category: "Bothways", title: expect.not.stringContaining("Bothways") as string });
  });
});

describe("what the extension says of itself", () => {
  it("is woken by the language and by its own panels alone, and works untrusted and without a disk", () => {
    expect(manifest.activationEvents).toEqual(["onLanguage:bothways", "onWebviewPanel:bothways.flow", "onWebviewPanel:bothways.plan", "onWebviewPanel:bothways.look"]);
    expect(manifest.capabilities).toEqual({ untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
  });
  it("has settings that somebody reads", () => {
    for (const [name, { description }] of Object.entries(contributes.configuration.properties)) {
      // The client reads some by their whole names; the server asks for all of ours and takes its own.
      const own = name.replace(/^bothways\./u, "");
      const [section = "", key = ""] = own.split(".");
      const read = settingsFrom({ [section]: { [key]: false } });
      expect(client.includes(`"${own}"`) || JSON.stringify(read) !== JSON.stringify(USUAL), own).toBe(true);
      expect(description).toMatch(/\.$/u);
    }
  });
  it("names files that exist", () => {
    const [language] = contributes.languages;
    const named = [
      manifest.icon, language?.configuration ?? "", language?.icon.light ?? "", language?.icon.dark ?? "", contributes.grammars[0]?.path ?? "", contributes.snippets[0]?.path ?? "",
      ...contributes.walkthroughs.flatMap((one) => one.steps.map((step) => step.media.svg)),
    ];
    for (const file of named) expect(existsSync(path.join(root, file)), file).toBe(true);
  });
  it("has a walkthrough of five steps, each picture with words for who does not see it", () => {
    const steps = contributes.walkthroughs.flatMap((one) => one.steps);
    expect(steps).toHaveLength(5);
    for (const { media } of steps) {
      expect(media.altText.length).toBeGreaterThan(20);
      expect(read(media.svg)).not.toMatch(/<script|<image|href=|<foreignObject/u);
    }
  });
  it("has an icon of 128 by 128", () => {
    const png = readFileSync(path.join(root, manifest.icon));
    expect([png.subarray(1, 4).toString(), png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual(["PNG", 128, 128]);
  });
});

describe("the language's files", () => {
  const configuration = json<{ comments: { lineComment: string }; wordPattern: { pattern: string; flags: string }; indentationRules: Record<string, string>; folding: { markers: Record<string, string> } }>("client/assets/language-configuration.json");

  it("are of the language that the grammar colours", () => {
    expect(contributes.languages.map((one) => [one.id, one.extensions])).toEqual([["bothways", [".bothways"]]]);
    expect(contributes.grammars).toMatchObject([{ language: "bothways", scopeName: highlighting().scopeName }]);
    expect(json("grammar/bothways.tmLanguage.json")).toEqual(JSON.parse(JSON.stringify(highlighting())));
  });

  it("take for one word what the lexer takes for one", () => {
    const { pattern, flags } = configuration.wordPattern;
    const line = "place front-screen.hdmi-1 and Ölçü_2 near laptop. Rêve's box";
    const words = lex(line).tokens.filter((token) => token.kind === "word").map((token) => token.text);
    expect(line.match(new RegExp(pattern, `g${flags}`))).toEqual(words);
    expect(words).toContain("front-screen.hdmi-1");
  });

  it("indent behind a brace that stays open, and nowhere else", () => {
    const deeper = new RegExp(configuration.indentationRules["increaseIndentPattern"] ?? "", "u");
    for (const line of ["join laptop {", "  room hall 9 m {  # large", 'item "a" {', 'setup "a {" {']) expect(deeper.test(line), line).toBe(true);
    for (const line of ["join laptop { sends no sound }", 'note "a { b"', "# a {", "place laptop", ""]) expect(deeper.test(line), line).toBe(false);
    const back = new RegExp(configuration.indentationRules["decreaseIndentPattern"] ?? "", "u");
    expect([back.test("  }"), back.test("a }")]).toEqual([true, false]);
  });

  it("know how a comment begins", () => expect(lex(`${configuration.comments.lineComment} a`).comments).toHaveLength(1));
});

describe("snippets", () => {
  const snippets = Object.entries(json<Record<string, { prefix: string; body: string[]; description: string }>>("client/assets/snippets.json"));
  /** As the editor writes it before anybody fills anything in: the first choice of each list, the default of each place, the date of today. */
  const written = (body: readonly string[]): string => {
    let text = body.join("\n").replaceAll("$CURRENT_YEAR", "2026").replaceAll("$CURRENT_MONTH", "11").replaceAll("$CURRENT_DATE", "25");
    text = text.replace(/\$\{\d+\|([^,|]+)[^|]*\|\}/gu, "$1").replace(/\$\{\d+:([^}]*)\}/gu, "$1").replace(/\$\d/gu, "");
    return text;
  };
  /** What the snippets lean on. */
  const GROUND: readonly [RegExp, string][] = [
    [/^setup /mu, 'setup "A"'], [/^room /mu, "room hall 9 m by 6 m, chairs 24 in 4 rows"], [/^talker presenter/mu, "talker presenter at lectern"],
    [/^place laptop /mu, "place laptop is laptop, at lectern"], [/^join laptop\b/mu, "join laptop"],
    [/^place phone /mu, "place phone is phone, near front"], [/^place projector /mu, "place projector is projector, at middle"],
  ];

  it.each(snippets)("%s gives text without a mistake", (_name, { body }) => {
    const own = written(body);
    expect(own).not.toMatch(/[$|]/u);
    const text = `${[...GROUND.filter(([sign]) => !sign.test(own)).map(([, line]) => line), own].join("\n")}\n`;
    const setup = readSetup({ read: (file) => (file === "a.bothways" ? { text } : file === "rooms/hall.bothways" ? { text: "outlet porch at back\n" } : { problem: "no such file" }) }, "a.bothways");
    expect(setup.problems.map((one) => `${one.severity}: ${one.message}`)).toEqual([]);
  });

  it("choose among words that all are right", () => {
    for (const [, { body }] of snippets) {
      for (const [index, line] of body.entries()) {
        for (const [whole, list] of line.matchAll(/\$\{\d+\|([^|]+)\|\}/gu)) {
          for (const word of (list ?? "").split(",")) {
            const own = written(body.map((one, at) => (at === index ? one.replace(whole, word) : one)));
            const text = `${GROUND.filter(([sign]) => !sign.test(own)).map(([, more]) => more).join("\n")}\n${own}\n`;
            const { problems } = readSetup({ read: () => ({ text }) }, "a.bothways");
            expect(problems.map((one) => one.message), own).toEqual([]);
          }
        }
      }
    }
  });
});

describe("the package", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "bothways-package-"));
  const vsix = path.join(folder, "a.vsix");
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  beforeAll(() => {
    build();
    const done = spawnSync(process.execPath, [path.join(root, ".scripts/package.mjs"), "--built", "--out", vsix], { encoding: "utf8" });
    if (done.status !== 0) throw new Error(done.stdout + done.stderr);
  });

  /** Names in a ZIP, from its central directory (APPNOTE 4.3.12). */
  const names = (zip: Buffer): string[] => {
    const end = zip.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
    const out: string[] = [];
    for (let at = zip.readUInt32LE(end + 16), left = zip.readUInt16LE(end + 10); left > 0; left -= 1) {
      const [name, extra, comment] = [zip.readUInt16LE(at + 28), zip.readUInt16LE(at + 30), zip.readUInt16LE(at + 32)];
      out.push(zip.subarray(at + 46, at + 46 + name).toString("utf8"));
      at += 46 + name + extra + comment;
    }
    return out;
  };

  it("is smaller than 2 MB", () => expect(readFileSync(vsix).length).toBeLessThan(2_000_000));

  it("holds what was listed and what the manifest names, and nothing else", () => {
    const inside = names(readFileSync(vsix)).filter((name) => name.startsWith("extension/")).map((name) => name.slice("extension/".length));
    const [language] = contributes.languages;
    const needed = [
      manifest.main, manifest.icon, language?.configuration, language?.icon.light, language?.icon.dark, contributes.grammars[0]?.path, contributes.snippets[0]?.path,
      ...contributes.walkthroughs.flatMap((one) => one.steps.map((step) => step.media.svg)),
      manifest.browser, "dist/server.js", "dist/server-browser.js", "dist/preview.js", "dist/preview.css", "dist/NOTICES.txt", "package.json",
    ].map((file) => (file ?? "").replace(/^\.\//u, ""));
    expect(inside).toEqual(expect.arrayContaining(needed));
    for (const name of ["readme.md", "license.txt", "changelog.md"]) expect(inside.map((one) => one.toLowerCase())).toContain(name);
    const strangers = inside.filter((name) => !/^(?:package\.json|readme\.md|license(?:\.txt)?|changelog\.md|client\/assets\/.*\.(?:svg|png|json)|dist\/(?:(?:client|server)(?:-browser)?|preview)\.(?:js|css)|dist\/(?:[\w-]+\.js\.LEGAL|NOTICES)\.txt|grammar\/(?:bothways\.tmLanguage\.json|REFERENCE\.md))$/iu.test(name));
    expect(strangers).toEqual([]);
  });
});
