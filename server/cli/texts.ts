/** Reads files for a study, and never outside the folder that is open. */
import { closeSync, existsSync, fstatSync, openSync, readdirSync, readSync, realpathSync, statSync } from "node:fs";
import path from "node:path";
import type { Texts } from "../study";
import { CannotRun, systemWords, wordsOf } from "./cannotRun";

/** Largest file that is read, in bytes. */
export const LARGEST = 2_000_000;
const KEPT = 16_000_000;
export const ENDING = ".bothways";

const inside = (root: string, file: string): boolean => {
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

function decoded(bytes: Uint8Array): { text: string } | { problem: string } {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return { problem: "it is UTF-16 text: save it as UTF-8" };
  }
  try {
    // A mark at the start stays in the text, so that every offset counts what stands in the file.
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { problem: "it is not UTF-8 text: save it as UTF-8" };
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

  /** `file` (absolute) as the study names it. */
  name(file: string): string {
    return path.relative(this.root, file).split(path.sep).join("/");
  }
}

/** A text to study: which folder is open, and the file's name in it. */
export interface Source {
  readonly texts: FolderTexts;
  readonly path: string;
  /** As shown to the person who named it. */
  readonly shown: string;
}

/** The folder that is open for what stands in `folder`: the nearest one upwards that holds a `.git`, else `folder` itself. */
export function rootOf(folder: string): string {
  for (let at = folder; ; at = path.dirname(at)) {
    if (existsSync(path.join(at, ".git"))) return at;
    if (path.dirname(at) === at) return folder;
  }
}

/** A path as one types it in the current folder; absolute where it lies elsewhere. Parts are joined by `/`. */
export const shownPath = (file: string): string => {
  const here = realpathSync(process.cwd());
  return (inside(here, file) ? path.relative(here, file) : file).split(path.sep).join("/");
};

/** Folders that are open, one reader for each, so that what files share is read once. */
export class Folders {
  readonly #override: string | undefined;
  readonly #open = new Map<string, FolderTexts>();

  constructor(override?: string) {
    if (override !== undefined && !isFolder(override)) throw new CannotRun(`--root ${override}: there is no such folder.`);
    this.#override = override === undefined ? undefined : realpathSync(override);
  }

  #texts(folder: string): FolderTexts {
    const root = this.#override ?? rootOf(folder);
    let texts = this.#open.get(root);
    if (texts === undefined) {
      texts = new FolderTexts(root);
      this.#open.set(root, texts);
    }
    return texts;
  }

  /** The file that somebody named; throws `CannotRun` where it cannot be a setup. */
  file(given: string): Source {
    if (isFolder(given)) throw new CannotRun(`${given}: it is a folder; name one file in it, such as ${path.join(given, `meeting${ENDING}`)}.`);
    return this.#source(given, this.#texts(this.#folderOf(given)));
  }

  /** All that somebody named, files in folders sorted, none twice. */
  sources(given: readonly string[]): Source[] {
    const found = new Map<string, Source>();
    for (const place of given) {
      if (!isFolder(place)) {
        const source = this.file(place);
        found.set(path.join(source.texts.root, source.path), source);
        continue;
      }
      const folder = realpathSync(place);
      const texts = this.#texts(folder);
      const files = setupsBelow(folder);
      if (files.length === 0) throw new CannotRun(`${place}: there is no ${ENDING} file in this folder or below it.`);
      for (const file of files) found.set(file, this.#source(file, texts));
    }
    return [...found.values()];
  }

  #folderOf(given: string): string {
    try {
      return realpathSync(path.dirname(path.resolve(given)));
    } catch {
      throw new CannotRun(`${given}: there is no such file.`);
    }
  }

  #source(given: string, texts: FolderTexts): Source {
    if (!given.endsWith(ENDING)) throw new CannotRun(`${given}: a setup is a file whose name ends in ${ENDING}.`);
    const absolute = path.resolve(given);
    let file: string;
    try {
      file = path.join(realpathSync(path.dirname(absolute)), path.basename(absolute));
    } catch {
      throw new CannotRun(`${given}: there is no such file.`);
    }
    if (!inside(texts.root, file)) {
      throw new CannotRun(`${given}: it lies outside ${shownPath(texts.root) || "."}, the folder that --root opens.`);
    }
    return { texts, path: texts.name(file), shown: shownPath(file) };
  }
}

const isFolder = (place: string): boolean => {
  try {
    return statSync(place).isDirectory();
  } catch {
    return false;
  }
};

/** All setups, rooms and kits below `folder`, sorted; hidden folders, installed packages and linked folders left out. */
export function setupsBelow(folder: string): string[] {
  const found: string[] = [];
  const open = [folder];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    let entries;
    try {
      entries = readdirSync(at, { withFileTypes: true });
    } catch (error) {
      throw new CannotRun(`${shownPath(at)}: ${systemWords(error) ?? wordsOf(error)}.`);
    }
    for (const entry of entries) {
      if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
      const place = path.join(at, entry.name);
      if (entry.isDirectory()) open.push(place);
      // A linked file is read only if it stays inside: FolderTexts sees to that.
      else if (entry.name.endsWith(ENDING) && (entry.isFile() || entry.isSymbolicLink())) found.push(place);
    }
  }
  return found.sort();
}

/** The text of a source, for commands that cannot go on without it. */
export function textOf(source: Source): string {
  const read = source.texts.read(source.path);
  if ("problem" in read) throw new CannotRun(`${source.shown}: ${read.problem}.`);
  return read.text;
}
