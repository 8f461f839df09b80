/** What `check` says about one file, for people: verdicts, findings, what to find out, what was accepted, gaps in the plan. */
import type { Finding, Fix, Question, Severity } from "../finding";
import { WAY_TITLES } from "../model/ways";
import type { Study } from "../study";
import type { Places } from "./places";
import { printFinding, printProblem } from "./printFindings";
import { printVerdicts } from "./printVerdicts";
import type { Page } from "./terminal";
import { counted, hung, listed, plain } from "./wording";

/** Mistakes of one kind of text are shown up to here and counted beyond, so that a broken file does not flood the terminal. */
const MOST_PROBLEMS = 20;
const MOST_QUESTIONS = 3;

/** How many findings of each severity, mistakes in the text included. */
export type Counts = Readonly<Record<Severity, number>>;

/** Counts findings and mistakes of a study. */
export function countsOf(study: Pick<Study, "findings" | "problems">): Counts {
  const counts = { error: 0, warning: 0, hint: 0, plan: 0 };
  for (const one of [...study.findings, ...study.problems]) counts[one.severity]++;
  return counts;
}

/** `2 errors, 1 warning, 3 gaps in the plan`; `nothing found` where there is nothing. */
export const countWords = (counts: Counts): string => {
  const parts: string[] = [];
  if (counts.error > 0) parts.push(counted(counts.error, "error"));
  if (counts.warning > 0) parts.push(counted(counts.warning, "warning"));
  if (counts.hint > 0) parts.push(counted(counts.hint, "hint"));
  if (counts.plan > 0) parts.push(counted(counts.plan, "gap in the plan", "gaps in the plan"));
  return parts.length === 0 ? "nothing found" : parts.join(", ");
};

/** One question with what each answer means, numbered. */
export function printQuestion(question: Question, n: number, page: Page): string[] {
  const out = [hung(`  ${n}. `, question.ask, page.width)];
  if (question.ways.length > 0) {
    out.push(hung("     ", `decides: ${listed(question.ways.map((way) => WAY_TITLES[way].toLowerCase()))}`, page.width));
  }
  for (const answer of question.answers) out.push(hung("     - ", `${answer.when}: ${answer.then}`, page.width));
  if (question.write !== undefined) {
    out.push(`     ${page.paint("quiet", "write")}  ${page.paint("strong", plain(question.write))}`);
  }
  return out;
}

/** Whether a mistake was printed already, under another file that uses the same text. */
export type Seen = Set<string>;

/** All of one study. `seen` carries over from file to file, so that a mistake in a shared file is printed once. */
export function printStudy(
  study: Study, places: Places, fixesOf: (finding: Finding) => readonly Fix[], page: Page, seen: Seen = new Set(),
): string {
  const blocks: string[][] = [];
  const name = plain(places.shown(study.root));
  blocks.push([study.title === "" ? page.paint("strong", name) : `${page.paint("strong", plain(study.title))}  ${page.paint("quiet", name)}`]);
  if (study.isSetup) blocks.push(printVerdicts(study.ways, page));

  let known = 0;
  let shown = 0;
  for (const problem of study.problems) {
    const key = `${places.shown(problem.where.path)} ${problem.where.start} ${problem.code} ${problem.message}`;
    if (problem.where.path !== study.root && seen.has(key)) {
      known++;
      continue;
    }
    seen.add(key);
    if (++shown <= MOST_PROBLEMS) blocks.push(printProblem(problem, places, page));
  }
  if (shown > MOST_PROBLEMS) blocks.push([`… and ${counted(shown - MOST_PROBLEMS, "more mistake")} in the text (--format json lists all).`]);
  if (known > 0) blocks.push([`${counted(known, "mistake")} in files that it uses, shown above.`]);

  const asked = new Set(study.questions.slice(0, MOST_QUESTIONS).map((question) => question.id));
  const gaps = study.findings.filter((finding) => finding.severity === "plan");
  for (const finding of study.findings) {
    if (finding.severity !== "plan") blocks.push(printFinding(finding, fixesOf(finding), places, page, asked));
  }

  if (study.questions.length > 0) {
    const more = study.questions.length - MOST_QUESTIONS;
    const block = [page.paint("strong", "To find out first")];
    study.questions.slice(0, MOST_QUESTIONS).forEach((question, i) => block.push(...printQuestion(question, i + 1, page)));
    if (more > 0) block.push(`  … and ${counted(more, "more question")}: bothways survey ${name}`);
    blocks.push(block);
  }
  if (study.accepted.length > 0) {
    blocks.push([page.paint("strong", "Accepted"), ...study.accepted.map((f) => hung(`  ${f.code}  `, f.message, page.width, 4))]);
  }
  if (study.disproved.length > 0) {
    blocks.push([page.paint("strong", "Disproved by what was noticed"), ...study.disproved.map((f) => hung(`  ${f.code}  `, f.message, page.width, 4))]);
  }
  if (study.noticed.length > 0) {
    blocks.push([page.paint("strong", "Noticed on the evening"), ...study.noticed.map((one) => hung(`  ${one.text}  `, one.came.length === 0 ? "changes nothing" : one.came.join("; "), page.width, 4))]);
  }
  if (gaps.length > 0) {
    blocks.push([page.paint("strong", "Gaps in the plan"), ...printGaps(gaps, page)]);
  }
  blocks.push([hung("", summary(study), page.width)]);
  return `${blocks.filter((block) => block.length > 0).map((block) => block.join("\n")).join("\n\n")}\n`;
}

/** More gaps than this are one paragraph: they are for later, and may not push out of sight what is for now. */
const GAPS_APART = 3;
const MOST_GAPS = 12;

const printGaps = (gaps: readonly Finding[], page: Page): string[] => {
  if (gaps.length <= GAPS_APART) return gaps.map((f) => hung(`  ${f.code}  `, f.message, page.width, 4));
  const more = gaps.length - MOST_GAPS;
  const told = gaps.slice(0, MOST_GAPS).map((f) => `${f.message.replace(/\.$/, "")} (${f.code})`);
  return [hung("  ", `${told.join("; ")}${more > 0 ? `; and ${counted(more, "more")}` : ""}.`, page.width)];
};

const summary = (study: Study): string => {
  const parts = [countWords(countsOf(study))];
  if (study.questions.length > 0) parts.push(counted(study.questions.length, "question") + " open");
  if (study.accepted.length > 0) parts.push(`${study.accepted.length} accepted`);
  if (study.disproved.length > 0) parts.push(`${study.disproved.length} disproved`);
  return `${parts.join("; ")}.`;
};
