/** The built server, asked for everything beyond the first round: marks, hints, links, kinds, the path of the signal, typing, moving files, asking for diagnostics. */
import { rm } from "node:fs/promises";
import type {
  CallHierarchyItem, CallHierarchyIncomingCall, CodeAction, CodeLens, DocumentDiagnosticReport, DocumentHighlight, DocumentLink, InlayHint, Location, SelectionRange, SemanticTokens, SemanticTokensDelta,
  SignatureHelp, TextEdit, WorkspaceEdit, WorkspaceSymbol,
} from "vscode-languageserver-protocol/node";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CAPABILITIES, Editor, uriOf } from "./editor";
import { evenings, FILES } from "./evenings";

const ABLE = {
  ...CAPABILITIES,
  workspace: { ...CAPABILITIES.workspace, workspaceEdit: { documentChanges: true, resourceOperations: ["create" as const] }, configuration: true, didChangeConfiguration: { dynamicRegistration: true }, inlayHint: { refreshSupport: true } },
};

describe("an editor that can do all of it", () => {
  let editor: Editor;
  let folder: string;
  let autumn: string;
  let settings: object = {};
  beforeAll(async () => {
    folder = evenings();
    autumn = uriOf(folder, "autumn.bothways");
    editor = await Editor.start([folder], ABLE);
    editor.connection.onRequest("workspace/configuration", () => [settings]);
    await editor.open(autumn, FILES["autumn.bothways"]);
    await editor.diagnostics(autumn);
  });
  afterAll(async () => {
    await editor.kill();
    await rm(folder, { recursive: true, force: true });
  });
  const at = (sought: string, by = 0) => {
    const before = FILES["autumn.bothways"].slice(0, FILES["autumn.bothways"].indexOf(sought) + by).split("\n");
    return { textDocument: { uri: autumn }, position: { line: before.length - 1, character: before.at(-1)?.length ?? 0 } };
  };
  const whole = () => ({ textDocument: { uri: autumn }, range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } });

  it("gets marks of words, what changed of them, and those of a stretch", async () => {
    const all = await editor.ask<SemanticTokens>("textDocument/semanticTokens/full", { textDocument: { uri: autumn } });
    expect(all.data.length % 5).toBe(0);
    expect(all.data.length).toBeGreaterThan(100);
    const delta = await editor.ask<SemanticTokensDelta>("textDocument/semanticTokens/full/delta", { textDocument: { uri: autumn }, previousResultId: all.resultId });
    expect(delta.edits).toEqual([]);
    const lost = await editor.ask<SemanticTokens>("textDocument/semanticTokens/full/delta", { textDocument: { uri: autumn }, previousResultId: "no such answer" });
    expect(lost.data).toEqual(all.data);
    const some = await editor.ask<SemanticTokens>("textDocument/semanticTokens/range", { textDocument: { uri: autumn }, range: { start: { line: 4, character: 0 }, end: { line: 5, character: 0 } } });
    expect(some.data.slice(0, 1)).toEqual([4]);
    expect(some.data.length).toBeLessThan(all.data.length / 4);
  });

  it("gets what is alike, growing selections, and links to files", async () => {
    const alike = await editor.ask<DocumentHighlight[]>("textDocument/documentHighlight", at("Ines"));
    expect(alike.map((one) => one.kind)).toEqual([3, 2]);
    const [grown] = await editor.ask<SelectionRange[]>("textDocument/selectionRange", { textDocument: { uri: autumn }, positions: [at("lapel on").position] });
    let steps = 0;
    for (let one: SelectionRange | undefined = grown; one !== undefined; one = one.parent) steps += 1;
    expect(steps).toBeGreaterThanOrEqual(3);
    const links = await editor.ask<DocumentLink[]>("textDocument/documentLink", { textDocument: { uri: autumn } });
    expect(links.map((one) => one.target)).toEqual([uriOf(folder, "rooms/hall.bothways"), uriOf(folder, "kit.bothways")]);
  });

  it("gets hints and lenses, and none once they are switched off", async () => {
    await editor.until(() => editor.registered.includes("workspace/didChangeConfiguration") || undefined, "the wish to be told of settings");
    const hints = await editor.ask<InlayHint[]>("textDocument/inlayHint", whole());
    expect(hints.some((hint) => typeof hint.label === "string" && /^plays at \d+(\.\d)? dBA at 1 m$/u.test(hint.label))).toBe(true);
    const lenses = await editor.ask<CodeLens[]>("textDocument/codeLens", { textDocument: { uri: autumn } });
    expect(lenses.filter((lens) => lens.range.start.line === 11).map((lens) => lens.command?.title).join(" | ")).toMatch(/sends up to .*(nothing found|found: )/u);
    settings = { hints: { computed: false, assumed: false }, lenses: { shown: false } };
    await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: {} });
    expect(await editor.ask<InlayHint[]>("textDocument/inlayHint", whole())).toEqual([]);
    expect(await editor.ask<CodeLens[]>("textDocument/codeLens", { textDocument: { uri: autumn } })).toEqual([]);
    settings = {};
    await editor.connection.sendNotification("workspace/didChangeConfiguration", { settings: {} });
    expect((await editor.ask<InlayHint[]>("textDocument/inlayHint", whole())).length).toBe(hints.length);
  });

  it("finds names of the folder, files that nobody opened among them", async () => {
    const found = await editor.ask<WorkspaceSymbol[]>("workspace/symbol", { query: "lapel" });
    expect(found.map((one) => ("uri" in one.location ? one.location.uri : ""))).toContain(uriOf(folder, "kit.bothways"));
    expect((await editor.ask<WorkspaceSymbol[]>("workspace/symbol", { query: "hall" })).map((one) => one.name)).toContain("hall");
  });

  it("follows the signal from what it feeds to what feeds it, and a device to its kind", async () => {
    const [box] = await editor.ask<CallHierarchyItem[]>("textDocument/prepareCallHierarchy", at("box near", 1));
    expect(box?.name).toBe("box");
    const incoming = await editor.ask<CallHierarchyIncomingCall[]>("callHierarchy/incomingCalls", { item: box });
    expect(incoming.map((one) => one.from.name)).toEqual(["laptop"]);
    expect(incoming[0]?.fromRanges.map((range) => range.start.line)).toEqual([9]);
    expect(await editor.ask<Location[]>("textDocument/typeDefinition", at("laptop near", 1))).toEqual([]);
  });

  it("says how a statement goes on, and lays out what was typed", async () => {
    const help = await editor.ask<SignatureHelp>("textDocument/signatureHelp", at("lapel.plug to", 11));
    expect(help.signatures[0]?.label).toContain("cable from");
    const parameter = help.signatures[0]?.parameters?.[help.activeParameter ?? 0]?.label;
    expect(Array.isArray(parameter) ? help.signatures[0]?.label.slice(...parameter) : "").toBe("TO");
    await editor.replace(autumn, "place box near front", "place   box near front");
    const edits = await editor.ask<TextEdit[]>("textDocument/onTypeFormatting", { textDocument: { uri: autumn }, position: { line: 8, character: 0 }, ch: "\n", options: { tabSize: 2, insertSpaces: true } });
    expect(edits.map((edit) => edit.newText)).toEqual(["place box near front\n"]);
    await editor.edit(autumn, edits);
  });

  it("mends use lines when a file is to be moved", async () => {
    const edit = await editor.ask<WorkspaceEdit>("workspace/willRenameFiles", { files: [{ oldUri: uriOf(folder, "rooms"), newUri: uriOf(folder, "places") }] });
    const changed = (edit.documentChanges ?? []).flatMap((one) => ("textDocument" in one ? one.edits.map((e) => `${one.textDocument.uri.split("/").at(-1) ?? ""} ${"newText" in e ? e.newText : ""}`) : []));
    expect(changed.sort()).toEqual(['autumn.bothways "places/hall.bothways"', 'winter.bothways "places/hall.bothways"']);
  });

  it("offers to move the kit into a file, which it makes", async () => {
    const kit = uriOf(folder, "solo.bothways");
    await editor.open(kit, 'setup "Solo"\ndevice tv is flat-display\nplace tv at front\n');
    const actions = await editor.ask<CodeAction[]>("textDocument/codeAction", { textDocument: { uri: kit }, range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } }, context: { diagnostics: [], only: ["refactor"] } });
    const [move] = actions;
    expect(move?.title).toBe("Move the kit into a file of its own");
    expect(move?.edit?.documentChanges?.[0]).toMatchObject({ kind: "create", uri: uriOf(folder, "kit-2.bothways") });
  });
});

it("an editor that asks for diagnostics gets them, is told when they are the same, and is not told them unasked", async () => {
  const folder = evenings();
  const uri = uriOf(folder, "autumn.bothways");
  const editor = await Editor.start([folder], { ...CAPABILITIES, textDocument: { ...CAPABILITIES.textDocument, diagnostic: { dynamicRegistration: false } }, workspace: { ...CAPABILITIES.workspace, diagnostics: { refreshSupport: true } } });
  let refreshed = 0;
  editor.connection.onRequest("workspace/diagnostic/refresh", () => {
    refreshed += 1;
    return null;
  });
  await editor.open(uri, FILES["autumn.bothways"].replace("place box", "plaice box"));
  const first = await editor.ask<DocumentDiagnosticReport>("textDocument/diagnostic", { textDocument: { uri } });
  expect(first.kind === "full" && first.items.some((one) => one.code === "unknown-statement")).toBe(true);
  const again = await editor.ask<DocumentDiagnosticReport>("textDocument/diagnostic", { textDocument: { uri }, previousResultId: first.resultId });
  expect(again).toEqual({ kind: "unchanged", resultId: first.resultId });
  await editor.replace(uri, "plaice", "place");
  const mended = await editor.ask<DocumentDiagnosticReport>("textDocument/diagnostic", { textDocument: { uri }, previousResultId: first.resultId });
  expect(mended.kind === "full" && mended.items.some((one) => one.code === "unknown-statement")).toBe(false);
  expect(editor.published.filter((one) => one.uri === uri)).toEqual([]);
  expect(refreshed).toBeGreaterThan(0);
  await editor.kill();
  await rm(folder, { recursive: true, force: true });
});
