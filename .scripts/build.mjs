// Bundles the command line, the language server, the extension and the page of its preview into dist/: one file each, no run-time
// dependency but the editor itself.
import { build } from "esbuild";
import { chmodSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

const bundles = [];
bundles.push(await build({
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
  metafile: true,
  logLevel: "warning",
}));
chmodSync(path.join(root, "dist/cli.js"), 0o755);

bundles.push(await build({
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
  metafile: true,
  logLevel: "warning",
}));
// The same two for a browser: whatever is Node's own stops the build.
bundles.push(await build({
  absWorkingDir: root,
  entryPoints: { "server-browser": "server/main-browser.ts" },
  outdir: "dist",
  bundle: true,
  platform: "browser",
  format: "iife",
  target: "chrome122",
  minify: true,
  legalComments: "linked",
  loader: { ".bothways": "text" },
  metafile: true,
  logLevel: "warning",
}), await build({
  absWorkingDir: root,
  entryPoints: { "client-browser": "client/extension-browser.ts" },
  outdir: "dist",
  bundle: true,
  platform: "browser",
  format: "cjs",
  target: "chrome122",
  external: ["vscode"],
  minify: true,
  legalComments: "linked",
  metafile: true,
  logLevel: "warning",
}));
await build({
  absWorkingDir: root,
  entryPoints: { preview: "client/preview/page/page.ts" },
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

// Whose code is in the bundles, with the licences under which it may be there.
const folders = new Set(bundles.flatMap(({ metafile }) => Object.keys(metafile.inputs)).flatMap((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/u.exec(file) ?? []));
const notices = [...folders].sort().map((folder) => {
  const at = path.join(root, folder);
  const { name, version, license } = JSON.parse(readFileSync(path.join(at, "package.json"), "utf8"));
  const file = readdirSync(at).find((one) => /^licen[cs]e/iu.test(one));
  return `${name} ${version} (${license})\n\n${file === undefined ? "" : readFileSync(path.join(at, file), "utf8").trim()}`;
});
writeFileSync(path.join(root, "dist/NOTICES.txt"), `Bothways holds code of these packages.\n\n${notices.join(`\n\n${"-".repeat(72)}\n\n`)}\n`);
