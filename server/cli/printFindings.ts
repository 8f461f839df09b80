/** Findings and mistakes in the text, each with its excerpt, its reasons and the mends that were proven. */
import type { Finding, Fix, Severity, TextProblem } from "../finding";
import { excerpt } from "./excerpt";
import type { Places } from "./places";
import type { Ink, Page } from "./terminal";
import { counted, hung, plain } from "./wording";

const INKS: Readonly<Record<Severity, Ink>> = { error: "bad", warning: "poor", hint: "open", plan: "quiet" };
const INDENT = 2;
const LABEL = 12;
/** Assumptions shown with a finding; the others are counted. */
const MOST_ASSUMED = 3;
const MOST_FIXES = 3;

const labelled = (label: string, text: string, page: Page): string => {
  const first = `${" ".repeat(INDENT)}${label.padEnd(LABEL)}`;
  // Painted after wrapping: colours have no width.
  const block = hung(first, text, page.width);
  return " ".repeat(INDENT) + page.paint("quiet", label.padEnd(LABEL)) + block.slice(first.length);
};

const head = (severity: Severity, code: string, where: Parameters<Places["at"]>[0], places: Places, page: Page): string[] => {
  const place = places.at(where);
  const at = place.text === undefined ? place.path : `${place.path}:${place.range.start.line + 1}:${place.range.start.character + 1}`;
  return [`${page.paint(INKS[severity], `${severity} ${code}`)}  ${page.paint("quiet", plain(at))}`];
};

const related = (all: Finding["related"], places: Places, page: Page): string[] => all.slice(0, 3).map((other) => {
  const place = places.at(other.where);
  const at = place.text === undefined ? place.path : `${place.path}:${place.range.start.line + 1}`;
  return labelled("see", `${at}: ${other.message}`, page);
});

/** A mistake in the text. */
export function printProblem(problem: TextProblem, places: Places, page: Page): string[] {
  return [
    ...head(problem.severity, problem.code, problem.where, places, page),
    hung(" ".repeat(INDENT), problem.message, page.width),
    ...excerpt(places.at(problem.where), page, INDENT),
    ...related(problem.related, places, page),
  ];
}

/** A finding with all that is said about it; `asked` are the questions that are asked elsewhere on the page. */
export function printFinding(
  finding: Finding, fixes: readonly Fix[], places: Places, page: Page, asked: ReadonlySet<string> = new Set(),
): string[] {
  const out = [
    ...head(finding.severity, finding.code, finding.where, places, page),
    hung(" ".repeat(INDENT), finding.message, page.width),
    ...excerpt(places.at(finding.where), page, INDENT),
  ];
  if (finding.items.length > 0) out.push(labelled("during", finding.items.join(", "), page));
  if (finding.chain.length > 0) out.push(labelled("because", finding.chain.join("; "), page));
  if (finding.notice !== "") out.push(labelled("you notice", finding.notice, page));
  if (finding.assumed.length > 0) {
    const more = finding.assumed.length - MOST_ASSUMED;
    const shown = finding.assumed.slice(0, MOST_ASSUMED).map((a) => a.text);
    out.push(labelled("assumed", shown.join("; ") + (more > 0 ? `; and ${more} more` : ""), page));
  }
  // What is assumed decides it: the answer would raise the finding or take it away.
  if (finding.question !== undefined && !asked.has(finding.question.id)) out.push(labelled("open", finding.question.ask, page));
  if (finding.folded.length > 0) {
    const [first] = finding.folded;
    const more = finding.folded.length - 1;
    out.push(labelled("with it", (first?.message ?? "") + (more > 0 ? `; and ${counted(more, "more like it", "more like it")}` : ""), page));
  }
  out.push(...related(finding.related, places, page));
  for (const [i, fix] of fixes.slice(0, MOST_FIXES).entries()) out.push(labelled(i === 0 ? "mend" : "or", fix.title, page));
  return out;
}
