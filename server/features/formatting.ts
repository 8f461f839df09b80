/** Laying a text out, as the smallest change: only the lines that differ. */
import { format } from "../../grammar/printer";
import type { Edit } from "../finding";
import type { Span } from "./asked";

/** The edits that lay a text out; none where it is laid out already, or why it was left as it is. */
export function formatting(path: string, text: string): readonly Edit[] | { readonly refused: string } {
  const formatted = format(text);
  return "refused" in formatted ? formatted : between(path, text, formatted.text);
}

/** The same for a stretch: edits of its lines alone; none where laying out the text would change how many lines there are. */
export function rangeFormatting(path: string, text: string, span: Span): readonly Edit[] | { readonly refused: string } {
  const edits = formatting(path, text);
  if ("refused" in edits) return edits;
  const start = text.lastIndexOf("\n", span.start - 1) + 1;
  const newline = text.indexOf("\n", span.end);
  const end = newline < 0 ? text.length : newline + 1;
  return edits.filter((edit) => edit.start >= start && edit.end <= end);
}

/** While typing: the line that a line end or a closing brace has just finished, without the one that is begun. */
export function typedFormatting(path: string, text: string, offset: number, typed: string): readonly Edit[] {
  const end = typed === "\n" ? text.lastIndexOf("\n", offset - 1) : offset;
  if (end < 0) return [];
  const start = text.lastIndexOf("\n", end - 1) + 1;
  const edits = rangeFormatting(path, text, { start, end: Math.max(start, end - 1) });
  if ("refused" in edits) return [];
  // A quotation or a block that is still open is laid out once it is closed.
  return edits.filter((edit) => edit.start >= start && edit.end <= end + 1);
}

/** Edits from one text to another, by lines: line by line where there are as many, else what lies between equal beginnings and ends. */
export function between(path: string, before: string, after: string): readonly Edit[] {
  if (before === after) return [];
  const old = before.split(/(?<=\n)/);
  const fresh = after.split(/(?<=\n)/);
  if (old.length === fresh.length) {
    let at = 0;
    return old.flatMap((line, i): Edit[] => {
      const start = at;
      at += line.length;
      const other = fresh[i] ?? "";
      return line === other ? [] : [{ path, start, end: at, newText: other }];
    });
  }
  let head = 0;
  while (head < old.length && head < fresh.length && old[head] === fresh[head]) head += 1;
  let tail = 0;
  while (tail < old.length - head && tail < fresh.length - head && old[old.length - 1 - tail] === fresh[fresh.length - 1 - tail]) tail += 1;
  const start = old.slice(0, head).join("").length;
  const end = before.length - old.slice(old.length - tail).join("").length;
  return [{ path, start, end, newText: fresh.slice(head, fresh.length - tail).join("") }];
}
