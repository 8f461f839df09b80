/** What the findings about seats have in common: the keys by which they find each other, how seats are counted, where they stand. */
import { canonical } from "../model/names";
import type { Trial } from "../model/trial";
import type { Where } from "../model/where";
import type { Severity } from "../finding";
import { listeners } from "../signal/air";
import { called } from "../signal/coverage";
import type { Speaking } from "../signal/seats/heard";
import type { Source } from "../signal/seats/sources";
import type { Scene } from "./check";

/** Loudspeakers that are too soft, or voices that are, with help or without. */
export const quietKey = (sources: readonly Source[]): string => `quiet ${sources.map((source) => canonical(source.name)).sort().join(" ")}`;
export const unheardKey = (amplified: boolean): string => (amplified ? "unheard through loudspeakers" : "unheard");
/** Loudspeakers that come apart, whoever speaks. */
export const LATE = "late";

/** The level at which a value under some limits is raised, and the limit that it breaks; in order, the highest. */
export function graded(value: number, limits: { readonly error: number; readonly warning: number; readonly hint: number }): { readonly severity: Severity | undefined; readonly limit: number } {
  if (value < limits.error) return { severity: "error", limit: limits.error };
  if (value < limits.warning) return { severity: "warning", limit: limits.warning };
  return { severity: value < limits.hint ? "hint" : undefined, limit: limits.hint };
}

/** Whose words they are, as a sentence has it. */
export const spoken = (speaking: Speaking): string => (speaking.who === "online" ? "the people online" : called(speaking.voice.name));

/**
 * `11 of 48 in the audience hardly hear Ines from row 5 on, worst audience.row-6.seat-1`: of the seats `among`, as places in
 * `listeners`, those that are `short`.
 */
export function counted(scene: Scene, trial: Trial, among: readonly number[], short: readonly number[], worst: number, verb: readonly [one: string, more: string]): string {
  const all = listeners(scene.setup, trial);
  const at = all[worst];
  if (at === undefined) return `somebody ${verb[0]}`;
  if (among.length < 2) return `${called(at.group)} ${verb[0]}`;
  const falls = new Set(short);
  const own = among.flatMap((i) => (all[i]?.group === at.group ? [i] : []));
  const rows = [...new Set(own.map((i) => all[i]?.row ?? 1))].sort((a, b) => a - b);
  const from = own.length === among.length && rows.length > 1 ? rows.find((row) => own.every((i) => ((all[i]?.row ?? 1) >= row) === falls.has(i))) : undefined;
  const within = own.length === among.length ? called(at.group) : "the room";
  return `${short.length} of ${among.length} in ${within} ${short.length === 1 ? verb[0] : verb[1]}${from !== undefined && from > 1 ? ` from row ${from} on` : ""}, worst ${at.name}`;
}

/** Where a finding about what a source gives belongs: the loudspeaker, else the talker, else the join. */
export const whereOf = (scene: Scene, source: Source | undefined, speaking: Speaking): Where =>
  source?.ending?.device.placed?.where ?? (speaking.who === "voice" ? speaking.voice.where : undefined) ?? scene.graph.joins.find((state) => state.device === source?.ending?.device)?.join.where
  ?? scene.graph.joins[0]?.join.where ?? scene.setup.titleWhere;
