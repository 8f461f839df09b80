/** How a setup stands, at the best guess: who reaches whom, and what else makes one of the six jobs fail. */
import { CHECKS } from "../checks/catalogue";
import type { Check } from "../checks/check";
import { rank } from "../finding";
import { canonical } from "../model/names";
import type { Setup } from "../model/setup";
import { Trial } from "../model/trial";
import type { WayName } from "../model/ways";
import { claims } from "../signal/coverage";
import { makeGraph, type Graph } from "../signal/graph";
import { heard, isWell, margin } from "../signal/pick-up/hearing";

/** Somebody who is reached. */
export interface Reached {
  readonly way: WayName;
  /** What is said where that is so no more. */
  readonly unmet: string;
  readonly item: string | undefined;
  readonly good: boolean;
}

/** What a check has to say against a way. */
export interface Ailment {
  readonly way: WayName;
  readonly item: string | undefined;
  /** `error` fails the way, `warning` makes it poorer. */
  readonly severity: "error" | "warning";
  /** As a sentence has it: `the people online hear themselves`. */
  readonly says: string;
}

export interface Standing {
  /** By claim and item. */
  readonly reached: ReadonlyMap<string, Reached>;
  /** The worst by way and item. */
  readonly ails: ReadonlyMap<string, Ailment>;
}

/** So far below their limits, in steps of a level, is what a microphone gets of a voice that nobody would follow. Model choice. */
const OUT_OF_REACH = -1;

/** Told by who is reached, and how well. */
const BY_REACH: ReadonlySet<string> = new Set(["uncovered-direction", "talker-far", "talker-unclear", "mic-noise", "seat-unheard", "talker-roams"]);

/** Checks that decide a way, in the order of their cost: none that is about the plan, one device alone, or what one merely notices. */
const DECIDING: readonly Check[] = CHECKS.filter((check) => check.bearing === undefined && !BY_REACH.has(check.entry.code) && rank(check.entry.severity) >= rank("warning"));

/** Checks of what every seat hears and sees; of very many seats a copy of each would take minutes. */
const OF_SEATS: ReadonlySet<string> = new Set(["The room hears the people online", "The room sees the people online"]);
const MANY_SEATS = 60;

/** Of a copy everything is worked out afresh: what a trial keeps is kept for one setup. `judged`: with what the checks say. */
export function standingOf(setup: Setup, items: readonly (string | undefined)[], judged = true): Standing {
  const trial = new Trial();
  const reached = new Map<string, Reached>();
  const ails = new Map<string, Ailment>();
  // Cases of one key come out equal in every item.
  const known = new Map<string, Omit<Ailment, "item" | "way"> | undefined>();
  for (const item of items) {
    const graph = makeGraph(setup, item);
    whoIsReached(graph, trial, reached);
    if (judged) whatAils(graph, trial, known, ails);
  }
  return { reached, ails };
}

function whoIsReached(graph: Graph, trial: Trial, out: Map<string, Reached>): void {
  const { item } = graph;
  for (const claim of claims(graph)) {
    const a = claim.assess(trial);
    const gap = a.gaps.some((one) => !(one.open !== undefined && trial.holds(one.open)));
    const voice = claim.way === "online-hears-room" ? graph.voices.find((one) => one.name === claim.subject) : undefined;
    const hearing = gap || voice === undefined ? undefined : heard(graph, voice, trial)?.home;
    // A microphone that is far beyond its reach is none.
    const reached = !gap && a.grade !== "bad" && (hearing === undefined || margin(hearing) >= OUT_OF_REACH);
    if (reached) out.set(`${claim.way} ${canonical(claim.subject)} ${item ?? ""}`, { way: claim.way, unmet: claim.unmet, item, good: a.grade === "good" && (voice === undefined || hearing === undefined || isWell(hearing, voice)) });
  }
}

function whatAils(graph: Graph, trial: Trial, known: Map<string, Omit<Ailment, "item" | "way"> | undefined>, out: Map<string, Ailment>): void {
  const { setup, item } = graph;
  const many = setup.room.seats.reduce((sum, group) => sum + group.count, 0) > MANY_SEATS;
  for (const check of DECIDING) {
    if (many && OF_SEATS.has(check.entry.group)) continue;
    for (const one of check.cases({ setup, item, graph })) {
      const key = `${check.entry.code} ${one.key}`;
      if (!known.has(key)) {
        const outcome = one.measure(trial);
        const severity = outcome?.severity === "error" || outcome?.severity === "warning" ? outcome.severity : undefined;
        const said = severity === undefined ? undefined : outcome?.say();
        known.set(key, severity === undefined || said === undefined ? undefined : { severity, says: said.effect === "" ? said.because : said.effect });
      }
      const ailment = known.get(key);
      if (ailment === undefined) continue;
      for (const way of one.ways) {
        const at = `${way} ${item ?? ""}`;
        if (rank(out.get(at)?.severity) < rank(ailment.severity)) out.set(at, { ...ailment, way, item });
      }
    }
  }
}
