/**
 * Stands in for the executable of VS Code: takes the arguments that `runTests` of @vscode/test-electron gives to a desktop VS Code,
 * runs the same tests in the extension host of the packaged one, behind a browser, and ends with their result.
 */
import { mkdirSync, statSync } from "node:fs";
import path from "node:path";
import { haveBrowser, launchBrowser } from "./browser";
import { removeFolders } from "./folders";
import { installHost } from "./host";
import { startServer, workbenchAddress, type Server } from "./server";

const LIMIT = Number(process.env.BOTHWAYS_VSCODE_LIMIT ?? 300_000);
/** How long the workbench may take until the first test begins. */
const PATIENCE = 90_000;

/** Whether the tests have written a line. */
function begun(): boolean {
  const log = process.env.BOTHWAYS_VSCODE_LOG;
  return !log || (statSync(log, { throwIfNoEntry: false })?.size ?? 0) > 0;
}

const developed: string[] = [];
const places: string[] = [];
const options = new Map<string, string>();
for (const argument of process.argv.slice(2)) {
  const option = /^--([a-zA-Z-]+)(?:=(.*))?$/s.exec(argument);
  if (!option) places.push(argument);
  else if (option[1] === "extensionDevelopmentPath") developed.push(option[2] ?? "");
  else options.set(option[1] ?? "", option[2] ?? "");
}

let server: Server | undefined;
process.on("exit", () => {
  server?.kill();
  removeFolders();
});
process.on("SIGINT", () => process.exit(130));
process.on("SIGTERM", () => process.exit(143));
// Whoever started us may be killed without a word to us.
const parent = process.ppid;
setInterval(() => { if (process.ppid !== parent) process.exit(143); }, 1000).unref();

async function main(): Promise<number> {
  const tests = options.get("extensionTestsPath");
  const extensions = options.get("extensions-dir");
  const profile = options.get("user-data-dir");
  if (!tests || !extensions || !profile) throw new Error("--extensionTestsPath, --extensions-dir and --user-data-dir are needed");
  for (const folder of [extensions, profile]) mkdirSync(folder, { recursive: true });
  const [started, browser] = await Promise.all([
    startServer(installHost(), { extensions: path.resolve(extensions), profile: path.resolve(profile), tests: true }),
    launchBrowser(haveBrowser()),
  ]);
  server = started;
  try {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    const page = await context.newPage();
    const result = new Promise<number>((resolve, reject) => {
      // The workbench tells the result of the tests through these two, where it finds them.
      page.exposeFunction("codeAutomationLog", () => undefined).catch(reject);
      page.exposeFunction("codeAutomationExit", (code: number) => resolve(code)).catch(reject);
      page.on("crash", () => reject(new Error("the workbench's page crashed")));
      started.onOutput((text) => {
        // Tests that end the extension host would otherwise be waited for to the last minute.
        if (/Extension Host Process exited/.test(text)) setTimeout(() => reject(new Error(text.trim())), 5000).unref();
      });
      setTimeout(() => reject(new Error(`no result after ${LIMIT / 1000} s`)), LIMIT).unref();
      setTimeout(() => { if (!begun()) reject(new Error(`no test began within ${PATIENCE / 1000} s`)); }, PATIENCE).unref();
    });
    const [folder] = places;
    await page.goto(workbenchAddress(started.port, { developed, tests, ...(folder ? { folder } : {}) }));
    try {
      return await result;
    } catch (error) {
      const picture = process.env.BOTHWAYS_VSCODE_PICTURE;
      if (picture) await page.screenshot({ path: picture }).catch(() => undefined);
      console.error(started.output().slice(-3000));
      throw error;
    }
  } finally {
    await browser.close().catch(() => undefined);
    await started.stop();
  }
}

main().then(
  (code) => process.exit(code),
  (error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  },
);
