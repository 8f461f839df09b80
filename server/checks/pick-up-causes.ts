/** How a voice gets into the call, what of it falls short, and by which keys the findings of one pick-up find each other. */
import type { Severity } from "../finding";
import { canonical } from "../model/names";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import type { Where } from "../model/where";
import type { Graph } from "../signal/graph";
import { FAR, heard, NOISY, UNCLEAR, type Heard, type Hearing } from "../signal/pick-up/hearing";
import { micsOf } from "../signal/pick-up/mics";
import { repeaters } from "../signal/pick-up/repeaters";
import { seatsHeard, type SeatsHeard } from "../signal/pick-up/seats-heard";

/** How the people online hear one voice; of seats the one that is heard worst. */
export interface PickUp {
  readonly voice: Voice;
  readonly hearing: Hearing;
  /** Where a talker who walks about is heard worst. */
  readonly roaming: Hearing | undefined;
  /** All seats, where the voice is of seats. */
  readonly seats: SeatsHeard | undefined;
  /** Whose words are heard in place of the voice's own, and how. */
  readonly repeated: Heard | undefined;
}

/** Nothing where nothing of it gets to the call: that is another finding. */
export function pickUpOf(graph: Graph, voice: Voice, trial: Trial): PickUp | undefined {
  if (voice.seats !== undefined) {
    const found = seatsHeard(graph, voice, trial);
    return found && { voice, hearing: found.own.hearing, roaming: undefined, seats: found.own, repeated: found.repeated };
  }
  const found = heard(graph, voice, trial);
  return found && { voice, hearing: found.home, roaming: found.worst, seats: undefined, repeated: found.repeatedBy === undefined ? undefined : found };
}

/** What may fall short, in the order in which causes are told from consequences. */
const KINDS = ["far", "noise", "unclear"] as const;
export type Kind = (typeof KINDS)[number];

const WORST_FIRST = ["error", "warning", "hint"] as const;

/** How badly a pick-up falls short in one respect. Hollowness spoils speech, and is what music is played in a hall for. */
export function gradeOf(kind: Kind, { voice, hearing: h, seats }: PickUp): Severity | undefined {
  switch (kind) {
    case "noise": return h.overNoise < NOISY.error ? "error" : h.overNoise < NOISY.warning ? "warning" : undefined;
    case "unclear": return voice.music ? undefined : h.sti < UNCLEAR.error ? "error" : h.sti < UNCLEAR.warning ? "warning" : undefined;
    case "far": return voice.music ? undefined : h.ratio < FAR.warning ? "warning" : h.ratio < FAR.hint && seats === undefined ? "hint" : undefined;
  }
}

/** A talker is too far from a microphone; seats are what they are, whichever microphone is the nearest. */
export const causeKey = (kind: Kind, p: PickUp): string => `${kind} ${canonical(p.seats === undefined ? p.hearing.mic.part.id : p.voice.name)}`;

/** Which of what falls short leads: the worst, of equals the first; the others go under it, and it under the second, should ranges turn them round. */
export function under(kind: Kind | undefined, p: PickUp): { readonly foldUnder?: string } {
  const bad = WORST_FIRST.flatMap((severity) => KINDS.filter((one) => gradeOf(one, p) === severity));
  const other = bad.find((one) => one !== kind);
  return other === undefined ? {} : { foldUnder: causeKey(other, p) };
}

/** Where the microphone is placed, else where its device joins. */
export const micWhere = (graph: Graph, { hearing, voice }: PickUp): Where =>
  hearing.mic.device.placed?.where ?? graph.joins.find((j) => j.device === hearing.mic.device)?.join.where ?? voice.where ?? graph.setup.titleWhere;

/** All that decides how a voice is heard, besides a trial. */
export function voiceKey(graph: Graph, voice: Voice): string {
  const mics = micsOf(graph).map((m) => `${m.ending.part.id}${m.path.flatMap((e) => e.gap?.cause ?? []).join("!")}`).join(",");
  const faces = [voice, ...repeaters(graph, voice)].flatMap((v) => v.statements.filter((s) => s.row.head === "faces").map(() => graph.item ?? "")).join(",");
  return `${voice.name} ${mics} ${repeaters(graph, voice).map((v) => v.name).join(",")} ${faces}`;
}
