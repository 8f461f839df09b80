/** Drawings beside the text – the signal flow, the floor plan, what is seen from a place in the room –: panels that follow the edits of what they draw. */
import * as vscode from "vscode";
import type { FlowOf, Look } from "../server/protocol/messages";
import type { Connection } from "./connection";
import { LANGUAGE } from "./language";
import { newNonce, pageOf } from "./preview-page";
import { asKept, fromPage, type Moving, type Picture, type ToPage } from "./preview/messages";
import { meant, nothingOpen } from "./setups";

/** What a panel shows: its type, and how it is called. */
const VIEWS = {
  flow: { type: "bothways.flow", title: "Signal flow", short: "Flow" },
  plan: { type: "bothways.plan", title: "Floor plan", short: "Plan" },
  look: { type: "bothways.look", title: "What is seen", short: "View" },
} as const;
type View = keyof typeof VIEWS;
const viewOf = (type: string): View => (type === VIEWS.plan.type ? "plan" : type === VIEWS.look.type ? "look" : "flow");
const LOOKS: Readonly<Record<Look, string>> = { camera: "Camera", seat: "Seat", side: "Side" };

/** What is asked for in a panel: by its choosers, or by whoever opens it. */
interface Chosen {
  readonly item: string | undefined;
  readonly ask?: string | undefined;
  readonly look?: { readonly view: Look; readonly of?: string } | undefined;
}
const keyOf = (view: View, uri: vscode.Uri): string => `${view} ${uri.toString()}`;
/** From where to look, as a command is told; nothing where it is told nothing of use. */
export function lookOf(view: unknown, of: unknown): Chosen["look"] {
  const wanted = view === "camera" || view === "seat" || view === "side" ? view : undefined;
  return wanted === undefined ? undefined : { view: wanted, ...(typeof of === "string" && of !== "" ? { of } : {}) };
}

/** After the last keystroke, milliseconds. */
const PAUSE = 120;
const CURSOR_PAUSE = 60;

/** All panels: one for each document, which outlive a reload of the window. */
export class Previews implements vscode.WebviewPanelSerializer, vscode.Disposable {
  readonly #context: vscode.ExtensionContext;
  readonly #connection: Connection;
  readonly #panels = new Map<string, Panel>();
  readonly #disposables: vscode.Disposable[];

  constructor(context: vscode.ExtensionContext, connection: Connection) {
    this.#context = context;
    this.#connection = connection;
    const all = (act: (panel: Panel) => void): void => {
      for (const panel of this.#panels.values()) act(panel);
    };
    let moved: ReturnType<typeof setTimeout> | undefined;
    this.#disposables = [
      ...Object.values(VIEWS).map(({ type }) => vscode.window.registerWebviewPanelSerializer(type, this)),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document.languageId === LANGUAGE) all((panel) => panel.textChanged(document));
      }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        clearTimeout(moved);
        moved = setTimeout(() => all((panel) => panel.cursorMoved(textEditor)), CURSOR_PAUSE);
      }),
      connection.onVerdicts(({ uri, setup }) => all((panel) => panel.judged(uri, setup?.uri))),
      connection.onBegun(() => all((panel) => panel.soon())),
    ];
  }

  /** Shows a drawing of a document beside its text. */
  async show(given: unknown, item?: unknown, view: View = "flow", look?: { readonly view: Look; readonly of?: string }): Promise<void> {
    const uri = meant(given);
    if (uri === undefined) return nothingOpen();
    const wanted: Chosen = { item: typeof item === "string" && item !== "" ? item : undefined, look };
    const open = this.#panels.get(keyOf(view, uri));
    if (open !== undefined) {
      open.reveal(wanted);
      return;
    }
    const panel = vscode.window.createWebviewPanel(VIEWS[view].type, VIEWS[view].title, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true }, { enableScripts: true });
    this.#keep(view, panel, uri, wanted);
  }

  /** After a reload of the window: the panel is there, and what its page had kept. */
  deserializeWebviewPanel(panel: vscode.WebviewPanel, state: unknown): Thenable<void> {
    const kept = asKept(state);
    if (kept === undefined) panel.dispose();
    else this.#keep(viewOf(panel.viewType), panel, vscode.Uri.parse(kept.uri), { item: kept.item, ask: kept.ask, look: kept.look });
    return Promise.resolve();
  }

  #keep(view: View, panel: vscode.WebviewPanel, uri: vscode.Uri, chosen: Chosen): void {
    const key = keyOf(view, uri);
    const kept = new Panel(view, this.#context, this.#connection, panel, uri, chosen);
    this.#panels.set(key, kept);
    panel.onDidDispose(() => {
      kept.dispose();
      if (this.#panels.get(key) === kept) this.#panels.delete(key);
    });
  }

  dispose(): void {
    for (const one of this.#disposables) one.dispose();
  }
}

/** One panel: asks for the drawing of its document when something has changed, and hands it to its page. */
class Panel {
  readonly #view: View;
  readonly #connection: Connection;
  readonly #panel: vscode.WebviewPanel;
  readonly #uri: vscode.Uri;
  #chosen: Chosen;
  #flow: FlowOf | undefined;
  /** Whether the page listens: it does not while it is hidden. */
  #listening = false;
  #asked = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(view: View, context: vscode.ExtensionContext, connection: Connection, panel: vscode.WebviewPanel, uri: vscode.Uri, chosen: Chosen) {
    this.#view = view;
    this.#connection = connection;
    this.#panel = panel;
    this.#uri = uri;
    this.#chosen = chosen;
    const dist = vscode.Uri.joinPath(context.extensionUri, "dist");
    const assets = vscode.Uri.joinPath(context.extensionUri, "client", "assets");
    panel.iconPath = { light: vscode.Uri.joinPath(assets, "file-light.svg"), dark: vscode.Uri.joinPath(assets, "file-dark.svg") };
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    panel.webview.onDidReceiveMessage((data: unknown) => this.#hear(data));
    panel.onDidChangeViewState(() => {
      if (!panel.visible) this.#listening = false;
    });
    const within = (name: string): string => panel.webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString();
    // The one time that the page is set: everything later comes as messages.
    panel.webview.html = pageOf({ nonce: newNonce(), script: within("preview.js"), style: within("preview.css"), uri: uri.toString(), view });
  }

  reveal({ item = this.#chosen.item, look = this.#chosen.look }: Chosen): void {
    if (item !== this.#chosen.item || look !== this.#chosen.look) {
      this.#chosen = { ...this.#chosen, item, look };
      this.soon();
    }
    this.#panel.reveal(undefined, true);
  }

  /** A text was edited: positions move, even where no verdict does. */
  textChanged(document: vscode.TextDocument): void {
    const uri = document.uri.toString();
    if (uri === this.#uri.toString() || this.#flow?.files.some((file) => file.uri === uri) === true) this.soon();
  }

  judged(uri: string, setup: string | undefined): void {
    if (uri === this.#uri.toString() || (setup !== undefined && setup === this.#flow?.setup.uri)) this.soon();
  }

  /** Asks for the drawing when nothing has changed for a moment. */
  soon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#update(), PAUSE);
  }

  cursorMoved(editor: vscode.TextEditor): void {
    if (!this.#listening || !vscode.workspace.getConfiguration("bothways").get<boolean>("flow.followCursor", true)) return;
    const { document, selection } = editor;
    const uri = document.uri.toString();
    const file = this.#flow?.files.find((one) => one.uri === uri);
    if (file === undefined) return;
    const at = selection.active;
    const line = document.lineAt(at.line).range;
    const word = document.getWordRangeAtPosition(at);
    this.#tell({
      kind: "cursor", path: file.path, at: document.offsetAt(at), lineStart: document.offsetAt(line.start), lineEnd: document.offsetAt(line.end),
      name: word === undefined ? "" : document.getText(word),
    });
  }

  async #update(): Promise<void> {
    if (!this.#listening) return;
    const number = ++this.#asked;
    const drawn = await this.#drawn();
    // A later question is under way; its answer is the one that counts.
    if (number !== this.#asked) return;
    if (drawn === undefined) {
      this.#tell({ kind: "nothing", why: "There is nothing to draw at the moment: this file is no setup, and no setup uses it." });
      return;
    }
    const { of: flow, short, more } = drawn;
    this.#flow = flow;
    this.#panel.title = `${short}: ${flow.setup.title}`;
    this.#tell({
      kind: "picture", uri: this.#uri.toString(), title: flow.setup.title, svg: flow.svg, verdicts: flow.verdicts, items: flow.items,
      ...(flow.item === undefined ? {} : { item: flow.item }), ...more,
    });
    const editor = vscode.window.activeTextEditor;
    if (editor !== undefined) this.cursorMoved(editor);
  }

  /** The drawing, what the panel is called by it, and what can be chosen of it. */
  async #drawn(): Promise<{ readonly of: FlowOf; readonly short: string; readonly more: Partial<Picture> } | undefined> {
    const { item, ask, look } = this.#chosen;
    const asked = { uri: this.#uri.toString(), form: "panel" as const, ...(item === undefined ? {} : { item }) };
    const { short } = VIEWS[this.#view];
    if (this.#view === "flow") {
      const of = await this.#connection.flow(asked);
      return of && { of, short, more: {} };
    }
    if (this.#view === "plan") {
      const of = await this.#connection.plan({ ...asked, ...(ask === undefined ? {} : { ask }) });
      return of && { of, short, more: { asks: of.asks, ...(of.ask === undefined ? {} : { ask: of.ask }) } };
    }
    const of = await this.#connection.look({ ...asked, ...look });
    if (of === undefined) return undefined;
    const { view, views, places } = of;
    return {
      of, short: LOOKS[view],
      more: { looking: { view, views, places, ...(of.of === undefined ? {} : { of: of.of }) }, ...(of.svg === "" ? { why: of.desc } : {}) },
    };
  }

  #tell(message: ToPage): void {
    void this.#panel.webview.postMessage(message);
  }

  #hear(data: unknown): void {
    const message = fromPage(data);
    switch (message?.kind) {
      case undefined:
        return;
      case "ready":
        this.#listening = true;
        void this.#update();
        return;
      case "item":
        this.#chosen = { ...this.#chosen, item: message.item };
        void this.#update();
        return;
      case "ask":
        this.#chosen = { ...this.#chosen, ask: message.ask === "" ? undefined : message.ask };
        void this.#update();
        return;
      case "look":
        this.#chosen = { ...this.#chosen, look: { view: message.view, ...(message.of === undefined ? {} : { of: message.of }) } };
        void this.#update();
        return;
      case "move":
        void this.#move(message);
        return;
      case "go":
        void this.#go(message.path, message.start, message.end);
        return;
    }
  }

  /** Writes what was dragged: one edit, which one undo takes back. */
  async #move({ what, name, row, x, y, facts }: Moving): Promise<void> {
    const done = await this.#connection.move({ uri: this.#uri.toString(), what, name, x, y, ...(row === undefined ? {} : { row }), ...(facts === undefined ? {} : { facts }) });
    if (done === undefined || done.edits.length === 0) {
      this.#tell({ kind: "told", words: done?.says ?? "Nothing could be moved: there is no answer.", done: false });
      return;
    }
    const edit = new vscode.WorkspaceEdit();
    for (const one of done.edits) {
      const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(one.uri));
      edit.replace(document.uri, new vscode.Range(document.positionAt(one.start), document.positionAt(one.end)), one.newText);
    }
    const written = await vscode.workspace.applyEdit(edit);
    this.#tell({ kind: "told", words: written ? done.says : "The text could not be changed.", done: written });
  }

  /** Goes to a place in the text: in the editor that shows it, else in the first column. */
  async #go(path: string, start: number, end: number): Promise<void> {
    const file = this.#flow?.files.find((one) => one.path === path);
    if (file === undefined) return;
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(file.uri));
    const range = new vscode.Range(document.positionAt(start), document.positionAt(end));
    const shown = vscode.window.visibleTextEditors.find((editor) => editor.document.uri.toString() === document.uri.toString());
    await vscode.window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One, selection: range, preview: true });
  }

  dispose(): void {
    clearTimeout(this.#timer);
  }
}
