/** Writes files whole or not at all. */
import { chmodSync, closeSync, fsyncSync, openSync, readFileSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
import path from "node:path";
import { CannotRun, systemWords, wordsOf } from "./cannotRun";
import { shownPath } from "./texts";

/**
 * Puts `text` into `file` (absolute, links resolved): a new file beside it that then takes its place, so that neither a full
 * disk nor a power cut leaves half of it. With `before`, refuses where the file no longer holds what was read.
 */
export function writeWhole(file: string, text: string, before?: string): void {
  const beside = path.join(path.dirname(file), `.${path.basename(file)}.${process.pid}.new`);
  let handle: number | undefined;
  try {
    if (before !== undefined && readFileSync(file, "utf8") !== before) {
      throw new CannotRun(`${shownPath(file)}: it was changed meanwhile; nothing was written.`);
    }
    handle = openSync(beside, "wx", 0o666);
    const bytes = Buffer.from(text, "utf8");
    for (let done = 0; done < bytes.length;) done += writeSync(handle, bytes, done);
    fsyncSync(handle);
    closeSync(handle);
    handle = undefined;
    // Keeps who may read and write it.
    if (before !== undefined) chmodSync(beside, statSync(file).mode & 0o7777);
    renameSync(beside, file);
  } catch (error) {
    if (handle !== undefined) closeSync(handle);
    // Only what this call made: a file of that name that was there already is somebody else's.
    if (!(error instanceof Error && "code" in error && error.code === "EEXIST")) rmSync(beside, { force: true });
    if (error instanceof CannotRun) throw error;
    throw new CannotRun(`${shownPath(file)}: it cannot be written (${systemWords(error) ?? wordsOf(error)}).`);
  }
}
