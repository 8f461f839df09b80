import assert from "node:assert/strict";
import { after, describe, it } from "mocha";
import * as vscode from "vscode";
import { closeUnsaved, EVENING, KIT, open, replace, undo, until } from "./editor";

const panels = (type: string) => (): string[] => vscode.window.tabGroups.all.flatMap((group) => group.tabs)
  .filter((tab) => tab.input instanceof vscode.TabInputWebview && tab.input.viewType.includes(type)).map((tab) => tab.label);
/** Panels of the preview, by their titles; a panel bears the setup's title once its page has asked for the drawing and got it. */
export const flows = panels("bothways.flow");
const looks = panels("bothways.look");

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

  it("shows what a camera frames, and then what a seat sees, in one panel beside that of the flow", async () => {
    const { document } = await open(EVENING);
    const uri = document.uri.toString();
    await vscode.commands.executeCommand("bothways.showLook", uri);
    await until("the panel bears the setup's title", () => looks().includes("Camera: Thursday Beekeepers, autumn meeting"), () => looks().join());
    await vscode.commands.executeCommand("bothways.showLook", uri, undefined, "seat", "audience.row-4.seat-2");
    await until("the panel is that of a seat", () => looks().join() === "Seat: Thursday Beekeepers, autumn meeting", () => looks().join());
    await vscode.commands.executeCommand("bothways.showLook", uri, undefined, "side");
    await until("the panel is the room from the side", () => looks().join() === "Side: Thursday Beekeepers, autumn meeting", () => looks().join());
  });
});
