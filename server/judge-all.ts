/** All cases of a setup judged: those of which an edit changed nothing are taken over as they were. */
import { CHECKS } from "./checks/catalogue";
import type { Scene } from "./checks/check";
import { judging, Trials, type Judged, type Judgement } from "./judge";
import { shelfOf } from "./model/trial";
import { EVERYTHING, gathering, NOTHING, type Footprint, type Ledger } from "./model/watching/reads";
import { inOrder, keepLevels, weighEvening, type Evidence, type Subject } from "./observed";
import type { Pieces } from "./pieces";
import { gatheringPieces, type Version } from "./version";

export interface AllJudged {
  readonly trials: Trials;
  readonly judged: readonly Judged[];
  readonly denied: readonly Judged[];
  readonly evidence: Evidence | undefined;
}

/** Judges all cases of which the version before does not know what comes of them. */
export function* judgeAll(version: Version, lasting: boolean, scenes: readonly Scene[], known: Known): Pieces<AllJudged> {
  const trials = new Trials(shelfOf(version.setup));
  const judged: Judged[] = [];
  for (const scene of scenes) {
    for (const check of CHECKS) {
      const { item } = scene;
      const still = version.still(check, item);
      const judgements = still?.judgements ?? (yield* judgeRow(version, lasting, { scene, check }, trials, known));
      for (const judgement of judgements) judged.push({ check, item, judgement });
    }
  }
  return { trials, judged, denied: [], evidence: undefined };
}

/** All cases of a check in an item. */
function* judgeRow(version: Version, lasting: boolean, { scene, check }: Pick<Subject, "scene" | "check">, trials: Trials, known: Known): Pieces<readonly Judgement[]> {
  yield;
  const ledger = lasting ? version.ledger : undefined;
  const { result: cases, read } = ledger === undefined ? { result: check.cases(scene), read: NOTHING } : gathering(ledger, () => check.cases(scene));
  const reads = [read];
  const judgements: Judgement[] = [];
  for (const one of cases) {
    const { judgement, read: own } = yield* judgeOnce({ scene, check, case: one }, trials, known, ledger);
    reads.push(own);
    if (judgement !== undefined) judgements.push(judgement);
  }
  if (ledger !== undefined) version.keep(check, scene.item, { judgements, read: ledger.union([], reads) });
  return judgements;
}

/** Judges all cases, and where something was noticed on the evening judges them again with what follows from it. */
export function* judgeEvening({ setup }: Version, scenes: readonly Scene[], known: Known): Pieces<AllJudged> {
  const shelf = shelfOf(setup);
  const trials = new Trials(shelf);
  const subjects: Subject[] = [];
  for (const scene of scenes) {
    for (const check of CHECKS) {
      yield;
      subjects.push(...check.cases(scene).map((one): Subject => ({ scene, check, case: one })));
    }
  }
  const asWritten = yield* judgeEach(subjects, trials, known);
  const evidence = weighEvening(setup, subjects, trials);
  const narrower = evidence.narrowed.size === 0 ? trials : new Trials(shelf, evidence.narrowed);
  const anew = narrower === trials ? asWritten : yield* judgeEach(subjects, narrower, new Map());
  const judged: Judged[] = [];
  const denied: Judged[] = [];
  subjects.forEach((subject, i) => {
    const now = anew[i];
    if (now === undefined) return;
    const one = { ...now, judgement: keepLevels(now.judgement, asWritten[i]?.judgement) };
    const by = evidence.denies(subject);
    if (by === undefined) judged.push(one);
    else {
      judged.push({ ...one, judgement: inOrder(one.judgement, by.text) });
      if (one.judgement.severity !== undefined) denied.push(one);
    }
  });
  return { trials: narrower, judged, denied, evidence };
}

/** Judgements by code and key of the case, and what each read. */
export type Known = Map<string, { readonly judgement: Judgement | undefined; readonly read: Footprint }>;

function* judgeEach(subjects: readonly Subject[], trials: Trials, known: Known): Pieces<(Judged | undefined)[]> {
  const out: (Judged | undefined)[] = [];
  for (const subject of subjects) {
    const { judgement } = yield* judgeOnce(subject, trials, known, undefined);
    out.push(judgement === undefined ? undefined : { check: subject.check, item: subject.scene.item, judgement });
  }
  return out;
}

/** Cases of equal key come out equal in every item, so they are judged once. `ledger`: where it is to be noted what is read. */
export function* judgeOnce({ check, case: subject }: Subject, trials: Trials, known: Known, ledger: Ledger | undefined): Pieces<{ readonly judgement: Judgement | undefined; readonly read: Footprint }> {
  const key = `${check.entry.code} ${subject.key}`;
  let came = known.get(key);
  if (came === undefined) {
    yield;
    const work = judging(subject, trials);
    const { result, read } = ledger === undefined ? { result: yield* work, read: EVERYTHING } : yield* gatheringPieces(ledger, work);
    came = { judgement: result, read };
    known.set(key, came);
  }
  const { judgement, read } = came;
  return { judgement: judgement && { ...judgement, case: subject }, read };
}
