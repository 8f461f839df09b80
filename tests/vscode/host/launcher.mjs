#!/usr/bin/env node
// Stands in for the VS Code executable: takes the arguments that @vscode/test-electron gives one, runs the same tests in the
// installed VS Code's extension host, prints what they print and ends with their result.
import { closeSync, existsSync, mkdirSync, openSync, readSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { address, cleanUp, startBrowser, startServer, temporary } from "./host.mjs";

const WITH_VALUE = new Set(["extensionDevelopmentPath", "extensionTestsPath", "user-data-dir", "extensions-dir", "folder-uri"]);
const options = {};
const developed = [];
const words = [];
const given = process.argv.slice(2);
for (let index = 0; index < given.length; index += 1) {
  const option = /^--([A-Za-z-]+)(?:=(.*))?$/s.exec(given[index]);
  if (option === null) {
    words.push(given[index]);
    continue;
  }
  const value = option[2] ?? (WITH_VALUE.has(option[1]) ? given[(index += 1)] : "true");
  if (option[1] === "extensionDevelopmentPath") developed.push(value);
  else options[option[1]] = value;
}
if (options.extensionTestsPath === undefined) {
  console.error("launcher: --extensionTestsPath is needed");
  process.exit(2);
}
const verbose = process.env.BOTHWAYS_VERBOSE ? (text) => process.stderr.write(`${text}\n`) : undefined;
const folderOf = (name) => {
  if (options[name] === undefined) return undefined;
  mkdirSync(options[name], { recursive: true });
  return path.resolve(options[name]);
};

const printed = path.join(temporary(), "printed.txt");
writeFileSync(printed, "");
const handle = openSync(printed, "r");
const buffer = Buffer.alloc(65_536);
const drain = () => {
  for (let size; (size = readSync(handle, buffer, 0, buffer.length, null)) > 0;) process.stdout.write(Buffer.from(buffer.subarray(0, size)));
};
const polling = setInterval(drain, 100);
process.stdout.on("error", () => { /* Nobody reads any more. */ });

let server;
let browser;
let status = 1;
const abort = (signal) => {
  server?.kill("SIGKILL");
  browser?.close().catch(() => {});
  process.exit(signal === "SIGINT" ? 130 : 143);
};
process.on("SIGINT", abort).on("SIGTERM", abort).on("exit", () => {
  server?.kill("SIGKILL");
  cleanUp();
});
const parent = process.ppid;
setInterval(() => { if (process.ppid !== parent) abort("SIGTERM"); }, 1000).unref();

try {
  [server, browser] = await Promise.all([
    startServer({
      userData: folderOf("user-data-dir"), extensions: folderOf("extensions-dir"), log: verbose,
      env: { BOTHWAYS_TEST_OUTPUT: printed, BOTHWAYS_TEST_ENTRY: path.resolve(options.extensionTestsPath) },
    }),
    startBrowser(),
  ]);
  const page = await (await browser.newContext({ viewport: { width: 1400, height: 900 } })).newPage();
  if (verbose) page.on("console", (message) => verbose(`[${message.type()}] ${message.text()}`));
  const limit = Number(process.env.BOTHWAYS_TIME_LIMIT ?? 300_000);
  const result = new Promise((resolve, reject) => {
    page.exposeFunction("codeAutomationLog", () => {}).catch(reject);
    page.exposeFunction("codeAutomationExit", (code) => resolve(code)).catch(reject);
    page.on("crash", () => reject(new Error("the page crashed")));
    // A host that ends itself would otherwise be waited for until the time is up.
    server.listen((line) => {
      const end = /Extension Host Process exited with code: (\S+), signal: (\S+)/.exec(line);
      if (end) setTimeout(() => reject(new Error(end[0])), 5000).unref();
    });
    setTimeout(() => reject(new Error(`no result after ${limit} ms`)), limit).unref();
  });
  await page.goto(address(server.port, {
    folder: words.find((word) => !word.startsWith("-")), extensions: developed, tests: fileURLToPath(new URL("entry.cjs", import.meta.url)),
  }));
  try {
    status = await result;
    if (status === 0 && !existsSync(`${printed}.done`)) {
      status = 1;
      console.error("launcher: the extension host ended before the tests did");
    }
  } finally {
    if (status !== 0 && process.env.BOTHWAYS_SHOT) await page.screenshot({ path: process.env.BOTHWAYS_SHOT }).catch(() => {});
  }
} catch (error) {
  console.error("launcher:", error.stack ?? error);
  if (server) console.error(`what the server said:\n${server.output().slice(-4000)}`);
} finally {
  await browser?.close().catch(() => {});
  await server?.stop();
}
clearInterval(polling);
drain();
closeSync(handle);
process.exit(status);
