// Bundles the command line into dist/: one file, no run-time dependency.
import { build } from "esbuild";
import { chmodSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

await build({
  absWorkingDir: root,
  entryPoints: { cli: "server/cli/main.ts" },
  outdir: "dist",
  outExtension: { ".js": ".js" },
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  minifySyntax: true,
  legalComments: "linked",
  loader: { ".bothways": "text" },
  banner: { js: "#!/usr/bin/env node" },
  logLevel: "warning",
});
chmodSync(path.join(root, "dist/cli.js"), 0o755);
