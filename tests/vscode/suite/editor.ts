/** The editor as the tests hold it: documents of the folder, what is said about them, and waiting for either. */
import assert from "node:assert/strict";
import * as vscode from "vscode";

export const EVENING = "autumn.bothways";
export const KIT = "kit/association.bothways";
export const ROOM = "rooms/old-schoolroom.bothways";

/** Calls `ask` until it gives something; the message says what was waited for, and `seen` what there was instead. */
export async function until<T>(what: string, ask: () => T | undefined | false | Promise<T | undefined | false>, seen?: () => string, limit = 30_000): Promise<T> {
  const end = Date.now() + limit;
  for (;;) {
    const answer = await ask();
    if (answer !== undefined && answer !== false) return answer;
    if (Date.now() > end) throw new Error(`waited ${limit / 1000} s in vain until ${what}${seen ? `; there was: ${seen()}` : ""}`);
    await new Promise((resolve) => setTimeout(resolve, 40));
  }
}

/** What a command gives that asks the extension; the editor calls it off where what is said of the text changes meanwhile, and as somebody would, one asks again. */
export const asked = <T>(command: string, ...of: readonly unknown[]): Promise<T> =>
  until(`${command} is answered`, async () => {
    try {
      return { answer: await vscode.commands.executeCommand<T>(command, ...of) };
    } catch (problem) {
      if (problem instanceof Error && /^cancell?ed$/i.test(problem.message)) return undefined;
      throw problem;
    }
  }).then(({ answer }) => answer);

/** The address of a file in the opened folder. */
export function uriOf(path: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  assert.ok(folder, "a folder is open");
  return vscode.Uri.joinPath(folder.uri, path);
}

/** Opens a file of the folder in the first column and gives its editor. */
export async function open(path: string): Promise<vscode.TextEditor> {
  const document = await vscode.workspace.openTextDocument(uriOf(path));
  return vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preview: false });
}

/** Throws away what tests did to the files: writes nothing, closes everything. */
export async function closeUnsaved(): Promise<void> {
  for (const editor of vscode.window.tabGroups.all.flatMap((group) => group.tabs)) {
    if (!(editor.input instanceof vscode.TabInputText)) continue;
    const uri = editor.input.uri;
    const document = vscode.workspace.textDocuments.find((one) => one.uri.toString() === uri.toString());
    if (!document?.isDirty) continue;
    await vscode.window.showTextDocument(document);
    await vscode.commands.executeCommand("workbench.action.files.revert");
  }
  await vscode.commands.executeCommand("workbench.action.closeAllEditors");
}

/** A finding's code, whether or not it carries a link. */
export function codeOf(diagnostic: vscode.Diagnostic): string {
  const code = diagnostic.code;
  return String(typeof code === "object" ? code.value : code ?? "");
}

export const codesOf = (uri: vscode.Uri): string[] => vscode.languages.getDiagnostics(uri).map(codeOf);

/** One line for each thing said about a document. */
export const saidOf = (uri: vscode.Uri): string =>
  vscode.languages.getDiagnostics(uri).map((one) => `${one.range.start.line + 1} ${codeOf(one)}: ${one.message.split("\n")[0]}`).join(" | ") || "nothing";

export const errorsOf = (uri: vscode.Uri): vscode.Diagnostic[] =>
  vscode.languages.getDiagnostics(uri).filter((one) => one.severity === vscode.DiagnosticSeverity.Error);

/** Waits until something with this code is said about the document, and gives it. */
export const said = (uri: vscode.Uri, code: string): Promise<vscode.Diagnostic> =>
  until(`${code} is said`, () => vscode.languages.getDiagnostics(uri).find((one) => codeOf(one) === code), () => saidOf(uri));

/** The place of the `nth` occurrence of a text, `into` characters into it. */
export function placeOf(document: vscode.TextDocument, text: string, into = 0, nth = 0): vscode.Position {
  let offset = -1;
  for (let i = 0; i <= nth; i++) offset = document.getText().indexOf(text, offset + 1);
  assert.notEqual(offset, -1, `the text holds “${text}”`);
  return document.positionAt(offset + into);
}

/** Replaces one occurrence of a text as somebody typing does, in a step that can be undone. */
export async function replace(editor: vscode.TextEditor, from: string, to: string): Promise<void> {
  const start = placeOf(editor.document, from);
  const range = new vscode.Range(start, placeOf(editor.document, from, from.length));
  assert.ok(await editor.edit((edit) => edit.replace(range, to)), "the edit was taken");
}

/** Undoes the last step in the editor. */
export async function undo(editor: vscode.TextEditor): Promise<void> {
  await vscode.window.showTextDocument(editor.document, editor.viewColumn);
  await vscode.commands.executeCommand("undo");
}
