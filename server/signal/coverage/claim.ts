/** What a meeting claims on each way across, and how a claim is met or broken. */
import type { Vec3 } from "../../model/geometry";
import { canonical } from "../../model/names";
import type { Trial } from "../../model/trial";
import type { WayName } from "../../model/ways";
import type { Listener } from "../air";
import { node, type Carried, type Edge, type Gap } from "../edges";
import { gapsOf, ONLINE, type Ending, type Graph } from "../graph";

/** How well a claim is met. `poor` makes the way doubtful, `bad` breaks it. */
export type Grade = "good" | "poor" | "bad";

export interface Assessment {
  readonly grade: Grade;
  /** What stands in the way, where something is missing; a way with none is judged by its measure. */
  readonly gaps: readonly Gap[];
  /** The way as it is, or as it would be without its gaps. */
  readonly path: readonly Edge[] | undefined;
  /** Through which microphone, loudspeaker, display or camera. */
  readonly through: string | undefined;
  readonly measured: { readonly value: number; readonly unit: string; readonly limit: number; readonly what: string } | undefined;
  /** How many of how many places fall short, and the worst of them. */
  readonly short: { readonly count: number; readonly of: number; readonly within: string; readonly worst: string; readonly fromRow: number | undefined } | undefined;
  /** How many are at least poorly reached, and from which row on all are. */
  readonly weak?: { readonly count: number; readonly fromRow: number | undefined };
  /** Another talker who repeats what is said. */
  readonly repeatedBy: string | undefined;
}

/** One of the seats that a claim is about. */
export type SeatAsked = Pick<Listener, "name" | "group" | "row">;

export interface Claim {
  readonly way: Exclude<WayName, "call" | "internet">;
  /** The person, the seats, the spot that is to hear, be heard, see or be seen. */
  readonly subject: string;
  /** What is wanted, as a sentence would have it: `Ines is heard by the people online`. */
  readonly title: string;
  /** What the sentence is when it is not met: `the people online do not hear Ines`. */
  readonly unmet: string;
  /** What else decides, besides the trial: claims of equal key are met equally in every item. */
  readonly key: string;
  /** All ways through, broken or not: what is lost when a device is lost follows from them. */
  readonly routes: readonly (readonly Edge[])[];
  /** `within`: only these seats are asked about, where the claim is about seats. */
  assess(trial: Trial, within?: (seat: SeatAsked) => boolean): Assessment;
}

export const UNMET = { path: undefined, through: undefined, measured: undefined, short: undefined, repeatedBy: undefined } as const;

/** Where no device joins the call in the way that is needed. */
function nothing(graph: Graph, says: string, sentence: string, cause: string): Assessment {
  return { ...UNMET, grade: "bad", gaps: [{ says, sentence, cause, open: undefined, between: graph.joins.map((j) => j.join.device) }] };
}

/** A group of seats or a spot as a sentence has it: `the audience`; what has a name of its own is called by it. */
export const called = (name: string): string => (COMMON.has(canonical(name)) ? `the ${name}` : name);
const COMMON: ReadonlySet<string> = new Set(["audience", "lectern", "stage", "gallery", "choir", "stalls", "operator", "pulpit"]);

export interface Candidate {
  readonly ending: Ending;
  readonly path: readonly Edge[];
  readonly gaps: number;
}

/** All microphones, loudspeakers, displays or cameras that a way leads to or from, fewest gaps first. */
export function candidates(graph: Graph, carried: Carried, type: Ending["part"]["type"], sense: "forth" | "back"): readonly Candidate[] {
  const ways = graph.ways(carried, ONLINE, sense);
  const out: Candidate[] = [];
  for (const ending of graph.endings.values()) {
    if (ending.part.type !== type) continue;
    const path = ways.get(node(type, ending.part.id));
    if (path !== undefined && path.length > 0) out.push({ ending, path, gaps: gapsOf(path).length });
  }
  return out.sort((a, b) => a.gaps - b.gaps);
}

/** What all the candidates and their gaps are, for the key of a claim. */
export const keyOf = (list: readonly Candidate[]): string => list.map((c) => `${c.ending.part.id}${c.gaps > 0 ? `!${gapsOf(c.path).map((g) => g.cause).join(",")}` : ""}`).join(" ");

export function broken(graph: Graph, list: readonly Candidate[], verb: string, missing: string): Assessment {
  const first = list[0];
  if (first === undefined) return nothing(graph, "nothing there", leadsNowhere(graph, missing) ?? `no joined device ${verb}`, missing);
  return { ...UNMET, grade: "bad", gaps: gapsOf(first.path), path: first.path, through: first.ending.part.id };
}

/** Where a join does send or play, and no microphone or loudspeaker is at the other end of the wire. */
function leadsNowhere(graph: Graph, missing: string): string | undefined {
  const state = graph.joins.find((j) => (missing === "nothing-plays" ? j.plays : missing === "nothing-sends-sound" ? j.sound : []).length > 0);
  if (state === undefined) return undefined;
  return missing === "nothing-plays" ? `what ${state.join.device} plays reaches no loudspeaker` : `no microphone leads into what ${state.join.device} sends`;
}

/** Grade of many places by one figure each: the worst decides. */
export function worst(
  places: readonly { readonly name: string; readonly row: number; readonly at: Vec3; readonly group: string }[], values: readonly number[],
  limits: { readonly poor: number; readonly bad: number }, unit: string, what: string,
): Pick<Assessment, "grade" | "measured" | "short" | "weak"> {
  let least = 0;
  for (let i = 1; i < values.length; i += 1) if ((values[i] ?? Infinity) < (values[least] ?? Infinity)) least = i;
  const value = values[least] ?? 0;
  const grade: Grade = value < limits.bad ? "bad" : value < limits.poor ? "poor" : "good";
  const limit = grade === "bad" ? limits.bad : limits.poor;
  const failing = values.flatMap((v, i) => (v < limit ? [i] : []));
  const rows = places.length === 0 ? [] : [...new Set(places.map((p) => p.row))].sort((a, b) => a - b);
  const from = (least: number): number | undefined =>
    rows.length > 1 ? rows.find((row) => places.every((p, i) => p.row < row || (values[i] ?? 0) < least)) : undefined;
  return {
    grade, weak: { count: values.filter((v) => v < limits.poor).length, fromRow: from(limits.poor) }, measured: { value, unit, limit, what },
    short: failing.length === 0 ? undefined : { count: failing.length, of: values.length, within: places[0]?.group ?? "", worst: places[least]?.name ?? "", fromRow: from(limit) },
  };
}
