// `npm run package`: builds, and packs the extension into out/bothways-VERSION.vsix. What is in the package is listed here and
// nowhere else: a file that nobody listed is not in it. `--built` packs what is built already, `--out FILE` says where to.
import { createVSIX } from "@vscode/vsce";
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import path from "node:path";

/** Files and whole folders, from the root of the project. */
const PACKED = [
  "CHANGELOG.md", "LICENSE",
  "dist/client.js", "dist/client.js.LEGAL.txt", "dist/server.js", "dist/server.js.LEGAL.txt", 
  "dist/client-browser.js", "dist/client-browser.js.LEGAL.txt", "dist/server-browser.js", "dist/server-browser.js.LEGAL.txt",
  "dist/preview.js", "dist/preview.css", "dist/NOTICES.txt",
  "grammar/bothways.tmLanguage.json", "grammar/REFERENCE.md",
  "client/assets",
];
/** What of the project's own package.json concerns an editor. */
const KEPT = [
  "name", "displayName", "description", "version", "license", "publisher", "icon", "categories", "keywords", "main", "browser", "activationEvents", "capabilities", "contributes",
];
const MOST_BYTES = 2 * 1024 * 1024;

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const { values } = parseArgs({ options: { built: { type: "boolean", default: false }, out: { type: "string" } } });
if (!values.built && spawnSync(process.execPath, [path.join(root, ".scripts/build.mjs")], { stdio: "inherit" }).status !== 0) {
  console.error("The build did not succeed; what is wrong stands above.");
  process.exit(1);
}

mkdirSync(path.join(root, "out"), { recursive: true });
const stage = mkdtempSync(path.join(root, "out", "package-"));
for (const file of PACKED) {
  const from = path.join(root, file);
  // A bundle that holds nobody else's code has no list of licences.
  if (!existsSync(from) && file.endsWith(".LEGAL.txt")) continue;
  const to = path.join(stage, file);
  mkdirSync(path.dirname(to), { recursive: true });
  cpSync(from, to, { recursive: true });
}
cpSync(path.join(root, "client/README.md"), path.join(stage, "README.md"));
const own = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
const manifest = { ...Object.fromEntries(KEPT.map((key) => [key, own[key]])), engines: { vscode: own.engines.vscode } };
writeFileSync(path.join(stage, "package.json"), `${JSON.stringify(manifest, null, 2)}\n`);

// All that is staged is packed; the packer warns where it finds no such file.
writeFileSync(path.join(stage, ".vscodeignore"), "");

const vsix = values.out === undefined ? path.join(root, "out", `bothways-${own.version}.vsix`) : path.resolve(values.out);
rmSync(vsix, { force: true });
await createVSIX({ cwd: stage, packagePath: vsix, dependencies: false, allowMissingRepository: true, skipLicense: false });
rmSync(stage, { recursive: true, force: true });
const { size } = statSync(vsix);
console.log(`${path.relative(root, vsix)}: ${(size / 1024).toFixed(0)} KiB`);
if (size > MOST_BYTES) {
  console.error(`That is more than ${MOST_BYTES / 1024} KiB: see what is listed in .scripts/package.mjs.`);
  process.exit(1);
}
