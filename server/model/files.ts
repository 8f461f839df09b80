/** Which files a setup consists of: `use` is transitive and flat, and never leads out of the root folder. */
import { parse } from "../../grammar/parse";
import type { Tree } from "../../grammar/tree";
import { TOP_HEADS } from "../../grammar/vocabulary";
import { bind, type BoundFile } from "./bind";
import { valueOf, type Bound } from "./bound";
import type { TextProblem } from "./text-problem";

/** Where texts come from. Paths are relative to the root folder, parts joined by `/`, and never hold `..`. */
export interface Texts {
  read(path: string): { readonly text: string } | { readonly problem: string };
  /** The other files of the language in the same folder, where whoever gives the texts can see them. */
  beside?(path: string): readonly { readonly path: string; readonly text: string }[];
}

export interface SourceFile extends BoundFile {
  readonly text: string;
  readonly tree: Tree;
}

export interface Files {
  /** The file itself first, then what it uses, each once. */
  readonly files: readonly SourceFile[];
  /** By path: the prefix of a file taken in with `as`. */
  readonly prefixes: ReadonlyMap<string, string>;
  readonly problems: readonly TextProblem[];
  /** A file that is to be taken in was not: what it would have stated is missing. */
  readonly incomplete: boolean;
}

const NOT_TAKEN_IN: ReadonlySet<string> = new Set(["cannot-read", "use-outside", "too-many-files"]);

/** More files than any setup needs; bounds what a hostile folder can make us read. */
const MOST_FILES = 200;

const named = (prefix: string | undefined): string => (prefix === undefined ? "its own names" : `“${prefix.slice(0, -1)}”`);

/** Reads the file at `root` and all that it uses, each once; what cannot be read gives one message at the `use` that asks for it. */
export function gather(texts: Texts, root: string): Files {
  const files: SourceFile[] = [];
  const prefixes = new Map<string, string>();
  const problems: TextProblem[] = [];
  const state = new Map<string, "open" | "done">();
  let full = false;

  const take = (path: string, prefix: string, by: Bound | undefined): void => {
    const asked = by?.where ?? { path: root, start: 0, end: 0 };
    const say = (code: string, message: string): void => {
      problems.push({ code, severity: "error", message, where: asked, related: [] });
    };
    if (state.get(path) === "open") {
      say("use-cycle", `“${path}” is already being taken in: these files use each other in a circle. Take this “use” out of one of them.`);
      return;
    }
    if (state.has(path)) {
      if ((prefixes.get(path) ?? "") !== prefix) {
        say("use-twice", `“${path}” is taken in already under ${named(prefixes.get(path))}; its names cannot be two. Take it in the same way everywhere.`);
      }
      return;
    }
    if (files.length >= MOST_FILES) {
      if (!full) say("too-many-files", `More than ${MOST_FILES} files are taken in; the rest is left out.`);
      full = true;
      return;
    }
    const read = texts.read(path);
    if ("problem" in read) {
      say("cannot-read", `“${path}” cannot be read: ${read.problem}.`);
      return;
    }
    state.set(path, "open");
    if (prefix !== "") prefixes.set(path, prefix);
    const bound = readOnce(path, read.text);
    files.push(bound);
    problems.push(...bound.problems);
    for (const statement of bound.statements) {
      if (statement.row.head !== "use") continue;
      const file = valueOf(statement, "file", "text");
      if (file === undefined) continue;
      const target = resolve(path, file.text);
      if (target === undefined) {
        problems.push({
          code: "use-outside", severity: "error", where: statement.where, related: [],
          message: file.text.includes("\\") ? `“${file.text}”: folders are parted by /, so that it reads alike everywhere: use "rooms/hall.bothways".`
            : `“${file.text}” lies outside the folder of this setup; only files within it are read. Copy the file in, and use it like "rooms/hall.bothways".`,
        });
        continue;
      }
      const as = valueOf(statement, "as", "name");
      take(target, as === undefined ? prefix : `${prefix}${as.text}.`, statement);
    }
    state.set(path, "done");
  };
  take(root, "", undefined);
  return { files, prefixes, problems, incomplete: problems.some((p) => NOT_TAKEN_IN.has(p.code)) };
}

/** Files read lately: the kit that three hundred setups use, and all that a tried fix leaves alone, are read once. */
const LATELY = new Map<string, SourceFile>();
const MOST_LATELY = 64;

function readOnce(path: string, text: string): SourceFile {
  const known = LATELY.get(path);
  if (known?.text === text) return known;
  const tree = parse(text, { topHeads: TOP_HEADS });
  const file: SourceFile = { ...bind(tree, path), text, tree };
  LATELY.delete(path);
  LATELY.set(path, file);
  const oldest = LATELY.keys().next();
  if (LATELY.size > MOST_LATELY && oldest.done !== true) LATELY.delete(oldest.value);
  return file;
}

/** The path that a `use` names, from the folder of the file it stands in; nothing where it would lead out of the root. */
export function resolve(from: string, use: string): string | undefined {
  if (use === "" || use.includes("\0") || use.includes("\\") || /^([a-zA-Z][a-zA-Z+.-]*:|\/)/.test(use)) return undefined;
  const parts = from.split("/").slice(0, -1);
  for (const part of use.split("/")) {
    if (part === "" || part === ".") continue;
    if (part !== "..") parts.push(part);
    else if (parts.pop() === undefined) return undefined;
  }
  return parts.length === 0 ? undefined : parts.join("/");
}
