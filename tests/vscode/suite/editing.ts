import assert from "node:assert/strict";
import { after, before, describe, it } from "mocha";
import * as vscode from "vscode";
import { asked, closeUnsaved, codesOf, errorsOf, EVENING, open, placeOf, replace, said, saidOf, undo, until } from "./editor";

/** Opening, squiggles, mends, completion, hover and tidying. */
export const editing = (): void => void describe("editing", () => {
  let editor: vscode.TextEditor;
  let uri: vscode.Uri;
  before(async () => {
    editor = await open(EVENING);
    uri = editor.document.uri;
  });
  after(closeUnsaved);

  it("a .bothways file has its language, and the packed extension wakes by it", async () => {
    assert.equal(editor.document.languageId, "bothways");
    const extension = vscode.extensions.all.find((one) => (one.packageJSON as { name: string }).name === "bothways");
    assert.ok(extension, "the extension is installed");
    await until("the extension is active", () => extension.isActive);
  });

  it("findings stand in the text with their codes, their reasons and a link to the explanation", async () => {
    const finding = await said(uri, "uplink-short");
    assert.equal(finding.severity, vscode.DiagnosticSeverity.Warning);
    assert.equal(editor.document.lineAt(finding.range.start.line).text, "internet venue {");
    assert.match(finding.message, /3\.0 Mb\/s/);
    assert.ok(typeof finding.code === "object" && finding.code.target.toString().includes("uplink-short"), "the code leads to the explanation");
    assert.equal(errorsOf(uri).length, 0);
  });

  it("a broken line is squiggled where it is broken, and undoing takes that back", async () => {
    const before = codesOf(uri).sort();
    await replace(editor, "place box beside front-screen", "plaice box beside front-screen");
    const line = placeOf(editor.document, "plaice").line;
    const [error] = await until("the line is squiggled", () => {
      const errors = errorsOf(uri);
      return errors.length > 0 && errors;
    });
    assert.equal(error?.range.start.line, line);
    await undo(editor);
    await until("what is said is as before", () => codesOf(uri).sort().join() === before.join(), () => saidOf(uri));
  });

  it("the mend that is offered for a finding takes it away, and undoing brings it back", async () => {
    const finding = await said(uri, "uplink-short");
    const actions = await asked<vscode.CodeAction[]>(
      "vscode.executeCodeActionProvider", uri, finding.range, vscode.CodeActionKind.QuickFix.value, 8);
    // This command leaves out which diagnostic an action is for; nothing else is said at this place.
    const mend = actions.find((action) => action.edit);
    assert.ok(mend?.edit, `a mend is offered: ${actions.map((action) => action.title).join(" | ")}`);
    assert.ok(await vscode.workspace.applyEdit(mend.edit));
    await until("the finding is gone", () => !codesOf(uri).includes("uplink-short"), () => saidOf(uri));
    await undo(editor);
    await said(uri, "uplink-short");
  });

  it("completion in a line that is not finished offers the names that fit there", async () => {
    await replace(editor, "mains from long-lead to phone", "mains from long-lead to phone\ncable from stage-camera.usb to ");
    const at = placeOf(editor.document, "cable from stage-camera.usb to ", "cable from stage-camera.usb to ".length, 1);
    const list = await asked<vscode.CompletionList>("vscode.executeCompletionItemProvider", uri, at);
    const labels = list.items.map((item) => (typeof item.label === "string" ? item.label : item.label.label));
    assert.ok(labels.some((label) => label.startsWith("laptop")), `the laptop is offered: ${labels.slice(0, 20).join()}`);
    await undo(editor);
  });

  it("hovering a device says what it is, with its figures", async () => {
    const at = placeOf(editor.document, "place projector", 7);
    const hovers = await asked<vscode.Hover[]>("vscode.executeHoverProvider", uri, at);
    const text = hovers.flatMap((hover) => hover.contents).map((one) => (typeof one === "string" ? one : one.value)).join("\n");
    assert.match(text, /projector/);
    assert.match(text, /240 W|3200 lm/);
  });

  it("tidying changes blanks alone: comments and every word stay", async () => {
    await replace(editor, "place lapel on Ines", "place    lapel   on Ines   # clipped to the collar");
    const before = editor.document.getText();
    const edits = await asked<vscode.TextEdit[]>("vscode.executeFormatDocumentProvider", uri, { tabSize: 2, insertSpaces: true });
    assert.ok(edits.length > 0, "there is something to tidy");
    const workspaceEdit = new vscode.WorkspaceEdit();
    workspaceEdit.set(uri, edits);
    assert.ok(await vscode.workspace.applyEdit(workspaceEdit));
    const after = editor.document.getText();
    assert.match(after, /^place lapel on Ines +# clipped to the collar$/m);
    assert.equal(after.replace(/\s+/g, " "), before.replace(/\s+/g, " "));
    await undo(editor);
    await undo(editor);
  });
});
