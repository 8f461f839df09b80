import assert from "node:assert/strict";
import { after, describe, it } from "mocha";
import * as vscode from "vscode";
import { closeUnsaved, EVENING, KIT, open, replace, undo, until } from "./editor";

/** Panels of the preview, by their titles; a panel bears the setup's title once its page has asked for the drawing and got it. */
export const flows = (): string[] => vscode.window.tabGroups.all.flatMap((group) => group.tabs)
  .filter((tab) => tab.input instanceof vscode.TabInputWebview && tab.input.viewType.includes("bothways.flow")).map((tab) => tab.label);

/** The flow beside the text. */
export const preview = (): void => void describe("the flow beside the text", () => {
  after(closeUnsaved);

  it("opens beside the text, and its page asks for the drawing", async () => {
    const { document } = await open(EVENING);
    await vscode.commands.executeCommand("bothways.showFlow", document.uri.toString());
    await until("the panel bears the setup's title", () => flows().includes("Flow: Thursday Beekeepers, autumn meeting"), () => flows().join());
    assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), document.uri.toString(), "the text keeps the focus");
  });

  it("is one panel for one text, and follows what is typed", async () => {
    const editor = await open(EVENING);
    await vscode.commands.executeCommand("bothways.showFlow", editor.document.uri.toString());
    assert.equal(flows().length, 1);
    await replace(editor, "Thursday Beekeepers, autumn meeting", "Thursday Beekeepers, winter meeting");
    await until("the panel bears the new title", () => flows().includes("Flow: Thursday Beekeepers, winter meeting"), () => flows().join());
    await undo(editor);
    await until("the panel bears the old title", () => flows().includes("Flow: Thursday Beekeepers, autumn meeting"), () => flows().join());
  });

  it("of a kit shows the setup that is judged with it", async () => {
    const { document } = await open(KIT);
    await vscode.commands.executeCommand("bothways.showFlow", document.uri.toString());
    await until("a second panel bears the title of a setup", () => flows().filter((label) => label.startsWith("Flow: ")).length === 2, () => flows().join());
  });
});
