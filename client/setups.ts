/** Which document is meant, and which setup is judged. */
import * as vscode from "vscode";
import type { Connection } from "./connection";
import { LANGUAGE } from "./language";

/** The document that a command means: the one it was given (a URI, in words or as an object), else the one in front, else one that can be seen. */
export function meant(given: unknown): vscode.Uri | undefined {
  if (given instanceof vscode.Uri) return given;
  if (typeof given === "string" && given !== "") return vscode.Uri.parse(given);
  const active = vscode.window.activeTextEditor?.document;
  if (active?.languageId === LANGUAGE) return active.uri;
  return vscode.window.visibleTextEditors.find((editor) => editor.document.languageId === LANGUAGE)?.document.uri;
}

/** Says that a command needs a document, and how to get one. */
export async function nothingOpen(): Promise<void> {
  const start = "Start a setup…";
  const answer = await vscode.window.showInformationMessage("Open a .bothways file first, or start a setup.", start);
  if (answer === start) await vscode.commands.executeCommand("bothways.startSetup");
}

interface SetupPick extends vscode.QuickPickItem {
  readonly setup: string | undefined;
}

/** Lets the author choose which of several setups a room or a kit is judged in. */
export async function chooseSetup(connection: Connection, given: unknown): Promise<void> {
  const uri = meant(given);
  if (uri === undefined) return nothingOpen();
  const verdicts = await connection.verdicts(uri);
  if (verdicts === undefined) return;
  const { setups, setup } = verdicts;
  if (setups.length < 2) {
    const words = setups.length === 1 ? `Only one setup uses this file: ${setups[0]?.title ?? ""}.` : "No setup uses this file, so nothing is judged.";
    void vscode.window.showInformationMessage(words);
    return;
  }
  const picks: SetupPick[] = [
    ...setups.map((one): SetupPick => ({
      label: one.title, description: vscode.workspace.asRelativePath(vscode.Uri.parse(one.uri)),
      ...(one.uri === setup?.uri ? { detail: "is judged now" } : {}), setup: one.uri,
    })),
    { label: "The one that was looked at last", description: "Bothways chooses", setup: undefined },
  ];
  const pick = await vscode.window.showQuickPick(picks, { title: "Which setup is judged?", placeHolder: "Several setups use this file", matchOnDescription: true });
  if (pick !== undefined) await connection.choose(uri, pick.setup);
}
