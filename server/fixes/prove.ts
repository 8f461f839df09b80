/** A fix is offered only if it fixes: every remedy is tried on a copy of the text and studied anew. */
import { rank, type Edit, type Finding, type Fix, type WayVerdict } from "../finding";
import { applyEdits } from "../model/edits";
import { VERDICTS } from "../model/ways";
import { atOnce, type Pieces } from "../pieces";
import type { Study, Texts } from "../study";
import { studyingWithout } from "../study-without";

export { applyEdits } from "../model/edits";

/** Remedies tried for one finding, and fixes offered of them. */
export const MOST_TRIED = 8;
const MOST_OFFERED = 3;

/**
 * The remedies of a finding that hold: the finding is gone, no error is new, nothing new is as bad as what it mends, no way across
 * is worse, and the text has no problem that it did not have. The first `most` of them: each costs a study.
 */
export function fixesOf(texts: Texts, before: Study, finding: Finding, most = MOST_OFFERED): readonly Fix[] {
  const out: Fix[] = [];
  for (const fix of proofs(texts, before, finding)) {
    if (fix !== undefined) out.push(fix);
    if (out.length === most) break;
  }
  return out;
}

/** The same a piece at a time, for whoever must be able to stop: most pieces give nothing, some a fix. */
export function* proofs(texts: Texts, before: Study, finding: Finding): Generator<Fix | undefined> {
  const seen = new Set<string>();
  let offered = 0;
  for (const remedy of before.remedies(finding).slice(0, MOST_TRIED)) {
    const key = JSON.stringify(remedy.edits);
    if (seen.has(key) || remedy.edits.length === 0) continue;
    seen.add(key);
    if (!(yield* holding(texts, before, finding, remedy.edits))) continue;
    offered += 1;
    yield { title: remedy.title, edits: remedy.edits };
    if (offered === MOST_OFFERED) return;
  }
}

/** Whether the edits mend the finding without breaking anything. */
export const holds = (texts: Texts, before: Study, finding: Finding, edits: readonly Edit[]): boolean => atOnce(holding(texts, before, finding, edits));

function* holding(texts: Texts, before: Study, finding: Finding, edits: readonly Edit[]): Pieces<boolean> {
  // Most that do not hold leave the finding where it is: its own check is asked first, and the rest only if it says no more.
  const after = yield* studyingWithout(withEdits(texts, before, edits), before.root, {
    code: finding.code, cause: finding.identity.split(" | ")[1] ?? "", severity: finding.severity, errors: errorsIn(before),
  }, before);
  return after !== undefined && mends(before, after, finding);
}

/** Whether the study of a changed copy shows a finding gone and nothing broken. */
export function mends(before: Study, after: Study, finding: Finding): boolean {
  // What was folded under the finding is part of it: it may not stay behind as bad as it was.
  const gone = [finding, ...finding.folded].every((part) =>
    !after.findings.some((f) => f.code === part.code && sameCause(f, part) && rank(f.severity) >= rank(part.severity)));
  if (!gone || errorsIn(after) > errorsIn(before)) return false;
  const known = new Set(before.findings.flatMap((f) => [f, ...f.folded]).map(causeOf));
  const fresh = after.findings.filter((f) => !known.has(causeOf(f)));
  if (fresh.some((f) => f.severity === "error" || rank(f.severity) >= rank(finding.severity))) return false;
  return !worse(before.ways, after.ways);
}

const errorsIn = (study: Study): number => study.problems.filter((p) => p.severity === "error").length;
const causeOf = (f: Finding): string => f.identity.split(" | ").slice(0, 2).join(" | ");
const sameCause = (a: Finding, b: Finding): boolean => causeOf(a) === causeOf(b);

/** Texts with the edits applied to the files that the study read. */
function withEdits(texts: Texts, before: Study, edits: readonly Edit[]): Texts {
  const changed = new Map<string, string>();
  for (const file of before.files) {
    const own = edits.filter((edit) => edit.path === file.path);
    if (own.length > 0) changed.set(file.path, applyEdits(file.text, own));
  }
  const known = new Map(before.files.map((file) => [file.path, file.text]));
  return {
    ...texts.beside === undefined ? {} : { beside: (path: string) => texts.beside?.(path) ?? [] },
    read: (path) => {
      const text = changed.get(path) ?? known.get(path);
      return text === undefined ? texts.read(path) : { text };
    },
  };
}

/** Whether any way across stands worse than it did: the worst over its items is compared. */
function worse(before: readonly WayVerdict[], after: readonly WayVerdict[]): boolean {
  const worst = (all: readonly WayVerdict[], way: string): number =>
    Math.max(...all.filter((v) => v.way === way).map((v) => VERDICTS.indexOf(v.verdict)), 0);
  return [...new Set(before.map((v) => v.way))].some((way) => worst(after, way) > worst(before, way));
}
