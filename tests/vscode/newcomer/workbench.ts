/** The workbench as a person has it: keys, the palette, what stands on the screen, and pictures of it. */
import path from "node:path";
import type { ElementHandle, Frame, Page } from "playwright-core";

const OPEN_INPUT = ".quick-input-widget:not([style*='display: none'])";

export class Workbench {
  constructor(readonly page: Page, private readonly pictures: string) {
    page.setDefaultTimeout(60_000);
  }

  /** Waits until `ask` gives something. */
  async until<T>(what: string, ask: () => Promise<T | undefined | false>, limit = 60_000): Promise<T> {
    const end = Date.now() + limit;
    for (;;) {
      const answer = await ask().catch(() => undefined);
      if (answer !== undefined && answer !== false) return answer;
      if (Date.now() > end) throw new Error(`waited ${limit / 1000} s in vain until ${what}`);
      await this.page.waitForTimeout(80);
    }
  }

  /** What is there now, without waiting for it. */
  first(selector: string): Promise<ElementHandle | null> {
    return this.page.$(selector);
  }

  async picture(name: string): Promise<void> {
    await this.page.waitForTimeout(400);
    await this.page.screenshot({ path: path.join(this.pictures, `${name}.png`) });
  }

  /** Runs a command by its title, as one types it into the palette. */
  async command(title: string): Promise<void> {
    await this.page.keyboard.press("F1");
    await this.page.waitForSelector(`${OPEN_INPUT} input`);
    await this.page.keyboard.type(title);
    await this.page.waitForSelector(`.quick-input-list .monaco-list-row.focused[aria-label*="${title}"]`);
    await this.page.keyboard.press("Enter");
  }

  /** Takes one of a list by its name. */
  async choose(name: string): Promise<void> {
    await this.page.waitForSelector(`${OPEN_INPUT} .monaco-list-row`);
    await this.page.keyboard.type(name);
    await this.page.waitForSelector(`.quick-input-list .monaco-list-row.focused[aria-label^="${name}"]`);
    await this.page.keyboard.press("Enter");
  }

  /** The title of the question that is asked at the top of the window. */
  question(): Promise<string | null | undefined> {
    return this.first(`${OPEN_INPUT} .quick-input-title`).then((found) => found?.textContent() ?? undefined);
  }

  async answer(title: RegExp, words: string): Promise<void> {
    await this.until(`${title} is asked`, async () => title.test((await this.question()) ?? ""));
    if (words !== "") await this.page.keyboard.type(words);
    await this.page.keyboard.press("Enter");
  }

  async openFile(name: string): Promise<void> {
    await this.page.keyboard.press("Control+p");
    await this.page.waitForSelector(`${OPEN_INPUT} input`);
    await this.page.keyboard.type(name);
    await this.page.waitForSelector(`.quick-input-list .monaco-list-row.focused[aria-label*="${name}"]`);
    await this.page.keyboard.press("Enter");
    await this.page.waitForSelector(`.tab.active[aria-label*="${name}"]`);
  }

  /** The page within a preview or another view of its own; the innermost frame that holds `selector`. */
  async frameWith(selector: string): Promise<Frame> {
    return this.until(`a page with ${selector}`, async () => {
      for (const frame of this.page.frames()) {
        if (frame !== this.page.mainFrame() && (await frame.$(selector)) !== null) return frame;
      }
      return undefined;
    });
  }

  /** What the status bar says of Bothways, for whoever listens. */
  status(): Promise<string | null | undefined> {
    return this.first('.statusbar-item[id*="bothways"] a').then((found) => found?.getAttribute("aria-label") ?? undefined);
  }
}
