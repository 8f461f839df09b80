import assert from "node:assert/strict";
import { after, describe, it } from "mocha";
import * as vscode from "vscode";
import { asked, closeUnsaved, errorsOf, EVENING, KIT, open, placeOf, saidOf, until, uriOf } from "./editor";

/** Names across files. */
export const naming = (): void => void describe("names", () => {
  after(closeUnsaved);

  it("a device leads to the file that declares it", async () => {
    const { document } = await open(EVENING);
    const found = await asked<(vscode.Location | vscode.LocationLink)[]>(
      "vscode.executeDefinitionProvider", document.uri, placeOf(document, "place stage-camera", 8));
    assert.equal(found.length, 1);
    const [target] = found;
    assert.ok(target);
    const uri = "targetUri" in target ? target.targetUri : target.uri;
    const range = "targetUri" in target ? target.targetRange : target.range;
    assert.equal(uri.toString(), uriOf(KIT).toString());
    const kit = await vscode.workspace.openTextDocument(uri);
    assert.match(kit.lineAt(range.start.line).text, /^device stage-camera/);
  });

  it("a device renamed in the evening is renamed in the kit, and nothing breaks", async () => {
    const { document } = await open(EVENING);
    await until("the evening was judged", () => vscode.languages.getDiagnostics(document.uri).length > 0);
    const kit = await vscode.workspace.openTextDocument(uriOf(KIT));
    const edit = await asked<vscode.WorkspaceEdit>(
      "vscode.executeDocumentRenameProvider", document.uri, placeOf(document, "place stage-camera", 8), "tripod-camera");
    assert.deepEqual(edit.entries().map(([uri]) => uri.path.split("/").at(-1)).sort(), ["association.bothways", "autumn-in-the-barn.bothways", "autumn.bothways"]);
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.match(kit.getText(), /^device tripod-camera is webcam/m);
    assert.match(document.getText(), /^cable from tripod-camera\.usb to laptop\.usb-1/m);
    assert.doesNotMatch(document.getText() + kit.getText(), /stage-camera/);
    await new Promise((resolve) => setTimeout(resolve, 1500)); // time enough for a finding to come
    assert.equal(errorsOf(document.uri).length, 0, saidOf(document.uri));
  });
});
