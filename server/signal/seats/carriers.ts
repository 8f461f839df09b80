/** By which loudspeakers the room is told: those that play the call, and those to which wires in the room carry a microphone. */
import { canonical } from "../../model/names";
import { candidates, keyOf, type Candidate } from "../coverage/claim";
import { nameOfNode, node, sortOf, type Edge } from "../edges";
import { gainOf, type Ending, type Graph } from "../graph";
import { wiresOf } from "../loops/net";
import { once } from "../../model/watching/once";

/** A loudspeaker to which the sound in question leads, whether or not it gets there. */
export interface Player {
  readonly ending: Ending;
  readonly path: readonly Edge[];
}

/** The loudspeakers that play the call, those with the fewest gaps first. */
export const callPlayers: (graph: Graph) => readonly Candidate[] = once((graph) => candidates(graph, "sound", "loudspeaker", "forth"));

/** Names all that decides which loudspeakers play the call, besides a trial. */
export const callKey: (graph: Graph) => string = once((graph) => keyOf(callPlayers(graph)));

/** A microphone and a loudspeaker that it is carried to by wires in the room. */
export interface Carrier extends Player {
  readonly mic: Ending;
}

/** Every way by wires alone from a microphone to a loudspeaker in the room. */
export const carriers: (graph: Graph) => readonly Carrier[] = once((graph) => {
  const wires = wiresOf(graph);
  return [...graph.endings.values()].filter(({ part }) => part.type === "microphone").flatMap((mic) =>
    [...wires(node("microphone", mic.part.id))].flatMap(([end, path]): Carrier[] => {
      const ending = sortOf(end) === "loudspeaker" ? graph.endings.get(canonical(nameOfNode(end))) : undefined;
      return ending === undefined ? [] : [{ mic, ending, path }];
    }));
});

const gapsIn = (path: readonly Edge[]): string => path.flatMap((edge) => edge.gap?.cause ?? []).join("!");

/** Names all that decides what carries voices in the room, besides a trial. */
export const carriersKey: (graph: Graph) => string = once((graph) =>
  carriers(graph).map(({ mic, ending, path }) => `${mic.part.id}>${ending.part.id}${Math.round(gainOf(path) * 100)}${gapsIn(path)}`).join(" "));

/** Names all that decides which loudspeakers carry voices in the room, besides a trial. */
export const speakersKey: (graph: Graph) => string = once((graph) => [...new Set(carriers(graph).map(({ ending, path }) => `${ending.part.id}${gapsIn(path)}`))].join(","));
