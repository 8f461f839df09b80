// `npm run bench`: speed and memory of the built command line as whole processes (`-- --whole` alone), of its stages inside one
// (`--stages`), of a hall that grows (`--hall`), of a call of many (`--call`), and of studies after an edit (`--edits`).
// `-- --editor`: the language server beside others alone. Medians; figures differ from machine to machine, ratios in one run less
// so. Nothing here passes or fails.
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { benchEditor } from "./bench-editor.mjs";
import { EDITS } from "./edits.mjs";
import { callOf, hallOf, makeFolder, makeSetup } from "./make-setup.mjs";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
// What is measured is what stands in the tree, never an older build.
if (spawnSync(process.execPath, [path.join(root, ".scripts/build.mjs")], { stdio: "inherit" }).status !== 0) process.exit(1);
const command = path.join(root, "dist/cli.js");
const folder = mkdtempSync(path.join(tmpdir(), "bothways-bench-"));

const median = (list) => {
  const sorted = [...list].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
};
const right = (text, width) => String(text).padStart(width);
const fixed = (value, digits, width) => right(value === undefined ? "–" : value.toFixed(digits), width);

// Each process writes down its own peak memory (kB) and processor time (µs) when it ends, on a channel of its own, so that what it
// prints stays as it is. On a machine that does other work too, processor time is the steadier of the two times.
const measured = path.join(folder, "measured.cjs");
writeFileSync(measured, 'process.on("exit", () => require("node:fs").writeSync(3, JSON.stringify(process.resourceUsage())));\n');

/** Median time and processor time in ms, and peak memory in MB of a whole process, from its start to its end; a first run fills the disk's cache and does not count. */
function whole(runs, ...args) {
  const times = [];
  const worked = [];
  const peaks = [];
  for (let i = 0; i <= runs; i += 1) {
    const from = performance.now();
    const result = spawnSync(process.execPath, ["-r", measured, ...args], { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe", "pipe"] });
    const ms = performance.now() - from;
    // 1 means that something was found in the setup.
    if (result.status !== 0 && result.status !== 1) throw new Error(`${args.join(" ")}: status ${result.status}\n${result.stderr}`);
    if (i === 0) continue;
    times.push(ms);
    const used = JSON.parse(result.output[3]);
    worked.push((used.userCPUTime + used.systemCPUTime) / 1000);
    peaks.push(used.maxRSS / 1024);
  }
  return { ms: median(times), cpu: median(worked), mb: median(peaks) };
}

function wholeProcesses() {
  const thousand = path.join(folder, "thousand.bothways");
  writeFileSync(thousand, makeSetup(1000));
  const many = path.join(folder, "many");
  mkdirSync(many);
  for (const [name, text] of makeFolder(300)) writeFileSync(path.join(many, name), text);

  const rows = [
    ["node alone", whole(5, "-e", "0")],
    ["--version", whole(5, command, "--version")],
    ["check, five lines", whole(5, command, "check", path.join(root, "samples/october.bothways"))],
    ["check, the association's evening", whole(5, command, "check", path.join(root, "samples/association/autumn.bothways"))],
    ["check, 1,000 lines", whole(5, command, "check", thousand)],
    ["check, 300 setups in a folder", whole(2, command, "check", many)],
  ];
  const unit = rows[2][1];
  console.log(`${"\nwhole processes, medians".padEnd(35)}${right("ratio", 8)}${right("of CPU", 8)}${right("ms", 8)}${right("CPU ms", 8)}${right("peak MB", 9)}`);
  for (const [name, { ms, cpu, mb }] of rows) {
    console.log(`${name.padEnd(34)}${fixed(ms / unit.ms, 2, 8)}${fixed(cpu / unit.cpu, 2, 8)}${fixed(ms, 0, 8)}${fixed(cpu, 0, 8)}${fixed(mb, 0, 9)}`);
  }
}

/** What is measured inside this process, bundled from the tree. */
async function stagesOf() {
  const bundle = path.join(folder, "stages.mjs");
  await build({
    stdin: {
      contents: 'export { parse } from "./grammar/parse"; export { TOP_HEADS } from "./grammar/vocabulary"; export { bind } from "./server/model/bind"; export { readSetup } from "./server/model/setup"; export { study, studying } from "./server/study"; export { atOnce } from "./server/pieces";',
      resolveDir: root, loader: "ts",
    },
    bundle: true, platform: "node", format: "esm", outfile: bundle, loader: { ".bothways": "text" }, logLevel: "error",
  });
  return import(pathToFileURL(bundle).href);
}

/** Median time and processor time of one study in ms, of a text that was never read before; a first run warms up and does not count. */
function warm(study, text) {
  let fresh = 0;
  const once = () => {
    const [from, used] = [performance.now(), process.cpuUsage()];
    study({ read: () => ({ text: `${text}# ${(fresh += 1)}\n` }) }, "x");
    const { user, system } = process.cpuUsage(used);
    return { ms: performance.now() - from, cpu: (user + system) / 1000 };
  };
  once();
  const runs = Array.from({ length: 5 }, once);
  return { ms: median(runs.map((run) => run.ms)), cpu: median(runs.map((run) => run.cpu)) };
}

/** A hall of 20 loudspeakers and 20 microphones as its seats grow: one study, warm, and `check` with its mends as a whole process. */
async function hall() {
  const { study } = await stagesOf();
  const rows = [50, 500, 5000].map((seats) => {
    const text = hallOf({ seats, speakers: 20, mics: 20 });
    const file = path.join(folder, `hall-${seats}.bothways`);
    writeFileSync(file, text);
    return { seats, ...warm(study, text), whole: whole(1, command, "check", file) };
  });
  const [base] = rows;
  console.log(`${"\na hall of 20 loudspeakers, 20 microphones".padEnd(45)}one study, warm              check, mends proven`);
  console.log(`${right("seats", 10)}${"".padEnd(24)}${["growth", "ms", "CPU ms", "growth", "ms", "CPU ms", "peak MB"].map((name) => right(name, 9)).join("")}`);
  for (const { seats, ms, cpu, whole: all } of rows) {
    console.log(`${right(seats.toLocaleString("en"), 10)}${"".padEnd(24)}${fixed(cpu / base.cpu, 2, 9)}${fixed(ms, 0, 9)}${fixed(cpu, 0, 9)}${fixed(all.cpu / base.whole.cpu, 2, 9)}${fixed(all.ms, 0, 9)}${fixed(all.cpu, 0, 9)}${fixed(all.mb, 0, 9)}`);
  }
  console.log("Growth is of processor time, to the fewest seats.");
}

/** A call of many joined devices over many items of a programme: one study, warm. */
async function call() {
  const { study } = await stagesOf();
  const rows = [[5, 12], [40, 1], [40, 12]].map(([joins, items]) => {
    return { joins, items, ...warm(study, callOf({ joins, items })) };
  });
  console.log(`${"\na call, one study, warm".padEnd(35)}${["growth", "ms", "CPU ms"].map((name) => right(name, 9)).join("")}`);
  for (const { joins, items, ms, cpu } of rows) {
    console.log(`${`${joins} joined devices, ${items} ${items === 1 ? "item" : "items"}`.padEnd(34)}${fixed(cpu / rows[0].cpu, 2, 9)}${fixed(ms, 0, 9)}${fixed(cpu, 0, 9)}`);
  }
}

/** After each kind of edit: processor time of a study that takes over what holds, beside one made anew. */
async function edits() {
  const { studying, atOnce } = await stagesOf();
  const timed = (text, before) => {
    const used = process.cpuUsage();
    const study = atOnce(studying({ read: () => ({ text }) }, "x", before));
    const { user, system } = process.cpuUsage(used);
    return { study, cpu: (user + system) / 1000 };
  };
  const texts = [
    ["100 lines", makeSetup(100)], ["1,000 lines", makeSetup(1000)], ["500 seats, 20 × 20", hallOf({ seats: 500, speakers: 20, mics: 20 })], ["40 joins, 12 items", callOf({ joins: 40, items: 12 })],
  ];
  const columns = texts.map(([, text]) => {
    let { study } = timed(text);
    const anew = median([1, 2, 3].map((turn) => timed(`${text}# ${turn}\n`).cpu));
    const after = Object.values(EDITS).map((edit) => {
      const runs = [1, 2, 3, 4, 5].flatMap((turn) => {
        const changed = edit(text, turn);
        if (changed === undefined) return [];
        const one = timed(changed, study);
        study = one.study;
        return turn === 1 ? [] : [one.cpu];
      });
      return runs.length === 0 ? undefined : median(runs);
    });
    return [anew, ...after];
  });
  console.log(`${"\na study after an edit, CPU ms".padEnd(35)}${texts.map(([name]) => right(name, 20)).join("")}`);
  ["made anew", ...Object.keys(EDITS)].forEach((name, i) => {
    console.log(`${name.padEnd(34)}${columns.map((column) => right(column[i] === undefined ? "–" : `${fixed(column[i], 0, 0)} (${(column[i] / column[0]).toFixed(2)})`, 20)).join("")}`);
  });
}

/** The stages apart, in this process, warm; and how the time for a line grows with the lines. */
async function stages() {
  const { parse, TOP_HEADS, bind, readSetup, study } = await stagesOf();
  let fresh = 0;
  // A text that was never read before, so that nothing is remembered from the run before.
  const changed = (text) => ({ read: () => ({ text: `${text}# ${(fresh += 1)}\n` }) });
  const time = (runs, once) => median(Array.from({ length: runs }, () => {
    const from = performance.now();
    once();
    return performance.now() - from;
  }));
  const measure = (lines) => {
    const text = makeSetup(lines);
    const tree = parse(text, { topHeads: TOP_HEADS });
    return {
      lines,
      parse: time(10, () => parse(text, { topHeads: TOP_HEADS })),
      bind: time(10, () => bind(tree, "x")),
      read: time(10, () => readSetup(changed(text), "x")),
      // A study grows faster than its text: above 1,000 lines one run has to do, and the largest is left out.
      study: lines <= 1000 ? time(10, () => study(changed(text), "x")) : lines <= 3000 ? time(1, () => study(changed(text), "x")) : undefined,
    };
  };
  measure(300);
  const rows = [100, 300, 1000, 3000, 10000].map(measure);
  const [base] = rows;
  // Time for a line, beside that of the shortest text: 1.0 all the way down is linear.
  const growth = (row, stage) => (row[stage] === undefined ? undefined : (row[stage] / row.lines) / (base[stage] / base.lines));
  const names = ["parse", "bind", "read", "study"];
  const head = (text) => names.map((name) => right(name, 8)).join("") + text;
  console.log(`${"\none process, warm, medians of 10".padEnd(35)}time a line, ratio to 100 lines   ms                              µs a line`);
  console.log(`${"lines".padStart(10).padEnd(34)}${head("")}${head("")}${right("parse + bind", 14)}`);
  for (const row of rows) {
    const cells = [...names.map((name) => fixed(growth(row, name), 2, 8)), ...names.map((name) => fixed(row[name], name === "study" ? 0 : 2, 8))];
    console.log(`${right(row.lines.toLocaleString("en"), 10).padEnd(34)}${cells.join("")}${fixed(((row.parse + row.bind) * 1000) / row.lines, 1, 14)}`);
  }
  console.log("“read” is files to setup: parse, bind and resolve; “study” is read and judged, mends not proven. 3,000 lines studied once.");
}

const PARTS = { "--whole": wholeProcesses, "--stages": stages, "--hall": hall, "--call": call, "--edits": edits };
const asked = Object.keys(PARTS).filter((flag) => process.argv.includes(flag));
const editor = process.argv.includes("--editor");
try {
  console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? "unknown"}`);
  for (const flag of asked.length > 0 || editor ? asked : Object.keys(PARTS)) await PARTS[flag]();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
if (editor) await benchEditor();
