/** Starts the packaged VS Code as a server on this machine alone, and tells the address of its workbench. */
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, realpathSync, writeFileSync } from "node:fs";
import path from "node:path";
import { freshFolder } from "./folders";
import type { Host } from "./host";

export interface Server {
  readonly port: number;
  /** What it printed so far. */
  output(): string;
  /** Called with each piece that it prints. */
  onOutput(listener: (text: string) => void): void;
  stop(): Promise<void>;
  /** At once, for the end of the process. */
  kill(): void;
}

export interface ServerOptions {
  readonly extensions: string;
  readonly profile?: string;
  readonly settings?: Readonly<Record<string, unknown>>;
  readonly env?: Readonly<Record<string, string>>;
  /** Whether tests shall run in its extension host. */
  readonly tests?: boolean;
}

/** Nothing of an editor's own that would ask outside, hint, or stand in a picture. */
const QUIET = {
  "chat.disableAIFeatures": true,
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "extensions.ignoreRecommendations": true,
  "extensions.webWorker": false,
  "files.autoSave": "off", // as on a desktop; in a browser it is on
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "workbench.enableExperiments": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.startupEditor": "none",
};

function environment(extra: Readonly<Record<string, string>> = {}): NodeJS.ProcessEnv {
  return {
    ...process.env,
    NODE_OPTIONS: undefined, // meant for our own Node
    ELECTRON_RUN_AS_NODE: undefined,
    EXTENSIONS_GALLERY: "{}", // no marketplace
    VSCODE_SKIP_BUILTIN_EXTENSIONS: [
      "github.copilot-chat", "vscode.git", "vscode.github", "vscode.github-authentication", "vscode.microsoft-authentication",
      "vscode.mermaid-markdown-features", "vscode.mermaid-chat-features",
    ].join(),
    ...extra,
  };
}

/** Installs a packed extension into a folder of extensions, with VS Code's own installer. */
export function installExtension(host: Host, vsix: string, extensions: string): void {
  const args = [
    path.join(host.vscode, "out/server-main.js"), "--accept-server-license-terms", "--server-data-dir", freshFolder("data"),
    "--extensions-dir", extensions, "--install-extension", vsix, "--force",
  ];
  const result = spawnSync(host.node, args, { env: environment(), encoding: "utf8" });
  if (result.status !== 0) throw new Error(`VS Code did not install ${path.basename(vsix)}:\n${result.stdout}${result.stderr}`);
}

/** Starts the server on a free port and waits until it listens. */
export async function startServer(host: Host, options: ServerOptions): Promise<Server> {
  const data = freshFolder("data"); // logs and a token: never reused
  const profile = options.profile ?? freshFolder("profile");
  const settings = path.join(profile, "User/settings.json");
  mkdirSync(path.dirname(settings), { recursive: true });
  if (!existsSync(settings)) writeFileSync(settings, JSON.stringify({ ...QUIET, ...options.settings }, null, 2));
  const args = [
    path.join(host.vscode, "out/server-main.js"), "--host", "127.0.0.1", "--port", "0", "--without-connection-token",
    "--accept-server-license-terms", "--telemetry-level", "off", "--disable-workspace-trust", "--reconnection-grace-time", "1",
    // Without it a built workbench takes no extension under test from its address; with it, it shows no notifications.
    ...(options.tests === true ? ["--enable-smoke-test-driver"] : []),
    "--server-data-dir", data, "--user-data-dir", profile, "--extensions-dir", options.extensions,
  ];
  // A group of its own, so that the extension host and the language server end with it.
  const child = spawn(host.node, args, {
    env: environment({ XDG_RUNTIME_DIR: data, ...options.env }), stdio: ["ignore", "pipe", "pipe"], detached: true,
  });
  let output = "";
  const listeners: ((text: string) => void)[] = [];
  const signal = (name: NodeJS.Signals) => {
    try {
      if (child.pid !== undefined) process.kill(-child.pid, name);
    } catch {
      // It has ended already.
    }
  };
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  const port = await new Promise<number>((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`VS Code did not start:\n${output}`)), 60_000);
    const take = (chunk: Buffer) => {
      const text = String(chunk);
      output += text;
      for (const listener of listeners) listener(text);
      const listening = /Extension host agent listening on (\d+)/.exec(output);
      if (listening) {
        clearTimeout(timer);
        resolve(Number(listening[1]));
      }
    };
    child.stdout.on("data", take);
    child.stderr.on("data", take);
    child.once("error", reject);
    child.once("exit", (code) => reject(new Error(`VS Code ended with ${code}:\n${output}`)));
  });
  return {
    port,
    output: () => output,
    onOutput: (listener) => void listeners.push(listener),
    kill: () => signal("SIGKILL"),
    async stop() {
      signal("SIGTERM");
      await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, 3000))]);
      signal("SIGKILL");
    },
  };
}

export interface Opened {
  readonly folder?: string;
  readonly file?: string;
  readonly developed?: readonly string[];
  readonly tests?: string;
}

/** The address of the workbench, with what it shall open and test. */
export function workbenchAddress(port: number, opened: Opened): string {
  const uri = (file: string) => `vscode-remote://127.0.0.1:${port}${encodeURI(realpathSync(file))}`;
  const payload: [string, string][] = [["skipWelcome", "true"], ["skipReleaseNotes", "true"]];
  for (const folder of opened.developed ?? []) payload.push(["extensionDevelopmentPath", uri(folder)]);
  if (opened.tests) payload.push(["extensionTestsPath", uri(opened.tests)]);
  if (opened.file) payload.push(["openFile", uri(opened.file)]);
  const place = opened.folder ? `folder=${encodeURIComponent(realpathSync(opened.folder))}` : "ew=true";
  return `http://127.0.0.1:${port}/?${place}&payload=${encodeURIComponent(JSON.stringify(payload))}`;
}
