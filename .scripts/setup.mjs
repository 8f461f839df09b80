// Installs the locked dependencies when they are missing or older than the lock file, so that
// `npm start` and `npm test` work on a clone that has never been touched.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import path from "node:path";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const stamp = path.join(root, "node_modules", ".bothways-lock");
const lock = createHash("sha256").update(readFileSync(path.join(root, "package-lock.json"))).digest("hex");

const major = Number(process.versions.node.split(".")[0]);
if (major < 20) {
  console.error(`Bothways needs Node 20 or newer; this is ${process.version}.`);
  process.exit(1);
}

if (!existsSync(stamp) || readFileSync(stamp, "utf8") !== lock) {
  console.log("Setting up: installing the packages that the lock file names …");
  // On Windows npm is a script that only a shell can start.
  execFileSync("npm", ["ci", "--no-audit", "--no-fund"], {
    cwd: root, stdio: ["ignore", "ignore", "inherit"], shell: process.platform === "win32",
  });
  writeFileSync(stamp, lock);
}
