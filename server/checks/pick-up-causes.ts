/** Keys by which the findings of one pick-up find each other. */
import { canonical } from "../model/names";
import type { Voice } from "../model/setup";
import type { Graph } from "../signal/graph";
import { micsOf, type Hearing } from "../signal/pick-up/hearing";
import { repeaters } from "../signal/pick-up/repeaters";

export const pickUpKey = (h: Hearing): string => `pick-up ${canonical(h.mic.part.id)}`;
export const farKey = (h: Hearing): string => `far ${canonical(h.mic.part.id)}`;

/** All that decides how a voice is heard, besides a trial. */
export function voiceKey(graph: Graph, voice: Voice): string {
  const mics = micsOf(graph).map((m) => `${m.ending.part.id}${m.path.flatMap((e) => e.gap?.cause ?? []).join("!")}`).join(",");
  const faces = [voice, ...repeaters(graph, voice)].flatMap((v) => v.statements.filter((s) => s.row.head === "faces").map(() => graph.item ?? "")).join(",");
  return `${voice.name} ${mics} ${repeaters(graph, voice).map((v) => v.name).join(",")} ${faces}`;
}
