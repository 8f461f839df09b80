/** The built server through everything that an editor, a disk or a bad day may do to it. */
import { spawn } from "node:child_process";
import { rmSync, symlinkSync, writeFileSync } from "node:fs";
import path from "node:path";
import { CancellationTokenSource, ErrorCodes, LSPErrorCodes, type Diagnostic, type Location, type TextEdit } from "vscode-languageserver-protocol/node";
import { afterEach, describe, expect, it } from "vitest";
import type { VerdictsOf } from "../../server/protocol/messages";
import { build, folder } from "../cli/built";
import { CAPABILITIES, Editor, SERVER, uriOf, wordsOf } from "./editor";
import { evening, evenings, FILES, sample, SAMPLES } from "./evenings";

const open: Editor[] = [];
const start = async (...given: Parameters<typeof Editor.start>): Promise<Editor> => {
  const editor = await Editor.start(...given);
  open.push(editor);
  return editor;
};
afterEach(async () => {
  await Promise.all(open.splice(0).map((editor) => editor.kill()));
});

/** The code of the error that a request ends in. */
const codeOf = async (asked: Promise<unknown>): Promise<number> => {
  try {
    await asked;
  } catch (error) {
    return (error as { code: number }).code;
  }
  throw new Error("there was an answer, not an error");
};

const mistakes = (shown: readonly Diagnostic[]): string[] => shown.filter((one) => one.severity === 1 && one.codeDescription === undefined).map(wordsOf);

/** A long setup with several findings: what is asked about it takes a while. */
const LONG = sample("gone-wrong/everything-twice.bothways");

describe("beginning and end", () => {
  it("says what it can do, and ends when it is told to", async () => {
    const editor = await start(undefined);
    const result = await editor.initialise([]);
    expect(result.serverInfo).toMatchObject({ name: "bothways" });
    expect(result.capabilities).toMatchObject({
      textDocumentSync: { openClose: true, change: 2 }, hoverProvider: true, renameProvider: { prepareProvider: true },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    });
    expect(await editor.stop()).toBe(0);
  });

  it("asks to be told of files on the disk where the editor can", async () => {
    const editor = await start([]);
    expect(await editor.until(() => editor.registered[0], "a registration")).toBe("workspace/didChangeWatchedFiles");
  });

  it("answers nothing before it is initialised, and nothing after it was shut down", async () => {
    const editor = await start(undefined);
    expect(await codeOf(editor.ask("textDocument/hover", { textDocument: { uri: "file:///a" }, position: { line: 0, character: 0 } }))).toBe(ErrorCodes.ServerNotInitialized);
    await editor.initialise([]);
    expect(await codeOf(editor.initialise([]))).toBe(ErrorCodes.InvalidRequest);
    await editor.ask("shutdown");
    expect(await codeOf(editor.ask("bothways/explain", { code: "echo-path" }))).toBe(ErrorCodes.InvalidRequest);
  });

  it("ends with status 1 when it is told to go without a shutdown, or when its input ends", async () => {
    const told = await start([]);
    await told.tell("exit", {});
    expect(await told.exit).toBe(1);
    const cut = await start([]);
    cut.process.stdin.end();
    expect(await cut.exit).toBe(1);
  });

  it("ends when the process that it works for is gone", async () => {
    const parent = spawn(process.execPath, ["-e", "setTimeout(() => {}, 1e6)"]);
    const editor = await start([], CAPABILITIES, { processId: parent.pid });
    parent.kill("SIGKILL");
    expect(await editor.exit).toBe(1);
  });

  it("says what it is to somebody who starts it by hand", async () => {
    build();
    const child = spawn(process.execPath, [SERVER]);
    let said = "";
    child.stderr.on("data", (data: Buffer) => (said += data.toString()));
    expect(await new Promise((resolve) => child.on("exit", resolve))).toBe(2);
    expect(said).toContain("--stdio");
  });

  it("serves over a channel between processes as well", async () => {
    build();
    const child = spawn(process.execPath, [SERVER, "--node-ipc"], { stdio: ["ignore", "ignore", "ignore", "ipc"] });
    const answer = new Promise<{ result: { capabilities: object } }>((resolve) => child.on("message", (message) => {
      if (typeof message === "object" && "id" in message && message.id === 1) resolve(message as never);
    }));
    child.send({ jsonrpc: "2.0", id: 1, method: "initialize", params: { processId: process.pid, rootUri: null, capabilities: {} } });
    expect((await answer).result.capabilities).toMatchObject({ hoverProvider: true });
    const ended = new Promise((resolve) => child.on("exit", resolve));
    child.disconnect();
    expect(await ended).toBe(1);
  });

  it("loses nothing when it is killed: the same documents give the same", async () => {
    const folder = evenings();
    const uri = uriOf(folder, "autumn.bothways");
    const text = FILES["autumn.bothways"].replace("place lapel on Ines", "place lapel on Inse");
    const first = await start([folder]);
    await first.open(uri, text, 7);
    const before = await first.diagnostics(uri, 7);
    expect(mistakes(before).length).toBeGreaterThan(0);
    await first.kill();
    const second = await start([folder]);
    await second.open(uri, text, 7);
    expect(await second.diagnostics(uri, 7)).toEqual(before);
  });

  it("writes nothing but the protocol to its output, whatever goes on", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "gone-wrong/everything-twice.bothways");
    await editor.open(uri, LONG);
    await editor.diagnostics(uri);
    await editor.ask("textDocument/codeAction", { textDocument: { uri }, range: editor.rangeOf(uri, LONG), context: { diagnostics: [] } });
    await codeOf(editor.ask("textDocument/hover", { nonsense: true }));
    await editor.stop();
    let rest = Buffer.concat(editor.out);
    let count = 0;
    while (rest.length > 0) {
      const head = /^Content-Length: (\d+)\r\n\r\n/.exec(rest.subarray(0, 60).toString("latin1"));
      if (head === null) throw new Error(`not the protocol: ${rest.subarray(0, 200).toString()}`);
      const from = head[0].length;
      const end = from + Number(head[1]);
      expect(JSON.parse(rest.subarray(from, end).toString())).toMatchObject({ jsonrpc: "2.0" });
      rest = rest.subarray(end);
      count += 1;
    }
    expect(count).toBeGreaterThan(5);
    expect(editor.err).toBe("");
  });
});

describe("what comes wrong", () => {
  const REQUESTS = ["hover", "completion", "definition", "references", "prepareRename", "rename", "documentSymbol", "foldingRange", "formatting", "codeAction", "codeLens"].map((name) => `textDocument/${name}`)
    .concat(["verdicts", "choose", "flow", "handout", "explain", "starter"].map((name) => `bothways/${name}`));

  it("is refused as wrong parameters, and the next is answered", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "october.bothways");
    await editor.open(uri, sample("october.bothways"));
    for (const method of REQUESTS) {
      for (const params of [undefined, [], [1, 2, 3], { textDocument: null, position: "here" }, { textDocument: { uri: 7 }, uri: {}, code: 3 }]) {
        // Answers to whatever is asked of a first setup are all optional.
        if (method === "bothways/starter" && params !== undefined && !Array.isArray(params)) continue;
        expect(`${method} ${await codeOf(editor.connection.sendRequest(method, params as object))}`).toBe(`${method} ${ErrorCodes.InvalidParams}`);
      }
    }
    for (const method of ["didOpen", "didChange", "didClose"]) await editor.tell(`textDocument/${method}`, { textDocument: [], contentChanges: 3 });
    await editor.tell("workspace/didChangeWatchedFiles", { changes: "all" });
    await editor.tell("workspace/didChangeWorkspaceFolders", { event: null });
    expect(await codeOf(editor.ask("textDocument/noSuchRequest", {}))).toBe(ErrorCodes.MethodNotFound);
    expect(await editor.ask("textDocument/hover", editor.at(uri, "box is", 1))).not.toBeNull();
    expect(editor.errors()).toEqual([]);
  });

  it("half a change leaves the text as it was; a change of nothing that is open does nothing", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "october.bothways");
    await editor.open(uri, sample("october.bothways"));
    const shown = await editor.diagnostics(uri);
    const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    await editor.tell("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ range: whole, text: "" }, { range: "half", text: "x" }] });
    await editor.tell("textDocument/didChange", { textDocument: { uri: `${uri}x`, version: 2 }, contentChanges: [{ text: "" }] });
    await editor.quiet(uri);
    expect(editor.shown(uri)).toEqual(shown);
    expect(editor.errors()).toEqual([]);
  });

  it("positions outside the text are those nearest to them", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "october.bothways");
    await editor.open(uri, sample("october.bothways"));
    for (const position of [{ line: -5, character: -1 }, { line: 1e9, character: 1e9 }, { line: 1, character: 1e9 }, { line: 1.7, character: 0.2 }, { line: 0, character: -0 }]) {
      for (const method of ["hover", "completion", "definition", "prepareRename"]) await editor.ask(`textDocument/${method}`, { textDocument: { uri }, position });
      await editor.ask("textDocument/references", { textDocument: { uri }, position, context: {} });
      await editor.ask("textDocument/codeAction", { textDocument: { uri }, range: { start: position, end: { line: 0, character: 0 } }, context: {} });
    }
    expect(editor.errors()).toEqual([]);
  });

  it("addresses that mean no file are opened, studied for themselves, and closed", async () => {
    const editor = await start([SAMPLES]);
    for (const uri of ["untitled:Untitled-1", "git:/a/b.bothways?{\"ref\":\"~\"}", "http://example.org/a.bothways", "nonsense", "", "file:///%E0%A4%A.bothways", "file://host/share/x.bothways"]) {
      await editor.open(uri, `${sample("october.bothways")}use "../else.bothways"\nuse "beside.bothways"\n`);
      const shown = await editor.diagnostics(uri);
      expect(shown.filter((one) => one.code === "cannot-read" || one.code === "use-outside").length).toBe(2);
      await editor.ask("textDocument/hover", editor.at(uri, "laptop", 2));
      expect(await editor.ask<VerdictsOf>("bothways/verdicts", { uri })).toMatchObject({ uri, setup: { uri } });
      await editor.close(uri);
      await editor.quiet(uri);
      expect(editor.shown(uri)).toEqual([]);
    }
    expect(editor.errors()).toEqual([]);
  });

  it("addresses that nobody opened are answered with nothing", async () => {
    const editor = await start([SAMPLES]);
    const textDocument = { uri: "git:/nowhere.bothways" };
    const position = { line: 0, character: 0 };
    expect(await editor.ask("textDocument/hover", { textDocument, position })).toBeNull();
    expect(await editor.ask("textDocument/completion", { textDocument, position })).toEqual({ isIncomplete: false, items: [] });
    expect(await editor.ask("textDocument/definition", { textDocument, position })).toEqual([]);
    expect(await editor.ask("textDocument/codeLens", { textDocument })).toEqual([]);
    expect(await editor.ask("bothways/verdicts", { uri: textDocument.uri })).toBeNull();
    expect(await editor.ask("bothways/flow", { uri: uriOf(SAMPLES, "not-there.bothways") })).toBeNull();
    expect(editor.errors()).toEqual([]);
  });

  it("a message that is no JSON is passed over", async () => {
    const editor = await start([SAMPLES]);
    editor.process.stdin.write("Content-Length: 9\r\n\r\n{nonsense");
    expect(await editor.ask("bothways/explain", { code: "echo-path" })).not.toBeNull();
  });

  it("a text of 10 MB gets one clear message, and answers stay safe", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "large.bothways");
    await editor.open(uri, `${sample("october.bothways")}${"# nothing but words about words\n".repeat(330_000)}`);
    const shown = await editor.diagnostics(uri);
    expect(shown.map(wordsOf)).toEqual([expect.stringContaining("larger than 2 MB")]);
    expect(await editor.ask("textDocument/hover", { textDocument: { uri }, position: { line: 1, character: 3 } })).toBeNull();
    expect(await editor.ask("textDocument/formatting", { textDocument: { uri } })).toEqual([]);
    expect(await editor.ask("textDocument/foldingRange", { textDocument: { uri } })).toEqual([]);
    // Cut down to what can be read it is a setup like any other.
    await editor.edit(uri, [{ range: { start: { line: 5, character: 0 }, end: { line: 400_000, character: 0 } }, newText: "" }]);
    expect((await editor.diagnostics(uri)).map(wordsOf).filter((words) => words.includes("2 MB"))).toEqual([]);
    expect(editor.errors()).toEqual([]);
  });

  it("a setup that takes itself in, a chain, and a link that leads out are told of and harm nothing", async () => {
    const outside = folder({ "secret.bothways": "device safe is laptop\n" });
    const root = folder({ "a.bothways": 'setup "A"\nuse "b.bothways"\nuse "out.bothways"\n', "b.bothways": 'use "a.bothways"\n' });
    symlinkSync(path.join(outside, "secret.bothways"), path.join(root, "out.bothways"));
    const editor = await start([root]);
    const uri = uriOf(root, "a.bothways");
    await editor.open(uri, 'setup "A"\nuse "b.bothways"\nuse "out.bothways"\nplace safe near front\n');
    const words = (await editor.diagnostics(uri)).map(wordsOf).join("\n");
    expect(words).toContain("a link that leads outside");
    expect(words).toContain("in a circle");
    expect(await editor.ask("textDocument/definition", editor.at(uri, "safe", 1))).toEqual([]);
    expect(editor.errors()).toEqual([]);
  });
});

describe("haste", () => {
  it("a hundred changes in a burst are one study, of the last version", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "association/autumn.bothways");
    await editor.open(uri, sample("association/autumn.bothways"));
    await editor.diagnostics(uri);
    const before = editor.published.length;
    const at = editor.rangeOf(uri, "in old-schoolroom").start;
    for (let i = 0; i < 100; i += 1) await editor.edit(uri, [{ range: { start: at, end: at }, newText: `# ${i}\n` }]);
    await editor.diagnostics(uri, 101);
    expect(editor.published.slice(before).map((one) => one.version)).toEqual([101]);
    expect(await editor.ask("textDocument/documentSymbol", { textDocument: { uri } })).not.toEqual([]);
  });

  it("a letter that is typed while a long setup is studied is completed before the study is done", async () => {
    const script = new URL("../../.scripts/make-setup.mjs", import.meta.url).href;
    const { makeSetup } = (await import(script)) as { makeSetup: (lines: number) => string };
    const root = folder();
    const editor = await start([root]);
    const uri = uriOf(root, "long.bothways");
    await editor.open(uri, makeSetup(1000));
    await editor.diagnostics(uri);
    const version = await editor.replace(uri, "noise 36 dBA", "noise 37 dBA");
    // Longer than the server waits for the next letter, and far shorter than the study takes.
    await new Promise((resolve) => setTimeout(resolve, 200));
    const offers = await editor.ask<{ items: object[] }>("textDocument/completion", editor.at(uri, "cable from desk", "cable from d".length));
    expect(offers.items.length).toBeGreaterThan(10);
    expect(editor.published.filter((one) => one.version === version)).toEqual([]);
    expect((await editor.diagnostics(uri, version)).length).toBeGreaterThan(0);
  });

  it("what is withdrawn is not answered, and the server goes on", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "gone-wrong/everything-twice.bothways");
    await editor.open(uri, LONG);
    await editor.diagnostics(uri);
    const source = new CancellationTokenSource();
    const asked = editor.connection.sendRequest("textDocument/codeAction", { textDocument: { uri }, range: editor.rangeOf(uri, LONG), context: { diagnostics: [] } }, source.token);
    source.cancel();
    expect(await codeOf(asked)).toBe(LSPErrorCodes.RequestCancelled);
    expect(await editor.ask("bothways/explain", { code: "echo-path" })).not.toBeNull();
  });

  it("mends that were being proven when the text changed are not offered", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "gone-wrong/everything-twice.bothways");
    await editor.open(uri, LONG);
    await editor.diagnostics(uri);
    const asked = codeOf(editor.ask("textDocument/codeAction", { textDocument: { uri }, range: editor.rangeOf(uri, LONG), context: { diagnostics: [] } }));
    await editor.replace(uri, "# this evening only", "# this one evening only");
    expect(await asked).toBe(LSPErrorCodes.ContentModified);
  });

  it("mends are offered all the same when files are saved or changed while they are proven", async () => {
    const editor = await start([SAMPLES]);
    await editor.until(() => editor.registered[0], "a registration");
    const uri = uriOf(SAMPLES, "gone-wrong/everything-twice.bothways");
    await editor.open(uri, LONG);
    await editor.diagnostics(uri);
    const asked = editor.ask<readonly unknown[] | null>("textDocument/codeAction", { textDocument: { uri }, range: editor.rangeOf(uri, LONG), context: { diagnostics: [] } });
    await editor.tell("workspace/didChangeWatchedFiles", { changes: [{ uri, type: 2 }] });
    await editor.tell("workspace/didChangeWatchedFiles", { changes: [{ uri: uriOf(SAMPLES, "october.bothways"), type: 2 }] });
    expect((await asked)?.length).toBeGreaterThan(0);
  });

  it("a document that is closed at once shows nothing", async () => {
    const editor = await start([SAMPLES]);
    const uri = uriOf(SAMPLES, "gone-wrong/everything-twice.bothways");
    await editor.open(uri, LONG);
    await editor.close(uri);
    const other = uriOf(SAMPLES, "october.bothways");
    await editor.open(other, sample("october.bothways"));
    await editor.diagnostics(other);
    expect(editor.shown(uri)).toEqual([]);
  });
});

describe("folders and files", () => {
  it("two folders are two roots, each with files of its own", async () => {
    const [here, there] = [evenings(), evenings({ "kit.bothways": FILES["kit.bothways"].replace("device lapel", "device clip") })];
    const editor = await start([here, there]);
    const [mine, theirs] = [uriOf(here, "autumn.bothways"), uriOf(there, "autumn.bothways")];
    await editor.open(mine, FILES["autumn.bothways"]);
    await editor.open(theirs, FILES["autumn.bothways"]);
    expect(mistakes(await editor.diagnostics(mine))).toEqual([]);
    expect(mistakes(await editor.diagnostics(theirs)).join()).toContain("lapel");
    const found = await editor.ask<Location[]>("textDocument/references", { ...editor.at(mine, "lapel on", 2), context: { includeDeclaration: true } });
    expect(found.filter((one) => !one.uri.startsWith(uriOf(here)))).toEqual([]);
  });

  it("a folder that is added is a root from then on, and one that is removed no more", async () => {
    const root = folder({ "parts/kit.bothways": FILES["kit.bothways"], "evenings/a.bothways": "" });
    const uri = uriOf(root, "evenings/a.bothways");
    const editor = await start([]);
    await editor.open(uri, 'setup "A"\nuse "../parts/kit.bothways"\nplace lapel on Ines\ntalker Ines at lectern\n');
    // Without a folder the setup's own directory is the root.
    expect(mistakes(await editor.diagnostics(uri)).join()).toContain("outside the folder");
    const change = (added: string[], removed: string[]): Promise<void> => editor.tell("workspace/didChangeWorkspaceFolders", {
      event: { added: added.map((at) => ({ uri: at, name: "x" })), removed: removed.map((at) => ({ uri: at, name: "x" })) },
    });
    await change([uriOf(root)], []);
    await editor.quiet(uri);
    expect(mistakes(editor.shown(uri) ?? [])).toEqual([]);
    await change([], [uriOf(root)]);
    await editor.quiet(uri);
    expect(mistakes(editor.shown(uri) ?? []).join()).toContain("outside the folder");
  });

  it("a setup without a folder takes in what lies beside it", async () => {
    const root = evenings();
    const editor = await start([]);
    const uri = uriOf(root, "autumn.bothways");
    await editor.open(uri, FILES["autumn.bothways"]);
    expect(mistakes(await editor.diagnostics(uri))).toEqual([]);
    const found = await editor.ask<Location[]>("textDocument/definition", editor.at(uri, "lapel on", 2));
    expect(found.map((one) => one.uri)).toEqual([uriOf(root, "kit.bothways")]);
  });

  it("a file outside the folder is studied for itself", async () => {
    const [root, elsewhere] = [evenings(), evenings()];
    const editor = await start([root]);
    const uri = uriOf(elsewhere, "winter.bothways");
    await editor.open(uri, FILES["winter.bothways"]);
    expect(mistakes(await editor.diagnostics(uri))).toEqual([]);
  });

  it("files that change or go on the disk are read anew when somebody says so", async () => {
    const root = evenings();
    const editor = await start([root]);
    await editor.until(() => editor.registered[0], "a registration");
    const uri = uriOf(root, "autumn.bothways");
    await editor.open(uri, FILES["autumn.bothways"]);
    expect(mistakes(await editor.diagnostics(uri))).toEqual([]);
    const kit = path.join(root, "kit.bothways");
    const say = async (type: number): Promise<string> => {
      await editor.tell("workspace/didChangeWatchedFiles", { changes: [{ uri: uriOf(root, "kit.bothways"), type }] });
      await editor.quiet(uri);
      return mistakes(editor.shown(uri) ?? []).join();
    };
    writeFileSync(kit, FILES["kit.bothways"].replace("device lapel", "device clip"));
    expect(await say(2)).toContain("lapel");
    rmSync(kit);
    expect(await say(3)).toContain("there is no such file");
    writeFileSync(kit, FILES["kit.bothways"]);
    expect(await say(1)).toBe("");
  });

  it("a folder that is deleted in the editor takes its files with it", async () => {
    const root = evenings();
    const editor = await start([root]);
    await editor.until(() => editor.registered[0], "a registration");
    const uri = uriOf(root, "autumn.bothways");
    await editor.open(uri, FILES["autumn.bothways"]);
    await editor.diagnostics(uri);
    rmSync(path.join(root, "rooms"), { recursive: true });
    await editor.tell("workspace/didDeleteFiles", { files: [{ uri: uriOf(root, "rooms") }] });
    await editor.quiet(uri);
    expect(mistakes(editor.shown(uri) ?? []).join()).toContain("rooms/hall.bothways");
  });

  it("what is open counts before what lies on the disk, and the disk again once it is closed", async () => {
    const root = evenings();
    const editor = await start([root]);
    const [uri, kit] = [uriOf(root, "autumn.bothways"), uriOf(root, "kit.bothways")];
    await editor.open(uri, FILES["autumn.bothways"]);
    await editor.open(kit, FILES["kit.bothways"].replace("device lapel", "device clip"));
    await editor.quiet(uri);
    expect(mistakes(editor.shown(uri) ?? []).join()).toContain("lapel");
    await editor.close(kit);
    await editor.quiet(uri);
    expect(mistakes(editor.shown(uri) ?? [])).toEqual([]);
  });

  it("a file that is deleted while it is open goes on as what the editor holds", async () => {
    const root = evenings();
    const editor = await start([root]);
    const uri = uriOf(root, "winter.bothways");
    await editor.open(uri, FILES["winter.bothways"]);
    await editor.diagnostics(uri);
    rmSync(path.join(root, "winter.bothways"));
    await editor.tell("workspace/didChangeWatchedFiles", { changes: [{ uri, type: 3 }] });
    await editor.replace(uri, "online 3 people", "online 4 people");
    expect(mistakes(await editor.diagnostics(uri))).toEqual([]);
  });

  it("names with blanks, signs and other letters are files like any other", async () => {
    const name = "Herbst & Wintér/ein Abend #1 100%.bothways";
    const root = folder({ [name]: evening("Abend").replaceAll("rooms/hall.bothways", "hall.bothways").replaceAll("kit.bothways", "../kit.bothways"), "Herbst & Wintér/hall.bothways": FILES["rooms/hall.bothways"], "kit.bothways": FILES["kit.bothways"] });
    const editor = await start([root]);
    const uri = uriOf(root, name);
    await editor.open(uri, evening("Abend").replaceAll("rooms/hall.bothways", "hall.bothways").replaceAll("kit.bothways", "../kit.bothways"));
    expect(mistakes(await editor.diagnostics(uri))).toEqual([]);
    const rename = await editor.ask<{ documentChanges: { textDocument: { uri: string }; edits: TextEdit[] }[] }>("textDocument/rename", { ...editor.at(uri, "lapel on", 2), newName: "clip" });
    expect(rename.documentChanges.map((one) => one.textDocument.uri).sort()).toEqual([uri, uriOf(root, "kit.bothways")].sort());
  });
});
