import assert from "node:assert/strict";
import { after, describe, it } from "mocha";
import * as vscode from "vscode";
import { asked, closeUnsaved, codesOf, EVENING, errorsOf, KIT, open, replace, ROOM, said, saidOf, undo, until, uriOf } from "./editor";

/** What follows an edit elsewhere: findings that are asked for anew, `use` lines of a file that moves, hints that are switched off. */
export const shown = (): void => void describe("what is shown", () => {
  after(closeUnsaved);

  it("is asked for anew in a text when another that it uses was edited", async () => {
    const evening = (await open(EVENING)).document.uri;
    await said(evening, "uplink-short");
    const before = codesOf(evening).sort().join();
    const kit = await open(KIT);
    await replace(kit, "device stage-camera", "device attic-camera");
    await until("the evening misses its camera", () => errorsOf(evening).some((one) => one.message.includes("stage-camera")), () => saidOf(evening));
    await undo(kit);
    await until("what is said is as before", () => codesOf(evening).sort().join() === before, () => saidOf(evening));
  });

  it("stays the same when a file is renamed: the lines that use it are mended", async () => {
    const { document } = await open(EVENING);
    await said(document.uri, "uplink-short");
    const moved = uriOf("rooms/school.bothways");
    const rename = async (from: vscode.Uri, to: vscode.Uri): Promise<void> => {
      const edit = new vscode.WorkspaceEdit();
      edit.renameFile(from, to);
      assert.ok(await vscode.workspace.applyEdit(edit));
    };
    await rename(uriOf(ROOM), moved);
    await until("the line names the new file", () => document.getText().includes('use "rooms/school.bothways"'), () => document.getText().split("\n").slice(0, 5).join(" | "));
    await until("the moved file is read", () => errorsOf(document.uri).length === 0 && codesOf(document.uri).includes("uplink-short"), () => saidOf(document.uri));
    await rename(moved, uriOf(ROOM));
    await until("the line names the old file", () => document.getText().includes(`use "${ROOM}"`), () => document.getText().split("\n").slice(0, 5).join(" | "));
    await until("nothing is missing", () => errorsOf(document.uri).length === 0 && codesOf(document.uri).includes("uplink-short"), () => saidOf(document.uri));
  });

  it("has hints beside the lines until they are switched off, at once", async () => {
    const { document } = await open(EVENING);
    await said(document.uri, "uplink-short");
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const hints = async (): Promise<string[]> => (await asked<vscode.InlayHint[]>("vscode.executeInlayHintProvider", document.uri, whole))
      .map(({ label }) => (typeof label === "string" ? label : label.map((part) => part.value).join("")));
    const all = await until("there are hints", async () => {
      const now = await hints();
      return now.length > 0 && now;
    });
    assert.ok(all.some((label) => /^plays at \d+/u.test(label)), all.join(" | "));
    assert.ok(all.some((label) => label.startsWith("assumed")), all.join(" | "));
    const settings = vscode.workspace.getConfiguration("bothways", document.uri);
    try {
      await settings.update("hints.assumed", false, vscode.ConfigurationTarget.Workspace);
      await until("what is assumed is shown no more", async () => (await hints()).every((label) => !label.startsWith("assumed")));
      assert.ok((await hints()).length > 0, "what was computed still is");
      await settings.update("hints.computed", false, vscode.ConfigurationTarget.Workspace);
      await until("no hint is shown", async () => (await hints()).length === 0);
    } finally {
      for (const name of ["hints.assumed", "hints.computed"]) await settings.update(name, undefined, vscode.ConfigurationTarget.Workspace);
    }
    await until("all hints are back", async () => (await hints()).length === all.length);
  });
});
