/** The hand-out, written as a page of its own beside the setup, and opened where it can be printed. */
import * as vscode from "vscode";
import type { Connection } from "./connection";
import { meant, nothingOpen } from "./setups";

/** Where a hand-out goes when nobody says otherwise: beside the setup; with a setup that has no file yet, into the folder that is open. */
export function besideSetup(setup: vscode.Uri): vscode.Uri | undefined {
  if (setup.scheme !== "untitled") return setup.with({ path: setup.path.replace(/(?:\.bothways)?$/iu, ".html"), query: "", fragment: "" });
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  return folder === undefined ? undefined : vscode.Uri.joinPath(folder, "hand-out.html");
}

const toUri = (given: unknown): vscode.Uri | undefined =>
  given instanceof vscode.Uri ? given : typeof given === "string" && given !== "" ? vscode.Uri.parse(given) : undefined;

/** Makes the hand-out of a document's setup; asks where to, unless told. Answers where it was written. */
export async function makeHandout(connection: Connection, given: unknown, to?: unknown): Promise<vscode.Uri | undefined> {
  const uri = meant(given);
  if (uri === undefined) {
    await nothingOpen();
    return undefined;
  }
  const handout = await connection.handout(uri);
  if (handout === undefined) {
    void vscode.window.showInformationMessage("There is no hand-out: this file is no setup, and no setup uses it.");
    return undefined;
  }
  const place = besideSetup(vscode.Uri.parse(handout.setup.uri));
  const target = toUri(to) ?? (await vscode.window.showSaveDialog({
    title: "Where shall the hand-out be written?", saveLabel: "Write the hand-out", filters: { "Web page": ["html"] },
    ...(place === undefined ? {} : { defaultUri: place }),
  }));
  if (target === undefined) return undefined;
  try {
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(handout.html));
  } catch (error) {
    void vscode.window.showErrorMessage(`The hand-out could not be written: ${error instanceof Error ? error.message : String(error)}`);
    return undefined;
  }
  void offer(target);
  return target;
}

async function offer(target: vscode.Uri): Promise<void> {
  const open = "Open to print";
  const name = target.path.split("/").at(-1) ?? "";
  // No program for printing reads what only the editor can read.
  if (target.scheme !== "file") {
    void vscode.window.showInformationMessage(`The hand-out is written: ${name}. To print it, download it from the explorer (“Download…” in its menu) and open it.`);
    return;
  }
  const answer = await vscode.window.showInformationMessage(`The hand-out is written: ${name}`, open);
  if (answer === open) await vscode.env.openExternal(target);
}
