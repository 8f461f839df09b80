// Writes what comes from the vocabulary: the reference, and the grammar that editors colour with.
import { build } from "esbuild";
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const bundle = await build({
  absWorkingDir: root,
  stdin: {
    contents: 'export { reference } from "./grammar/reference"; export { highlighting } from "./grammar/highlighting";',
    resolveDir: root, loader: "ts",
  },
  bundle: true, write: false, format: "esm", platform: "neutral", mainFields: ["module", "main"], target: "node20", logLevel: "warning",
});
const code = Buffer.from(bundle.outputFiles[0].contents).toString("base64");
const { reference, highlighting } = await import(`data:text/javascript;base64,${code}`);

const write = (file, text) => {
  writeFileSync(path.join(root, file), text);
  console.log(`written: ${file}`);
};
write("grammar/REFERENCE.md", reference(readFileSync(path.join(root, "server/model/typical/equipment.bothways"), "utf8")));
write("grammar/bothways.tmLanguage.json", `${JSON.stringify(highlighting(), null, 2)}\n`);
