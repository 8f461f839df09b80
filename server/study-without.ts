/** A changed text studied for one thing only: whether the change takes a finding away and breaks nothing. */
import { CHECKS } from "./checks/catalogue";
import type { Outcome } from "./checks/check";
import { rank, type Severity } from "./finding";
import { judgeOnce, type Known } from "./judge-all";
import { Trials, type Judgement } from "./judge";
import { readSetup } from "./model/setup";
import { shelfOf } from "./model/trial";
import type { Subject } from "./observed";
import type { Pieces } from "./pieces";
import { scenesOf } from "./scenes";
import { studied, type Study, type Texts } from "./study";
import { Version } from "./version";

/** A finding that a change of the text is to take away. */
export interface Sought {
  readonly code: string;
  /** Key of its cause. */
  readonly cause: string;
  readonly severity: Severity;
  /** Errors in the text that the change may leave. */
  readonly errors: number;
}

/** The same for whoever tries a change: nothing, and no more is judged, once it is sure that the finding is there still or that the text has errors that it had not. */
export function* studyingWithout(texts: Texts, path: string, sought: Sought, before: Study): Pieces<Study | undefined> {
  const version = new Version(readSetup(texts, path), before.version);
  const { setup } = version;
  if (setup.problems.filter((p) => p.severity === "error").length > sought.errors) return undefined;
  const known: Known = new Map();
  if (setup.isSetup && (yield* isThere(version, sought, known))) return undefined;
  return yield* studied(version, false, known);
}

/**
 * Whether a finding is raised for sure: of its own check alone, the worst case first. What may be accepted, disproved by what was
 * noticed or folded under another cause is not for sure.
 */
function* isThere(version: Version, sought: Sought, known: Known): Pieces<boolean> {
  const { setup } = version;
  const check = CHECKS.find((one) => one.entry.code === sought.code);
  if (check === undefined || setup.observations.length > 0 || setup.accepts.some((accept) => accept.code === sought.code)) return false;
  const isIt = (best: Outcome | undefined): best is Outcome => best !== undefined && best.severity !== undefined && best.cause.key === sought.cause;
  const trials = new Trials(shelfOf(setup));
  const raised: { readonly best: Outcome; readonly judgement?: Judgement; readonly subject?: Subject }[] = [];
  for (const scene of scenesOf(setup)) {
    yield;
    const row = version.still(check, scene.item);
    if (row !== undefined) raised.push(...row.judgements.flatMap((judgement) => (isIt(judgement.best) ? { best: judgement.best, judgement } : [])));
    else {
      for (const one of check.cases(scene)) {
        const best = one.measure(trials.best);
        if (isIt(best)) raised.push({ subject: { scene, check, case: one }, best });
      }
    }
  }
  if (raised.some(({ best }) => best.foldUnder !== undefined)) return false;
  raised.sort((a, b) => rank(b.best.severity) - rank(a.best.severity) || b.best.badness - a.best.badness);
  for (const { subject, judgement } of raised) {
    const came = subject === undefined ? judgement : (yield* judgeOnce(subject, trials, known, undefined)).judgement;
    if (came?.severity !== undefined && rank(came.severity) >= rank(sought.severity)) return true;
  }
  return false;
}
