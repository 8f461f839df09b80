/** A workbench of its own in a browser, with the packed extension in it and the association's evening open. */
import { cpSync, mkdirSync } from "node:fs";
import path from "node:path";
import type { Browser } from "playwright-core";
import { launchBrowser } from "../harness/browser";
import { freshFolder } from "../harness/folders";
import type { Host } from "../harness/host";
import { ROOT } from "../harness/root";
import { installExtension, startServer, workbenchAddress } from "../harness/server";
import { Workbench } from "./workbench";

export interface Walked {
  readonly host: Host;
  readonly vsix: string;
  readonly browser: string;
  /** Folder for the pictures. */
  readonly pictures: string;
}

export interface Window {
  readonly desk: Workbench;
  readonly browser: Browser;
  /** The folder that is open: a copy of the sample. */
  readonly folder: string;
  /** Where the extension is installed. */
  readonly extensions: string;
  close(): Promise<void>;
}

/** `name`: of the folder that is opened; `settings`: beside the light theme. */
export async function openWindow({ host, vsix, browser: executable, pictures }: Walked, name: string, settings: Readonly<Record<string, unknown>> = {}): Promise<Window> {
  const [folder, profile, extensions] = [freshFolder(name), freshFolder("profile"), freshFolder("extensions")];
  cpSync(path.join(ROOT, "samples/association"), folder, { recursive: true });
  mkdirSync(pictures, { recursive: true });
  installExtension(host, vsix, extensions);
  const [server, browser] = await Promise.all([startServer(host, { extensions, profile, settings: { "workbench.colorTheme": "Light Modern", ...settings } }), launchBrowser(executable)]);
  const page = await (await browser.newContext({ viewport: { width: 1500, height: 940 } })).newPage();
  await page.goto(workbenchAddress(server.port, { folder }));
  await page.waitForSelector(".monaco-workbench .part.statusbar");
  return {
    desk: new Workbench(page, pictures), browser, folder, extensions,
    close: async () => {
      await browser.close().catch(() => undefined);
      await server.stop();
    },
  };
}
