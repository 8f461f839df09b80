/** The hand-out in a browser: pages of A4, width of a telephone, what an accessibility checker says. Without a browser it is skipped. */
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium, type Browser, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { study } from "../../server/study";
import { handout } from "../../server/views/handout/handout";

const BROWSER = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find((at) => existsSync(at));
const project = path.dirname(path.dirname(path.dirname(fileURLToPath(import.meta.url))));
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

if (BROWSER === undefined) console.warn("No Chromium on this machine: the printed hand-out is not tried.");

describe.skipIf(BROWSER === undefined)("in a browser", () => {
  let browser: Browser;
  const folder = mkdtempSync(path.join(tmpdir(), "bothways-page-"));
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: BROWSER ?? "", args: ["--no-sandbox"] });
  });
  afterAll(async () => browser.close());

  async function open(file: string): Promise<Page> {
    const page = await browser.newPage();
    const at = path.join(folder, `${path.basename(file)}.html`);
    writeFileSync(at, handout(study({ read: (one) => ({ text: readFileSync(path.join(project, one), "utf8") }) }, file)));
    await page.goto(pathToFileURL(at).href);
    return page;
  }
  const sheets = (pdf: Buffer): number => [...pdf.toString("latin1").matchAll(/\/Type\s*\/Page\b(?!s)/gu)].length;

  it.each([
    ["samples/association/autumn.bothways", 1], ["samples/october.bothways", 1], ["samples/kitchen-table.bothways", 1],
    ["samples/gone-wrong/thin-line.bothways", 1], ["samples/gone-wrong/everything-twice.bothways", 2],
    ["tests/language/council.bothways", 2], ["tests/language/chapel.bothways", 2], ["tests/language/theatre.bothways", 2],
  ])("%s prints on at most %i page(s) of A4 and one for the floor plan, in letters of 7.5 pt or more", async (file, most) => {
    const page = await open(file);
    const count = sheets(await page.pdf({ preferCSSPageSize: true }));
    expect(count).toBeGreaterThan(0);
    const plan = await page.locator("section.plan").count();
    expect(count).toBeLessThanOrEqual(most + plan);
    await page.emulateMedia({ media: "print" });
    // 1 pt is 4/3 of a pixel of CSS.
    expect(await page.evaluate("parseFloat(getComputedStyle(document.body).fontSize) * 0.75")).toBeGreaterThanOrEqual(7.5);
    await page.close();
  });

  it.each(["samples/association/autumn.bothways", "tests/language/theatre.bothways"])("%s prints its floor plan to the scale that it names, within the margins", async (file) => {
    const page = await open(file);
    await page.emulateMedia({ media: "print" });
    // 96 pixels of CSS are an inch of 25.4 mm; A4 is 210 mm wide, less 8 mm at either edge.
    await page.setViewportSize({ width: Math.round((194 / 25.4) * 96), height: 1000 });
    const found = await page.evaluate<{ says: string; wide: number; natural: number; scale: number; right: number }>(`(() => {
      const svg = document.querySelector("section.plan svg");
      const box = svg.getBoundingClientRect();
      return { says: document.querySelector("section.plan .scale").textContent, wide: box.width, right: box.right, natural: svg.viewBox.baseVal.width, scale: Number(svg.querySelector("[data-scale]").dataset.scale) };
    })()`);
    const metre = (found.scale * found.wide * 25.4) / found.natural / 96;
    expect(1000 / metre).toBeCloseTo(Number(/1:(\d+)/u.exec(found.says)?.[1]), 1);
    expect(found.right).toBeLessThanOrEqual((194 / 25.4) * 96 + 1);
    await page.close();
  });

  it("fits a telephone 390 pixels wide; only the drawing is moved sideways", async () => {
    const page = await open("samples/association/autumn.bothways");
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(390);
    await page.close();
  });

  it.each(["samples/association/autumn.bothways", "samples/october.bothways", "tests/language/council.bothways"])("%s has nothing that an accessibility checker minds", async (file) => {
    const page = await open(file);
    await page.evaluate(AXE);
    const found = await page.evaluate<{ passes: number; bad: string[] }>("axe.run(document).then((r) => ({ passes: r.passes.length, bad: r.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.html.slice(0, 120)).join(' | ')) }))");
    expect(found.passes).toBeGreaterThan(10);
    expect(found.bad).toEqual([]);
    await page.close();
  });
});
