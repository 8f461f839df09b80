/** What a finding means, as a page beside the text. */
import * as vscode from "vscode";
import { EXPLAIN_SCHEME } from "../server/protocol/messages";
import type { Connection } from "./connection";

/** Diagnostics of ours that have a page. */
const codeOf = (diagnostic: vscode.Diagnostic): string | undefined => {
  const { code } = diagnostic;
  if (typeof code !== "object" || code.target.scheme !== EXPLAIN_SCHEME) return undefined;
  return String(code.value);
};

/** The pages themselves: `bothways-explain:echo-path`. */
export class Explanations implements vscode.TextDocumentContentProvider {
  constructor(readonly connection: Connection) {}

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    const code = uri.path.replace(/^\//u, "").replace(/\.md$/u, "");
    const page = await this.connection.explain(code);
    return page?.markdown ?? `# ${code}\n\nNothing is known of this finding.\n`;
  }

  /** A link in the text opens the page as plain text; it is better read with its headings. */
  async dress(document: vscode.TextDocument): Promise<void> {
    if (document.uri.scheme === EXPLAIN_SCHEME && document.languageId !== "markdown") await vscode.languages.setTextDocumentLanguage(document, "markdown");
  }
}

interface FindingPick extends vscode.QuickPickItem {
  readonly code: string;
}

/** Explains the finding at the cursor, else lets the author choose among those of the document. */
export async function explainFinding(given: unknown): Promise<void> {
  const code = typeof given === "string" && given !== "" ? given : await pickFinding();
  if (code === undefined) return;
  const uri = vscode.Uri.from({ scheme: EXPLAIN_SCHEME, path: code });
  const document = await vscode.workspace.openTextDocument(uri);
  try {
    await vscode.commands.executeCommand("markdown.showPreviewToSide", document.uri);
  } catch {
    // An editor without its Markdown extension.
    await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preview: true });
  }
}

async function pickFinding(): Promise<string | undefined> {
  const editor = vscode.window.activeTextEditor;
  const all = editor === undefined ? [] : vscode.languages.getDiagnostics(editor.document.uri).filter((one) => codeOf(one) !== undefined);
  const here = all.filter((one) => editor !== undefined && one.range.contains(editor.selection.active));
  const some = here.length > 0 ? here : all;
  const picks = new Map<string, FindingPick>();
  for (const one of some) {
    const code = codeOf(one) ?? "";
    if (!picks.has(code)) picks.set(code, { label: code, detail: one.message.split("\n")[0] ?? "", code });
  }
  if (picks.size === 0) {
    void vscode.window.showInformationMessage("Nothing was found here that could be explained.");
    return undefined;
  }
  const [only] = picks.values();
  if (picks.size === 1) return only?.code;
  return (await vscode.window.showQuickPick([...picks.values()], { title: "Explain which finding?", matchOnDetail: true }))?.code;
}
