/** The survey sheet on paper: Markdown or a page of HTML that needs nothing else. */
import type { Question } from "../finding";
import { WAY_TITLES } from "../model/ways";
import { FORM } from "./surveyForm";
import { listed, plain } from "./wording";

/** A question, and where in the text it stands. */
export interface Open {
  readonly question: Question;
  /** `autumn.bothways, line 12`. */
  readonly place?: string | undefined;
}

export interface Sheet {
  readonly title: string;
  readonly open: readonly Open[];
}

/** Dots to write on: they mean nothing in Markdown. */
const LINE = "……………………";
const GAP = "…………";

/** Text that Markdown takes as text wherever it stands: marks of emphasis, links, code and HTML lose their meaning. */
export const markdownText = (text: string): string =>
  plain(text).replace(/[\\`*_[\]|<>~&]/gu, "\\$&").replace(/^[#+=-]/u, "\\$&").replace(/^(\d+)([.)])(?=\s|$)/u, "$1\\$2");

/** A question mark ends a label as well as a colon does. */
const labelled = (label: string): string => (label.endsWith("?") ? label : `${label}:`);

const code = (text: string): string => {
  const inner = plain(text);
  const longest = Math.max(0, ...(inner.match(/`+/gu) ?? []).map((run) => run.length));
  const fence = "`".repeat(longest + 1);
  const pad = inner.startsWith("`") || inner.endsWith("`") ? " " : "";
  return `${fence}${pad}${inner}${pad}${fence}`;
};

/** The signs that have a meaning in HTML replaced, so that any text stands as it is. */
export const htmlText = (text: string): string =>
  plain(text).replace(/&/gu, "&amp;").replace(/</gu, "&lt;").replace(/>/gu, "&gt;").replace(/"/gu, "&quot;").replace(/'/gu, "&#39;");

const decides = (question: Question): string => listed(question.ways.map((way) => WAY_TITLES[way].toLowerCase()));

/** The blank form in Markdown. */
export function blankMarkdown(): string {
  const out = ["# What to find out at the venue", "", `Venue: ${LINE} Date and hour: ${LINE} Asked: ${LINE}`, ""];
  for (const group of FORM) {
    out.push(`## ${markdownText(group.title)}`, "");
    for (const { ask, fill } of group.blanks) out.push(`- [ ] ${labelled(markdownText(ask))} ${fill.replaceAll("…", fill === "…" ? LINE : GAP)}`);
    if (group.write.length > 0) out.push("", `In the file: ${group.write.map(code).join(", ")}`);
    out.push("");
  }
  return `${out.join("\n").trimEnd()}\n`;
}

/** Open questions in Markdown, the one that decides most first. */
export function openMarkdown(sheet: Sheet): string {
  const out = [`# What to find out: ${markdownText(sheet.title)}`, ""];
  if (sheet.open.length === 0) out.push("Nothing is open that would change a verdict.", "");
  for (const [i, { question, place }] of sheet.open.entries()) {
    out.push(`## ${i + 1}. ${markdownText(question.ask)}`, "");
    if (question.ways.length > 0) out.push(`Decides: ${markdownText(decides(question))}.`, "");
    for (const { when, then } of question.answers) out.push(`- [ ] ${markdownText(when)}: ${markdownText(then)}`);
    if (question.answers.length > 0) out.push("");
    if (question.write !== undefined) out.push(`In the file: ${code(question.write)}`, "");
    if (place !== undefined) out.push(`Stands in: ${markdownText(place)}`, "");
    out.push(`Found: ${LINE}${LINE}`, "");
  }
  return `${out.join("\n").trimEnd()}\n`;
}

const STYLE = `
:root { color-scheme: light dark; }
body { font: 11pt/1.35 Georgia, "Liberation Serif", serif; max-width: 48rem; margin: 1.5rem auto; padding: 0 1rem; }
h1 { font-size: 1.4em; margin: 0 0 .3em; } h2 { font-size: 1.05em; margin: .9em 0 .2em; break-after: avoid; }
p { margin: .3em 0; } ul { list-style: none; margin: 0; padding: 0; }
li { display: flex; flex-wrap: wrap; gap: .3em .8em; align-items: baseline; padding: .12em 0; break-inside: avoid; }
.fill { flex: 1; min-width: 9rem; border-bottom: 1px dotted currentColor; white-space: pre-wrap; }
section { break-inside: avoid; } code { font-family: Consolas, "Liberation Mono", monospace; font-size: .85em; overflow-wrap: anywhere; }
.box { display: inline-block; width: .8em; height: .8em; border: 1px solid currentColor; flex: none; }
.small { font-size: .85em; }
@media print {
  @page { size: A4; margin: 12mm; }
  :root { color-scheme: light; }
  body { font-size: 9.5pt; line-height: 1.3; margin: 0; padding: 0; max-width: none; }
  h2 { margin: .6em 0 .1em; } li { padding: .34em 0 .1em; }
}`;

const page = (title: string, body: string): string => `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${htmlText(title)}</title>
<style>${STYLE}
</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;

/** The blank form as one printed page. */
export function blankHtml(): string {
  const title = "What to find out at the venue";
  const groups = FORM.map((group) => {
    const rows = group.blanks.map(({ ask, fill }) =>
      `<li><span>${htmlText(ask)}</span><span class="fill">${htmlText(fill === "…" ? " " : fill.replaceAll("…", "\u2003".repeat(5)))}</span></li>`);
    const write = group.write.length === 0 ? "" : `\n<p class="small">In the file: ${group.write.map((line) => `<code>${htmlText(line)}</code>`).join(", ")}</p>`;
    return `<section>\n<h2>${htmlText(group.title)}</h2>\n<ul>\n${rows.join("\n")}\n</ul>${write}\n</section>`;
  });
  return page(title, `<h1>${title}</h1>\n<ul><li><span>Venue</span><span class="fill"> </span><span>Date and hour</span><span class="fill"> </span><span>Asked</span><span class="fill"> </span></li></ul>\n${groups.join("\n")}`);
}

/** Open questions as a page to print, the one that decides most first. */
export function openHtml(sheet: Sheet): string {
  const title = `What to find out: ${sheet.title}`;
  const sections = sheet.open.map(({ question, place }, i) => {
    const parts = [`<h2>${i + 1}. ${htmlText(question.ask)}</h2>`];
    if (question.ways.length > 0) parts.push(`<p>Decides: ${htmlText(decides(question))}.</p>`);
    if (question.answers.length > 0) {
      parts.push(`<ul>\n${question.answers.map((a) => `<li><span class="box"></span><span>${htmlText(a.when)}: ${htmlText(a.then)}</span></li>`).join("\n")}\n</ul>`);
    }
    parts.push("<ul><li><span>Found</span><span class=\"fill\"> </span></li></ul>");
    if (question.write !== undefined) parts.push(`<p class="small">In the file: <code>${htmlText(question.write)}</code></p>`);
    if (place !== undefined) parts.push(`<p class="small">Stands in: ${htmlText(place)}</p>`);
    return `<section>\n${parts.join("\n")}\n</section>`;
  });
  const none = sections.length === 0 ? "<p>Nothing is open that would change a verdict.</p>" : "";
  return page(title, `<h1>${htmlText(title)}</h1>\n${none}${sections.join("\n")}`);
}
