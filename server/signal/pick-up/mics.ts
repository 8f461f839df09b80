/** Microphones that lead to the people online: which are live, whose they are, and how many are open together. */
import { canonical } from "../../model/names";
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { PATTERNS, randomEnergyEfficiency, type PatternName } from "../../physics/directivity";
import { openMicrophoneRise } from "../../physics/openMicrophones";
import { candidates, type Candidate } from "../coverage/claim";
import { nameOfNode, sortOf } from "../edges";
import { carries, type Ending, type Graph } from "../graph";
import { mixerOf } from "../loops/net";
import { once } from "../../model/watching/once";

/** Every microphone that a way leads from to the people online. */
export const micsOf: (graph: Graph) => readonly Candidate[] = once((graph) => candidates(graph, "sound", "microphone", "back"));

/** Those of them that are live in this trial. */
export const liveMics = (graph: Graph, trial: Trial): readonly Candidate[] => micsOf(graph).filter((m) => carries(m.path, trial));

/** A microphone that is worn by somebody, held, or stands at that very name. */
export const isOwn = (mic: Ending, voice: Voice): boolean =>
  mic.device.place?.relations.some((r) => r.anchor.kind === "name" && canonical(r.anchor.name.text) === canonical(voice.name)) === true;

/** The join through which a microphone is sent. */
export const sentBy = (mic: Candidate): string => {
  const edge = mic.path.find((e) => sortOf(e.to) === "sends");
  return edge === undefined ? "" : nameOfNode(edge.to);
};

/** Whether a mixer on the way opens one channel at a time. */
export const isGated = (graph: Graph, mic: Candidate): boolean => mic.path.some((edge) => {
  const mixer = mixerOf(graph, edge);
  return mixer !== undefined && graph.setup.mixers.get(mixer)?.automatic === true;
});

/** For each of the live microphones, how many are added up with it; those that a mixer opens in turn count as one. */
export function openWith(graph: Graph, live: readonly Candidate[]): readonly number[] {
  const buses = new Map<string, { fixed: number; gated: number }>();
  const each = live.map((mic) => ({ bus: sentBy(mic), gated: isGated(graph, mic) }));
  for (const { bus, gated } of each) {
    const so = buses.get(bus) ?? { fixed: 0, gated: 0 };
    buses.set(bus, gated ? { ...so, gated: so.gated + 1 } : { ...so, fixed: so.fixed + 1 });
  }
  return each.map(({ bus, gated }) => {
    const { fixed, gated: inTurn } = buses.get(bus) ?? { fixed: 1, gated: 0 };
    return gated ? 1 : Math.max(1, fixed + (inTurn > 0 ? 1 : 0));
  });
}

/** What the open microphones are, for the key of what hangs on them. */
export const liveKey = (graph: Graph, live: readonly Candidate[]): string => {
  const open = openWith(graph, live);
  return live.map((m, i) => `${m.ending.part.id} ${open[i] ?? 1}`).join(",");
};

/** dB by which a microphone's noise differs from the room's: what its pattern leaves out, and what others that are open add. */
export const noiseRise = (mic: Ending, open: number): number =>
  10 * Math.log10(randomEnergyEfficiency(PATTERNS[mic.part.pattern as PatternName] ?? 1)) + openMicrophoneRise(open);

/** Somebody's own microphone is planned, and does not get there: that is what is wrong, not that another one is far. */
export const ownMissing = (graph: Graph, voice: Voice, trial: Trial): boolean => micsOf(graph).some((m) => isOwn(m.ending, voice) && !carries(m.path, trial));
