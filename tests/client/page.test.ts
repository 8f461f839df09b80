/** The page of the preview in a real browser, with a stand-in for the editor: what stays while the text changes, and what gets out. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { pageOf } from "../../client/preview-page";
import type { Kept, Picture } from "../../client/preview/messages";
import { WAY_TITLES, WAYS } from "../../server/model/ways";
import { drawFlow } from "../../server/views/flow/draw";
import { lookFrom } from "../../server/features/look";
import { LOOK_TITLES, LOOKS, type Look } from "../../server/features/looks";
import { drawSide } from "../../server/views/elevation/draw";
import { drawPerspective } from "../../server/views/perspective/draw";
import { drawnPlan } from "../../server/views/plan/draw";
import { build } from "../cli/built";
import { findBrowser, launchBrowser } from "../vscode/harness/browser";
import { association } from "../views/flows";
import { SCHOOLROOM, studyOf } from "../views/plans";

const root = path.dirname(path.dirname(path.dirname(fileURLToPath(import.meta.url))));
const executable = findBrowser();
if (executable === undefined) console.log("No Chromium, Chrome or Edge was found, so the page of the preview was not tried: install one, or name it in BOTHWAYS_CHROMIUM.");

const URI = "file:///evening.bothways";
const picture = (more: Partial<Picture> = {}, flow = association()): Picture => ({
  kind: "picture", uri: URI, title: "Autumn", svg: drawFlow(flow), items: ["talk", "questions"], item: "talk",
  verdicts: WAYS.map((way) => ({ way, title: WAY_TITLES[way], verdict: "works", word: "works", weakest: "", hangsOn: [] })), ...more,
});

describe.skipIf(executable === undefined)("the page of the preview", () => {
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];
  const asked: string[] = [];

  beforeAll(async () => {
    build();
    browser = await launchBrowser(executable ?? "");
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    complaints.length = 0;
    asked.length = 0;
    page = await browser.newPage({ viewport: { width: 900, height: 700 } });
  });
  afterEach(async () => {
    // Nothing of the page was refused or went wrong, and it asked nobody for anything but its two files.
    expect(complaints).toEqual([]);
    expect([...new Set(asked)].sort()).toEqual(["http://page.invalid/", "http://page.invalid/preview.css", "http://page.invalid/preview.js"]);
    await page.close();
  });

  const load = async (kept?: Kept, view: "flow" | "plan" | "look" = "flow"): Promise<void> => {
    page.on("pageerror", (error) => complaints.push(error.message));
    page.on("console", (message) => {
      if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
    });
    page.on("request", (request) => asked.push(request.url()));
    await page.route("**/*", (route) => {
      const name = new globalThis.URL(route.request().url()).pathname;
      if (name === "/") return route.fulfill({ contentType: "text/html", body: pageOf({ nonce: "n0nce", script: "/preview.js", style: "/preview.css", uri: URI, view }) });
      if (name !== "/preview.js" && name !== "/preview.css") return route.fulfill({ status: 404 });
      return route.fulfill({ contentType: name.endsWith("js") ? "text/javascript" : "text/css", body: readFileSync(path.join(root, "dist", name), "utf8") });
    });
    await page.addInitScript(`window.said = []; window.state = ${JSON.stringify(kept) ?? "undefined"};
      window.acquireVsCodeApi = () => ({ postMessage: (m) => said.push(m), getState: () => window.state, setState: (s) => { window.state = s; } });`);
    await page.goto("http://page.invalid/");
    await page.evaluate("document.body.className = 'vscode-light'; document.documentElement.style.setProperty('--vscode-editor-background', '#ffffff')");
  };
  const tell = (message: unknown): Promise<unknown> => page.evaluate(`new Promise((done) => { addEventListener('message', () => setTimeout(done, 0), { once: true }); postMessage(${JSON.stringify(message)}, '*'); })`);
  const said = (): Promise<{ kind: string }[]> => page.evaluate<{ kind: string }[]>("window.said");
  const state = (): Promise<Kept> => page.evaluate<Kept>("window.state");
  const LED = "#sheet [data-path]";

  it("says that it is ready, then shows six verdicts, the items and the drawing", async () => {
    await load();
    expect(await said()).toEqual([{ kind: "ready" }]);
    await tell(picture());
    expect(await page.locator("#verdicts li").count()).toBe(6);
    expect(await page.locator("#verdicts .sign svg").count()).toBe(6);
    expect(await page.locator("#item option").allTextContents()).toEqual(["talk", "questions"]);
    expect(await page.locator("#sheet svg text").count()).toBeGreaterThan(10);
    expect(await page.locator("#live").textContent()).toMatch(/^Signal flow of Autumn, during talk\. The room hears/u);
  });

  it("keeps element, zoom, scroll and focus while the drawing changes", async () => {
    await load();
    await tell(picture());
    await page.locator("#zoom-whole").click();
    await page.locator("#zoom-in").click();
    await page.evaluate("document.getElementById('stage').scrollTo(120, 90)");
    const third = page.locator(LED).nth(2);
    await page.evaluate(`{ const node = document.querySelectorAll("${LED}")[2]; node.focus({ preventScroll: true }); node.mine = true; }`);
    const name = await third.getAttribute("aria-label");
    const flow = association();
    // Another order, other words: everything is laid out anew.
    await tell(picture({ title: "Winter" }, { ...flow, title: "Winter", posts: [...flow.posts].reverse() }));
    expect(await page.evaluate("document.activeElement.mine")).toBe(true);
    expect(await page.evaluate("document.activeElement.getAttribute('aria-label')")).toBe(name);
    expect(await page.evaluate("[document.getElementById('stage').scrollLeft, document.getElementById('stage').scrollTop]")).toEqual([120, 90]);
    expect(await page.locator("#zoom-word").textContent()).toBe("125 %");
    expect(await page.locator("#title").textContent()).toBe("Winter");
  });

  describe("with a floor plan", () => {
    const study = studyOf(SCHOOLROOM);
    const plan = (more: Partial<Picture> = {}): Picture => picture({ svg: drawnPlan(study.plan(), { form: "panel" }).svg, asks: [{ ask: "reads", title: "Who can read the slides?" }], items: [], ...more });
    const shown = async (): Promise<void> => {
      await load(undefined, "plan");
      await tell(plan());
      await page.locator("#zoom-whole").click();
    };
    const scale = async (): Promise<number> => Number(await page.locator("#sheet [data-scale]").getAttribute("data-scale"));
    /** Takes hold at a share of the width from the left: the middle, where nothing is said. */
    const drag = async (selector: string, dx: number, dy: number, key?: string, share = 0.5): Promise<void> => {
      await page.locator(selector).first().scrollIntoViewIfNeeded();
      const box = await page.locator(selector).first().boundingBox();
      const [x, y] = [(box?.x ?? 0) + (box?.width ?? 0) * share, (box?.y ?? 0) + (box?.height ?? 0) / 2];
      if (key !== undefined) await page.keyboard.down(key);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + dx / 2, y + dy / 2);
      await page.mouse.move(x + dx, y + dy);
      await page.mouse.up();
      if (key !== undefined) await page.keyboard.up(key);
    };
    const moves = async () => (await said()).filter((one) => one.kind === "move");

    it("puts one question at a time to it", async () => {
      await shown();
      expect(await page.locator("#ask option").allTextContents()).toEqual(["What stands where?", "Who can read the slides?"]);
      await page.locator("#ask").selectOption("reads");
      expect((await said()).at(-1)).toEqual({ kind: "ask", ask: "reads" });
    });

    it("asks for a device to be where it is dropped, in tenths of a metre, and leads nowhere then", async () => {
      await shown();
      const metre = await scale();
      await drag("#sheet .post.device[data-post=box] .body", -metre, 0.5 * metre);
      expect(await moves()).toEqual([{ kind: "move", what: "place", name: "box", x: 1, y: 4 }]);
      expect((await said()).some((one) => one.kind === "go")).toBe(false);
      expect(await page.locator("#sheet [data-post=box]").first().getAttribute("transform")).toMatch(/^translate\(/u);
      await tell({ kind: "told", words: "It cannot be moved.", done: false });
      expect(await page.locator("#sheet [transform]").count()).toBe(0);
      expect(await page.locator("#note").textContent()).toBe("It cannot be moved.");
    });

    it("moves rows forth and back only, and facts of the room only where that is asked for", async () => {
      await shown();
      const metre = await scale();
      await drag("#sheet .row[data-row='1'] .seat", metre, 0.3 * metre, undefined, 0.03);
      expect(await moves()).toEqual([expect.objectContaining({ what: "row", name: "audience", row: 1, x: 3.5 })]);
      await drag("#sheet .post.outlet .body", -metre, 0);
      expect(await moves()).toHaveLength(1);
      await drag("#sheet .post.outlet .body", -metre, 0, "Control");
      expect((await moves()).at(-1)).toMatchObject({ what: "place", name: "back-wall", y: 2.2, facts: true });
    });

    it("moves by Alt and arrows what has the focus, and writes it once", async () => {
      await shown();
      await page.locator("#sheet .post.device[data-post=box]").focus();
      for (const key of ["Alt+ArrowLeft", "Alt+ArrowLeft", "Alt+Shift+ArrowDown"]) await page.keyboard.press(key);
      await page.waitForTimeout(600);
      expect(await moves()).toEqual([{ kind: "move", what: "place", name: "box", x: 1, y: 4.8 }]);
    });
  });

  describe("with a look from somewhere", () => {
    const study = studyOf(SCHOOLROOM);
    const looking = (view: Look, of: string): Picture => {
      const looked = lookFrom(study, view, of, undefined);
      const { seen } = looked;
      if ("nothing" in seen) expect.fail(seen.nothing);
      return picture({
        svg: "view" in seen ? drawPerspective(seen) : drawSide(seen), items: [],
        looking: { view, views: LOOKS.map((one) => ({ view: one, title: LOOK_TITLES[one] })), places: looked.places, of },
      });
    };
    const seats = (): Promise<boolean> => page.locator("#seat-tools").isVisible();

    it("chooses what is shown and from where as plainly as a question is chosen, and knows where it was", async () => {
      await load(undefined, "look");
      await tell(looking("camera", "stage-camera"));
      expect(await page.locator("#view option").allTextContents()).toEqual(["What a camera frames", "What is seen from a seat", "The room from the side"]);
      expect(await page.locator("#place option").allTextContents()).toEqual(["stage-camera", "laptop.camera"]);
      expect([await seats(), await page.locator("#ask-tools").isVisible()]).toEqual([false, false]);
      await page.locator("#view").selectOption("seat");
      expect((await said()).at(-1)).toEqual({ kind: "look", view: "seat" });
      await tell(looking("seat", "audience.row-4.seat-3"));
      expect(await page.locator("#place").inputValue()).toBe("audience.row-4");
      expect(await page.locator("#seat option").allTextContents()).toEqual(["1", "2", "3", "4", "5", "6"]);
      expect([await seats(), await page.locator("#seat").inputValue()]).toEqual([true, "3"]);
      await page.locator("#seat").selectOption("6");
      expect((await said()).at(-1)).toEqual({ kind: "look", view: "seat", of: "audience.row-4.seat-6" });
      await tell(looking("seat", "audience.row-4.seat-6"));
      await page.locator("#place").selectOption("audience.row-1");
      expect((await said()).at(-1)).toEqual({ kind: "look", view: "seat", of: "audience.row-1.seat-6" });
      await page.locator("#place").selectOption("Ines");
      expect((await said()).at(-1)).toEqual({ kind: "look", view: "seat", of: "Ines" });
      await tell(looking("seat", "Ines"));
      expect(await seats()).toBe(false);
      await page.locator("#view").selectOption("camera");
      expect((await said()).at(-1)).toEqual({ kind: "look", view: "camera", of: "stage-camera" });
      await expect.poll(async () => (await state()).look).toEqual({ view: "seat", of: "Ines" });
      expect(await page.locator("#live").textContent()).toMatch(/^What is seen from a seat, Ines of Autumn, during talk\./u);
    });

    it.each([["camera", "stage-camera"], ["seat", "audience.row-4.seat-3"], ["side", "audience.row-4"]] as const)("leads from a %s view to the line of a thing in it", async (view, of) => {
      await load(undefined, "look");
      await tell(looking(view, of));
      const box = SCHOOLROOM.indexOf("place box");
      await page.locator(`#sheet [data-start="${box}"][tabindex]`).first().focus();
      await page.keyboard.press("Enter");
      await page.locator(`#sheet [data-start="${box}"] text`).first().click();
      const gone = (await said()).filter((one) => one.kind === "go");
      expect(gone).toHaveLength(2);
      for (const one of gone) expect(one).toMatchObject({ path: "evening.bothways", start: box });
    });

    it("says why there is nothing to see, and lets one choose another view", async () => {
      await load(undefined, "look");
      await tell(looking("seat", "Ines"));
      const { looking: still } = looking("camera", "stage-camera");
      await tell({ ...looking("camera", "stage-camera"), svg: "", why: "This setup has no camera.", looking: { view: "camera", views: still?.views, places: [] } });
      expect(await page.locator("#note").textContent()).toBe("This setup has no camera.");
      expect(await page.locator("#sheet svg").count()).toBe(0);
      expect([await page.locator("#view").isVisible(), await page.locator("#place").isVisible()]).toEqual([true, false]);
      await tell(looking("seat", "Ines"));
      expect([await page.locator("#note").isVisible(), await page.locator("#sheet svg").count()]).toEqual([false, 1]);
    });
  });

  it("leads from the drawing to the text, by pointer and by keyboard", async () => {
    await load();
    await tell(picture());
    await page.locator(LED).first().focus();
    await page.keyboard.press("Enter");
    await page.locator(`${LED} text`).nth(1).click();
    const gone = (await said()).filter((one) => one.kind === "go");
    expect(gone).toHaveLength(2);
    expect(gone[0]).toEqual({ kind: "go", path: await page.locator(LED).first().getAttribute("data-path"), start: expect.any(Number) as number, end: expect.any(Number) as number });
  });

  it("marks what the cursor stands on", async () => {
    await load();
    await tell(picture());
    const first = page.locator("#sheet [data-post][data-path]").first();
    const [file, start, post] = await Promise.all(["data-path", "data-start", "data-post"].map((name) => first.getAttribute(name)));
    const at = Number(start) + 1;
    await tell({ kind: "cursor", path: file, at, lineStart: at, lineEnd: at, name: "" });
    expect(await page.locator("#sheet [data-here]").first().getAttribute("data-path")).toBe(file);
    await tell({ kind: "cursor", path: "elsewhere", at: 1, lineStart: 1, lineEnd: 1, name: post });
    expect(await page.evaluate("[...document.querySelectorAll('#sheet [data-here]')].map((one) => one.dataset.post)")).toEqual([post]);
    await tell({ kind: "cursor", path: "elsewhere", at: 1, lineStart: 1, lineEnd: 1, name: "" });
    expect(await page.locator("#sheet [data-here]").count()).toBe(0);
  });

  it("zooms by keys, asks for another item, and says only what is new", async () => {
    await load();
    await tell(picture());
    await page.locator("#stage").focus();
    const wide = async (): Promise<number> => (await page.locator("#sheet svg").boundingBox())?.width ?? 0;
    const fit = await wide();
    await page.keyboard.press("+");
    expect(await wide()).toBeGreaterThan(fit);
    await page.keyboard.press("0");
    expect(await wide()).toBe(fit);
    await page.locator("#item").selectOption("questions");
    expect((await said()).at(-1)).toEqual({ kind: "item", item: "questions" });
    const changed = picture().verdicts.map((one) => (one.way === "internet" ? { ...one, verdict: "fails" as const, word: "fails" } : one));
    await tell(picture({ verdicts: changed }));
    expect(await page.locator("#live").textContent()).toBe("The internet: now fails.");
  });

  it("comes back after hiding as it was, before anybody is asked", async () => {
    await load();
    await tell(picture());
    await page.locator("#zoom-whole").click();
    await page.evaluate("document.getElementById('stage').scrollTo(60, 40)");
    await expect.poll(async () => (await state()).top).toBe(40);
    const kept = await state();
    await page.close();
    page = await browser.newPage({ viewport: { width: 900, height: 700 } });
    await load(kept);
    expect(await page.locator("#title").textContent()).toBe("Autumn");
    expect(await page.locator("#zoom-word").textContent()).toBe("100 %");
    expect(await page.evaluate("[document.getElementById('stage').scrollLeft, document.getElementById('stage').scrollTop]")).toEqual([60, 40]);
    expect(await page.locator("#live").textContent()).toBe("");
  });

  it("keeps the last drawing, paler, where there is nothing to draw", async () => {
    await load();
    await tell(picture());
    await tell({ kind: "nothing", why: "This file is no setup." });
    expect(await page.locator("#note").textContent()).toBe("This file is no setup.");
    expect(await page.locator("#sheet svg").count()).toBe(1);
    await tell(picture());
    expect(await page.locator("#note").isVisible()).toBe(false);
  });

  it("takes nothing from a drawing but shapes and words, and nothing from names as mark-up", async () => {
    await load();
    const evil = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" onload="window.bad=1"><script>window.bad=1</script><image href="http://else.invalid/x.png"/>' +
      '<a href="http://else.invalid/"><text>a</text></a><g class="post" data-post="p" onclick="window.bad=1"><text>&lt;img src=x onerror=window.bad=1&gt;</text></g>' +
      '<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><iframe src="http://else.invalid/"></iframe></body></foreignObject></svg>';
    await tell(picture({ svg: evil, title: "<img src=x onerror=window.bad=1>", items: ["<b>", "c"], item: "<b>" }));
    expect(await page.evaluate("window.bad")).toBeUndefined();
    expect(await page.locator("script, image, a, foreignObject, iframe, img").count()).toBe(1); // its own script
    expect(await page.locator("#sheet text").allTextContents()).toEqual(["<img src=x onerror=window.bad=1>"]);
    await tell(picture({ svg: "<svg" }));
    expect(await page.locator("#note").textContent()).toBe("The drawing could not be shown.");
    // The browser says at the reading what it would have refused, too.
    expect(complaints.filter((one) => !one.includes("The action has been blocked"))).toEqual([]);
    complaints.length = 0;
  });
});
