/**
 * The net in which sound can go round: from where it enters wires (a microphone, a wire from one join into another, a room at the
 * other end) to where it leaves them (a loudspeaker), and through the air back. Which ways there are; how loud they are is `howl.ts`.
 */
import { canonical } from "../../model/names";
import type { RemoteRoom } from "../../model/setup";
import type { JoinState } from "../call-state";
import { deviceOfNode, EdgeList, nameOfNode, node, reach, sortOf, type Edge } from "../edges";
import { gainOf, type Ending, type Graph } from "../graph";
import { once, onceFor, oncePair } from "../../model/watching/once";

/**
 * Where sound enters: a microphone, once for what it gives to wires in the room and once for each join that it is sent by, because
 * a canceller holds only what is sent; what a join takes in by wire from what joins play; and a room at the other end.
 */
export interface Place {
  readonly mic: Ending | undefined;
  /** The join that sends it; nothing where it goes by wires in the room. */
  readonly sends: JoinState | undefined;
  readonly remote: RemoteRoom | undefined;
  /** Mixers on its way that open one channel at a time. */
  readonly turns: readonly string[];
  /** From the microphone to what the join gathers. */
  readonly path: readonly Edge[];
}

/** Where sound leaves: a loudspeaker, once for what wires in the room bring and once for each join that plays on it; the wire out of a join; a room at the other end. */
export interface Outlet {
  readonly speaker: Ending | undefined;
  /** The join that plays it; nothing where wires in the room bring it. */
  readonly plays: JoinState | undefined;
  readonly remote: RemoteRoom | undefined;
  /** From the join to the loudspeaker. */
  readonly path: readonly Edge[];
}

/** What leads from a place to an outlet. */
export interface Way {
  readonly path: readonly Edge[];
  /** Whether it goes through the call. */
  readonly call: boolean;
}

export interface Net {
  readonly places: readonly Place[];
  readonly outlets: readonly Outlet[];
  /** From a place to an outlet; nothing where none leads there. */
  way(place: Place, outlet: Outlet): Way | undefined;
  /** Wires alone, from the join that plays to the join that sends. */
  wire(outlet: Outlet, place: Place): readonly Edge[] | undefined;
  /** All that decides the net besides a trial. */
  readonly key: string;
}

/** The net of a graph: `local` of the wires and the air in the room alone, `whole` with the call. Worked out once. */
export const netOf = onceFor((which: "local" | "whole") => which, makeNet);

function makeNet(graph: Graph, which: "local" | "whole"): Net {
  const { endings, joins, setup } = graph;
  const wires = wiresOf(graph);
  const all = [...endings.values()];
  const mics = all.filter((ending) => ending.part.type === "microphone");
  const speakers = all.filter((ending) => ending.part.type === "loudspeaker");
  const from = new Map(mics.map((mic) => [mic, wires(node("microphone", mic.part.id))]));
  const turns = (path: readonly Edge[]): string[] => [...new Set(path.flatMap((edge) => automaticOf(graph, edge)))];
  const places: Place[] = [];
  const outlets: Outlet[] = [];

  const local = speakers.filter((speaker) => mics.some((mic) => from.get(mic)?.has(node("loudspeaker", speaker.part.id))));
  for (const speaker of local) outlets.push({ speaker, plays: undefined, remote: undefined, path: [] });
  for (const mic of mics) {
    const paths = local.flatMap((speaker) => from.get(mic)?.get(node("loudspeaker", speaker.part.id)) ?? []);
    if (paths.length > 0) places.push({ mic, sends: undefined, remote: undefined, turns: turns(paths), path: [] });
  }
  if (which === "whole") {
    for (const state of joins) {
      const out = wires(node("out", state.join.device));
      for (const speaker of speakers) {
        const path = out.get(node("loudspeaker", speaker.part.id));
        if (path !== undefined) outlets.push({ speaker, plays: state, remote: undefined, path });
      }
      const into = node("in", state.join.device);
      for (const mic of mics) {
        const path = from.get(mic)?.get(into);
        if (path !== undefined) places.push({ mic, sends: state, remote: undefined, turns: turns(path), path });
      }
      if (joins.some((other) => out.has(node("in", other.join.device)))) outlets.push({ speaker: undefined, plays: state, remote: undefined, path: [] });
      if (joins.some((other) => wires(node("out", other.join.device)).has(into))) places.push({ mic: undefined, sends: state, remote: undefined, turns: [], path: [] });
    }
    for (const remote of setup.remoteRooms) {
      places.push({ mic: undefined, sends: undefined, remote, turns: [], path: [] });
      outlets.push({ speaker: undefined, plays: undefined, remote, path: [] });
    }
  }

  const way = (place: Place, outlet: Outlet): Way | undefined => {
    if (outlet.plays === undefined && outlet.remote === undefined) {
      if (place.mic === undefined || place.sends !== undefined || outlet.speaker === undefined) return undefined;
      const path = from.get(place.mic)?.get(node("loudspeaker", outlet.speaker.part.id));
      return path === undefined ? undefined : { path, call: false };
    }
    if (place.sends === undefined && place.remote === undefined) return undefined;
    // The call returns to nobody what came from there.
    if (place.remote !== undefined ? place.remote === outlet.remote : place.sends === outlet.plays) return undefined;
    return { path: [...place.path, ...outlet.path], call: true };
  };
  const wire = (outlet: Outlet, place: Place): readonly Edge[] | undefined => {
    if (outlet.speaker !== undefined || outlet.plays === undefined || place.mic !== undefined || place.sends === undefined) return undefined;
    return wires(node("out", outlet.plays.join.device)).get(node("in", place.sends.join.device));
  };
  return { places, outlets, way, wire, key: keyOf(places, outlets, way, wire, joins) };
}

/** Ways through wires, radio and the insides of devices, from a node: the call left out, the fewest gaps first. */
export const wiresOf = once((graph: Graph): (from: string) => ReadonlyMap<string, readonly Edge[]> => {
  const edges = new EdgeList();
  for (const edge of graph.sound.all) if (edge.via !== "call") edges.add(edge);
  const kept = new Map<string, ReadonlyMap<string, readonly Edge[]>>();
  return (from) => {
    let found = kept.get(from);
    if (found === undefined) {
      found = reach(edges, from);
      kept.set(from, found);
    }
    return found;
  };
});

/** The mixer inside which an edge runs, where that mixer opens one channel at a time. */
function automaticOf(graph: Graph, edge: Edge): string[] {
  const mixer = mixerOf(graph, edge);
  return mixer !== undefined && graph.setup.mixers.get(mixer)?.automatic === true ? [mixer] : [];
}

/** The mixer inside which an edge runs. Looked up once for each edge: with many microphones it is asked for in every trial. */
export const mixerOf = oncePair((graph: Graph, edge: Edge): string | undefined => {
  const device = edge.via !== "inside" || sortOf(edge.from) !== "port-in" || sortOf(edge.to) !== "port-out"
    ? undefined : graph.setup.devices.get(canonical(deviceOfNode(edge.from, graph.setup.devices, canonical)));
  return device?.type === "mixer" ? canonical(device.name) : undefined;
});

/** Whether an edge plays at once what a join takes in. */
export const monitorOf = (edge: Edge): string | undefined => (sortOf(edge.from) === "in" && sortOf(edge.to) !== "sends" ? nameOfNode(edge.from) : undefined);

function keyOf(places: readonly Place[], outlets: readonly Outlet[], way: Net["way"], wire: Net["wire"], joins: readonly JoinState[]): string {
  const said = (path: readonly Edge[]): string => `${Math.round(gainOf(path) * 100)}${path.flatMap((edge) => edge.gap?.cause ?? []).join("!")}`;
  const lines = places.map((place) => {
    const reached = outlets.map((outlet) => {
      const there = way(place, outlet);
      const back = wire(outlet, place);
      return `${there === undefined ? "" : said(there.path)}${back === undefined ? "" : `=${said(back)}`}`;
    });
    return `${place.mic?.part.id ?? place.remote?.name ?? "wire"} ${place.sends?.join.device ?? ""} ${place.turns.join(",")}: ${reached.join(" ")}`;
  });
  return `${lines.join("; ")} to ${outlets.map((o) => `${o.speaker?.part.id ?? o.remote?.name ?? "wire"} ${o.plays?.join.device ?? ""}`).join(",")} ${joins.map((j) => `${j.join.device}${j.cancels.best}`).join(",")}`;
}
