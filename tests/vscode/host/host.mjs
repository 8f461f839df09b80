// Runs the installed VS Code's server, and Chromium in front of it: for the launcher (tests inside the extension host) and for the
// scripts that use the editor by mouse and keyboard.
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { chromium } from "playwright-core";
import { NODE, VSCODE, browserPath } from "./install.mjs";

/** A quiet editor: nothing but the text, and nothing asked of the outside. */
const SETTINGS = {
  "chat.disableAIFeatures": true,
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "extensions.ignoreRecommendations": true,
  "extensions.webWorker": false,
  "files.simpleDialog.enable": true,
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "workbench.enableExperiments": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.startupEditor": "none",
};
const UNUSED = [
  "github.copilot-chat", "vscode.github", "vscode.github-authentication", "vscode.microsoft-authentication", "vscode.git",
  "vscode.mermaid-markdown-features",
];

const made = [];
/** A folder that `cleanUp` takes away. */
export function temporary() {
  const folder = mkdtempSync(path.join(os.tmpdir(), "bothways-vscode-"));
  made.push(folder);
  return folder;
}
export function cleanUp() {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true, maxRetries: 3 });
}

function surroundings() {
  const env = { ...process.env, EXTENSIONS_GALLERY: "{}", VSCODE_SKIP_BUILTIN_EXTENSIONS: UNUSED.join(",") };
  for (const name of ["NODE_OPTIONS", "ELECTRON_RUN_AS_NODE", "VSCODE_IPC_HOOK_CLI"]) delete env[name];
  return env;
}

/** Runs the server's own command line, as in `--install-extension FILE --extensions-dir FOLDER`; gives its exit status. */
export function command(args) {
  return new Promise((resolve, reject) => {
    const child = spawn(NODE, [path.join(VSCODE, "out/server-main.js"), "--accept-server-license-terms", "--server-data-dir", temporary(), ...args], {
      env: surroundings(), stdio: ["ignore", "ignore", "inherit"],
    });
    child.on("error", reject).on("exit", (status) => resolve(status ?? 1));
  });
}

/** Starts the server on a free port. */
export async function startServer({ userData = temporary(), extensions = temporary(), settings = {}, env = {}, log } = {}) {
  const data = temporary();
  const file = path.join(userData, "User/settings.json");
  mkdirSync(path.dirname(file), { recursive: true });
  if (!existsSync(file)) writeFileSync(file, JSON.stringify({ ...SETTINGS, ...settings }, null, 2));
  const child = spawn(NODE, [
    path.join(VSCODE, "out/server-main.js"), "--host", "127.0.0.1", "--port", "0", "--without-connection-token",
    "--accept-server-license-terms", "--telemetry-level", "off", "--disable-workspace-trust",
    // Without it a built workbench pays no heed to the extension and the tests that the address names.
    "--enable-smoke-test-driver",
    "--reconnection-grace-time", "1", "--server-data-dir", data, "--user-data-dir", userData, "--extensions-dir", extensions,
  ], { env: { ...surroundings(), XDG_RUNTIME_DIR: data, ...env }, stdio: ["ignore", "pipe", "pipe"], detached: true });

  let output = "";
  const listeners = [];
  const port = await new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`the server did not start:\n${output}`)), 60_000);
    const hear = (chunk) => {
      const text = String(chunk);
      output += text;
      log?.(text);
      for (const listener of listeners) listener(text);
      const started = /Extension host agent listening on (\d+)/.exec(output);
      if (started) {
        clearTimeout(timer);
        resolve(Number(started[1]));
      }
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    child.on("error", reject);
    child.on("exit", (status) => reject(new Error(`the server ended with ${status}:\n${output}`)));
  });
  const ended = new Promise((resolve) => { child.on("exit", resolve); });
  // The server has children of its own; they are one group with it.
  const kill = (signal) => {
    try {
      process.kill(-child.pid, signal);
    } catch {
      // It has gone already.
    }
  };
  return {
    port, kill,
    output: () => output,
    listen: (listener) => listeners.push(listener),
    async stop() {
      kill("SIGTERM");
      await Promise.race([ended, new Promise((resolve) => { setTimeout(resolve, 3000); })]);
      kill("SIGKILL");
    },
  };
}

export const startBrowser = () => chromium.launch({
  executablePath: browserPath(), headless: true,
  args: [
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage",
  ],
});

/** The address at which the editor opens a folder, with the extensions under test and the tests to run. */
export function address(port, { folder, extensions = [], tests, file }) {
  const uri = (name) => `vscode-remote://127.0.0.1:${port}${encodeURI(realpathSync(name))}`;
  const payload = [
    ["skipWelcome", "true"], ["skipReleaseNotes", "true"],
    ...extensions.map((name) => ["extensionDevelopmentPath", uri(name)]),
    ...(tests === undefined ? [] : [["extensionTestsPath", uri(tests)]]),
    ...(file === undefined ? [] : [["openFile", uri(file)]]),
  ];
  const what = folder === undefined ? "ew=true" : `folder=${encodeURIComponent(realpathSync(folder))}`;
  return `http://127.0.0.1:${port}/?${what}&payload=${encodeURIComponent(JSON.stringify(payload))}`;
}
