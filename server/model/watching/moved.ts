/** Where in a new version of the texts that stands which stood elsewhere in an earlier one. */
import type { SourceFile } from "../files";
import type { Where } from "../where";

/** What became of one text: as it was up to `same`, then otherwise, and again as it was from `from` on, which lies `by` farther now. */
interface Shift {
  readonly same: number;
  readonly from: number;
  readonly by: number;
}

export class Moved {
  readonly #shifts = new Map<string, Shift>();

  constructor(before: readonly SourceFile[], after: readonly SourceFile[]) {
    const now = new Map(after.map((file) => [file.path, file.text]));
    for (const { path, text } of before) {
      const other = now.get(path);
      if (other !== undefined) this.#shifts.set(path, shiftOf(text, other));
    }
  }

  /** Whether nothing stands elsewhere. */
  get still(): boolean {
    return [...this.#shifts.values()].every(({ same, from, by }) => by === 0 && same === from);
  }

  /** Nothing where the text itself was changed there, or its file is gone. */
  of(where: Where): Where | undefined {
    const shift = this.#shifts.get(where.path);
    if (shift === undefined) return undefined;
    const { same, from, by } = shift;
    // What is put in right before something pushes it on; what is put in right behind it leaves it as it is.
    const start = where.start >= from ? where.start + by : where.start < same || (where.start === same && where.end === same) ? where.start : undefined;
    const end = where.end <= same ? where.end : where.end >= from ? where.end + by : undefined;
    if (start === undefined || end === undefined) return undefined;
    return start === where.start && end === where.end ? where : { path: where.path, start, end };
  }
}

/** The shortest stretch outside of which both texts are the same; whole lines where it can be told so as well. */
function shiftOf(a: string, b: string): Shift {
  const most = Math.min(a.length, b.length);
  let same = 0;
  while (same < most && a.charCodeAt(same) === b.charCodeAt(same)) same += 1;
  if (same === most && a.length === b.length) return { same, from: same, by: 0 };
  let back = 0;
  while (back < most - same && a.charCodeAt(a.length - 1 - back) === b.charCodeAt(b.length - 1 - back)) back += 1;
  const by = b.length - a.length;
  const from = a.length - back;
  // Of a line that is put in or taken out, the beginning may be that of the next one, too.
  const longer = by > 0 ? b : a;
  const length = Math.abs(by);
  if (Math.min(from, b.length - back) !== same) return { same, from, by };
  let at = same;
  while (at > 0 && longer.charCodeAt(at - 1) !== NEWLINE && longer.charCodeAt(at - 1) === longer.charCodeAt(at - 1 + length)) at -= 1;
  const whole = at === 0 || longer.charCodeAt(at - 1) === NEWLINE;
  return whole ? { same: at, from: from - (same - at), by } : { same, from, by };
}

const NEWLINE = 10;
