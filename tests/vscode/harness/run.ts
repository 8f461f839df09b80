/**
 * `npm run test:vscode`: packs the extension, installs it into a real VS Code, runs the tests inside, then by mouse and keyboard those
 * of the extension in a browser and a newcomer's walk; `BOTHWAYS_VSCODE_PART` names one of `suite`, `web`, `walk`. Writes `out/vscode-tests.json` with what passed, failed and could not be run here.
 */
import { closeSync, cpSync, existsSync, mkdirSync, openSync, readFileSync, readSync, rmSync, statSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import path from "node:path";
import { resolveCliArgsFromVSCodeExecutablePath, runTests } from "@vscode/test-electron";
import { inBrowser } from "../newcomer/in-browser";
import { walk } from "../newcomer/walk";
import type { Walked } from "../newcomer/window";
import { haveBrowser } from "./browser";
import { runCounted, type Counts } from "./counted";
import { freshFolder, removeFolders } from "./folders";
import { installHost, type Host } from "./host";
import { ROOT } from "./root";
import { installExtension } from "./server";

const OUT = path.join(ROOT, "out");
const NONE: Counts = { passed: 0, failed: 0, skipped: 0 };

/** Prints what is appended to a file until stopped. */
function follow(file: string): () => void {
  writeFileSync(file, "");
  const handle = openSync(file, "r");
  const buffer = Buffer.alloc(65_536);
  const drain = () => {
    for (let n; (n = readSync(handle, buffer, 0, buffer.length, null)) > 0;) process.stdout.write(buffer.subarray(0, n));
  };
  const timer = setInterval(drain, 100);
  return () => {
    clearInterval(timer);
    drain();
    closeSync(handle);
  };
}

/** The packed extension: `BOTHWAYS_VSIX` where it is named, else packed now. */
function pack(): string {
  if (process.env.BOTHWAYS_VSIX) return path.resolve(process.env.BOTHWAYS_VSIX);
  const packed = spawnSync(process.execPath, [path.join(ROOT, ".scripts/package.mjs")], { cwd: ROOT, encoding: "utf8" });
  if (packed.status !== 0) throw new Error(`the extension could not be packed:\n${packed.stdout}${packed.stderr}`);
  const { version } = JSON.parse(readFileSync(path.join(ROOT, "package.json"), "utf8")) as { version: string };
  const vsix = path.join(OUT, `bothways-${version}.vsix`);
  if (!existsSync(vsix)) throw new Error(`packing left no ${path.relative(ROOT, vsix)}`);
  return vsix;
}

/** A VS Code of the desktop that `BOTHWAYS_VSCODE` names, for machines without the packaged one. */
function desktop(): string | undefined {
  return process.env.BOTHWAYS_VSCODE || undefined;
}

/** The tests inside the extension host, through the same call for either VS Code. A workbench in which none began is started once more. */
async function inside(vsix: string, host: Host | undefined, tries = 2): Promise<Counts> {
  const extensions = freshFolder("extensions");
  const executable = host ? path.join(OUT, "vscode/launcher.cjs") : desktop();
  if (!executable) throw new Error("no VS Code");
  if (host) installExtension(host, vsix, extensions);
  else {
    const [command, ...args] = resolveCliArgsFromVSCodeExecutablePath(executable, { reuseMachineInstall: true });
    const done = spawnSync(command ?? executable, [...args, "--extensions-dir", extensions, "--install-extension", vsix, "--force"], { encoding: "utf8" });
    if (done.status !== 0) throw new Error(`VS Code did not install the extension:\n${done.stdout}${done.stderr}`);
  }
  const folder = freshFolder("association");
  cpSync(path.join(ROOT, "samples/association"), folder, { recursive: true });
  // What is under test is the installed extension; VS Code wants one under development, too, so it gets an empty one.
  const empty = freshFolder("empty");
  writeFileSync(path.join(empty, "package.json"), JSON.stringify({ name: "empty", publisher: "nobody", version: "0.0.1", engines: { vscode: "*" } }));
  const written = { log: path.join(freshFolder("log"), "log.txt"), report: path.join(freshFolder("report"), "report.json") };
  const stop = follow(written.log);
  let trouble = "the extension host ended before the tests did";
  try {
    await runTests({
      vscodeExecutablePath: executable,
      extensionDevelopmentPath: empty,
      extensionTestsPath: path.join(OUT, "vscode/suite.cjs"),
      launchArgs: [folder, `--extensions-dir=${extensions}`, `--user-data-dir=${freshFolder("profile")}`],
      extensionTestsEnv: {
        BOTHWAYS_VSCODE_LOG: written.log, BOTHWAYS_VSCODE_REPORT: written.report,
        BOTHWAYS_VSCODE_PICTURE: path.join(OUT, "pictures/suite-failed.png"),
      },
    });
  } catch (error) {
    trouble = error instanceof Error ? error.message : String(error);
  } finally {
    stop();
  }
  if (existsSync(written.report)) return JSON.parse(readFileSync(written.report, "utf8")) as Counts;
  console.error(trouble);
  if (tries > 1 && statSync(written.log).size === 0) {
    console.log("  No test had begun: VS Code is started once more.");
    return inside(vsix, host, tries - 1);
  }
  return { ...NONE, failed: 1 };
}

/** By mouse and keyboard, with pictures in `out/pictures`. */
async function byHand(declare: (walked: Walked) => void, vsix: string, host: Host, browser: string): Promise<Counts> {
  const written = { log: path.join(freshFolder("log"), "log.txt"), report: path.join(freshFolder("report"), "report.json") };
  const stop = follow(written.log);
  try {
    return await runCounted(() => declare({ host, vsix, browser, pictures: path.join(OUT, "pictures") }), written, 180_000);
  } finally {
    stop();
  }
}

/** Runs what can be run here. What cannot is skipped on a laptop, and fails where the tests must run (`CI`). */
async function main(): Promise<Counts> {
  const results: Counts[] = [];
  const must = Boolean(process.env.CI);
  let host: Host | undefined;
  let browser: string | undefined;
  try {
    browser = haveBrowser();
    host = installHost();
  } catch (error) {
    const why = error instanceof Error ? error.message.split("\n")[0] : String(error);
    console.log(`No VS Code to test in: ${why}.`);
    if (must) return { ...NONE, failed: 1 };
    if (!desktop()) {
      console.log("Skipped: the tests inside VS Code, those of the extension in a browser and the newcomer's walk. They run on Linux x64 with Chromium (as root on Debian: " +
        "apt-get install chromium) and the npm registry; the first of them also in a desktop VS Code that BOTHWAYS_VSCODE names.");
      return { ...NONE, skipped: 3 };
    }
  }
  rmSync(path.join(OUT, "pictures"), { recursive: true, force: true });
  mkdirSync(path.join(OUT, "pictures"), { recursive: true });
  const vsix = pack();
  const part = process.env.BOTHWAYS_VSCODE_PART;
  if (part === undefined || part === "suite") {
    console.log("\n  — inside VS Code");
    results.push(await inside(vsix, host));
  }
  for (const [name, title, declare] of [["web", "in a browser, without a disk", inBrowser], ["walk", "a newcomer's walk", walk]] as const) {
    if (part !== undefined && part !== name) continue;
    if (host && browser) {
      console.log(`\n  — ${title}`);
      results.push(await byHand(declare, vsix, host, browser));
    } else {
      console.log(`Skipped: ${title}, which needs the packaged VS Code (Linux x64).`);
      results.push({ ...NONE, skipped: 1 });
    }
  }
  return results.reduce((sum, one) => ({ passed: sum.passed + one.passed, failed: sum.failed + one.failed, skipped: sum.skipped + one.skipped }), NONE);
}

process.on("exit", removeFolders);
process.on("SIGINT", () => process.exit(130));
process.on("SIGTERM", () => process.exit(143));
mkdirSync(OUT, { recursive: true });
main().then(
  (counts) => {
    writeFileSync(path.join(OUT, "vscode-tests.json"), JSON.stringify(counts));
    console.log(`\n  VS Code: ${counts.passed} passed, ${counts.failed} failed${counts.skipped ? `, ${counts.skipped} skipped` : ""}`);
    process.exit(counts.failed === 0 ? 0 : 1);
  },
  (error: unknown) => {
    console.error(error);
    writeFileSync(path.join(OUT, "vscode-tests.json"), JSON.stringify({ ...NONE, failed: 1 }));
    process.exit(1);
  },
);
