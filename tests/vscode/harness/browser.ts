/** The browser behind which the workbench runs: one that is installed, or Debian's Chromium, installed where we may. */
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { chromium, type Browser } from "playwright-core";

const CANDIDATES = [
  "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/usr/bin/google-chrome-stable", "/usr/bin/microsoft-edge",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe", "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

/** Path of an installed Chromium, Chrome or Edge; `BOTHWAYS_CHROMIUM` names another. */
export function findBrowser(): string | undefined {
  const named = process.env.BOTHWAYS_CHROMIUM;
  return named ? (existsSync(named) ? named : undefined) : CANDIDATES.find((candidate) => existsSync(candidate));
}

/** Like `findBrowser`, but installs Debian's Chromium where there is none and we are root there. Throws with what to do otherwise. */
export function haveBrowser(): string {
  const found = findBrowser();
  if (found) return found;
  if (process.platform !== "linux" || process.getuid?.() !== 0 || !existsSync("/usr/bin/apt-get")) {
    throw new Error("no Chromium, Chrome or Edge was found: install one, or name it in BOTHWAYS_CHROMIUM");
  }
  console.log("Installing Debian's Chromium for the tests (once, about a minute) …");
  const apt = (...args: string[]) =>
    execFileSync("apt-get", ["-qq", ...args], { stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
  apt("update");
  apt("install", "-y", "chromium");
  const installed = findBrowser();
  if (!installed) throw new Error("apt-get installed chromium, but it is not where Debian puts it");
  return installed;
}

/** Starts the browser without a window, asking nobody for updates. */
export function launchBrowser(executablePath: string): Promise<Browser> {
  return chromium.launch({
    executablePath,
    headless: true,
    args: [
      "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ],
  });
}

