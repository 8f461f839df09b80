import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { after, describe, it } from "mocha";
import { closeUnsaved, codesOf, errorsOf, EVENING, open, replace, said, saidOf, undo, until } from "./editor";

/** Processes that run the packed extension's server: told by their arguments, where the system tells those. */
function servers(): number[] {
  return readdirSync("/proc").filter((name) => /^\d+$/.test(name)).map(Number).filter((pid) => {
    try {
      const words = readFileSync(`/proc/${pid}/cmdline`, "utf8");
      return /bothways-project\.bothways-[^\0]*dist\/server\.js/.test(words);
    } catch {
      return false; // it ended between the list and the look
    }
  });
}

/** What happens when the server goes. */
export const server = (): void => void describe("the server", () => {
  after(closeUnsaved);

  it("when it is killed, nothing that was typed is lost, and it judges again", async function () {
    if (process.platform !== "linux") this.skip();
    const editor = await open(EVENING);
    const { uri } = editor.document;
    await said(uri, "uplink-short");
    await replace(editor, "place box beside front-screen", "plaice box beside front-screen");
    await until("the line is squiggled", () => errorsOf(uri).length > 0);
    const typed = editor.document.getText();
    const before = servers();
    assert.equal(before.length, 1, "one server runs");
    for (const pid of before) process.kill(pid, "SIGKILL");
    await until("another server runs", () => {
      const now = servers();
      return now.length === 1 && now[0] !== before[0];
    });
    assert.equal(editor.document.getText(), typed);
    await until("the line is squiggled again", () => errorsOf(uri).length > 0, () => saidOf(uri));
    await undo(editor);
    await until("the mend of the text is seen", () => errorsOf(uri).length === 0 && codesOf(uri).includes("uplink-short"), () => saidOf(uri));
  });
});
