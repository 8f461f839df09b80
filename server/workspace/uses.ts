/** Which file is a setup and which files it takes in, read from the text alone: quicker than a study, for whole folders. */
import { unquote } from "../../grammar/lexer";
import { parse } from "../../grammar/parse";
import { isPoint } from "../../grammar/tree";
import { TOP_HEADS } from "../../grammar/vocabulary";
import { resolve, type Texts } from "../model/files";

export interface Outline {
  readonly isSetup: boolean;
  /** Title of a setup, else empty. */
  readonly title: string;
  /** Paths that it takes in itself. */
  readonly uses: readonly string[];
}

const MOST_KEPT = 4000;

/** Remembers outlines by path, as long as the text is the same. */
export class Outlines {
  readonly #kept = new Map<string, { readonly text: string; readonly outline: Outline }>();

  constructor(private readonly texts: Texts) {}

  of(path: string): Outline {
    const read = this.texts.read(path);
    if ("problem" in read) return { isSetup: false, title: "", uses: [] };
    const known = this.#kept.get(path);
    if (known?.text === read.text) return known.outline;
    const outline = outlineOf(path, read.text);
    if (this.#kept.size >= MOST_KEPT) this.#kept.clear();
    this.#kept.set(path, { text: read.text, outline });
    return outline;
  }

  /** Whether `from` takes `target` in, directly or through others. */
  reaches(from: string, target: string): boolean {
    const seen = new Set<string>([from]);
    for (const todo = [from]; ;) {
      const next = todo.pop();
      if (next === undefined) return false;
      for (const used of this.of(next).uses) {
        if (used === target) return true;
        if (seen.has(used)) continue;
        seen.add(used);
        todo.push(used);
      }
    }
  }
}

function outlineOf(path: string, text: string): Outline {
  const uses: string[] = [];
  let title: string | undefined;
  for (const fact of parse(text, { topHeads: TOP_HEADS }).root.facts) {
    const head = fact.head.text.toLowerCase();
    if (head !== "use" && head !== "setup") continue;
    const [item] = fact.items;
    const words = item === undefined || isPoint(item) || (item.kind !== "text" && item.kind !== "open-text") ? undefined : unquote(item);
    if (head === "setup") title ??= words ?? "";
    else if (words !== undefined) {
      const target = resolve(path, words);
      if (target !== undefined) uses.push(target);
    }
  }
  return { isSetup: title !== undefined, title: title ?? "", uses };
}
