// `npm run bench -- --editor`: our language server beside general-purpose ones over the same protocol, in one run, on texts of equal
// length, turn about. Figures differ from machine to machine, ratios in one run less so. Nothing here passes or fails.
import { build } from "esbuild";
import { execFileSync, spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync, mkdtempSync } from "node:fs";
import { createRequire } from "node:module";
import { cpus, loadavg, tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { makeSetup } from "./make-setup.mjs";

const { createProtocolConnection, StreamMessageReader, StreamMessageWriter } = createRequire(import.meta.url)("vscode-languageserver-protocol/node");
const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

/** Measured beside ours: installed when they are missing, into a folder that belongs to nobody, never into the project. */
const OTHERS = { "vscode-langservers-extracted": "4.10.0", "yaml-language-server": "1.22.0" };
const others = path.join(root, "out", "bench-servers");

function install() {
  const there = Object.entries(OTHERS).every(([name, version]) => {
    const about = path.join(others, "node_modules", name, "package.json");
    return existsSync(about) && JSON.parse(readFileSync(about, "utf8")).version === version;
  });
  if (there) return;
  mkdirSync(others, { recursive: true });
  writeFileSync(path.join(others, "package.json"), '{ "private": true }\n');
  console.log(`Installing into ${path.relative(root, others)}, for comparison only: ${Object.keys(OTHERS).join(", ")} …`);
  const names = Object.entries(OTHERS).map(([name, version]) => `${name}@${version}`);
  execFileSync("npm", ["install", "--no-audit", "--no-fund", "--ignore-scripts", "--no-save", ...names], { cwd: others, stdio: "inherit", shell: process.platform === "win32" });
}

const quantile = (list, part) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(part * list.length))];
const right = (text, width) => String(text).padStart(width);
const fixed = (value, digits, width) => right(value === undefined ? "–" : value.toFixed(digits), width);
const sleep = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });

/** A schema, so that the servers that have no language of their own have something to say. */
const WORDS = Array.from({ length: 300 }, (_, i) => `word-${i + 1}`);
const SCHEMA = { type: "object", properties: Object.fromEntries(WORDS.map((word) => [word, { type: "string", description: `What ${word} means, in a sentence.` }])), additionalProperties: { type: "string" } };

/** `lines` lines of `size` characters in all: a head and an end, and between them lines filled up to equal length. */
function filled(lines, size, head, line, end) {
  const count = lines - head.length - end.length;
  const rest = size - [...head, ...end].join("\n").length - 2;
  const body = Array.from({ length: count }, (_, i) => {
    const bare = line(i, "");
    const target = Math.round(((i + 1) * rest) / count) - Math.round((i * rest) / count) - 1;
    return line(i, "x".repeat(Math.max(1, target - bare.length)));
  });
  return [...head, ...body, ...end];
}

/**
 * What is measured: the server, a text of as many lines and characters, the line that changes (each form of it is another text, and
 * every second one has a mistake where the language has no other way to change what is found), a line to write on, a place to hover.
 */
function contestants(lines) {
  const setup = makeSetup(lines).trimEnd().split("\n");
  const size = setup.join("\n").length;
  const noise = setup.findIndex((line) => line.startsWith("  noise"));
  const uplink = setup.findIndex((line) => line.startsWith("internet venue"));
  // Words of the schema on the first lines, for the hover; others after them, so that at any length there are words left to complete.
  const words = (i) => `word-${i < 80 ? i + 1 : i + 1001}`;
  const half = Math.floor(lines / 2);
  return [
    {
      name: "Bothways", language: "bothways", ending: ".bothways", wait: 150, command: [path.join(root, "dist/server.js"), "--stdio"],
      text: setup, change: { line: noise, forms: [36, 37, 38, 39, 40].map((dBA) => setup[noise].replace(/\d+ dBA/, `${dBA} dBA`)) },
      // What hangs on the uplink is little, and on a comment nothing.
      other: { line: uplink, forms: [40, 41, 42, 43].map((rate) => setup[uplink].replace(/up \d+/, `up ${rate}`)) },
      idle: { line: noise, forms: ["one", "two", "three"].map((word) => `${setup[noise]}  # ${word}`) },
      write: { before: setup.findIndex((line) => line.startsWith("internet venue")), forms: ["cable from m", "cable from mi"] },
      hover: (() => {
        const line = setup.findIndex((one) => one.startsWith("place beamer"));
        return { line, character: setup[line].indexOf("beamer") + 2 };
      })(),
    },
    {
      name: "JSON", language: "json", ending: ".json", wait: 500, command: [bin("vscode-langservers-extracted", "vscode-json-language-server"), "--stdio"],
      settings: { json: { validate: { enable: true }, schemas: [{ fileMatch: ["*.json"], url: "bench:/schema", schema: SCHEMA }] } },
      text: filled(lines, size, ["{"], (i, fill) => `  "${words(i)}": "${fill}",`, ['  "last": ""', "}"]),
      change: { line: half, forms: ['  "changed": "a",', '  "changed": "a,'] }, write: { before: half + 5, forms: ['  "word', '  "word-'] }, hover: { line: 20, character: 5 },
    },
    {
      name: "CSS", language: "css", ending: ".css", wait: 500, command: [bin("vscode-langservers-extracted", "vscode-css-language-server"), "--stdio"],
      settings: Object.fromEntries(["css", "scss", "less"].map((name) => [name, { validate: true, lint: {}, completion: {}, hover: {} }])),
      text: filled(lines, size, [".hall {"], (i, fill) => (i % 6 === 5 ? `} .word-${i} { /* ${fill} */` : `  --${words(i)}: "${fill}";`), ["}"]),
      change: { line: half, forms: ["  color: red;", "  colour: red;"] }, write: { before: half + 5, forms: ["  co", "  col"] }, hover: { line: 6, character: 6 },
    },
    {
      name: "YAML", language: "yaml", ending: ".yaml", wait: 200, command: [bin("yaml-language-server", "yaml-language-server"), "--stdio"],
      settings: { yaml: { validate: true, hover: true, completion: true, schemaStore: { enable: false }, schemas: { [pathToFileURL(path.join(scratch, "schema.json")).href]: "*.yaml" } } },
      text: filled(lines, size, ["first: a"], (i, fill) => `${words(i)}: "${fill}"`, ['last: ""']),
      change: { line: half, forms: ['changed: "a"', 'changed: "a'] }, write: { before: half + 5, forms: ["word", "word-"] }, hover: { line: 20, character: 2 },
    },
  ];
}
const bin = (pkg, name) => path.join(others, "node_modules", pkg, "bin", name);

class Client {
  constructor(one, flags = []) {
    this.one = one;
    this.waiting = [];
    this.version = 1;
    this.uri = pathToFileURL(path.join(scratch, `measured${one.ending}`)).href;
    this.lines = [...one.text];
    this.child = spawn(process.execPath, [...flags, ...one.command], { stdio: ["pipe", "pipe", "ignore"], cwd: scratch });
    this.ended = new Promise((resolve) => { this.child.on("exit", resolve); });
    this.connection = createProtocolConnection(new StreamMessageReader(this.child.stdout), new StreamMessageWriter(this.child.stdin));
    this.connection.onNotification("textDocument/publishDiagnostics", (params) => {
      if (params.uri !== this.uri || (params.version !== undefined && params.version !== null && params.version !== this.version)) return;
      for (const go of this.waiting.splice(0)) go(params.diagnostics);
    });
    const setting = (item) => (item.section ?? "").split(".").reduce((at, key) => at?.[key], one.settings ?? {}) ?? null;
    this.connection.onRequest("workspace/configuration", ({ items }) => items.map(setting));
    this.connection.onRequest("client/registerCapability", () => null);
    this.connection.onRequest("workspace/codeLens/refresh", () => null);
    this.connection.onUnhandledNotification(() => undefined);
    this.connection.listen();
  }

  async initialise() {
    await this.connection.sendRequest("initialize", {
      processId: process.pid, rootUri: pathToFileURL(scratch).href, workspaceFolders: [{ uri: pathToFileURL(scratch).href, name: "measured" }],
      initializationOptions: { provideFormatter: true, handledSchemaProtocols: ["file"] },
      capabilities: {
        workspace: { configuration: true, didChangeConfiguration: {}, workspaceFolders: true, workspaceEdit: { documentChanges: true } },
        textDocument: {
          publishDiagnostics: { versionSupport: true, relatedInformation: true }, completion: { completionItem: { snippetSupport: false, documentationFormat: ["markdown"] } },
          hover: { contentFormat: ["markdown"] }, codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } } }, synchronization: {},
        },
      },
    });
  }

  async open() {
    await this.connection.sendNotification("initialized", {});
    if (this.one.settings !== undefined) await this.connection.sendNotification("workspace/didChangeConfiguration", { settings: this.one.settings });
    // Settings are asked for and applied by and by.
    await sleep(300);
    const told = this.diagnostics();
    await this.connection.sendNotification("textDocument/didOpen", { textDocument: { uri: this.uri, languageId: this.one.language, version: 1, text: `${this.lines.join("\n")}\n` } });
    await told;
  }

  /** The next diagnostics of the text as it is then. */
  diagnostics() {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`${this.one.name} tells no diagnostics of version ${this.version}`)), 60_000);
      this.waiting.push((given) => {
        clearTimeout(timer);
        resolve(given);
      });
    });
  }

  replace(line, text) {
    const range = { start: { line, character: 0 }, end: { line, character: this.lines[line].length } };
    this.lines[line] = text;
    return this.change(range, text);
  }

  insert(line) {
    this.lines.splice(line, 0, "");
    return this.change({ start: { line, character: 0 }, end: { line, character: 0 } }, "\n");
  }

  change(range, text) {
    this.version += 1;
    return this.connection.sendNotification("textDocument/didChange", { textDocument: { uri: this.uri, version: this.version }, contentChanges: [{ range, text }] });
  }

  ask(method, position) {
    return this.connection.sendRequest(method, { textDocument: { uri: this.uri }, position });
  }

  /** MB that the process holds now. */
  memory() {
    try {
      return Number(execFileSync("ps", ["-o", "rss=", "-p", String(this.child.pid)], { encoding: "utf8" })) / 1024;
    } catch {
      return undefined;
    }
  }

  /** ms of processor time that the process has had, where the system tells (in steps of 10). */
  processor() {
    try {
      const [, , ...fields] = readFileSync(`/proc/${this.child.pid}/stat`, "utf8").replace(/^.*\)/, "x x").split(" ");
      return (Number(fields[11]) + Number(fields[12])) * 10;
    } catch {
      return undefined;
    }
  }

  async stop() {
    await this.connection.sendRequest("shutdown");
    await this.connection.sendNotification("exit");
    await this.ended;
    this.connection.dispose();
  }
}

const timed = async (what) => {
  const from = performance.now();
  const result = await what();
  return { ms: performance.now() - from, result };
};

/** ms from the start of a server's process to its answer to `initialize`. */
async function start(one) {
  let client;
  const { ms } = await timed(async () => {
    client = new Client(one);
    await client.initialise();
  });
  await client.stop();
  return ms;
}

/** Every server does one thing before any does the next, so that whatever else the machine does meets all of them alike. */
async function measure(all, runs) {
  const clients = all.map((one) => new Client(one));
  const results = all.map(() => ({}));
  for (const client of clients) await client.initialise();
  for (const [i, client] of clients.entries()) results[i].opened = (await timed(() => client.open())).ms;

  /** Times of one thing, done turn about; the first few warm up. */
  const turns = async (name, once) => {
    const times = all.map(() => []);
    for (let run = 0; run < runs + WARM; run += 1) {
      for (const [i, client] of clients.entries()) {
        const ms = await once(client, run, results[i]);
        if (run >= WARM) times[i].push(ms);
      }
    }
    times.forEach((list, i) => { results[i][name] = list; });
  };
  const before = clients.map((client) => client.processor());
  const changing = (which) => async (client, run) => (await timed(async () => {
    const { line, forms } = client.one[which] ?? client.one.change;
    const told = client.diagnostics();
    await client.replace(line, forms[(run + 1) % forms.length]);
    await told;
  })).ms;
  await turns("changed", changing("change"));
  clients.forEach((client, i) => {
    const [from, to] = [before[i], client.processor()];
    results[i].processor = from === undefined || to === undefined ? undefined : (to - from) / (runs + WARM);
  });

  await turns("changedElsewhere", changing("other"));
  await turns("changedIdly", changing("idle"));

  const letter = async (client, form, result) => {
    const line = client.one.write.before;
    const { ms, result: list } = await timed(async () => {
      await client.replace(line, form);
      return client.ask("textDocument/completion", { line, character: form.length });
    });
    result.offered = (Array.isArray(list) ? list : list?.items ?? []).length;
    return ms;
  };
  /** Does something, then waits for the diagnostics of what it wrote: whose turn is over does nothing any more. */
  const inPeace = async (client, what) => {
    const told = client.diagnostics();
    const ms = await what(client.one.write.forms);
    await told;
    return ms;
  };
  for (const client of clients) {
    const { change: { line, forms }, write } = client.one;
    const told = client.diagnostics();
    // What was a mistake is none while one writes elsewhere.
    await client.replace(line, forms[0]);
    await client.insert(write.before);
    await told;
  }
  await turns("quick", (client, _run, result) => inPeace(client, async ([short, long]) => {
    const times = [];
    for (const form of [short, long, short, long, short]) times.push(await letter(client, form, result));
    return quantile(times, 0.5);
  }));
  await turns("slow", async (client, _run, result) => {
    // Its wait is over and what it does then has begun.
    await client.replace(client.one.write.before, client.one.write.forms[0]);
    await sleep(client.one.wait + 30);
    return inPeace(client, ([, long]) => letter(client, long, result));
  });
  for (const client of clients) await inPeace(client, () => client.replace(client.one.write.before, ""));
  await turns("hovers", async (client, _run, result) => {
    const { ms, result: shown } = await timed(() => client.ask("textDocument/hover", client.one.hover));
    result.shown = shown !== null;
    return ms;
  });
  for (const [i, client] of clients.entries()) {
    results[i].memory = client.memory();
    await client.stop();
  }
  return results;
}
/** Runs that do not count. */
const WARM = 5;

async function compare(lines, runs) {
  const all = contestants(lines);
  const started = all.map(() => []);
  // The first fills the disk's cache.
  for (let run = 0; run <= 5; run += 1) for (const [i, one] of all.entries()) started[i].push(await start(one));
  const results = (await measure(all, runs)).map((result, i) => ({ one: all[i], started: quantile(started[i].slice(1), 0.5), ...result }));
  const row = (name, figure, digits = 1) => {
    const values = results.map(figure);
    const ratios = values.slice(1).map((value) => (value === undefined || values[0] === undefined || value <= 0 ? undefined : values[0] / value));
    console.log(`${name.padEnd(58)}${values.map((value) => fixed(value, digits, 10)).join("")}   ${ratios.map((ratio) => fixed(ratio, 2, 8)).join("")}`);
  };
  const both = (name, figure, digits) => {
    row(`${name}, p50 ms`, (r) => figure(r, 0.5), digits);
    row(`${name}, p95 ms`, (r) => figure(r, 0.95), digits);
  };
  console.log(`\n${lines.toLocaleString("en")} lines of ${all.map((one) => `${one.name} ${one.text.join("\n").length.toLocaleString("en")}`).join(", ")} characters; ${runs} runs turn about`);
  console.log(`${"".padEnd(58)}${all.map((one) => right(one.name, 10)).join("")}   ${all.slice(1).map((one) => right(`/${one.name}`, 8)).join("")}`);
  row("start of the process to initialised, ms", (r) => r.started, 0);
  row("opened to first diagnostics, ms (300 of them a pause)", (r) => r.opened, 0);
  both("change to diagnostics (ours: the noise in the hall)", (r, part) => quantile(r.changed, part));
  both(`  less what each waits (${all.map((one) => one.wait).join(", ")})`, (r, part) => quantile(r.changed, part) - r.one.wait);
  row("  processor time of a change, ms", (r) => r.processor);
  both("the same (ours: the uplink)", (r, part) => quantile(r.changedElsewhere, part));
  both("the same (ours: a comment)", (r, part) => quantile(r.changedIdly, part));
  both("letter to completion, middle of five at once", (r, part) => quantile(r.quick, part));
  both("letter to completion, as it begins on the last change", (r, part) => quantile(r.slow, part));
  both("hover", (r, part) => quantile(r.hovers, part), 2);
  row("memory afterwards, MB", (r) => r.memory, 0);
  console.log(`offered: ${results.map((r) => `${r.one.name} ${r.offered}`).join(", ")}; hover shows something: ${results.map((r) => `${r.one.name} ${r.shown ? "yes" : "no"}`).join(", ")}`);
}

/** The room of the house that a file of the source belongs to. */
function roomOf(source) {
  if (source.startsWith("node_modules/")) return "packages";
  const [, floor = "", room = ""] = /^(grammar|server)\/([^/]+)/.exec(source) ?? [];
  if (floor === "grammar") return "grammar";
  if (room.endsWith(".ts")) return room.startsWith("main-") ? "protocol" : "judging (study, judge, verdicts)";
  if (["protocol", "workspace", "disk"].includes(room)) return "protocol, workspace, disk";
  return room === "" ? "other" : room;
}

/**
 * Where the time of our server goes: self time by room, from the processor profile of a bundle whose modules are marked. Samples are spaced
 * by the clock, so on a busy machine the seconds hold what others took as well; the shares do not suffer by it.
 */
async function profile(lines, what, work) {
  const bundle = path.join(scratch, "server.cjs");
  await build({
    absWorkingDir: root, entryPoints: ["server/main-node.ts"], outfile: bundle, bundle: true, platform: "node", format: "cjs", target: "node20",
    loader: { ".bothways": "text" }, logLevel: "error",
  });
  // A bundle that is not minified names each module in a comment before it.
  const rooms = [];
  let room = "other";
  for (const line of readFileSync(bundle, "utf8").split("\n")) {
    const named = /^\s*\/\/ ((?:node_modules|grammar|server)\/\S+)$/.exec(line)?.[1];
    if (named !== undefined) room = roomOf(named);
    rooms.push(room);
  }
  const [ours] = contestants(lines);
  const profiles = path.join(scratch, `profile-${what.replace(/\W+/g, "-")}`);
  const client = new Client({ ...ours, command: [bundle, "--stdio"] }, ["--cpu-prof", `--cpu-prof-dir=${profiles}`]);
  await client.initialise();
  await client.open();
  await work(client, ours);
  await client.stop();
  const [file] = readdirSync(profiles);
  const { nodes, samples, timeDeltas } = JSON.parse(readFileSync(path.join(profiles, file), "utf8"));
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const spent = new Map();
  let sum = 0;
  samples.forEach((id, i) => {
    const { functionName, url, lineNumber } = byId.get(id).callFrame;
    if (functionName === "(idle)") return;
    const where = functionName === "(garbage collector)" ? "garbage collector" : url.endsWith("server.cjs") ? rooms[lineNumber] ?? "other" : "Node";
    spent.set(where, (spent.get(where) ?? 0) + timeDeltas[i]);
    sum += timeDeltas[i];
  });
  console.log(`\nwhere the time goes, ${lines.toLocaleString("en")} lines, ${what}: ${(sum / 1e6).toFixed(1)} s at work by the clock, the start of the process among it`);
  for (const [where, time] of [...spent].sort((a, b) => b[1] - a[1])) if (time / sum >= 0.002) console.log(`  ${where.padEnd(34)}${fixed((100 * time) / sum, 1, 6)} %${fixed(time / 1000, 0, 8)} ms`);
}

let scratch = "";

/** The whole section. */
export async function benchEditor() {
  install();
  scratch = mkdtempSync(path.join(tmpdir(), "bothways-bench-editor-"));
  writeFileSync(path.join(scratch, "schema.json"), JSON.stringify(SCHEMA));
  try {
    console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? "unknown"}, load ${loadavg()[0].toFixed(1)} before`);
    console.log(`Beside ${Object.entries(OTHERS).map(([name, version]) => `${name} ${version}`).join(", ")}; the columns after the figures are ours over theirs.`);
    await compare(100, 20);
    await compare(1000, 6);
    await profile(1000, "twelve changes", async (client, { change }) => {
      for (let i = 1; i <= 12; i += 1) {
        const told = client.diagnostics();
        await client.replace(change.line, change.forms[i % change.forms.length]);
        await told;
      }
    });
    await profile(1000, "mends asked for, for the whole text", (client) => client.connection.sendRequest("textDocument/codeAction", {
      textDocument: { uri: client.uri }, range: { start: { line: 0, character: 0 }, end: { line: client.lines.length, character: 0 } }, context: { diagnostics: [] },
    }));
    console.log(`\nload ${loadavg()[0].toFixed(1)} afterwards`);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
