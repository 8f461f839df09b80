// Bundles the command line, the language server, the extension and the page of its preview into dist/: one file each, no run-time
// dependency but the editor itself.
import { build } from "esbuild";
import { chmodSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

await build({
  absWorkingDir: root,
  entryPoints: { cli: "server/cli/main.ts", server: "server/main-node.ts" },
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

await build({
  absWorkingDir: root,
  entryPoints: { client: "client/extension.ts" },
  outdir: "dist",
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  external: ["vscode"],
  // The names of classes are part of no message; what is smaller is loaded sooner.
  minify: true,
  legalComments: "linked",
  logLevel: "warning",
});
await build({
  absWorkingDir: root,
  entryPoints: { preview: "client/preview/page.ts" },
  outdir: "dist",
  bundle: true,
  platform: "browser",
  format: "iife",
  target: "chrome122",
  minifySyntax: true,
  logLevel: "warning",
});

// The style of the page: the palettes and rules of the drawing, then the page's own.
const style = await build({
  absWorkingDir: root,
  entryPoints: ["client/preview/style.ts"],
  bundle: true, write: false, format: "esm", platform: "neutral", target: "node20", logLevel: "warning",
});
const code = Buffer.from(style.outputFiles[0].contents).toString("base64");
const { drawingSheet } = await import(`data:text/javascript;base64,${code}`);
const own = readFileSync(path.join(root, "client/preview/preview.css"), "utf8");
writeFileSync(path.join(root, "dist/preview.css"), `${drawingSheet()}\n${own}`);
