/** The line that a finding is about, with carets under what it means. */
import type { Page } from "./terminal";
import type { Place } from "./places";
import { columns, plain } from "./wording";

const lineOf = (text: string, number: number): string => {
  let start = 0;
  for (let i = 0; i < number; i++) {
    const end = text.slice(start).search(/\r\n|\r|\n/u);
    if (end < 0) return "";
    start += end + (text.startsWith("\r\n", start + end) ? 2 : 1);
  }
  const rest = text.slice(start, start + 100_000);
  const end = rest.search(/[\r\n]/u);
  return end < 0 ? rest : rest.slice(0, end);
};

/**
 * Two lines: the text's line with its number, and carets. Of a line that is too long the part around the carets is shown;
 * what a terminal would obey is replaced sign by sign, so that the carets stay in step.
 */
export function excerpt(place: Place, page: Page, indent: number): string[] {
  if (place.text === undefined) return [];
  const { start, end } = place.range;
  const whole = lineOf(place.text, start.line);
  const gutter = String(start.line + 1).padStart(4);
  const room = Math.max(20, page.width - indent - gutter.length - 3);
  const from = Math.min(start.character, whole.length);
  const to = end.line === start.line ? Math.max(from, Math.min(end.character, whole.trimEnd().length)) : whole.trimEnd().length;

  // Blanks before the line say nothing here.
  let first = whole.length - whole.trimStart().length;
  if (first > from) first = from;
  if (columns(whole.slice(first, Math.min(to, first + 4 * room))) > room) first = Math.max(first, from - Math.floor(room / 4));
  const cut = first > whole.length - whole.trimStart().length;
  let last = first;
  let used = cut ? 1 : 0;
  for (const sign of whole.slice(first)) {
    const wide = columns(plain(sign));
    if (used + wide > room - 1) break;
    used += wide;
    last += sign.length;
  }
  const shown = whole.slice(first, last);
  const before = plain(whole.slice(first, from));
  const under = plain(whole.slice(from, Math.min(Math.max(to, from), last)));
  const bar = page.unicode ? "│" : "|";
  const line = `${cut ? "…" : ""}${plain(shown)}${last < whole.trimEnd().length ? "…" : ""}`.trimEnd();
  const carets = " ".repeat((cut ? 1 : 0) + columns(before)) + "^".repeat(Math.max(1, columns(under)));
  const margin = " ".repeat(indent);
  return [
    `${margin}${page.paint("quiet", `${gutter} ${bar}`)} ${line}`,
    `${margin}${page.paint("quiet", `${" ".repeat(gutter.length)} ${bar}`)} ${page.paint("bad", carets)}`,
  ];
}
