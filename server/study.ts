/** The façade: texts in, study out. Every floor above asks here, and nowhere else. */
import { CHECKS } from "./checks/catalogue";
import type { Case, Check, Outcome, Remedy, Scene } from "./checks/check";
import { figuresOf } from "./figures";
import { rank, type Figure, type Finding, type Question, type Severity, type TextProblem, type WayVerdict } from "./finding";
import { judging, Trials, type Judged, type Judgement } from "./judge";
import type { Texts } from "./model/files";
import { canonical } from "./model/names";
import type { Ranged } from "./model/ranged";
import { list } from "./model/show";
import { readSetup, type Setup } from "./model/setup";
import { merge } from "./merge";
import { inOrder, keepLevels, weighEvening, type Evidence, type Noticed, type Subject } from "./observed";
import { shelfOf, type Narrowed, type Trial } from "./model/trial";
import { once, onceFor } from "./model/watching/once";
import { EVERYTHING, gathering, NOTHING, type Footprint, type Ledger } from "./model/watching/reads";
import { atOnce, type Pieces } from "./pieces";
import type { Flow } from "./signal/drawing/flow";
import { flowOf } from "./signal/drawing";
import { makeGraph, type Graph } from "./signal/graph";
import type { Ask, GroundPlan } from "./signal/ground-plan/plan";
import { groundPlanOf } from "./signal/ground-plan/plan-of";
import type { SideView } from "./signal/elevation/side";
import { sideOf } from "./signal/elevation/side-of";
import type { Perspective, ViewIn } from "./signal/perspective/perspective";
import { perspectiveOf, type NoSuchPlace } from "./signal/perspective/perspective-of";
import { feeds } from "./signal/power";
import { openQuestions, verdicts } from "./verdicts";
import { gatheringPieces, Version } from "./version";

export type { Texts } from "./model/files";

export interface Study {
  /** Path of the file studied. */
  readonly root: string;
  /** False for room, kit and kind files on their own: they are checked as text only. */
  readonly isSetup: boolean;
  readonly title: string;
  /** The file itself and all that it uses, the typical equipment left out. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
  readonly items: readonly string[];
  readonly problems: readonly TextProblem[];
  readonly ways: readonly WayVerdict[];
  readonly findings: readonly Finding[];
  /** Kept quiet by `accept`. */
  readonly accepted: readonly Finding[];
  /** What the model would raise and what was noticed on the evening denies. */
  readonly disproved: readonly Finding[];
  /** What was noticed on the evening, and what came of it. */
  readonly noticed: readonly Noticed[];
  /** By id, the ranges that what was noticed has made narrower. */
  readonly narrowed: Narrowed;
  readonly questions: readonly Question[];
  readonly setup: Setup;
  /** What a study after an edit of the text takes over from. */
  readonly version: Version;
  /** Computed when asked. */
  figures(): readonly Figure[];
  flow(item?: string): Flow;
  /** The floor plan; with a question, its answer at every seat. */
  plan(item?: string, ask?: Ask): GroundPlan;
  /** The room from the side; with a row, the sight lines from it. */
  side(item?: string, row?: { readonly group: string | undefined; readonly row: number }): SideView;
  /** What a camera frames, or what is seen from a seat or a talker's place. */
  sees(view: ViewIn, of?: string, item?: string): Perspective | NoSuchPlace;
  /** What might mend a finding, cheapest first; nobody has tried it yet. */
  remedies(finding: Finding): readonly Remedy[];
}

export const study = (texts: Texts, path: string): Study => atOnce(studying(texts, path));

/** What can be told of a setup before anything is judged: for a look from somewhere, which needs no more. */
export type Glance = Pick<Study, "isSetup" | "title" | "items" | "sees">;

/** A setup read and not judged, unless what was noticed on an evening has to be weighed for it. */
export function glance(texts: Texts, path: string): Glance {
  const setup = readSetup(texts, path);
  if (setup.isSetup && setup.observations.length > 0) return study(texts, path);
  return { isSetup: setup.isSetup, title: setup.title, items: setup.items.map((item) => item.name), sees: answers(setup, new Trials(shelfOf(setup)).best).sees };
}

/**
 * The same a piece at a time, for whoever must be able to stop or to answer meanwhile. All texts are read in the first piece.
 * `before`: a study of the texts as they were before an edit; what cannot have changed is taken over from it.
 */
export function* studying(texts: Texts, path: string, before?: Study): Pieces<Study> {
  return yield* studied(new Version(readSetup(texts, path), before?.version), true);
}

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

const itemsOf = (setup: Setup): readonly (string | undefined)[] => (setup.items.length > 0 ? setup.items.map((item) => item.name) : [undefined]);

/** A setup in each item of its programme; of items that nobody asks about no graph is made. */
const scenesOf = once((setup: Setup): readonly Scene[] => itemsOf(setup).map((item): Scene => ({ setup, item, get graph() { return graphIn(setup, item); } })));
const feedsOf = once(feeds);
const graphIn = onceFor((item: string | undefined) => item ?? "", (setup: Setup, item: string | undefined): Graph => makeGraph(setup, item, feedsOf(setup)));

/** What can be asked of any setup, judged or not. */
function answers(setup: Setup, best: Trial): Pick<Study, "plan" | "side" | "sees"> & { readonly graphOf: (item: string | undefined) => Graph } {
  const items = itemsOf(setup);
  const graphOf = (item: string | undefined): Graph =>
    graphIn(setup, item === undefined ? items[0] : items.find((one) => one !== undefined && canonical(one) === canonical(item)) ?? items[0]);
  return {
    graphOf, plan: (item, ask) => groundPlanOf(graphOf(item), best, { ask }), side: (item, row) => sideOf(graphOf(item), best, row),
    sees: (view, of, item) => perspectiveOf(graphOf(item), best, view, of),
  };
}

/** A version of a setup, judged. `lasting`: further versions will follow it. `known`: cases as written that were judged already. */
function* studied(version: Version, lasting: boolean, known: Known = new Map()): Pieces<Study> {
  const { setup } = version;
  const shelf = shelfOf(setup);
  const base = {
    root: setup.root, isSetup: setup.isSetup, title: setup.title, setup, version,
    files: setup.files.map((file) => ({ path: file.path, text: file.text })), items: setup.items.map((item) => item.name),
  };
  if (!setup.isSetup) {
    const { graphOf, ...asked } = answers(setup, new Trials(shelf).best);
    return { ...base, ...asked, problems: setup.problems, ways: [], findings: [], accepted: [], disproved: [], noticed: [], narrowed: new Map(), questions: [], figures: () => [], flow: () => flowOf(graphOf(undefined), []), remedies: () => [] };
  }
  const scenes = scenesOf(setup);
  const { trials, judged, denied, evidence } = yield* setup.observations.length === 0 ? judgeAll(version, lasting, scenes, known) : judgeEvening(version, scenes, known);
  const merged = merge(judged, scenes.length);
  const { findings, accepted, unused } = settle(setup, merged.map((m) => m.finding));
  const casesBy = new Map(merged.map((m) => [m.finding.identity, m.cases]));
  const taken = new Set(accepted.flatMap((finding) => [finding, ...finding.folded]).map((finding) => finding.identity.split(" | ").slice(0, 2).join(" | ")));
  const isTaken = ({ check, judgement }: Judged): boolean => judgement.severity !== undefined && taken.has(`${check.entry.code} | ${judgement.best.cause.key}`);
  const ways = verdicts(setup, judged, itemsOf(setup), isTaken);
  const { graphOf, ...asked } = answers(setup, trials.best);
  let figures: readonly Figure[] | undefined;
  let questions: readonly Question[] | undefined;
  return {
    ...base, ...asked, problems: [...setup.problems, ...unused, ...(evidence?.problems ?? [])], ways, findings, accepted,
    disproved: merge(denied, scenes.length).map((m) => m.finding), noticed: evidence?.noticed ?? [], narrowed: evidence?.narrowed ?? new Map<string, Ranged>(),
    get questions() { return (questions ??= openQuestions(setup, scenes, findings, judged, isTaken)); },
    figures: () => (figures ??= figuresOf(scenes, trials.best)),
    flow: (item) => {
      const graph = graphOf(item);
      const wanted = graph.item;
      return flowOf(graph, ways.filter((w) => w.item === undefined || wanted === undefined || canonical(w.item) === canonical(wanted)));
    },
    remedies: (finding) => together((casesBy.get(finding.identity) ?? []).flatMap((one) => caseOf(scenes, one)?.remedies?.(one.judgement.best) ?? [])),
  };
}

/** The case behind a judgement, as the setup has it now. */
function caseOf(scenes: readonly Scene[], { check, item, judgement }: Judged): Case | undefined {
  const scene = scenes.find((one) => one.item === item);
  return scene && casesIn(scene, check).get(judgement.case.key);
}
const casesIn = onceFor((check: Check) => check.entry.code, (scene: Scene, check: Check): ReadonlyMap<string, Case> => new Map(check.cases(scene).map((one) => [one.key, one])));

/** A remedy of one title is one remedy, whichever items it has to be done in. */
function together(remedies: readonly Remedy[]): Remedy[] {
  const out = new Map<string, Remedy>();
  for (const remedy of remedies) {
    const known = out.get(remedy.title);
    const fresh = remedy.edits.filter((edit) => known === undefined || !known.edits.some((e) => e.path === edit.path && e.start === edit.start && e.end === edit.end && e.newText === edit.newText));
    out.set(remedy.title, { title: remedy.title, edits: [...(known?.edits ?? []), ...fresh] });
  }
  return [...out.values()];
}

interface AllJudged {
  readonly trials: Trials;
  readonly judged: readonly Judged[];
  readonly denied: readonly Judged[];
  readonly evidence: Evidence | undefined;
}

/** Judges all cases of which the version before does not know what comes of them. */
function* judgeAll(version: Version, lasting: boolean, scenes: readonly Scene[], known: Known): Pieces<AllJudged> {
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
function* judgeEvening({ setup }: Version, scenes: readonly Scene[], known: Known): Pieces<AllJudged> {
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
type Known = Map<string, { readonly judgement: Judgement | undefined; readonly read: Footprint }>;

function* judgeEach(subjects: readonly Subject[], trials: Trials, known: Known): Pieces<(Judged | undefined)[]> {
  const out: (Judged | undefined)[] = [];
  for (const subject of subjects) {
    const { judgement } = yield* judgeOnce(subject, trials, known, undefined);
    out.push(judgement === undefined ? undefined : { check: subject.check, item: subject.scene.item, judgement });
  }
  return out;
}

/** Cases of equal key come out equal in every item, so they are judged once. `ledger`: where it is to be noted what is read. */
function* judgeOnce({ check, case: subject }: Subject, trials: Trials, known: Known, ledger: Ledger | undefined): Pieces<{ readonly judgement: Judgement | undefined; readonly read: Footprint }> {
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

const ORDER: readonly Severity[] = ["error", "warning", "hint", "plan"];

/** Takes out what the author accepts, and says where an acceptance has nothing left to accept. */
function settle(setup: Setup, all: readonly Finding[]): { findings: Finding[]; accepted: Finding[]; unused: TextProblem[] } {
  const used = new Set<object>();
  const accepted: Finding[] = [];
  const findings: Finding[] = [];
  for (const finding of all) {
    const meant = setup.accepts.filter((accept) => accept.code === finding.code
      && (accept.of.length === 0 || accept.of.every((name) => finding.subjects.some((subject) => canonical(subject) === canonical(name)))));
    const by = meant.find((accept) => accept.at === undefined || finding.measured === undefined || noWorse(finding, accept.at));
    // What is worse than was accepted is raised again, and its acceptance is not idle.
    if (by === undefined) for (const accept of meant) used.add(accept);
    if (by === undefined) findings.push(finding);
    else {
      used.add(by);
      accepted.push(finding);
    }
  }
  findings.sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity) || a.where.path.localeCompare(b.where.path) || a.where.start - b.where.start);
  // While something is broken, what it hides may be raised again once it is mended.
  const broken = findings.some((finding) => finding.severity === "error");
  const unused = setup.accepts.filter((accept) => !used.has(accept) && !broken).map((accept): TextProblem => ({
    code: "accept-unused", severity: "warning", where: accept.where, related: [],
    message: CHECKS.some((check) => check.entry.code === accept.code)
      ? `Nothing raises ${accept.code}${accept.of.length > 0 ? ` of ${list(accept.of)}` : ""} any more: this “accept” can go.`
      : `There is no finding “${accept.code}” to accept yet.`,
  }));
  const idle = setup.limits.filter((limit) => !CHECKS.some((check) => check.entry.code === limit.code && check.takesLimit === true)).map((limit): TextProblem => ({
    code: "limit-idle", severity: "warning", where: limit.where, related: [],
    message: CHECKS.some((check) => check.entry.code === limit.code)
      ? `${limit.code} has no single limit that could be set. Accept the risk instead: accept ${limit.code} because "…".`
      : `There is no finding “${limit.code}” to set a limit for yet.`,
  }));
  return { findings, accepted, unused: [...unused, ...idle] };
}

/** What a shown unit is in the unit that the text's quantities are kept in. */
const CANONICAL: Readonly<Record<string, number>> = { h: 3600, "Mb/s": 1e6 };

/** Whether a measured value lies no farther beyond its limit than the accepted one. */
function noWorse(finding: Finding, at: number): boolean {
  const scale = CANONICAL[finding.measured?.unit ?? ""] ?? 1;
  const value = (finding.measured?.value ?? 0) * scale;
  const limit = (finding.limit?.value ?? 0) * scale;
  return Math.abs(value - limit) <= Math.abs(at - limit) + 1e-9;
}
