/** Mixes sent to the call that contain what came from the call: ways by wire through a mixer from what a join plays to what a join sends. */
import { canonical } from "../../model/names";
import type { Bus, Channel } from "../../model/mixers";
import type { Mixer } from "../../model/setup";
import type { JoinState } from "../call-state";
import { nameOfNode, node, type Edge } from "../edges";
import type { Graph } from "../graph";
import { mixerOf, wiresOf } from "./net";
import { once } from "../../model/watching/once";

export interface Returned {
  readonly plays: JoinState;
  readonly sends: JoinState;
  readonly path: readonly Edge[];
  /** Canonical name of the mixer, and of the ports at which it takes the call in and gives it out again. */
  readonly mixer: string;
  readonly from: string;
  readonly to: string;
  /** How the mixer is set; nothing where the text does not say. */
  readonly set: Mixer | undefined;
  readonly bus: Bus | undefined;
  readonly channel: Channel | undefined;
}

/** Each pair of a join that plays into a mixer and a join that sends from it what it played. */
export const returnsOf = once((graph: Graph): readonly Returned[] => {
  const wires = wiresOf(graph);
  return graph.joins.flatMap((plays) => graph.joins.flatMap((sends): Returned[] => {
    const path = wires(node("out", plays.join.device)).get(node("in", sends.join.device));
    // The last mixer on the way: what is sent comes off one of its buses.
    const last = path?.findLast((edge) => mixerOf(graph, edge) !== undefined);
    const mixer = last === undefined ? undefined : mixerOf(graph, last);
    if (path === undefined || last === undefined || mixer === undefined) return [];
    const set = graph.setup.mixers.get(mixer);
    const [from, to] = [canonical(nameOfNode(last.from)), canonical(nameOfNode(last.to))];
    return [{ plays, sends, path, mixer, from, to, set, bus: set?.buses.find((bus) => bus.ports.includes(to)), channel: set?.channels.find((channel) => channel.ports.includes(from)) }];
  }));
});

/** Key of the root cause: one mix that holds what it should not is one cause, whoever sends it. */
export const mixCause = ({ to }: Returned): string => `mix ${to}`;
