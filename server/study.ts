/** The façade: texts in, study out. Every floor above asks here, and nowhere else. */
import type { Case, Remedy } from "./checks/check";
import { figuresOf } from "./figures";
import type { Figure, Finding, Question, TextProblem, WayVerdict } from "./finding";
import { Trials, type Judged } from "./judge";
import { judgeAll, judgeEvening, type Known } from "./judge-all";
import type { Texts } from "./model/files";
import { canonical } from "./model/names";
import type { Ranged } from "./model/ranged";
import { readSetup, type Setup } from "./model/setup";
import { merge } from "./merge";
import type { Noticed } from "./observed";
import { shelfOf, type Narrowed, type Trial } from "./model/trial";
import { atOnce, type Pieces } from "./pieces";
import type { Flow } from "./signal/drawing/flow";
import { flowOf } from "./signal/drawing";
import type { Graph } from "./signal/graph";
import type { Ask, GroundPlan } from "./signal/ground-plan/plan";
import { groundPlanOf } from "./signal/ground-plan/plan-of";
import type { SideView } from "./signal/elevation/side";
import { sideOf } from "./signal/elevation/side-of";
import type { Perspective, ViewIn } from "./signal/perspective/perspective";
import { perspectiveOf, type NoSuchPlace } from "./signal/perspective/perspective-of";
import { casesIn, graphIn, itemsOf, scenesOf } from "./scenes";
import { settle } from "./settle";
import { openQuestions, verdicts } from "./verdicts";
import { Version } from "./version";

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
export function* studied(version: Version, lasting: boolean, known: Known = new Map()): Pieces<Study> {
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
  const caseOf = ({ check, item, judgement }: Judged): Case | undefined => {
    const scene = scenes.find((one) => one.item === item);
    return scene && casesIn(scene, check).get(judgement.case.key);
  };
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
    remedies: (finding) => together((casesBy.get(finding.identity) ?? []).flatMap((one) => caseOf(one)?.remedies?.(one.judgement.best) ?? [])),
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

