/** From what somebody names on the command line to the files that are studied. */
import { existsSync, readdirSync, realpathSync, statSync } from "node:fs";
import path from "node:path";
import { ENDING, FolderTexts, inside } from "../disk/folder-texts";
import { CannotRun, systemWords, wordsOf } from "./cannotRun";

export { ENDING, FolderTexts, LARGEST } from "../disk/folder-texts";

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
