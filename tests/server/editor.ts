/** An editor as the protocol knows it: starts the built server as a child process, and remembers everything that it says. */
import { spawn, type ChildProcessWithoutNullStreams } from "node:child_process";
import path from "node:path";
import { PassThrough } from "node:stream";
import { pathToFileURL } from "node:url";
import {
  createProtocolConnection, StreamMessageReader, StreamMessageWriter, type ClientCapabilities, type Diagnostic, type InitializeResult,
  type ProtocolConnection, type PublishDiagnosticsParams, type Range, type TextEdit, type WorkspaceEdit,
} from "vscode-languageserver-protocol/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { VerdictsOf } from "../../server/protocol/messages";
import { build, project } from "../cli/built";

export const SERVER = path.join(project, "dist/server.js");

/** What a modern editor says of itself. */
export const CAPABILITIES: ClientCapabilities = {
  workspace: {
    workspaceEdit: { documentChanges: true }, didChangeWatchedFiles: { dynamicRegistration: true }, workspaceFolders: true, codeLens: { refreshSupport: true },
  },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true, codeDescriptionSupport: true, dataSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } }, isPreferredSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    hover: { contentFormat: ["markdown", "plaintext"] },
    completion: { completionItem: { documentationFormat: ["markdown", "plaintext"] } },
  },
};

export const uriOf = (folder: string, name = ""): string => pathToFileURL(path.join(folder, name)).href;

export const wordsOf = ({ message }: Diagnostic): string => (typeof message === "string" ? message : message.value);

/** A deadline for what is waited for, in ms: long, since machines that test do other work too. */
const PATIENCE = 60_000;

export interface Logged {
  readonly type: number;
  readonly message: string;
}

export class Editor {
  readonly process: ChildProcessWithoutNullStreams;
  readonly connection: ProtocolConnection;
  readonly published: PublishDiagnosticsParams[] = [];
  readonly verdicts: VerdictsOf[] = [];
  readonly logged: Logged[] = [];
  readonly registered: string[] = [];
  lensRefreshes = 0;
  /** Everything that came out of the server, byte for byte. */
  readonly out: Buffer[] = [];
  err = "";
  exit: Promise<number | null>;
  #documents = new Map<string, TextDocument>();
  #watchers = new Set<() => void>();

  private constructor(args: readonly string[]) {
    this.process = spawn(process.execPath, [SERVER, ...args], { stdio: ["pipe", "pipe", "pipe"] });
    this.exit = new Promise((resolve) => this.process.on("exit", (code) => {
      resolve(code);
    }));
    this.process.stderr.on("data", (data: Buffer) => (this.err += data.toString()));
    this.process.stdin.on("error", () => undefined);
    const heard = new PassThrough();
    this.process.stdout.on("data", (data: Buffer) => {
      this.out.push(data);
      heard.write(data);
    });
    this.connection = createProtocolConnection(new StreamMessageReader(heard), new StreamMessageWriter(this.process.stdin));
    this.connection.onError(() => undefined);
    this.#hear("textDocument/publishDiagnostics", (params) => this.published.push(params as PublishDiagnosticsParams));
    this.#hear("bothways/verdicts", (params) => this.verdicts.push(params as VerdictsOf));
    this.#hear("window/logMessage", (params) => this.logged.push(params as Logged));
    this.connection.onRequest("client/registerCapability", (params: { registrations: { method: string }[] }) => {
      this.registered.push(...params.registrations.map((one) => one.method));
      this.#stir();
      return null;
    });
    this.connection.onRequest("workspace/codeLens/refresh", () => {
      this.lensRefreshes += 1;
      this.#stir();
      return null;
    });
    this.connection.listen();
  }

  #hear(method: string, take: (params: unknown) => void): void {
    this.connection.onNotification(method, (params: unknown) => {
      take(params);
      this.#stir();
    });
  }

  #stir(): void {
    for (const watcher of [...this.#watchers]) watcher();
  }

  /** Starts the built server; with folders it is initialised too. */
  static async start(folders: readonly string[] | undefined, capabilities: ClientCapabilities = CAPABILITIES, more: object = {}): Promise<Editor> {
    build();
    const editor = new Editor(["--stdio"]);
    if (folders !== undefined) await editor.initialise(folders, capabilities, more);
    return editor;
  }

  async initialise(folders: readonly string[], capabilities: ClientCapabilities = CAPABILITIES, more: object = {}): Promise<InitializeResult> {
    const result = await this.connection.sendRequest<InitializeResult>("initialize", {
      processId: process.pid, rootUri: null, capabilities, workspaceFolders: folders.map((folder) => ({ uri: uriOf(folder), name: path.basename(folder) })), ...more,
    });
    await this.connection.sendNotification("initialized", {});
    return result;
  }

  /** Asks, and gives the answer or throws what the server said. */
  ask<T>(method: string, params?: object): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  tell(method: string, params: object): Promise<void> {
    return this.connection.sendNotification(method, params);
  }

  async open(uri: string, text: string, version = 1): Promise<void> {
    this.#documents.set(uri, TextDocument.create(uri, "bothways", version, text));
    await this.tell("textDocument/didOpen", { textDocument: { uri, languageId: "bothways", version, text } });
  }

  document(uri: string): TextDocument {
    const document = this.#documents.get(uri);
    if (document === undefined) throw new Error(`${uri} is not open`);
    return document;
  }

  text(uri: string): string {
    return this.document(uri).getText();
  }

  /** Puts `replacement` in the place of the first `sought`, as an incremental change; gives the new version. */
  async replace(uri: string, sought: string, replacement: string): Promise<number> {
    return this.edit(uri, [{ range: this.rangeOf(uri, sought), newText: replacement }]);
  }

  /** Edits that do not overlap, whose ranges are all those of the text as it is. */
  async edit(uri: string, edits: readonly TextEdit[]): Promise<number> {
    const document = this.document(uri);
    const version = document.version + 1;
    // The last stretch first, so that those before it stay where they are.
    const changes = [...edits].sort((a, b) => document.offsetAt(b.range.start) - document.offsetAt(a.range.start)).map(({ range, newText }) => ({ range, text: newText }));
    this.#documents.set(uri, TextDocument.update(document, changes, version));
    await this.tell("textDocument/didChange", { textDocument: { uri, version }, contentChanges: changes });
    return version;
  }

  async close(uri: string): Promise<void> {
    this.#documents.delete(uri);
    await this.tell("textDocument/didClose", { textDocument: { uri } });
  }

  /** Does what a workspace edit says to the open documents; versions must be those that are open. Gives the other files' edits. */
  async apply(edit: WorkspaceEdit): Promise<{ uri: string; edits: readonly TextEdit[] }[]> {
    const closed: { uri: string; edits: readonly TextEdit[] }[] = [];
    for (const change of edit.documentChanges ?? []) {
      if (!("textDocument" in change)) throw new Error("only edits of texts are expected");
      const { uri, version } = change.textDocument;
      const edits = change.edits as TextEdit[];
      if (!this.#documents.has(uri)) {
        if (version !== null) throw new Error(`${uri} is not open, but has the version ${version}`);
        closed.push({ uri, edits });
        continue;
      }
      if (version !== this.document(uri).version) throw new Error(`the edit is for version ${String(version)}, open is ${this.document(uri).version}`);
      await this.edit(uri, edits);
    }
    return closed;
  }

  rangeOf(uri: string, sought: string): Range {
    const document = this.document(uri);
    const at = document.getText().indexOf(sought);
    if (at < 0) throw new Error(`“${sought}” is not in ${uri}`);
    return { start: document.positionAt(at), end: document.positionAt(at + sought.length) };
  }

  /** Parameters of a request at the first `sought`, `by` letters on. */
  at(uri: string, sought: string, by = 0): { textDocument: { uri: string }; position: { line: number; character: number } } {
    const { start } = this.rangeOf(uri, sought);
    return { textDocument: { uri }, position: { line: start.line, character: start.character + by } };
  }

  /** Waits until something holds; whatever the server says makes it look again. */
  until<T>(look: () => T | undefined, what: string): Promise<T> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        this.#watchers.delete(check);
        reject(new Error(`waited in vain for ${what}; the log says: ${JSON.stringify(this.logged)}; ${this.err}`));
      }, PATIENCE);
      const check = (): void => {
        const found = look();
        if (found === undefined) return;
        clearTimeout(timer);
        this.#watchers.delete(check);
        resolve(found);
      };
      this.#watchers.add(check);
      check();
    });
  }

  /** What is shown in a document now. */
  shown(uri: string): readonly Diagnostic[] | undefined {
    return this.published.filter((one) => one.uri === uri).at(-1)?.diagnostics;
  }

  /** The diagnostics of a version, the one that is open where none is named. */
  diagnostics(uri: string, version = this.document(uri).version): Promise<readonly Diagnostic[]> {
    return this.until(() => this.published.findLast((one) => one.uri === uri && one.version === version)?.diagnostics, `diagnostics of ${uri}, version ${version}`);
  }

  /** Nothing is under way any more: the answer waits for whatever was to be told. */
  async quiet(uri: string): Promise<void> {
    await this.ask("bothways/verdicts", { uri });
  }

  errors(): readonly Logged[] {
    return this.logged.filter((one) => one.type === 1);
  }

  async stop(): Promise<number | null> {
    await this.ask("shutdown");
    await this.connection.sendNotification("exit");
    const code = await this.exit;
    this.connection.dispose();
    return code;
  }

  async kill(): Promise<void> {
    this.process.kill("SIGKILL");
    await this.exit;
    this.connection.dispose();
  }
}
