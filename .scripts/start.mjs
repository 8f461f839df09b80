// `npm start`: builds the command line and lets it read a real evening, so that one sees in a minute what it is for.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const SETUP = "samples/association/autumn.bothways";
const DRAWING = "out/autumn-flow.svg";
const HANDOUT = "out/autumn-handout.html";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const node = (...args) => spawnSync(process.execPath, args, { cwd: root, stdio: "inherit" }).status;

const stop = (words) => {
  console.error(words);
  process.exit(1);
};

if (node(".scripts/build.mjs") !== 0) stop("The build did not succeed; what is wrong stands above.");
if (!existsSync(path.join(root, SETUP))) stop(`${SETUP} is missing: this copy of the project is not complete.`);

console.log(`An association meets in an old schoolroom, eight of them from home. Their setup is written down in ${SETUP}.`);
console.log("This is what Bothways makes of it:\n");
const status = node("dist/cli.js", "check", SETUP);
// 1 means that something was found, which is what it is for.
if (status !== 0 && status !== 1) stop("The setup could not be read; the reason stands above.");

mkdirSync(path.join(root, path.dirname(DRAWING)), { recursive: true });
if (node("dist/cli.js", "draw", SETUP, "--view", "flow", "--out", DRAWING) !== 0) stop("The drawing could not be made; the reason stands above.");
if (node("dist/cli.js", "handout", SETUP, "--out", HANDOUT) !== 0) stop("The hand-out could not be made; the reason stands above.");

console.log(`
The setup     ${path.join(root, SETUP)}
The drawing   ${path.join(root, DRAWING)}   (open it in a browser)
The hand-out  ${path.join(root, HANDOUT)}   (for those who help: one sheet of A4)

To go on, for example:
  node dist/cli.js figures ${SETUP}
  node dist/cli.js survey ${SETUP}
  node dist/cli.js start my-evening`);
