// `npm run bench`: speed and memory of the built command line as whole processes, and of its stages inside one. Medians; figures
// differ from machine to machine, ratios in one run less so. Nothing here passes or fails.
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { makeSetup } from "./make-setup.mjs";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
spawnSync(process.execPath, [path.join(root, ".scripts/build.mjs")], { stdio: "inherit" });
const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const folder = mkdtempSync(path.join(tmpdir(), "bothways-bench-"));

// The command runs inside a process that writes down its own peak memory when it ends.
const measured = path.join(folder, "measured.cjs");
writeFileSync(measured, `process.on("exit", () => require("node:fs").writeSync(2, "\\nPEAK " + process.resourceUsage().maxRSS + "\\n"));\n`);

function whole(args, runs) {
  const times = [];
  const peaks = [];
  for (let i = 0; i <= runs; i += 1) {
    const from = process.hrtime.bigint();
    const result = spawnSync(process.execPath, ["-r", measured, path.join(root, "dist/cli.js"), ...args], { encoding: "utf8", maxBuffer: 1 << 28 });
    const ms = Number(process.hrtime.bigint() - from) / 1e6;
    if (result.status === 2 || result.status === null) throw new Error(result.stderr);
    if (i > 0) {
      times.push(ms);
      peaks.push(Number(/PEAK (\d+)/.exec(result.stderr)?.[1] ?? NaN) / 1024);
    }
  }
  return { ms: median(times), mb: median(peaks) };
}

try {
  const thousand = path.join(folder, "thousand.bothways");
  writeFileSync(thousand, makeSetup(1000));
  const many = path.join(folder, "many");
  mkdirSync(many);
  writeFileSync(path.join(many, "room.bothways"), "room hall 9.2 m by 6.4 m by 3.1 m {\n  noise 38 dBA\n  chairs 24 in 4 rows\n  outlet left-wall at left\n}\n");
  writeFileSync(path.join(many, "kit.bothways"), "device laptop is laptop\ndevice lapel is lapel-microphone\ndevice box is battery-loudspeaker\n");
  for (let i = 0; i < 300; i += 1) {
    writeFileSync(path.join(many, `evening-${i}.bothways`), `setup "Evening ${i}"\nuse "room.bothways"\nuse "kit.bothways"\nonline ${2 + (i % 20)} people\ninternet venue { up ${3 + (i % 9)} Mb/s }\ntalker Ines at lectern\nplace laptop near lectern\nplace lapel on Ines\nplace box near front\ncable from lapel.plug to laptop.headset\nradio from laptop.bluetooth to box.bluetooth\nmains from left-wall to laptop\njoin laptop {\n  sends sound from lapel\n  plays sound on box\n}\n`);
  }
  const rows = [
    ["node alone", { ms: median([1, 2, 3].map(() => { const t = process.hrtime.bigint(); spawnSync(process.execPath, ["-e", "0"]); return Number(process.hrtime.bigint() - t) / 1e6; })), mb: NaN }],
    ["check, five lines", whole(["check", path.join(root, "samples/october.bothways")], 5)],
    ["check, association's evening", whole(["check", path.join(root, "samples/association/autumn.bothways")], 5)],
    ["check, 1,000 lines", whole(["check", thousand], 3)],
    ["check, folder of 300 setups", whole(["check", many], 2)],
  ];
  const base = rows[1][1].ms;
  console.log("\nwhole processes, medians            ratio      ms      peak MB");
  for (const [name, { ms, mb }] of rows) console.log(`${name.padEnd(34)} ${(ms / base).toFixed(2).padStart(6)} ${ms.toFixed(0).padStart(8)} ${Number.isNaN(mb) ? "       –" : mb.toFixed(0).padStart(8)}`);

  // Stages, in one warmed process.
  const entry = path.join(folder, "stages.mjs");
  await build({
    stdin: { contents: 'export { parse } from "./grammar/parse"; export { TOP_HEADS } from "./grammar/vocabulary"; export { bind } from "./server/model/bind"; export { study } from "./server/study";', resolveDir: root, loader: "ts" },
    bundle: true, platform: "node", format: "esm", outfile: entry, loader: { ".bothways": "text" }, logLevel: "error",
  });
  const { parse, TOP_HEADS, bind, study } = await import(pathToFileURL(entry).href);
  const time = (run) => { const t = performance.now(); run(); return performance.now() - t; };
  console.log("\nstages, warm, medians               parse     bind    study   µs a line (parse and bind)");
  for (const lines of [100, 1000, 10000]) {
    const text = makeSetup(lines);
    const runs = lines > 1000 ? 3 : 7;
    let tree = parse(text, { topHeads: TOP_HEADS });
    const p = [];
    const b = [];
    const s = [];
    for (let i = 0; i < runs; i += 1) {
      p.push(time(() => { tree = parse(text, { topHeads: TOP_HEADS }); }));
      b.push(time(() => bind(tree, "x")));
      // A new comment each time, so that nothing is remembered from the run before.
      if (lines <= 1000) s.push(time(() => study({ read: () => ({ text: `${text}# ${i}\n` }) }, "x")));
    }
    console.log(`${String(lines).padStart(6)} lines ${median(p).toFixed(1).padStart(25)} ${median(b).toFixed(1).padStart(8)} ${s.length ? median(s).toFixed(0).padStart(8) : "       –"} ${(((median(p) + median(b)) * 1000) / lines).toFixed(0).padStart(8)}`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
