/** One reading of a setup: all its statements, the names known so far, and what is wrong with the text. */
import { valueOf, type Bound } from "./bound";
import type { Files, SourceFile } from "./files";
import { Names } from "./names";
import type { TextProblem } from "./text-problem";
import type { Where } from "./where";

/** What those who read a setup, each their own subject, share: where statements are found and problems are put. */
export class Reading {
  readonly problems: TextProblem[];
  readonly names: Names;
  /** The statements of all files that stand in no block, in the order of reading. */
  readonly all: readonly Bound[];

  constructor(readonly files: Files) {
    this.problems = [...files.problems];
    this.names = new Names(files.prefixes);
    this.all = files.files.flatMap((file) => file.statements);
  }

  /** The statements with this head that stand in no block. */
  by(head: string): Bound[] {
    return this.all.filter((statement) => statement.row.head === head);
  }

  /** Puts an error, and with it what else to look at. */
  say(code: string, message: string, where: Where, related?: { readonly where: Where; readonly message: string }): void {
    this.problems.push({ code, severity: "error", message, where, related: related === undefined ? [] : [related] });
  }

  /** Puts a warning: it can be read, and can hardly be meant. */
  warn(code: string, message: string, where: Where): void {
    this.problems.push({ code, severity: "warning", message, where, related: [] });
  }

  /** The name that a statement gives, with its file's prefix. */
  nameOf(statement: Bound, slot = "name"): string {
    return this.names.full(statement.where.path, valueOf(statement, slot, "name")?.text ?? "");
  }
}

/** All statements, those in blocks behind the one that owns the block. */
export const everywhere = (statements: readonly Bound[]): Bound[] => statements.flatMap((s) => [s, ...everywhere(s.children)]);

/** By file in the order of reading, then by place; one message for one place. */
export function sorted(problems: readonly TextProblem[], files: readonly SourceFile[]): TextProblem[] {
  const order = new Map(files.map((file, i) => [file.path, i]));
  const seen = new Set<string>();
  return [...problems]
    .sort((a, b) => (order.get(a.where.path) ?? 0) - (order.get(b.where.path) ?? 0) || a.where.start - b.where.start)
    .filter((p) => {
      const key = `${p.where.path} ${p.where.start} ${p.code}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
}
