/** Which parts of a drawing belong to a place in the text. */
import type { Cursor } from "./messages";
import type { Mark } from "./shape";

/**
 * Positions of the marks that a cursor stands in: those that hold it, the shortest of them; else those on its line; else the posts
 * that bear the name under it.
 */
export function hereOf(marks: readonly Mark[], cursor: Cursor): readonly number[] {
  const all = [...marks.keys()];
  const own = all.filter((index) => marks[index]?.path === cursor.path);
  const length = (index: number): number => (marks[index]?.end ?? 0) - (marks[index]?.start ?? 0);
  const shortest = (some: readonly number[]): number[] => {
    const least = Math.min(...some.map(length));
    return some.filter((index) => length(index) === least);
  };
  const holding = own.filter((index) => holds(marks[index], cursor.at, cursor.at));
  if (holding.length > 0) return shortest(holding);
  const name = cursor.name.toLowerCase();
  const device = name.split(/[./]/u)[0] ?? "";
  const named = device === "" ? [] : all.filter((index) => [name, device].includes(marks[index]?.post?.toLowerCase() ?? ""));
  if (named.length > 0) return named;
  return own.filter((index) => holds(marks[index], cursor.lineStart, cursor.lineEnd));
}

/** Whether a mark and a stretch of the text touch. */
const holds = (mark: Mark | undefined, from: number, to: number): boolean => mark !== undefined && mark.start <= to && from <= mark.end;
