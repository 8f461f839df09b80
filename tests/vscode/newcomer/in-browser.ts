/**
 * The packed extension as a web extension: the workbench runs it in a worker of the browser, so the folder is to it a mounted one that
 * the editor alone can read. By mouse and keyboard; each stage leaves a picture.
 */
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { after, before, describe, it } from "mocha";
import { openWindow, type Walked, type Window } from "./window";
import type { Workbench } from "./workbench";

/** Processes that have something of a folder among their words, a script in it above all. */
const processesWith = (folder: string): string[] => readdirSync("/proc").filter((name) => /^\d+$/u.test(name)).flatMap((pid) => {
  try {
    const words = readFileSync(`/proc/${pid}/cmdline`, "utf8").replaceAll("\0", " ");
    return words.includes(`${folder}/`) ? [words] : [];
  } catch {
    return []; // it ended between the list and the look
  }
});

export const inBrowser = (walked: Walked): void => void describe("in a browser, without a disk", () => {
  let window: Window;
  let desk: Workbench;

  before(async () => {
    window = await openWindow(walked, "mounted", { "extensions.webWorker": true, "remote.extensionKind": { "bothways-project.bothways": ["web"] } });
    desk = window.desk;
  });
  after(() => window.close());

  it("judges a setup over three files", async () => {
    await desk.openFile("autumn.bothways");
    await desk.until("the status bar tells the verdicts", async () => /fails|doubtful|works/.test((await desk.status()) ?? ""));
    await desk.page.waitForSelector(".monaco-editor .squiggly-warning");
    assert.equal(await desk.first(".monaco-editor .squiggly-error"), null, "the room and the kit were read");
    await desk.picture("w1-judged");
  });

  it("does so in a worker of the page, and no process of the extension runs", async () => {
    const names = await Promise.all(desk.page.workers().map((worker) => worker.evaluate("self.name").catch(String)));
    assert.ok(names.some((name) => String(name).endsWith("Bothways")), `workers: ${names.join()}`);
    assert.deepEqual(processesWith(window.extensions), []);
  });

  it("mends a finding from the light bulb, and undoes it", async () => {
    const before = await desk.status();
    const text = (): Promise<string | null> => desk.page.textContent(".editor-group-container.active .view-lines");
    await desk.page.click(".editor-group-container .view-lines");
    await desk.page.keyboard.press("Control+f");
    await desk.page.waitForSelector(".find-widget.visible textarea");
    await desk.page.keyboard.type("internet venue");
    await desk.page.keyboard.press("Enter");
    await desk.page.keyboard.press("Escape");
    // A question that came while the text was still being judged has no answer: it is asked again.
    await desk.until("mends are offered", async () => {
      await desk.page.keyboard.press("Escape");
      await desk.page.keyboard.press("Control+.");
      return await desk.page.waitForSelector(".action-widget .monaco-list-row.action:not(.option-disabled)", { timeout: 8000 }).catch(() => undefined) !== undefined;
    });
    await desk.picture("w2-mends");
    const written = await text();
    await desk.page.keyboard.press("Enter");
    await desk.until("the text and the verdicts are other ones", async () => (await text()) !== written && (await desk.status()) !== before);
    await desk.picture("w3-mended");
    await desk.page.click(".editor-group-container .view-lines");
    await desk.page.keyboard.press("Control+z");
    await desk.until("the verdicts are as they were", async () => (await desk.status()) === before);
  });

  it("opens the flow beside the text", async () => {
    await desk.command("Bothways: Show signal flow");
    const flow = await desk.frameWith('body[data-view="flow"] #title:has-text("Thursday Beekeepers")');
    await desk.until("the drawing is there", async () => (await flow.$("#sheet svg")) !== null);
    await desk.picture("w4-flow");
  });

  it("looks through a camera beside it", async () => {
    await desk.openFile("autumn.bothways");
    await desk.command("Bothways: Show what a camera or a seat sees");
    const look = await desk.frameWith('body[data-view="look"] #sheet svg.bothways-perspective');
    assert.equal(await look.inputValue("#place"), "stage-camera");
    await desk.picture("w5-camera");
  });
});
