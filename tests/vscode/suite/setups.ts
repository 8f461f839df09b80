import assert from "node:assert/strict";
import { after, describe, it } from "mocha";
import * as vscode from "vscode";
import { asked, closeUnsaved, codesOf, errorsOf, EVENING, open, saidOf, until, uriOf } from "./editor";
import { flows } from "./preview";

/** A first setup, its page for helpers, and what a finding means. */
export const setups = (): void => void describe("setups", () => {
  after(closeUnsaved);

  it("five answers become a judged text of under a dozen lines with its flow, and one proven mend closes a gap", async () => {
    const answers = { talkers: "Ines at lectern", audience: true, seats: 24, online: 8, size: "about 13 steps by 9 steps", own: "laptop, battery loudspeaker" };
    const written = await vscode.commands.executeCommand<vscode.Uri>("bothways.startSetup", answers);
    const document = await vscode.workspace.openTextDocument(written);
    assert.ok(document.lineCount < 13, document.getText());
    assert.equal(document.languageId, "bothways");
    await until("something is said about it", () => codesOf(written).length > 0);
    assert.deepEqual(errorsOf(written).map((one) => one.code).filter((code) => typeof code === "string"), [], "the text itself has no mistake");
    await until("its flow is shown", () => flows().some((label) => label.startsWith("Flow: ")), () => flows().join());
    const before = saidOf(written);
    for (const diagnostic of vscode.languages.getDiagnostics(written)) {
      const actions = await asked<vscode.CodeAction[]>(
        "vscode.executeCodeActionProvider", written, diagnostic.range, vscode.CodeActionKind.QuickFix.value);
      const mend = actions.find((action) => action.edit);
      if (mend?.edit === undefined) continue;
      assert.ok(await vscode.workspace.applyEdit(mend.edit));
      await until(`what is said has changed after “${mend.title}”`, () => saidOf(written) !== before, () => saidOf(written));
      return;
    }
    assert.fail(`no mend is offered for any of: ${before}`);
  });

  it("the hand-out is a page that needs nothing but itself", async () => {
    const { document } = await open(EVENING);
    const target = uriOf("autumn.html");
    const written = await vscode.commands.executeCommand<vscode.Uri>("bothways.makeHandout", document.uri.toString(), target);
    assert.equal(written.toString(), target.toString());
    const page = new TextDecoder().decode(await vscode.workspace.fs.readFile(target));
    assert.match(page, /^<!DOCTYPE html>/);
    assert.match(page, /Thursday Beekeepers, autumn meeting/);
    assert.match(page, /default-src &#39;none&#39;|default-src 'none'/);
    assert.doesNotMatch(page, /<script|src="http/);
    await vscode.workspace.fs.delete(target);
  });

  it("a finding's code leads to its explanation", async () => {
    const explained = await vscode.workspace.openTextDocument(vscode.Uri.parse("bothways-explain:echo-path"));
    assert.match(explained.getText(), /The people online hear themselves/);
    assert.match(explained.getText(), /What one notices/i);
  });
});
