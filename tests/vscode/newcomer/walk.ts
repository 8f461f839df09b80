/**
 * What somebody does who knows VS Code and not Bothways: the walkthrough, a first setup, one mend, the flow, the hand-out; then the
 * same in the other themes. Everything by mouse and keyboard; each stage leaves a picture to look at.
 */
import assert from "node:assert/strict";
import { cpSync, existsSync, mkdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import axe, { type AxeResults } from "axe-core";
import { after, before, describe, it } from "mocha";
import type { Browser, Frame, Page } from "playwright-core";
import { launchBrowser } from "../harness/browser";
import { freshFolder } from "../harness/folders";
import type { Host } from "../harness/host";
import { ROOT } from "../harness/root";
import { installExtension, startServer, workbenchAddress, type Server } from "../harness/server";
import { Workbench } from "./workbench";

export interface Walked {
  readonly host: Host;
  readonly vsix: string;
  readonly browser: string;
  /** Folder for the pictures. */
  readonly pictures: string;
}

const THEMES = [["light", "Light Modern"], ["dark", "Dark Modern"], ["contrast", "Dark High Contrast"], ["contrast-light", "Light High Contrast"]] as const;

/** What the accessibility checker is to look for: WCAG 2, levels A and AA. */
const RULES = { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] };

/** Runs an accessibility checker in a page that may be within another; a line for each thing that it has against it. */
async function checked(frame: Frame | Page, place: string, rules: object = RULES): Promise<string[]> {
  await frame.evaluate(axe.source);
  const { violations, passes } = await frame.evaluate<AxeResults>(`axe.run(${place}, ${JSON.stringify(rules)})`);
  assert.ok(passes.length > 0, "the checker found something to look at");
  return violations.flatMap((one) => one.nodes.map((at) => `${one.id}: ${at.target.join(" ")} ${at.failureSummary ?? ""}`));
}

/** What it has against the page with the flow. */
const against = async (frame: Frame): Promise<string[]> => [
  ...await checked(frame, '{ exclude: [["#sheet"]] }'),
  // In the drawing it takes words that stand apart for one word, and does not find them in the names: box battery is “boxbattery”.
  ...await checked(frame, '{ include: [["#sheet"]] }', { ...RULES, rules: { "label-content-name-mismatch": { enabled: false } } }),
];

export const walk = ({ host, vsix, browser: executable, pictures }: Walked): void => void describe("a newcomer", () => {
  const folder = freshFolder("newcomer");
  const profile = freshFolder("profile");
  let server: Server;
  let browser: Browser;
  let desk: Workbench;

  before(async () => {
    cpSync(path.join(ROOT, "samples/association"), folder, { recursive: true });
    mkdirSync(pictures, { recursive: true });
    const extensions = freshFolder("extensions");
    installExtension(host, vsix, extensions);
    [server, browser] = await Promise.all([startServer(host, { extensions, profile, settings: { "workbench.colorTheme": "Light Modern" } }), launchBrowser(executable)]);
    const page = await (await browser.newContext({ viewport: { width: 1500, height: 940 } })).newPage();
    desk = new Workbench(page, pictures);
    await page.goto(workbenchAddress(server.port, { folder }));
    await page.waitForSelector(".monaco-workbench .part.statusbar");
  });
  after(async () => {
    await browser.close().catch(() => undefined);
    await server.stop();
  });

  it("finds the walkthrough and starts from it", async () => {
    await desk.command("Welcome: Open Walkthrough...");
    await desk.page.waitForSelector(".quick-input-list .monaco-list-row");
    await desk.page.keyboard.type("From an empty page");
    await desk.page.waitForSelector('.quick-input-list .monaco-list-row.focused[aria-label*="From an empty page"]');
    await desk.page.keyboard.press("Enter");
    await desk.page.waitForSelector(".gettingStartedContainer .step-title");
    await desk.frameWith("svg");
    await desk.picture("1-walkthrough");
    await desk.page.click(".gettingStartedContainer .monaco-button:has-text('Start a setup…')");
    await desk.answer(/Who talks/, "Ines at lectern");
    await desk.picture("2-question");
    await desk.answer(/Who must hear/, "");
    await desk.answer(/How many/, "24 in the room, 8 online");
    await desk.answer(/how large/, "about 13 steps by 9 steps");
    await desk.answer(/own/, "laptop, battery loudspeaker");
    await desk.answer(/Where shall it be written/, "");
    const frame = await desk.frameWith("#sheet svg");
    await desk.until("the six verdicts are on the page", async () => (await frame.$$("#verdicts li")).length === 6);
    await desk.until("the status bar tells the verdicts", async () => /fails|doubtful|works/.test((await desk.status()) ?? ""));
    await desk.picture("3-first-setup");
  });

  it("closes a gap with a mend that the light bulb offers", async () => {
    await desk.page.click(".editor-group-container .view-lines");
    await desk.page.keyboard.press("Control+Home");
    const before = await desk.status();
    // From finding to finding until one has a mend.
    for (let at = 0; at < 8; at += 1) {
      await desk.command("Go to Next Problem (Error, Warning, Info)");
      await desk.page.keyboard.press("Escape");
      await desk.page.keyboard.press("Control+.");
      const row = await desk.page.waitForSelector(".action-widget .monaco-list-row.action:not(.option-disabled)", { timeout: 4000 }).catch(() => undefined);
      if (row === undefined) {
        await desk.page.keyboard.press("Escape");
        continue;
      }
      await desk.picture("4-mends");
      await desk.page.keyboard.press("Enter");
      await desk.until("the verdicts are other ones", async () => (await desk.status()) !== before);
      await desk.picture("5-mended");
      return;
    }
    assert.fail("no finding had a mend");
  });

  it("goes from the drawing to the text with the keyboard, and nothing is replaced while typing", async () => {
    await desk.openFile("autumn.bothways");
    await desk.command("Bothways: Show signal flow");
    const frame = await desk.frameWith('#title:has-text("Thursday Beekeepers")');
    await frame.evaluate("document.querySelector('#sheet svg').marked = true");
    await desk.page.click(".editor-group-container.active .view-lines, .editor-group-container .view-lines");
    await desk.page.keyboard.press("Control+End");
    await desk.page.keyboard.type("\n# Bring tape.\n");
    await desk.page.waitForTimeout(1200);
    assert.equal(await frame.evaluate("document.querySelector('#sheet svg').marked"), true, "the drawing is still the same element");
    await frame.focus("#sheet [tabindex]");
    await desk.page.keyboard.press("Enter");
    await desk.picture("6-flow");
  });

  it("drags a device on the floor plan: the text says so, and one undo takes it back", async () => {
    await desk.openFile("autumn.bothways");
    /** The box's line as it is on the screen, hints among its words. */
    const line = async (): Promise<string | undefined> => (await desk.page.locator(".view-line").allTextContents())
      .map((words) => words.replace(/\s/gu, " ")).find((words) => words.startsWith("place box"));
    const still = "place box beside front-screen";
    await desk.command("Bothways: Show floor plan");
    const frame = await desk.frameWith('body[data-view="plan"] #sheet svg .post.device[data-post=box] .body');
    await desk.picture("6a-plan");
    await desk.command("View: Focus First Editor Group");
    await desk.page.keyboard.press("Control+Home");
    await desk.until("the line is on the screen", async () => (await line())?.startsWith(still));
    const body = await frame.$(".post.device[data-post=box] .body");
    const box = await body?.boundingBox();
    assert.ok(box);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await desk.page.mouse.move(x, y);
    await desk.page.mouse.down();
    await desk.page.mouse.move(x + 20, y + 20, { steps: 4 });
    await desk.page.mouse.move(x + 40, y + 40, { steps: 4 });
    await desk.page.mouse.up();
    await desk.until("the text says where the box stands now", async () => /^place box (?!beside front-screen).*\d/u.test((await line()) ?? ""));
    await desk.picture("6b-dragged");
    await desk.command("View: Focus First Editor Group");
    await desk.page.keyboard.press("Control+z");
    await desk.until("the line is as it was", async () => (await line())?.startsWith(still));
  });

  it("makes the page for the helpers", async () => {
    await desk.openFile("autumn.bothways");
    await desk.command("Bothways: Make the hand-out");
    await desk.page.waitForSelector(".quick-input-widget:not([style*='display: none']) input");
    await desk.picture("7-where");
    await desk.page.keyboard.press("Enter");
    const written = path.join(folder, "autumn.html");
    await desk.until("the hand-out is written", () => Promise.resolve(existsSync(written) && readFileSync(written, "utf8").includes("</html>")));
    assert.match(readFileSync(written, "utf8"), /Thursday Beekeepers/);
    await desk.page.waitForSelector(".notification-toast:has-text('autumn.html')");
    await desk.picture("8-written");
  });

  it("reads that page on a screen, on a telephone and in grey, and an accessibility checker has nothing against it", async () => {
    const sheet = await browser.newPage();
    await sheet.goto(pathToFileURL(path.join(folder, "autumn.html")).href);
    for (const [name, width] of [["screen", 1000], ["telephone", 390]] as const) {
      await sheet.setViewportSize({ width, height: 900 });
      await sheet.screenshot({ path: path.join(pictures, `8a-hand-out-${name}.png`), fullPage: true });
      assert.deepEqual(await checked(sheet, "document"), [], name);
    }
    await sheet.setViewportSize({ width: 1000, height: 900 });
    await sheet.addStyleTag({ content: "html { filter: grayscale(1) }" });
    await sheet.screenshot({ path: path.join(pictures, "8a-hand-out-grey.png"), fullPage: true });
    await sheet.close();
  });

  it("asks what a finding says and what the six signs mean", async () => {
    await desk.openFile("autumn.bothways");
    await desk.command("Go to Next Problem (Error, Warning, Info)");
    await desk.page.keyboard.press("Escape");
    await desk.command("Show or Focus Hover");
    await desk.page.waitForSelector(".monaco-hover:has-text('One notices')");
    await desk.picture("8d-hover");
    await desk.page.keyboard.press("Escape");
    await desk.page.click('.statusbar-item[id*="bothways"] a');
    await desk.page.waitForSelector(".quick-input-list .monaco-list-row:has-text('The people online hear the room')");
    await desk.picture("8e-verdicts");
    await desk.page.keyboard.press("Escape");
  });

  it("chooses which of two setups a kit is judged in", async () => {
    await desk.openFile("association.bothways");
    await desk.until("the status bar tells a setup", async () => /autumn/i.test((await desk.status()) ?? ""));
    await desk.command("Bothways: Choose the setup that is judged");
    await desk.page.waitForSelector(".quick-input-list .monaco-list-row");
    await desk.picture("8b-choose");
    await desk.page.keyboard.type("barn");
    await desk.page.waitForSelector('.quick-input-list .monaco-list-row.focused[aria-label*="barn"]');
    await desk.page.keyboard.press("Enter");
    await desk.page.waitForTimeout(500);
    await desk.command("Bothways: Choose the setup that is judged");
    await desk.page.waitForSelector('.quick-input-list .monaco-list-row[aria-label*="barn"][aria-label*="is judged now"]');
    await desk.page.keyboard.press("Escape");
  });

  it("sees the same in every theme, and an accessibility checker has nothing against the flow", async () => {
    await desk.openFile("autumn.bothways");
    for (const [name, theme] of THEMES) {
      await desk.page.keyboard.press("Control+k");
      await desk.page.keyboard.press("Control+t");
      await desk.choose(theme);
      const dark = name === "dark" || name === "contrast";
      await desk.page.waitForSelector(`.monaco-workbench.${name === "contrast" ? "hc-black" : name === "contrast-light" ? "hc-light" : dark ? "vs-dark" : "vs"}`);
      const frame = await desk.frameWith('#title:has-text("Thursday Beekeepers")');
      await desk.page.waitForTimeout(300);
      await desk.picture(`9-${name}`);
      assert.deepEqual(await against(frame), [], theme);
    }
    await desk.page.addStyleTag({ content: "html { filter: grayscale(1) }" });
    await desk.picture("9-grey");
  });

  it("finds the flow again when the window is loaded anew", async () => {
    await desk.openFile("autumn.bothways");
    await desk.command("Bothways: Show signal flow");
    await desk.frameWith('#title:has-text("Thursday Beekeepers")');
    await desk.page.reload();
    await desk.page.waitForSelector(".monaco-workbench .part.statusbar");
    // Zoom and scroll are the page's own to keep, and tried with the page: this workbench writes them down only once a minute.
    const after = await desk.frameWith('#title:has-text("Thursday Beekeepers")');
    await desk.until("the drawing is there", async () => (await after.$("#sheet svg")) !== null);
    await desk.picture("8c-reloaded");
  });
});
