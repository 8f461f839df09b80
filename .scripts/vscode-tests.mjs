// Bundles the tests in a real VS Code into out/vscode/ and runs them: see tests/vscode/harness/run.ts.
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { chmodSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
rmSync(path.join(root, "out/vscode-tests.json"), { force: true });
await build({
  absWorkingDir: root,
  entryPoints: {
    run: "tests/vscode/harness/run.ts",
    launcher: "tests/vscode/harness/launcher.ts",
    suite: "tests/vscode/suite/index.ts",
  },
  outdir: "out/vscode",
  outExtension: { ".js": ".cjs" },
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  sourcemap: "inline",
  external: ["vscode", "mocha", "playwright-core", "axe-core", "@vscode/test-electron"],
  banner: { js: "#!/usr/bin/env node" },
  logLevel: "warning",
});
chmodSync(path.join(root, "out/vscode/launcher.cjs"), 0o755);
process.exit(spawnSync(process.execPath, [path.join(root, "out/vscode/run.cjs")], { stdio: "inherit" }).status ?? 1);
