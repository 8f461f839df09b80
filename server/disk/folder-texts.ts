/** Reads files for a study, and never outside the folder that is open. */
import { closeSync, fstatSync, openSync, readdirSync, readSync, realpathSync, statSync } from "node:fs";
import path from "node:path";
import { decoded } from "../model/decoded";
import type { Texts } from "../study";
import { systemWords, wordsOf } from "./system-words";

/** Largest file that is read, in bytes. */
export const LARGEST = 2_000_000;
const KEPT = 16_000_000;
/** Files of one folder that are looked at for other evenings. */
const MOST_BESIDE = 500;
export const ENDING = ".bothways";

/** Whether `file` lies in `root` or is it; both absolute. */
export const inside = (root: string, file: string): boolean => {
  const way = path.relative(root, file);
  return way === "" || (way !== ".." && !way.startsWith(`..${path.sep}`) && !path.isAbsolute(way));
};

/** A file's text, or why it cannot be read in a few words. `file` must have been resolved already. */
function readText(file: string): { text: string } | { problem: string } {
  let handle: number | undefined;
  try {
    // Before opening: a named pipe would wait for ever.
    const kind = statSync(file);
    if (kind.isDirectory()) return { problem: "it is a folder, not a file" };
    if (!kind.isFile()) return { problem: "it is not an ordinary file" };
    handle = openSync(file, "r");
    const size = fstatSync(handle).size;
    if (size > LARGEST) return { problem: "it is larger than 2 MB, and no setup is" };
    const bytes = Buffer.alloc(size);
    let filled = 0;
    while (filled < size) {
      const got = readSync(handle, bytes, filled, size - filled, filled);
      if (got === 0) break;
      filled += got;
    }
    return decoded(bytes.subarray(0, filled));
  } catch (error) {
    return { problem: systemWords(error) ?? `it cannot be read (${wordsOf(error)})` };
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/** The texts below one folder; links that lead out of it are not followed. */
export class FolderTexts implements Texts {
  /** Absolute, links resolved. */
  readonly root: string;
  readonly #kept = new Map<string, { text: string } | { problem: string }>();
  #size = 0;

  constructor(root: string) {
    this.root = realpathSync(root);
  }

  /** Where `given` (relative to the root, parts joined by `/`) really lies, or why it is out of reach. */
  locate(given: string): { file: string } | { problem: string } {
    if (given === "" || given.includes("\0")) return { problem: "this is not the name of a file" };
    const file = path.resolve(this.root, given);
    if (path.isAbsolute(given) || !inside(this.root, file)) return { problem: "it lies outside the folder that is open" };
    try {
      const real = realpathSync(file);
      return inside(this.root, real) ? { file: real } : { problem: "it is a link that leads outside the folder that is open" };
    } catch (error) {
      return { problem: systemWords(error) ?? `it cannot be read (${wordsOf(error)})` };
    }
  }

  read(given: string): { text: string } | { problem: string } {
    const before = this.#kept.get(given);
    if (before !== undefined) return before;
    const place = this.locate(given);
    const result = "problem" in place ? place : readText(place.file);
    // Kit and rooms are read again for every setup of a folder; a bound keeps a large folder from filling the memory.
    const size = "text" in result ? result.text.length : 0;
    if (this.#size + size > KEPT) {
      this.#kept.clear();
      this.#size = 0;
    }
    this.#kept.set(given, result);
    this.#size += size;
    return result;
  }

  /** The other files of the language in the folder of `given`, sorted; those that cannot be read are left out. */
  beside(given: string): { path: string; text: string }[] {
    const place = this.locate(given);
    if ("problem" in place) return [];
    const folder = given.split("/").slice(0, -1).join("/");
    let names: string[];
    try {
      names = readdirSync(path.join(this.root, folder)).filter((name) => name.endsWith(ENDING)).sort().slice(0, MOST_BESIDE);
    } catch {
      return [];
    }
    return names.map((name) => (folder === "" ? name : `${folder}/${name}`)).filter((other) => other !== given).flatMap((other) => {
      const read = this.read(other);
      return "text" in read ? [{ path: other, text: read.text }] : [];
    });
  }

  /** Reads anew what may have changed on disk: one file, or all. */
  forget(given?: string): void {
    if (given === undefined) {
      this.#kept.clear();
      this.#size = 0;
      return;
    }
    const kept = this.#kept.get(given);
    if (kept !== undefined && "text" in kept) this.#size -= kept.text.length;
    this.#kept.delete(given);
  }

  /** `file` (absolute) as the study names it. */
  name(file: string): string {
    return path.relative(this.root, file).split(path.sep).join("/");
  }
}
