/** The six verdicts in the status bar: six signs, the words in the tip, and for whoever listens all in words. */
import * as vscode from "vscode";
import type { Connection } from "./connection";
import { LANGUAGE } from "./language";
import { meant, nothingOpen } from "./setups";
import { statusOf, type Status } from "./verdict-words";

export class VerdictsBar implements vscode.Disposable {
  readonly #connection: Connection;
  readonly #item = vscode.window.createStatusBarItem("bothways.verdicts", vscode.StatusBarAlignment.Left, 60);
  readonly #disposables: vscode.Disposable[];

  constructor(connection: Connection) {
    this.#connection = connection;
    this.#item.name = "Bothways: six verdicts";
    this.#item.command = "bothways.showVerdicts";
    this.#disposables = [
      this.#item,
      vscode.window.onDidChangeActiveTextEditor(() => void this.#show(true)),
      vscode.workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration("bothways.verdicts")) void this.#show(false);
      }),
      connection.onVerdicts(() => void this.#show(false)),
      connection.onBegun(() => void this.#show(true)),
    ];
    void this.#show(false);
  }

  async #show(ask: boolean): Promise<void> {
    const document = vscode.window.activeTextEditor?.document;
    const wanted = vscode.workspace.getConfiguration("bothways").get<boolean>("verdicts.inStatusBar", true);
    if (document?.languageId !== LANGUAGE || !wanted) {
      this.#item.hide();
      return;
    }
    const known = this.#connection.known(document.uri);
    if (known === undefined) {
      this.#put({ text: "…", lines: [], label: "Bothways is reading the setup.", title: "Bothways is reading the setup" });
      // The answer comes back as a change.
      if (ask) await this.#connection.verdicts(document.uri);
      return;
    }
    this.#put(statusOf(known));
  }

  #put({ text, lines, label, title }: Status): void {
    this.#item.text = `$(arrow-both) ${text}`;
    const tip = new vscode.MarkdownString();
    if (title !== "") tip.appendText(title).appendMarkdown("\n\n");
    for (const { sign, words, reason } of lines) {
      tip.appendMarkdown("- ").appendText(`${sign} ${words}${reason === "" ? "" : ` (${reason})`}`).appendMarkdown("\n");
    }
    if (lines.length === 0 && title === "") tip.appendText(label);
    this.#item.tooltip = tip;
    this.#item.accessibilityInformation = { label, role: "button" };
    this.#item.show();
  }

  dispose(): void {
    for (const one of this.#disposables) one.dispose();
  }
}

interface Act extends vscode.QuickPickItem {
  readonly run: (() => unknown) | undefined;
}

/** What a click on the six signs opens: the six in words, and what can be done about them. */
export async function showVerdicts(connection: Connection, given: unknown): Promise<void> {
  const uri = meant(given);
  if (uri === undefined) return nothingOpen();
  const verdicts = connection.known(uri) ?? (await connection.verdicts(uri));
  if (verdicts === undefined) return;
  const status = statusOf(verdicts);
  const command = (name: string) => (): Thenable<unknown> => vscode.commands.executeCommand(name, uri.toString());
  const acts: Act[] = [
    ...(verdicts.setup === undefined ? [] : [{ label: "$(arrow-both) Show signal flow", run: command("bothways.showFlow") }]),
    ...(verdicts.setups.length > 1 ? [{ label: "$(list-selection) Choose the setup that is judged", run: command("bothways.choose") }] : []),
    ...(verdicts.setup === undefined ? [] : [{ label: "$(file) Make the hand-out", run: command("bothways.makeHandout") }]),
    { label: "six verdicts", kind: vscode.QuickPickItemKind.Separator, run: undefined },
    ...status.lines.map(({ sign, words, reason }): Act => ({ label: `${sign}  ${words}`, detail: reason, run: command("bothways.showFlow") })),
  ];
  const pick = await vscode.window.showQuickPick(acts, { title: status.title === "" ? status.label : status.title, placeHolder: "Six verdicts" });
  await pick?.run?.();
}
