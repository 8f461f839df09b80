/** Temporary folders of one run, removed at its end. */
import { mkdtempSync, realpathSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";

const made: string[] = [];

/** A fresh folder; `realpathSync`, since VS Code compares paths and macOS keeps its temporary folders behind a link. */
export function freshFolder(name: string): string {
  const folder = realpathSync(mkdtempSync(path.join(os.tmpdir(), `bothways-${name}-`)));
  made.push(folder);
  return folder;
}

/** Removes what `freshFolder` made; a process that is just ending may still write, so it is tried again. */
export function removeFolders(): void {
  for (const folder of made.splice(0)) {
    try {
      rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    } catch {
      // A folder left in the system's temporary directory harms nobody.
    }
  }
}
