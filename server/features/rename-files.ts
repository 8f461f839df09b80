/** When files are moved or renamed: the `use` lines that name them, and those inside them, are mended. */
import { valueOf } from "../model/bound";
import type { Edit } from "../model/edits";
import { resolve } from "../model/files";
import type { Setup } from "../model/setup";

export interface Moved {
  /** Paths within the folder. */
  readonly from: string;
  readonly to: string;
}

/** The path from one file to another, as a `use` writes it. */
export function relative(from: string, to: string): string {
  const here = from.split("/").slice(0, -1);
  const there = to.split("/");
  let same = 0;
  while (same < here.length && same < there.length - 1 && here[same] === there[same]) same += 1;
  return [...here.slice(same).map(() => ".."), ...there.slice(same)].join("/");
}

/**
 * Edits of the texts as they lie before the move, so that every `use` means the same file afterwards.
 *
 * @param setups every file that states a `use`, as it was read; a file in several setups is mended once
 */
export function renameFiles(setups: readonly Setup[], moved: readonly Moved[]): readonly Edit[] {
  const after = new Map(moved.map(({ from, to }) => [from, to]));
  const edits = new Map<string, Edit>();
  for (const setup of setups) {
    for (const file of setup.files) {
      for (const statement of file.statements) {
        const used = statement.row.head === "use" ? valueOf(statement, "file", "text") : undefined;
        const target = used && resolve(file.path, used.text);
        if (used === undefined || target === undefined) continue;
        const [owner, goal] = [after.get(file.path) ?? file.path, after.get(target) ?? target];
        if (owner === file.path && goal === target) continue;
        // What means the same file from the new place stays as it was written.
        if (resolve(owner, used.text) === goal) continue;
        edits.set(`${file.path}:${used.start}`, { path: file.path, start: used.start, end: used.end, newText: `"${relative(owner, goal)}"` });
      }
    }
  }
  return [...edits.values()];
}
