/** The façade: texts in, study out. Every floor above asks here, and nowhere else. */
import { CHECKS } from "./checks/catalogue";
import type { Outcome, Remedy, Scene } from "./checks/check";
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
import { shelfOf, type Narrowed, type Shelf } from "./model/trial";
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
  const items = itemsOf(setup);
  const { best } = new Trials(shelfOf(setup));
  return {
    isSetup: setup.isSetup, title: setup.title, items: setup.items.map((item) => item.name),
    sees: (view, of, item) => perspectiveOf(makeGraph(setup, items.find((one) => one !== undefined && item !== undefined && canonical(one) === canonical(item)) ?? items[0]), best, view, of),
  };
}

/** The same a piece at a time, for whoever must be able to stop or to answer meanwhile. All texts are read in the first piece. */
export function* studying(texts: Texts, path: string): Pieces<Study> {
  return yield* studied(readSetup(texts, path), new Map());
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
export function* studyingWithout(texts: Texts, path: string, sought: Sought): Pieces<Study | undefined> {
  const setup = readSetup(texts, path);
  if (setup.problems.filter((p) => p.severity === "error").length > sought.errors) return undefined;
  const known: Known = new Map();
  if (setup.isSetup && (yield* isThere(setup, sought, known))) return undefined;
  return yield* studied(setup, known);
}

/**
 * Whether a finding is raised for sure: of its own check alone, the worst case first. What may be accepted, disproved by what was
 * noticed or folded under another cause is not for sure.
 */
function* isThere(setup: Setup, sought: Sought, known: Known): Pieces<boolean> {
  const check = CHECKS.find((one) => one.entry.code === sought.code);
  if (check === undefined || setup.observations.length > 0 || setup.accepts.some((accept) => accept.code === sought.code)) return false;
  const trials = new Trials(shelfOf(setup));
  const raised: { readonly subject: Subject; readonly best: Outcome }[] = [];
  for (const scene of yield* scenesOf(setup)) {
    yield;
    for (const one of check.cases(scene)) {
      const best = one.measure(trials.best);
      if (best !== undefined && best.severity !== undefined && best.cause.key === sought.cause) raised.push({ subject: { scene, check, case: one }, best });
    }
  }
  if (raised.some(({ best }) => best.foldUnder !== undefined)) return false;
  raised.sort((a, b) => rank(b.best.severity) - rank(a.best.severity) || b.best.badness - a.best.badness);
  for (const { subject } of raised) {
    const judgement = yield* judgeOnce(subject, trials, known);
    if (judgement?.severity !== undefined && rank(judgement.severity) >= rank(sought.severity)) return true;
  }
  return false;
}

/** A setup in each item of its programme, made once. */
function* scenesOf(setup: Setup): Pieces<readonly Scene[]> {
  const made = SCENES.get(setup);
  if (made !== undefined) return made;
  const known = feeds(setup);
  const scenes: Scene[] = [];
  for (const item of itemsOf(setup)) {
    yield;
    scenes.push({ setup, item, graph: makeGraph(setup, item, known) });
  }
  SCENES.set(setup, scenes);
  return scenes;
}
const SCENES = new WeakMap<Setup, readonly Scene[]>();
const itemsOf = (setup: Setup): readonly (string | undefined)[] => (setup.items.length > 0 ? setup.items.map((item) => item.name) : [undefined]);

/** A setup that is read, judged. `judgedBefore`: cases as written that were judged already. */
function* studied(setup: Setup, judgedBefore: Known): Pieces<Study> {
  const path = setup.root;
  const base = {
    root: path, isSetup: setup.isSetup, title: setup.title, setup,
    files: setup.files.map((file) => ({ path: file.path, text: file.text })), items: setup.items.map((item) => item.name),
  };
  if (!setup.isSetup) {
    return { ...base, problems: setup.problems, ways: [], findings: [], accepted: [], disproved: [], noticed: [], narrowed: new Map(), questions: [], figures: () => [], flow: () => flowOf(makeGraph(setup, undefined), []), plan: () => groundPlanOf(makeGraph(setup, undefined), new Trials(shelfOf(setup)).best), side: () => sideOf(makeGraph(setup, undefined), new Trials(shelfOf(setup)).best), sees: (view, of) => perspectiveOf(makeGraph(setup, undefined), new Trials(shelfOf(setup)).best, view, of), remedies: () => [] };
  }
  const shelf = shelfOf(setup);
  const items = itemsOf(setup);
  const scenes = yield* scenesOf(setup);
  const subjects: Subject[] = [];
  for (const scene of scenes) {
    for (const check of CHECKS) {
      yield;
      subjects.push(...check.cases(scene).map((one): Subject => ({ scene, check, case: one })));
    }
  }
  const { trials, judged, denied, evidence } = yield* judgeAll(setup, subjects, shelf, judgedBefore);
  const merged = merge(judged, scenes.length);
  const { findings, accepted, unused } = settle(setup, merged.map((m) => m.finding));
  const remediesBy = new Map(merged.map((m) => [m.finding.identity, m.cases]));
  const taken = new Set(accepted.flatMap((finding) => [finding, ...finding.folded]).map((finding) => finding.identity.split(" | ").slice(0, 2).join(" | ")));
  const isTaken = ({ check, judgement }: Judged): boolean => judgement.severity !== undefined && taken.has(`${check.entry.code} | ${judgement.best.cause.key}`);
  const ways = verdicts(setup, judged, items, isTaken);
  let figures: readonly Figure[] | undefined;
  const graphs = new Map<string | undefined, Graph>(scenes.map((scene) => [scene.item, scene.graph]));
  const graphOf = (item: string | undefined): Graph => {
    const wanted = item === undefined ? items[0] : items.find((i) => i !== undefined && canonical(i) === canonical(item)) ?? items[0];
    return graphs.get(wanted) ?? makeGraph(setup, wanted);
  };
  return {
    ...base, problems: [...setup.problems, ...unused, ...(evidence?.problems ?? [])], ways, findings, accepted,
    disproved: merge(denied, scenes.length).map((m) => m.finding), noticed: evidence?.noticed ?? [], narrowed: evidence?.narrowed ?? new Map<string, Ranged>(),
    questions: openQuestions(setup, scenes, findings, judged, isTaken),
    figures: () => (figures ??= figuresOf(scenes, trials.best)),
    plan: (item, ask) => groundPlanOf(graphOf(item), trials.best, { ask }),
    side: (item, row) => sideOf(graphOf(item), trials.best, row),
    sees: (view, of, item) => perspectiveOf(graphOf(item), trials.best, view, of),
    flow: (item) => {
      const graph = graphOf(item);
      const wanted = graph.item;
      return flowOf(graph, ways.filter((w) => w.item === undefined || wanted === undefined || canonical(w.item) === canonical(wanted)));
    },
    remedies: (finding) => together((remediesBy.get(finding.identity) ?? []).flatMap((c) => c.subject.remedies?.(c.judgement.best) ?? [])),
  };
}

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

/** Judges all cases, and where something was noticed on the evening judges them again with what follows from it. */
function* judgeAll(setup: Setup, subjects: readonly Subject[], shelf: Shelf, known: Known): Pieces<{ trials: Trials; judged: readonly Judged[]; denied: readonly Judged[]; evidence: Evidence | undefined }> {
  const trials = new Trials(shelf);
  const asWritten = yield* judgeEach(subjects, trials, known);
  if (setup.observations.length === 0) return { trials, judged: asWritten.flatMap((one) => one ?? []), denied: [], evidence: undefined };
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

/** Judgements by code and key of the case. */
type Known = Map<string, Judgement | undefined>;

function* judgeEach(subjects: readonly Subject[], trials: Trials, known: Known): Pieces<(Judged | undefined)[]> {
  const out: (Judged | undefined)[] = [];
  for (const subject of subjects) {
    const judgement = yield* judgeOnce(subject, trials, known);
    out.push(judgement === undefined ? undefined : { check: subject.check, item: subject.scene.item, judgement: { ...judgement, case: subject.case } });
  }
  return out;
}

/** Cases of equal key come out equal in every item, so they are judged once. */
function* judgeOnce({ check, case: subject }: Subject, trials: Trials, known: Known): Pieces<Judgement | undefined> {
  const key = `${check.entry.code} ${subject.key}`;
  if (known.has(key)) return known.get(key);
  yield;
  const judgement = yield* judging(subject, trials);
  known.set(key, judgement);
  return judgement;
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
