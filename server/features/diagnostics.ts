/** What is shown in the text: mistakes in it, findings where they arise, and what to find out first. Gaps in the plan never are. */
import type { Finding, Question, TextProblem } from "../finding";
import { valueOf } from "../model/bound";
import { resolve } from "../model/files";
import { sentence, withUnit } from "../model/show";
import type { Where } from "../model/where";
import type { Study } from "../study";

/** How loud: `ask` is a fact to find out, below a warning and above a hint. */
export type Level = "error" | "warning" | "ask" | "hint";

export interface Shown {
  readonly start: number;
  readonly end: number;
  readonly level: Level;
  readonly code: string;
  /** Whether `explain` knows the code. */
  readonly explained: boolean;
  readonly message: string;
  readonly related: readonly { readonly where: Where; readonly message: string }[];
  /** Set for findings: what a fix is asked for by. */
  readonly identity?: string;
}

/** Mistakes shown in one text; beyond, one line says how many more there are. */
const MOST_PROBLEMS = 100;
const MOST_RELATED = 5;
/** Questions shown in the text: the weightiest; the survey sheet has them all. */
const MOST_QUESTIONS = 3;

/** Everything to show in the setup itself: its own mistakes, its findings, its questions, and a line for each used file that has mistakes. */
export function diagnosticsOfSetup(study: Study): readonly Shown[] {
  const used = new UsedFiles(study);
  const out = ownProblems(study, study.root);
  for (const [path, problems] of byFile(study.problems.filter((p) => p.where.path !== study.root))) {
    const errors = problems.filter((p) => p.severity === "error");
    const first = errors[0] ?? problems[0];
    if (first === undefined) continue;
    out.push({
      ...used.place(first.where), level: first.severity, code: first.code, explained: false,
      message: problems.length === 1 ? `In ${path}: ${first.message}` : `In ${path}, and ${problems.length - 1} more there: ${first.message}`,
      related: problems.slice(0, MOST_RELATED).map((p) => ({ where: p.where, message: p.message })),
    });
  }
  for (const finding of study.findings) {
    if (finding.severity === "plan") continue;
    const away = finding.where.path !== study.root;
    out.push({
      ...used.place(finding.where), level: finding.severity, code: finding.code, explained: true, message: wordsOf(finding),
      related: [...(away ? [{ where: finding.where, message: "it arises here" }] : []), ...relatedOf(finding)].slice(0, MOST_RELATED), identity: finding.identity,
    });
  }
  const asked = new Set(study.findings.filter((f) => f.severity !== "plan").flatMap((f) => (f.question === undefined ? [] : [f.question.id])));
  for (const question of study.questions.filter((q) => !asked.has(q.id)).slice(0, MOST_QUESTIONS)) {
    out.push({
      ...used.place(question.where ?? study.setup.titleWhere), level: "ask", code: "question", explained: false, message: askedFor(question), related: [],
    });
  }
  return out.sort((a, b) => a.start - b.start || a.end - b.end);
}

/** What to show in a room or a kit: its mistakes as text, as the study reads it; findings sit in the setups that use it. */
export function diagnosticsOfPart(study: Study, path: string): readonly Shown[] {
  return ownProblems(study, path);
}

function ownProblems(study: Study, path: string): Shown[] {
  const own = study.problems.filter((p) => p.where.path === path);
  const out = own.slice(0, MOST_PROBLEMS).map((p): Shown => ({
    start: p.where.start, end: p.where.end, level: p.severity, code: p.code, explained: false, message: p.message, related: p.related.slice(0, MOST_RELATED),
  }));
  const next = own[MOST_PROBLEMS];
  if (next !== undefined) {
    out.push({ start: next.where.start, end: next.where.end, level: "error", code: "more", explained: false, related: [], message: `… and ${own.length - MOST_PROBLEMS} more mistakes from here on.` });
  }
  return out;
}

/** The message, the margin, and what one notices: a line each. */
function wordsOf(finding: Finding): string {
  const { measured, limit } = finding;
  const margin = measured !== undefined && limit !== undefined ? [`${sentence(`it is ${withUnit(measured.value, measured.unit)}, the limit ${withUnit(limit.value, limit.unit)}`)}`] : [];
  const because = margin.length > 0 || finding.chain.length === 0 ? [] : [`Because: ${finding.chain.slice(0, 3).join("; ")}.`];
  const open = finding.question === undefined ? [] : [`Find out first: ${finding.question.ask}`];
  return [finding.message, ...margin, ...because, ...(finding.notice === "" ? [] : [`One notices: ${finding.notice}`]), ...open].join("\n");
}

function relatedOf(finding: Finding): { where: Where; message: string }[] {
  const question = finding.question?.where === undefined ? [] : [{ where: finding.question.where, message: finding.question.ask }];
  const assumed = finding.assumed.flatMap((a) => (a.where === undefined ? [] : [{ where: a.where, message: `assumed: ${a.text}` }]));
  return [...finding.related, ...question, ...assumed.filter((a) => !question.some((q) => q.where.path === a.where.path && q.where.start === a.where.start))];
}

function askedFor(question: Question): string {
  const answers = question.answers.slice(0, 3).map((answer) => `– ${answer.when}: ${answer.then}`);
  return [`To find out: ${question.ask}`, ...answers, ...(question.write === undefined ? [] : [`Write: ${question.write}`])].join("\n");
}

function byFile(problems: readonly TextProblem[]): Map<string, TextProblem[]> {
  const out = new Map<string, TextProblem[]>();
  for (const problem of problems) out.set(problem.where.path, [...(out.get(problem.where.path) ?? []), problem]);
  return out;
}

/** Where in the setup's own text something is shown that stands in a file which it uses: at the `use` through which it came. */
class UsedFiles {
  readonly #root: string;
  readonly #through = new Map<string, Where>();
  readonly #otherwise: Where;

  constructor(study: Study) {
    this.#root = study.root;
    this.#otherwise = study.setup.titleWhere;
    const files = new Map(study.setup.files.map((file) => [file.path, file]));
    const follow = (path: string, at: Where | undefined): void => {
      for (const use of files.get(path)?.statements.filter((s) => s.row.head === "use") ?? []) {
        const target = resolve(path, valueOf(use, "file", "text")?.text ?? "");
        if (target === undefined || target === study.root || this.#through.has(target)) continue;
        const place = at ?? use.where;
        this.#through.set(target, place);
        follow(target, place);
      }
    };
    follow(study.root, undefined);
  }

  place(where: Where): { start: number; end: number } {
    const at = where.path === this.#root ? where : this.#through.get(where.path) ?? this.#otherwise;
    return { start: at.start, end: at.end };
  }
}
