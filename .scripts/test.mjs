// Runs everything that must hold: types, linter, floors, build, tests. Ends with `N passed, N failed`.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const bin = (name) => path.join(root, "node_modules", ".bin", name);
const run = (title, command, args) => {
  console.log(`\n— ${title}`);
  const windows = process.platform === "win32";
  return spawnSync(command, args, { cwd: root, stdio: "inherit", shell: windows }).status === 0;
};

let passed = 0;
let failed = 0;
const count = (ok) => (ok ? passed++ : failed++);

count(run("types", bin("tsc"), ["--noEmit", "-p", "tsconfig.json"]));
count(run("types of the preview's page", bin("tsc"), ["--noEmit", "-p", "client/preview/tsconfig.json"]));
count(run("linter", bin("eslint"), ["--config", ".scripts/eslint.config.mjs", "grammar", "server", "client", "tests"]));
count(run("floors", bin("depcruise"), ["--config", ".scripts/floors.cjs", "grammar", "server", "client"]));
count(run("build", process.execPath, [".scripts/build.mjs"]));

mkdirSync(path.join(root, "out"), { recursive: true });
const report = path.join(root, "out", "tests.json");
const ok = run("tests", bin("vitest"), [
  "run", "--config", ".scripts/vitest.config.mjs", "--reporter=default", "--reporter=json", `--outputFile.json=${report}`,
]);
let skipped = 0;
try {
  const result = JSON.parse(readFileSync(report, "utf8"));
  passed += result.numPassedTests;
  failed += result.numFailedTests;
  skipped += result.numPendingTests + result.numTodoTests;
  // A file that cannot be loaded fails without a failed test in it.
  if (!ok && result.numFailedTests === 0) failed += Math.max(1, result.numFailedTestSuites);
} catch (error) {
  console.error(`The test report could not be read: ${error.message}`);
  failed += 1;
}
// The packed extension in a real VS Code, where one can be had.
const inEditor = path.join(root, "out", "vscode-tests.json");
rmSync(inEditor, { force: true });
run("the extension in a real VS Code", process.execPath, [".scripts/vscode-tests.mjs"]);
try {
  const counts = JSON.parse(readFileSync(inEditor, "utf8"));
  passed += counts.passed;
  failed += counts.failed;
  skipped += counts.skipped;
} catch (error) {
  console.error(`The report of the tests in VS Code could not be read: ${error.message}`);
  failed += 1;
}
console.log(`\n${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ""}`);
process.exit(failed === 0 ? 0 : 1);
