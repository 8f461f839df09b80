/** Changes of a text that keep its own style: small, in place, every comment kept. */
import type { Bound } from "./bound";
import type { SourceFile } from "./files";

export interface Edit {
  readonly path: string;
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** In place of a statement's own words; its block stays. */
export const rewrite = (bound: Bound, newText: string): Edit => ({ path: bound.where.path, start: bound.where.start, end: bound.where.end, newText });

/** Takes a statement away: with its line if it has one to itself, else with the comma that leads to it. */
export function remove(file: SourceFile, bound: Bound): Edit {
  const { text } = file;
  const { start, end } = bound.whole;
  const lineStart = text.lastIndexOf("\n", start - 1) + 1;
  const lineEnd = text.indexOf("\n", end);
  const stop = lineEnd < 0 ? text.length : lineEnd + 1;
  const alone = text.slice(lineStart, start).trim() === "" && /^[ \t]*(#[^\n]*)?\r?\n?$/.test(text.slice(end, stop)) && !text.slice(end, stop).includes("#");
  if (alone) return { path: bound.where.path, start: lineStart, end: stop, newText: "" };
  const before = /,[ \t]*$/.exec(text.slice(0, start));
  return { path: bound.where.path, start: before === null ? start : start - before[0].length, end, newText: "" };
}

/** Puts statements into the block of another: as lines where the block has lines, after commas where it stands on one line. */
export function insertInto(file: SourceFile, owner: Bound, statements: readonly string[]): Edit {
  const { path } = owner.where;
  const { text } = file;
  const block = owner.fact.block;
  if (block?.open === undefined || block.close === undefined || block.close.start === block.close.end) {
    const end = owner.fact.also[owner.fact.also.length - 1]?.end ?? owner.fact.end;
    const joined = statements.join(", ");
    return owner.fact.also.length > 0
      ? { path, start: end, end, newText: `, ${joined}` }
      : { path, start: end, end, newText: ` { ${joined} }` };
  }
  const oneLine = !text.slice(block.open.start, block.close.start).includes("\n");
  const last = block.facts[block.facts.length - 1];
  if (oneLine) {
    if (last === undefined) return { path, start: block.open.end, end: block.close.start, newText: ` ${statements.join(", ")} ` };
    return { path, start: last.fullEnd, end: last.fullEnd, newText: `, ${statements.join(", ")}` };
  }
  const indent = last === undefined ? `${indentOf(text, block.close.start)}  ` : indentOf(text, last.start);
  const lineStart = text.lastIndexOf("\n", block.close.start - 1) + 1;
  const ownLine = text.slice(lineStart, block.close.start).trim() === "";
  const at = ownLine ? lineStart : block.close.start;
  const eol = lineEndAt(text, at);
  const lines = statements.map((s) => `${indent}${s}${eol}`).join("");
  return { path, start: at, end: at, newText: ownLine ? lines : `${eol}${lines}` };
}

/** A statement of its own, of one line or several: after the last one that begins alike, else at the end of the file. */
export function append(file: SourceFile, statement: string, like: readonly string[]): Edit {
  const { text, path } = file;
  const kin = file.statements.filter((s) => like.includes(s.row.head));
  const last = kin[kin.length - 1];
  const lineEnd = last === undefined ? -1 : text.indexOf("\n", last.whole.end);
  const at = lineEnd < 0 ? text.length : lineEnd + 1;
  const eol = lineEndAt(text, at);
  // The last line of a file may have no end.
  const lead = at === 0 || text[at - 1] === "\n" ? "" : eol;
  return { path, start: at, end: at, newText: `${lead}${statement.replaceAll("\n", eol)}${eol}` };
}

/** One file's text with edits applied; they do not overlap, and their order does not matter. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const sorted = edits.map((edit, i) => ({ edit, i })).sort((a, b) => b.edit.start - a.edit.start || b.i - a.i);
  let out = text;
  for (const { edit } of sorted) out = out.slice(0, edit.start) + edit.newText + out.slice(edit.end);
  return out;
}

/** How the lines about there end: as the one before, or where there is none, the one that holds the place. */
function lineEndAt(text: string, at: number): string {
  const before = at === 0 ? -1 : text.lastIndexOf("\n", at - 1);
  const found = before >= 0 ? before : text.indexOf("\n", at);
  return found > 0 && text[found - 1] === "\r" ? "\r\n" : "\n";
}

function indentOf(text: string, at: number): string {
  const lineStart = text.lastIndexOf("\n", at - 1) + 1;
  return /^[ \t]*/.exec(text.slice(lineStart, at))?.[0] ?? "";
}
