/** What the extension is in either host: commands, the status bar and the preview over one connection to the language server. */
import * as vscode from "vscode";
import { COMMANDS, EXPLAIN_SCHEME } from "../server/protocol/messages";
import { Connection } from "./connection";
import { Explanations, explainFinding } from "./explain";
import { makeHandout } from "./hand-out";
import type { Launch } from "./launch";
import { lookOf, Previews } from "./preview";
import { chooseSetup } from "./setups";
import { startSetup } from "./start-setup";
import { showVerdicts, VerdictsBar } from "./verdicts-bar";

let connection: Connection | undefined;

/** What other extensions, and tests, may wait for. */
export interface Api {
  /** The server has answered for the first time. */
  readonly ready: Promise<void>;
}

export function begin(context: vscode.ExtensionContext, launch: Launch): Api {
  const link = new Connection(context, launch);
  connection = link;
  const previews = new Previews(context, link);
  const explanations = new Explanations(link);
  const command = (name: string, act: (...given: unknown[]) => unknown): vscode.Disposable => vscode.commands.registerCommand(name, act);
  context.subscriptions.push(
    link,
    previews,
    new VerdictsBar(link),
    vscode.workspace.registerTextDocumentContentProvider(EXPLAIN_SCHEME, explanations),
    vscode.workspace.onDidOpenTextDocument((document) => void explanations.dress(document)),
    command(COMMANDS.showFlow, (uri, item) => previews.show(uri, item)),
    command("bothways.showPlan", (uri, item) => previews.show(uri, item, "plan")),
    command("bothways.showLook", (uri, item, view, of) => previews.show(uri, item, "look", lookOf(view, of))),
    command(COMMANDS.choose, (uri) => chooseSetup(link, uri)),
    command("bothways.startSetup", (answers) => startSetup(context, link, answers)),
    command("bothways.makeHandout", (uri, to) => makeHandout(link, uri, to)),
    command("bothways.explainFinding", (code) => explainFinding(code)),
    command("bothways.showVerdicts", (uri) => showVerdicts(link, uri)),
  );
  return { ready: link.ready };
}

export async function deactivate(): Promise<void> {
  await connection?.stop();
}
