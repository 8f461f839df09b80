/** The JSON of `check`: a shape that scripts count on; what is added later is added, never changed. */
import type { Amount, Edit, Finding, Fix, Question, TextProblem, WayVerdict } from "../finding";
import type { Study } from "../study";
import type { Places, Range } from "./places";

export interface EditJson { path: string; range: Range; newText: string }
export interface FixJson { title: string; edits: EditJson[] }
export interface RelatedJson { path: string; range: Range; message: string }
export interface FindingJson {
  code: string;
  severity: string;
  message: string;
  /** Where it is not in the file itself: the one that the range counts in. */
  path?: string;
  range: Range;
  subjects: readonly string[];
  items?: readonly string[];
  measured?: Amount;
  limit?: Amount;
  assumed: string[];
  notice?: string;
  because?: readonly string[];
  related: RelatedJson[];
  fixes: FixJson[];
}
export interface QuestionJson {
  ask: string;
  answers: Question["answers"];
  write?: string;
  ways: readonly string[];
}
export interface FileJson {
  path: string;
  title: string;
  ways: { way: string; verdict: string; weakest: string; hangsOn: readonly string[]; item?: string }[];
  findings: FindingJson[];
  accepted: FindingJson[];
  /** Where the text says what was noticed on the evening: what that denies. */
  disproved?: FindingJson[];
  questions: QuestionJson[];
}

const editJson = (edit: Edit, places: Places): EditJson => ({
  path: places.shown(edit.path), range: places.range(edit), newText: edit.newText,
});

const amount = ({ value, unit }: Amount): Amount => ({ value, unit });

const elsewhere = (path: string, study: Study, places: Places): { path?: string } =>
  path === study.root ? {} : { path: places.shown(path) };

const relatedJson = (all: Finding["related"], places: Places): RelatedJson[] => all.map((other) => ({
  path: places.shown(other.where.path), range: places.range(other.where), message: other.message,
}));

const findingJson = (finding: Finding, fixes: readonly Fix[], study: Study, places: Places): FindingJson => ({
  code: finding.code,
  severity: finding.severity,
  message: finding.message,
  ...elsewhere(finding.where.path, study, places),
  range: places.range(finding.where),
  subjects: finding.subjects,
  ...(finding.items.length > 0 ? { items: finding.items } : {}),
  ...(finding.measured === undefined ? {} : { measured: amount(finding.measured) }),
  ...(finding.limit === undefined ? {} : { limit: amount(finding.limit) }),
  assumed: finding.assumed.map((a) => a.text),
  ...(finding.notice === "" ? {} : { notice: finding.notice }),
  ...(finding.chain.length === 0 ? {} : { because: finding.chain }),
  related: relatedJson(finding.related, places),
  fixes: fixes.map((fix) => ({ title: fix.title, edits: fix.edits.map((edit) => editJson(edit, places)) })),
});

const problemJson = (problem: TextProblem, study: Study, places: Places): FindingJson => ({
  code: problem.code,
  severity: problem.severity,
  message: problem.message,
  ...elsewhere(problem.where.path, study, places),
  range: places.range(problem.where),
  subjects: [],
  assumed: [],
  related: relatedJson(problem.related, places),
  fixes: [],
});

const wayJson = (way: WayVerdict): FileJson["ways"][number] => ({
  way: way.way, verdict: way.verdict, weakest: way.weakest, hangsOn: way.hangsOn,
  ...(way.item === undefined ? {} : { item: way.item }),
});

/** One file of the list; mistakes in the text come before findings. */
export function fileJson(study: Study, places: Places, fixesOf: (finding: Finding) => readonly Fix[]): FileJson {
  return {
    path: places.shown(study.root),
    title: study.title,
    ways: study.ways.map(wayJson),
    findings: [
      ...study.problems.map((problem) => problemJson(problem, study, places)),
      ...study.findings.map((finding) => findingJson(finding, fixesOf(finding), study, places)),
    ],
    accepted: study.accepted.map((finding) => findingJson(finding, [], study, places)),
    ...(study.disproved.length === 0 ? {} : { disproved: study.disproved.map((finding) => findingJson(finding, [], study, places)) }),
    questions: study.questions.map((q) => ({
      ask: q.ask, answers: q.answers, ...(q.write === undefined ? {} : { write: q.write }), ways: q.ways,
    })),
  };
}

/** The whole document. */
export const checkJson = (files: readonly FileJson[]): string => `${JSON.stringify({ version: 1, files }, undefined, 2)}\n`;
