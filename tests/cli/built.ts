/** Runs the built command line as a shell would, in folders of its own. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, realpathSync, rmdirSync, statSync, writeFileSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";

export const project = path.dirname(path.dirname(path.dirname(fileURLToPath(import.meta.url))));
const CLI = path.join(project, "dist/cli.js");

const newest = (place: string): number => {
  const stat = statSync(place);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(0, ...readdirSync(place).map((name) => newest(path.join(place, name))));
};

const OUTPUTS = [CLI, path.join(project, "dist/server.js"), path.join(project, "dist/server-browser.js")];

const fresh = (): boolean =>
  OUTPUTS.every((file) => existsSync(file)) && Math.min(...OUTPUTS.map((file) => statSync(file).mtimeMs)) > Math.max(...["server", "grammar", "client", "package.json", ".scripts/build.mjs"].map((p) => newest(path.join(project, p))));

const sleep = (ms: number): void => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
};

/** Builds where a source is newer than what was built; test files that run at the same time wait for one another. */
export function build(): void {
  const lock = path.join(tmpdir(), `bothways-build-${Buffer.from(project).toString("hex").slice(-40)}`);
  for (let tries = 0; !fresh(); tries++) {
    try {
      mkdirSync(lock);
    } catch {
      // A lock that a killed run left behind must not stop everybody after it.
      if (tries > 600 || Date.now() - statSync(lock, { throwIfNoEntry: false })!.mtimeMs > 60_000) rmdirSync(lock);
      sleep(100);
      continue;
    }
    try {
      const done = spawnSync(process.execPath, [path.join(project, ".scripts/build.mjs")], { cwd: project, encoding: "utf8" });
      if (done.status !== 0) throw new Error(`the build failed: ${done.stderr}`);
    } finally {
      rmdirSync(lock);
    }
    return;
  }
}

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** `bothways …` in a folder, without a terminal. */
export function bothways(cwd: string, ...args: string[]): Ran {
  const done = spawnSync(process.execPath, [CLI, ...args], {
    cwd, encoding: "utf8", input: "", timeout: 60_000, maxBuffer: 64_000_000, env: { ...process.env, LC_ALL: "C.UTF-8" },
  });
  if (done.error !== undefined) throw done.error;
  return { status: done.status, out: done.stdout, err: done.stderr };
}

/** A new folder with these files; names may have folders in them. */
export function folder(files: Readonly<Record<string, string | Uint8Array>> = {}): string {
  const made = realpathSync(mkdtempSync(path.join(tmpdir(), "bothways-test-")));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(path.dirname(path.join(made, name)), { recursive: true });
    writeFileSync(path.join(made, name), text);
  }
  return made;
}

/** What every message of a command that could not run has in common. */
export const isPlainRefusal = (ran: Ran): boolean =>
  ran.status === 2 && ran.err.trim().split("\n").length === 1 && !/\n\s+at /u.test(ran.err) && !ran.err.includes("fault in Bothways");
