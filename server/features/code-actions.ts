/** Mends for what stands under the cursor: of findings those that were proven, of mistakes in the text the word that was meant. */
import { rowsOf, type Owner, type Slot } from "../../grammar/vocabulary";
import type { Edit, Finding, TextProblem } from "../finding";
import { proofs } from "../fixes/prove";
import type { Bound } from "../model/bound";
import { applyEdits } from "../model/edits";
import type { Texts } from "../model/files";
import { nearest } from "../model/near";
import { everywhere } from "../model/reading";
import { readSetup, type Setup } from "../model/setup";
import type { Study } from "../study";
import type { Span } from "./asked";
import { diagnosticsOfSetup, type Shown } from "./diagnostics";

export interface Action {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** What it mends. */
  readonly of: Shown;
  /** The first for its finding. */
  readonly preferred: boolean;
}

const overlap = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;

/** Proven fixes by the study that they were proven for: a light bulb is asked for at every move of the cursor. */
const PROVEN = new WeakMap<Study, Map<string, readonly { readonly title: string; readonly edits: readonly Edit[] }[]>>();

/** What can be shown in a file, and of it what touches a stretch. */
const under = (shown: readonly Shown[], span: Span): readonly Shown[] => shown.filter((one) => overlap(one, span));

/**
 * The fixes for the findings that are shown in a stretch of the setup's own text. Yields after every piece of a trial, so that whoever asks can
 * stop; returns the actions.
 */
export function* fixActions(texts: Texts, study: Study, span: Span): Generator<undefined, readonly Action[]> {
  const out: Action[] = [];
  for (const shown of under(diagnosticsOfSetup(study), span)) {
    const finding = shown.identity === undefined ? undefined : study.findings.find((one) => one.identity === shown.identity);
    if (finding === undefined) continue;
    const known = PROVEN.get(study)?.get(finding.identity);
    const fixes = known ?? (yield* proven(texts, study, finding));
    out.push(...fixes.map((fix, i) => ({ title: fix.title, edits: fix.edits, of: shown, preferred: i === 0 })));
  }
  return out;
}

function* proven(texts: Texts, study: Study, finding: Finding): Generator<undefined, readonly { readonly title: string; readonly edits: readonly Edit[] }[]> {
  const fixes: { readonly title: string; readonly edits: readonly Edit[] }[] = [];
  for (const fix of proofs(texts, study, finding)) {
    if (fix !== undefined) fixes.push(fix);
    yield;
  }
  const kept = PROVEN.get(study) ?? new Map<string, typeof fixes>();
  kept.set(finding.identity, fixes);
  PROVEN.set(study, kept);
  return fixes;
}

/** For mistyped words: the nearest that could stand there, tried on a copy. */
export function spellingActions(texts: Texts, setup: Setup, shown: readonly Shown[], path: string, span: Span): readonly Action[] {
  const text = setup.files.find((file) => file.path === path)?.text;
  if (text === undefined) return [];
  return under(shown, span).flatMap((one): Action[] => {
    const problem = setup.problems.find((p) => p.code === one.code && p.where.path === path && p.where.start === one.start);
    const meant = problem && wordMeant(setup, path, problem, text.slice(problem.where.start, problem.where.end));
    if (problem === undefined || meant === undefined) return [];
    const edit = { path, start: problem.where.start, end: problem.where.end, newText: meant };
    const changed = applyEdits(text, [edit]);
    const after = readSetup({ read: (given) => (given === path ? { text: changed } : texts.read(given)) }, setup.root);
    const errors = (of: Setup): number => of.problems.filter((p) => p.severity === "error").length;
    return errors(after) < errors(setup) ? [{ title: `Write “${meant}”`, edits: [edit], of: one, preferred: true }] : [];
  });
}

function wordMeant(setup: Setup, path: string, problem: TextProblem, written: string): string | undefined {
  const { start, end } = problem.where;
  if (written === "" || /\s/.test(written)) return undefined;
  const statements = everywhere(setup.files.find((file) => file.path === path)?.statements ?? []);
  switch (problem.code) {
    case "unknown-statement": {
      const owner: Owner = around(statements, start).reduce<Owner>((inner, s) => s.row.body ?? inner, "file");
      return nearest(written, [...rowsOf(owner), ...rowsOf("file")].map((row) => row.head));
    }
    case "unknown-name": {
      const kinds = slotsAt(statements, start, end).flatMap((slot) => (slot.takes.kind === "name" ? slot.takes.of : slot.takes.kind === "place" ? ["spot", "table", "surface", "seats", "talker", "device", "outlet", "area", "door", "window", "column"] as const : []));
      const items = around(statements, start).some((s) => s.tails.during.some((name) => name.start === start)) ? ["item" as const] : [];
      return nearest(written, setup.names.ofKinds([...kinds, ...items]).map((named) => named.name));
    }
    case "no-fit": {
      const words = slotsAt(statements, start, end).concat(around(statements, start).flatMap((s) => s.row.slots)).flatMap((slot) => (slot.takes.kind === "word" ? Object.keys(slot.takes.words) : []));
      return nearest(written, words);
    }
    default: return undefined;
  }
}

const around = (statements: readonly Bound[], at: number): readonly Bound[] => statements.filter((s) => s.whole.start <= at && at <= s.whole.end);

/** The slots whose values stand there. */
const slotsAt = (statements: readonly Bound[], start: number, end: number): readonly Slot[] => around(statements, start).flatMap((statement) =>
  statement.row.slots.filter((slot) => (statement.values.get(slot.id) ?? []).some((value) => value.start <= start && end <= value.end)));
