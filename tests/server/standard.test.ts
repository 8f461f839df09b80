/** The built server over its standard input and output, asked as an editor asks: diagnostics, mends, names, words, layout. */
import { readFileSync } from "node:fs";
import path from "node:path";
import type {
  CodeAction, CodeLens, CompletionItem, CompletionList, DocumentSymbol, FoldingRange, Hover, Location, Range, TextEdit, WorkspaceEdit,
} from "vscode-languageserver-protocol/node";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Editor, uriOf, wordsOf } from "./editor";
import { evening, evenings, FILES, sample, SAMPLES } from "./evenings";

const actionsAt = (editor: Editor, uri: string, range: Range, only?: string[]): Promise<CodeAction[]> =>
  editor.ask("textDocument/codeAction", { textDocument: { uri }, range, context: { diagnostics: [], ...(only === undefined ? {} : { only }) } });

describe("an evening that went wrong", () => {
  let editor: Editor;
  const uri = uriOf(SAMPLES, "gone-wrong/everything-twice.bothways");
  beforeAll(async () => {
    editor = await Editor.start([SAMPLES]);
    await editor.open(uri, sample("gone-wrong/everything-twice.bothways"));
  });
  afterAll(() => editor.kill());

  it("shows its findings with level, code, a link to the explanation, and what a mend is asked for by", async () => {
    const shown = await editor.diagnostics(uri);
    const echo = shown.find((one) => one.code === "echo-path" || one.code === "hears-itself");
    expect(echo).toMatchObject({ severity: 1, source: "bothways", codeDescription: { href: `bothways-explain:${String(echo?.code)}` } });
    expect(echo?.data).toMatchObject({ identity: expect.stringContaining(String(echo?.code)) as unknown });
  });

  it("is mended by the fix that is offered first: the text is studied again, and the finding is gone", async () => {
    const before = await editor.diagnostics(uri);
    const echo = before.find((one) => one.severity === 1);
    if (echo === undefined) throw new Error("there is no error to mend");
    const actions = await actionsAt(editor, uri, echo.range);
    const own = actions.filter((action) => action.diagnostics?.some((one) => one.message === echo.message));
    expect(own.length).toBeGreaterThan(0);
    expect(own.map((action) => action.isPreferred === true)).toEqual(own.map((_, i) => i === 0));
    expect(new Set(own.map((action) => action.kind))).toEqual(new Set(["quickfix"]));
    const edit = own[0]?.edit;
    if (edit === undefined) throw new Error("the mend has no edit");
    expect(edit.changes).toBeUndefined();
    await editor.apply(edit);
    const after = await editor.diagnostics(uri);
    expect(after.filter((one) => one.code === echo.code && one.severity === 1)).toEqual([]);
    expect(after.length).toBeLessThan(before.length);
  });

  it("gives no actions where another kind is wanted", async () => {
    const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    expect(await actionsAt(editor, uri, whole, ["source.organizeImports"])).toEqual([]);
  });
});

describe("a folder with two evenings that share a room and a kit", () => {
  let editor: Editor;
  let folder: string;
  let autumn: string;
  beforeAll(async () => {
    folder = evenings();
    autumn = uriOf(folder, "autumn.bothways");
    editor = await Editor.start([folder]);
    await editor.open(autumn, FILES["autumn.bothways"]);
    await editor.diagnostics(autumn);
  });
  afterAll(() => editor.kill());

  it("shows a mistake as soon as it is written, and not when it is mended", async () => {
    const clean = await editor.diagnostics(autumn);
    await editor.replace(autumn, "place lapel on Ines", "place lapl on Ines");
    const wrong = await editor.diagnostics(autumn);
    const mistake = wrong.find((one) => one.code === "unknown-name");
    expect(mistake?.severity).toBe(1);
    expect(mistake?.range).toEqual(editor.rangeOf(autumn, "lapl"));
    await editor.replace(autumn, "place lapl on Ines", "place lapel on Ines");
    expect(await editor.diagnostics(autumn)).toEqual(clean);
  });

  it("offers the word that was meant, for the version that is open", async () => {
    await editor.replace(autumn, "plays sound on box", "plays sound on bxo");
    const mistake = (await editor.diagnostics(autumn)).find((one) => one.code === "unknown-name");
    if (mistake === undefined) throw new Error("the mistake is not shown");
    const [action] = await actionsAt(editor, autumn, mistake.range);
    expect(action?.title).toContain("box");
    if (action?.edit === undefined) throw new Error("nothing is offered");
    await editor.apply(action.edit);
    expect((await editor.diagnostics(autumn)).filter((one) => one.code === "unknown-name")).toEqual([]);
    expect(editor.text(autumn)).toBe(FILES["autumn.bothways"]);
  });

  it("says what a name means where the mouse rests", async () => {
    const hover = await editor.ask<Hover | null>("textDocument/hover", editor.at(autumn, "sends sound from lapel", "sends sound from ".length + 2));
    expect(hover?.contents).toMatchObject({ kind: "markdown", value: expect.stringContaining("lapel") as unknown });
    expect(hover?.range).toEqual({ start: editor.at(autumn, "sends sound from lapel", "sends sound from ".length).position, end: editor.at(autumn, "sends sound from lapel", "sends sound from lapel".length).position });
  });

  it("completes names in a text that is broken", async () => {
    await editor.replace(autumn, "  plays sound on box\n}", "  plays sound on ");
    const list = await editor.ask<CompletionList>("textDocument/completion", editor.at(autumn, "plays sound on ", "plays sound on ".length));
    const box = list.items.find((item) => item.label === "box");
    expect(box?.textEdit).toMatchObject({ newText: "box" });
    const edit = box?.textEdit as TextEdit;
    await editor.edit(autumn, [edit]);
    expect(editor.text(autumn)).toContain("  plays sound on box");
    await editor.replace(autumn, "  plays sound on box", "  plays sound on box\n}");
    expect(editor.text(autumn)).toBe(FILES["autumn.bothways"]);
  });

  it("completes statements at the beginning of a line and files in a use", async () => {
    await editor.replace(autumn, "online 8 people\n", "online 8 people\nca\nuse \"\"\n");
    const labels = async (sought: string, by: number): Promise<string[]> =>
      (await editor.ask<CompletionList>("textDocument/completion", editor.at(autumn, sought, by))).items.map((item: CompletionItem) => item.label);
    expect(await labels("\nca\n", 0).then(() => labels("ca\nuse", 2))).toContain("cable");
    expect(await labels("use \"\"", 5)).toEqual(expect.arrayContaining(["kit.bothways", "rooms/hall.bothways", "winter.bothways"]));
    await editor.replace(autumn, "online 8 people\nca\nuse \"\"\n", "online 8 people\n");
  });

  it("goes from a name to where it is given, in another file that nobody opened", async () => {
    const found = await editor.ask<Location[]>("textDocument/definition", editor.at(autumn, "place lapel on Ines", "place la".length));
    expect(found).toEqual([{ uri: uriOf(folder, "kit.bothways"), range: { start: { line: 1, character: 7 }, end: { line: 1, character: 12 } } }]);
    const used = await editor.ask<Location[]>("textDocument/definition", editor.at(autumn, "rooms/hall", 3));
    expect(used.map((one) => one.uri)).toEqual([uriOf(folder, "rooms/hall.bothways")]);
  });

  it("finds every place that means a thing, in all setups that take it in", async () => {
    const ask = (includeDeclaration: boolean): Promise<Location[]> =>
      editor.ask("textDocument/references", { ...editor.at(autumn, "place lapel on Ines", "place la".length), context: { includeDeclaration } });
    const all = await ask(true);
    const files = new Map<string, number>();
    for (const { uri } of all) files.set(uri, (files.get(uri) ?? 0) + 1);
    expect(files).toEqual(new Map([[autumn, 3], [uriOf(folder, "kit.bothways"), 1], [uriOf(folder, "winter.bothways"), 3]]));
    expect((await ask(false)).length).toBe(all.length - 1);
  });

  it("renames across files, open and not, and says for which version", async () => {
    const at = editor.at(autumn, "place lapel on Ines", "place la".length);
    const prepared = await editor.ask<{ range: Range; placeholder: string }>("textDocument/prepareRename", at);
    expect(prepared).toEqual({ range: { start: { line: 6, character: 6 }, end: { line: 6, character: 11 } }, placeholder: "lapel" });
    const edit = await editor.ask<WorkspaceEdit>("textDocument/rename", { ...at, newName: "clip" });
    const closed = await editor.apply(edit);
    expect(closed.map(({ uri, edits }) => [uri, edits.length])).toEqual(expect.arrayContaining([[uriOf(folder, "kit.bothways"), 1], [uriOf(folder, "winter.bothways"), 3]]));
    expect(editor.text(autumn)).toBe(FILES["autumn.bothways"].replaceAll("lapel", "clip"));
    // Back again: the kit on the disk still says lapel.
    await editor.edit(autumn, [{ range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } }, newText: FILES["autumn.bothways"] }]);
  });

  it("refuses a name that is none, and says why", async () => {
    const at = editor.at(autumn, "place lapel on Ines", "place la".length);
    await expect(editor.ask("textDocument/rename", { ...at, newName: "two words" })).rejects.toThrow(/is no name/);
    await expect(editor.ask("textDocument/rename", { ...at, newName: "box" })).rejects.toThrow(/cannot be called “box”/);
  });

  it("lays a text out, and leaves one alone whose braces do not balance", async () => {
    await editor.replace(autumn, "online 8 people", "online     8 people");
    const edits = await editor.ask<TextEdit[]>("textDocument/formatting", { textDocument: { uri: autumn }, options: { tabSize: 2, insertSpaces: true } });
    await editor.edit(autumn, edits);
    expect(editor.text(autumn)).toBe(FILES["autumn.bothways"]);
    await editor.replace(autumn, "  plays sound on box\n}", "  plays sound on box\n");
    expect(await editor.ask("textDocument/formatting", { textDocument: { uri: autumn }, options: { tabSize: 2, insertSpaces: true } })).toEqual([]);
    await editor.replace(autumn, "  plays sound on box\n", "  plays sound on box\n}");
  });

  it("outlines and folds", async () => {
    const symbols = await editor.ask<DocumentSymbol[]>("textDocument/documentSymbol", { textDocument: { uri: autumn } });
    const join = symbols.find((symbol) => symbol.name === "join laptop");
    expect(join?.children?.map((child) => child.name)).toEqual(["sends sound from lapel", "plays sound on box"]);
    expect(join?.range).toEqual({ start: { line: 11, character: 0 }, end: { line: 14, character: 1 } });
    const folds = await editor.ask<FoldingRange[]>("textDocument/foldingRange", { textDocument: { uri: autumn } });
    expect(folds).toEqual([{ startLine: 11, endLine: 13, kind: "region" }]);
  });

  it("has the six verdicts above the line that makes a file a setup", async () => {
    const lenses = await editor.ask<CodeLens[]>("textDocument/codeLens", { textDocument: { uri: autumn } });
    const above = lenses.filter((lens) => lens.range.start.line === 0);
    expect(above.length).toBe(6);
    // The others stand above the join.
    expect(new Set(lenses.map((lens) => lens.range.start.line))).toEqual(new Set([0, 11]));
    for (const lens of above) {
      expect(lens.range.start).toEqual({ line: 0, character: 0 });
      expect(lens.command).toMatchObject({ command: "bothways.showFlow", arguments: [autumn] });
      expect(lens.command?.title).toMatch(/: (works|doubtful|cannot tell|fails)$/);
    }
  });
});

describe("a room that two evenings use", () => {
  let editor: Editor;
  let folder: string;
  let hall: string;
  beforeAll(async () => {
    folder = evenings();
    hall = uriOf(folder, "rooms/hall.bothways");
    editor = await Editor.start([folder]);
    await editor.open(hall, FILES["rooms/hall.bothways"]);
  });
  afterAll(() => editor.kill());

  it("shows its own mistakes and nothing that is found in the evenings", async () => {
    expect(await editor.diagnostics(hall)).toEqual([]);
    await editor.replace(hall, "noise 38 dBA", "noise 38 parsecs");
    const shown = await editor.diagnostics(hall);
    expect(shown.map((one) => one.severity)).toEqual([1]);
    await editor.replace(hall, "noise 38 parsecs", "noise 38 dBA");
    expect(await editor.diagnostics(hall)).toEqual([]);
  });

  it("has its mistake told in an evening that is open, at the use, with the place in the room", async () => {
    const autumn = uriOf(folder, "autumn.bothways");
    await editor.open(autumn, FILES["autumn.bothways"]);
    await editor.diagnostics(autumn);
    await editor.replace(hall, "noise 38 dBA", "noise 38 parsecs");
    const told = await editor.until(() => editor.shown(autumn)?.find((one) => wordsOf(one).startsWith("In rooms/hall.bothways")), "the mistake in the room");
    expect(told.range.start.line).toBe(1);
    expect(told.relatedInformation?.[0]?.location.uri).toBe(hall);
    await editor.replace(hall, "noise 38 parsecs", "noise 38 dBA");
    await editor.until(() => (editor.shown(autumn)?.some((one) => wordsOf(one).startsWith("In rooms/")) === false ? true : undefined), "the mistake gone");
  });

  it("has a lens that tells which evening is judged, and leads to the choice", async () => {
    const [lens] = await editor.ask<CodeLens[]>("textDocument/codeLens", { textDocument: { uri: hall } });
    expect(lens?.command).toMatchObject({ title: "judged in “Autumn evening”, one of 2 setups: choose", command: "bothways.choose", arguments: [hall] });
  });
});

describe("an editor that can do little", () => {
  it("gets plain edits, flat symbols, plain text and no more than it claims", async () => {
    const folder = evenings();
    const uri = uriOf(folder, "autumn.bothways");
    const editor = await Editor.start([folder], {});
    await editor.open(uri, evening("Autumn evening").replace("plays sound on box", "plays sound on bxo"));
    const shown = await editor.until(() => editor.shown(uri), "diagnostics");
    expect(shown.length).toBeGreaterThan(0);
    expect(shown.filter((one) => one.codeDescription !== undefined || one.relatedInformation !== undefined || one.data !== undefined)).toEqual([]);
    expect(editor.published.filter((one) => one.version !== undefined)).toEqual([]);
    expect(editor.registered).toEqual([]);
    const rename = await editor.ask<WorkspaceEdit>("textDocument/rename", { ...editor.at(uri, "lapel on Ines", 2), newName: "clip" });
    expect(rename.documentChanges).toBeUndefined();
    expect(Object.keys(rename.changes ?? {}).sort()).toEqual(["autumn", "kit", "winter"].map((name) => uriOf(folder, `${name}.bothways`)));
    const symbols = await editor.ask<{ location?: Location }[]>("textDocument/documentSymbol", { textDocument: { uri } });
    expect(symbols.every((symbol) => symbol.location?.uri === uri)).toBe(true);
    const hover = await editor.ask<Hover>("textDocument/hover", editor.at(uri, "lapel on Ines", 2));
    expect(hover.contents).toMatchObject({ kind: "plaintext" });
    expect(await actionsAt(editor, uri, { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } })).toEqual([]);
    expect(editor.errors()).toEqual([]);
    expect(await editor.stop()).toBe(0);
  });
});

it("an editor that knows no watching gets files that changed on the disk all the same", async () => {
  const folder = evenings();
  const uri = uriOf(folder, "autumn.bothways");
  const editor = await Editor.start([folder], { textDocument: { publishDiagnostics: { versionSupport: true } } });
  await editor.open(uri, readFileSync(path.join(folder, "autumn.bothways"), "utf8"));
  const before = await editor.diagnostics(uri);
  const { writeFileSync } = await import("node:fs");
  writeFileSync(path.join(folder, "kit.bothways"), FILES["kit.bothways"].replace("device lapel", "device clip"));
  await editor.replace(uri, "online 8 people", "online 9 people");
  const after = await editor.diagnostics(uri);
  expect(before.filter((one) => one.code === "unknown-name")).toEqual([]);
  expect(after.filter((one) => one.code === "unknown-name").length).toBeGreaterThan(0);
  await editor.kill();
});
