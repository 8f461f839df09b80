/** The server that is built for a browser: in a world without Node, over a channel of messages, its files read by the editor. */
import { readFileSync } from "node:fs";
import { rm } from "node:fs/promises";
import { builtinModules } from "node:module";
import path from "node:path";
import vm from "node:vm";
import { MessageChannel, type MessagePort } from "node:worker_threads";
import {
  AbstractMessageReader, AbstractMessageWriter, createProtocolConnection, type CompletionList, type DataCallback, type Diagnostic, type InitializeResult, type Location, type Message, type MessageConnection, type ProtocolConnection, type PublishDiagnosticsParams,
} from "vscode-languageserver-protocol/node";
import { afterEach, beforeAll, describe, expect, it } from "vitest";
import { METHODS, type FileRead, type FlowOf, type FolderRead, type ReadFile, type ReadFolder } from "../../server/protocol/messages";
import { build, project } from "../cli/built";
import { CAPABILITIES, Editor, uriOf, wordsOf } from "./editor";
import { evenings, FILES } from "./evenings";

const bundle = (name: string): string => readFileSync(path.join(project, "dist", name), "utf8");

class PortReader extends AbstractMessageReader {
  constructor(readonly port: MessagePort) {
    super();
  }
  listen(callback: DataCallback) {
    this.port.on("message", callback);
    return { dispose: () => undefined };
  }
}
class PortWriter extends AbstractMessageWriter {
  constructor(readonly port: MessagePort) {
    super();
  }
  write(message: Message): Promise<void> {
    this.port.postMessage(message);
    return Promise.resolve();
  }
  end(): void {
    // There is nothing to end.
  }
}

/** Runs the built worker with what every browser's worker has, and nothing besides; gives the other end. */
function worker(): { readonly port: MessagePort; readonly end: () => void } {
  const { port1, port2 } = new MessageChannel();
  const world: Record<string, unknown> = {
    TextDecoder, TextEncoder, URL, atob, btoa, console, performance, queueMicrotask, setTimeout, clearTimeout, setInterval, clearInterval, structuredClone, crypto,
    addEventListener: () => undefined,
    // As a worker has it: what is sent is copied.
    postMessage: (message: unknown) => port1.postMessage(message),
  };
  vm.runInContext(bundle("server-browser.js"), vm.createContext(world), { filename: "server-browser.js" });
  port1.on("message", (data: unknown) => (world["onmessage"] as (event: { data: unknown }) => void)({ data }));
  return { port: port2, end: () => port1.close() };
}

const FOLDER = "memory:/evenings";
const at = (name: string): string => `${FOLDER}/${name}`;
const toBase64 = (text: string): string => Buffer.from(text).toString("base64");

class BrowserEditor {
  readonly connection: ProtocolConnection;
  readonly published: PublishDiagnosticsParams[] = [];
  readonly asked: string[] = [];
  readonly progress: string[] = [];
  readonly #end: () => void;
  #waiting: (() => void)[] = [];

  constructor(readonly files: Record<string, string>, answer?: (asked: ReadFile) => unknown) {
    const { port, end } = worker();
    this.#end = () => {
      this.connection.dispose();
      port.close();
      end();
    };
    this.connection = createProtocolConnection(new PortReader(port), new PortWriter(port));
    this.connection.onNotification("textDocument/publishDiagnostics", (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      for (const go of this.#waiting.splice(0)) go();
    });
    this.connection.onNotification("bothways/verdicts", () => undefined);
    this.connection.onNotification("window/logMessage", () => undefined);
    this.connection.onRequest("client/registerCapability", () => null);
    this.connection.onRequest("workspace/codeLens/refresh", () => null);
    this.connection.onRequest("window/workDoneProgress/create", () => {
      this.progress.push("create");
      return null;
    });
    // Its type leaves out what it has of the connection below.
    (this.connection as unknown as MessageConnection).onUnhandledProgress(({ value }) => {
      const { kind, message } = value as { kind?: string; message?: string };
      this.progress.push(`${kind ?? ""} ${message ?? ""}`.trim());
      for (const go of this.#waiting.splice(0)) go();
    });
    this.connection.onRequest(METHODS.readFolder, ({ uri }: ReadFolder): FolderRead => ({ paths: uri === FOLDER ? Object.keys(files) : [] }));
    this.connection.onRequest(METHODS.readFile, (asked: ReadFile): unknown => {
      this.asked.push(asked.path);
      if (answer !== undefined) return answer(asked);
      const text = asked.uri === FOLDER ? files[asked.path] : undefined;
      return (text === undefined ? { problem: "there is no such file" } : { base64: toBase64(text) }) satisfies FileRead;
    });
    this.connection.listen();
  }

  async start(capabilities: object = CAPABILITIES): Promise<InitializeResult> {
    const result = await this.connection.sendRequest<InitializeResult>("initialize", { processId: null, rootUri: null, capabilities, workspaceFolders: [{ uri: FOLDER, name: "evenings" }] });
    await this.connection.sendNotification("initialized", {});
    return result;
  }

  open(name: string, text = this.files[name] ?? ""): Promise<void> {
    return this.connection.sendNotification("textDocument/didOpen", { textDocument: { uri: at(name), languageId: "bothways", version: 1, text } });
  }

  /** What is shown in a file once something fits. */
  async shown(name: string, fits: (shown: readonly Diagnostic[]) => boolean = () => true): Promise<readonly Diagnostic[]> {
    for (;;) {
      const shown = this.published.findLast((one) => one.uri === at(name))?.diagnostics;
      if (shown !== undefined && fits(shown)) return shown;
      await new Promise<void>((go) => this.#waiting.push(go));
    }
  }

  /** Comes back once a progress has ended. */
  async ended(): Promise<void> {
    while (!this.progress.includes("end")) await new Promise<void>((go) => this.#waiting.push(go));
  }

  stop(): void {
    this.#end();
  }
}

const told = (all: readonly Diagnostic[]): unknown[] => all.map(({ range, code, severity, message }) => ({ range, code, severity, message }));

describe("the server for a browser", () => {
  let editor: BrowserEditor | undefined;
  beforeAll(() => build());
  afterEach(() => {
    editor?.stop();
    editor = undefined;
  });

  it("asks for no module of Node, nor does the extension's part", () => {
    for (const file of ["server-browser.js", "client-browser.js"]) {
      // A member of that name on somebody's object is asked for only where there is one.
      const names = [...bundle(file).matchAll(/(?<![.\w$])(?:__)?require\(["'](?:node:)?([\w/]+)["']\)/gu)].map((found) => found[1] ?? "");
      expect(names.filter((name) => builtinModules.includes(name)), file).toEqual([]);
      expect(bundle(file), file).not.toMatch(/from["']node:/u);
    }
  });

  it("says of a setup over several files what the server with a disk says, and nothing before it has read them", async () => {
    const folder = evenings();
    const desk = await Editor.start([folder]);
    const there = uriOf(folder, "autumn.bothways");
    await desk.open(there, FILES["autumn.bothways"]);
    const expected = await desk.diagnostics(there);
    await desk.kill();
    await rm(folder, { recursive: true, force: true });

    editor = new BrowserEditor({ ...FILES });
    const { capabilities } = await editor.start();
    expect(capabilities.completionProvider).toBeDefined();
    await editor.open("autumn.bothways");
    expect(told(await editor.shown("autumn.bothways"))).toEqual(told(expected));
    expect(expected.length).toBeGreaterThan(0);
    expect(editor.published.filter((one) => one.uri === at("autumn.bothways"))).toHaveLength(1);
    // The open text is the editor's own; every file is read once at the start, and once more when files are watched.
    expect(new Set(editor.asked)).toEqual(new Set(Object.keys(FILES)));
  });

  it("completes with names of other files, leads to them, and draws", async () => {
    editor = new BrowserEditor({ ...FILES });
    await editor.start();
    const text = FILES["autumn.bothways"];
    await editor.open("autumn.bothways");
    const line = text.slice(0, text.indexOf("place box")).split("\n").length - 1;
    const position = { line, character: "place box".length };
    const { items } = await editor.connection.sendRequest<CompletionList>("textDocument/completion", { textDocument: { uri: at("autumn.bothways") }, position });
    expect(items.map((item) => item.label)).toContain("lapel");
    const found = await editor.connection.sendRequest<Location[]>("textDocument/definition", { textDocument: { uri: at("autumn.bothways") }, position });
    expect(found.map((one) => one.uri)).toEqual([at("kit.bothways")]);
    const flow = await editor.connection.sendRequest<FlowOf>(METHODS.flow, { uri: at("autumn.bothways") });
    expect(flow.svg).toMatch(/^<svg[\s\S]*<\/svg>\s*$/u);
    expect(flow.setup).toEqual({ uri: at("autumn.bothways"), title: "Autumn evening" });
    expect(flow.files.map((one) => one.uri).sort()).toEqual([at("autumn.bothways"), at("kit.bothways"), at("rooms/hall.bothways")]);
  });

  it("reads a file again that changed, and takes up one that was made", async () => {
    editor = new BrowserEditor({ ...FILES });
    const kit = FILES["kit.bothways"];
    delete editor.files["kit.bothways"];
    await editor.start();
    await editor.open("autumn.bothways");
    const missing = await editor.shown("autumn.bothways");
    expect(missing.filter((one) => one.code === "cannot-read").map((one) => wordsOf(one))).toEqual([expect.stringContaining("there is no such file")]);
    editor.files["kit.bothways"] = kit;
    await editor.connection.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri: at("kit.bothways"), type: 1 }] });
    await editor.shown("autumn.bothways", (shown) => shown.every((one) => one.code !== "cannot-read"));
  });

  it("says so where an editor answers nonsense, and goes on", async () => {
    editor = new BrowserEditor({ ...FILES }, ({ path: name }) => (name === "kit.bothways" ? { base64: "%%%" } : name === "rooms/hall.bothways" ? 7 : null));
    await editor.start();
    await editor.open("autumn.bothways");
    const said = (await editor.shown("autumn.bothways")).filter((one) => one.code === "cannot-read").map((one) => wordsOf(one));
    expect(said).toEqual([expect.stringContaining("the editor could not read it"), expect.stringContaining("in a form that nobody can read")]);
  });

  it("shows that a folder is being read where that takes its time and the editor can show it", async () => {
    const slowly = async ({ path: name }: ReadFile): Promise<FileRead> => {
      await new Promise((go) => setTimeout(go, 1500));
      return { base64: toBase64(FILES[name as keyof typeof FILES]) };
    };
    editor = new BrowserEditor({ ...FILES }, slowly);
    await editor.start({ ...CAPABILITIES, window: { workDoneProgress: true } });
    await editor.open("autumn.bothways");
    await editor.ended();
    expect(editor.progress[0]).toBe("create");
    expect(editor.progress[1]).toBe("begin reading the folder");
    expect(editor.progress.at(-1)).toBe("end");
    editor.stop();

    editor = new BrowserEditor({ ...FILES }, slowly);
    await editor.start();
    await editor.open("autumn.bothways");
    await editor.shown("autumn.bothways");
    expect(editor.progress).toEqual([]);
  });

  it("gives a sign of life", async () => {
    editor = new BrowserEditor({});
    await editor.start();
    expect(await editor.connection.sendRequest(METHODS.alive, {})).toBe(true);
  });

  it("judges a document that lies in no folder, and asks for no file", async () => {
    editor = new BrowserEditor({});
    await editor.start();
    await editor.connection.sendNotification("textDocument/didOpen", { textDocument: { uri: "untitled:Untitled-1", languageId: "bothways", version: 1, text: 'setup "A"\nplaice x\n' } });
    for (; ;) {
      const shown = editor.published.findLast((one) => one.uri === "untitled:Untitled-1");
      if (shown !== undefined) {
        expect(shown.diagnostics.map((one) => one.code)).toContain("unknown-statement");
        break;
      }
      await new Promise((go) => setTimeout(go, 20));
    }
    expect(editor.asked).toEqual([]);
  });
});
