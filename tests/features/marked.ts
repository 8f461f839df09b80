/** Small texts with marks in them: ⟨⟩ is a cursor, ⟦…⟧ a range. Files are told apart by their names, the first is the one asked about. */
import type { Asked } from "../../server/features/asked";
import { readSetup } from "../../server/model/setup";
import { study } from "../../server/study";
import { inMemory } from "../language/folder";

export interface Marked {
  readonly files: ReadonlyMap<string, string>;
  /** The file with the cursor, else the first. */
  readonly path: string;
  readonly text: string;
  readonly cursor: number;
  /** In the order of files and texts. */
  readonly ranges: readonly { readonly path: string; readonly start: number; readonly end: number }[];
}

/** Takes the marks out of the texts. */
export function marked(given: string | Readonly<Record<string, string>>): Marked {
  const files = new Map<string, string>();
  const ranges: { path: string; start: number; end: number }[] = [];
  let cursor: { path: string; at: number } | undefined;
  for (const [path, source] of Object.entries(typeof given === "string" ? { "evening.bothways": given } : given)) {
    let text = "";
    const open: number[] = [];
    for (const sign of source) {
      if (sign === "⟨") cursor = { path, at: text.length };
      else if (sign === "⟦") open.push(text.length);
      else if (sign === "⟧") ranges.push({ path, start: open.pop() ?? 0, end: text.length });
      else if (sign !== "⟩") text += sign;
    }
    files.set(path, text);
  }
  const path = cursor?.path ?? [...files.keys()][0] ?? "";
  return { files, path, text: files.get(path) ?? "", cursor: cursor?.at ?? 0, ranges };
}

/** What a feature is asked with: the file under the cursor, in the setup that `root` names (the first file of the fixture). */
export function asked(of: Marked, root = [...of.files.keys()][0] ?? ""): Asked {
  const texts = inMemory(of.files);
  const setup = readSetup(texts, root);
  let judged: ReturnType<typeof study> | undefined;
  return { texts, path: of.path, text: of.text, setup, study: () => (judged ??= study(texts, root)) };
}
