/** Edits of the mixes of a mixer: a channel held, held louder or softer, a whole mix turned down or kept back. */
import { valueOf, valuesOf, type Bound } from "../model/bound";
import { holding } from "../model/during";
import { insertInto, rewrite, type Edit } from "../model/edits";
import type { Bus, Mixer } from "../model/mixers";
import { canonical } from "../model/names";
import { figure } from "../model/show";
import { nameOfNode, node, sortOf, type Edge } from "../signal/edges";
import type { Graph } from "../signal/graph";
import { mixerOf, wiresOf } from "../signal/loops/net";
import { fileOf, type Scene } from "./check";

export interface BusOf {
  readonly mixer: Mixer;
  readonly bus: Bus;
}

/** The mixes that a way leads through. */
export const busesOn = ({ setup, graph }: Scene, path: readonly Edge[]): BusOf[] => path.flatMap((edge): BusOf[] => {
  const mixer = setup.mixers.get(mixerOf(graph, edge) ?? "");
  return mixer === undefined ? [] : mixer.buses.filter((bus) => bus.ports.includes(canonical(nameOfNode(edge.to)))).map((bus) => ({ mixer, bus }));
});

/** Canonical names of the loudspeakers that a mix feeds by wires. */
export const fedBy = (graph: Graph, bus: Bus): ReadonlySet<string> => new Set(bus.ports.flatMap((port) =>
  [...wiresOf(graph)(node("port-out", portId(graph, port))).keys()].filter((end) => sortOf(end) === "loudspeaker").map((end) => canonical(nameOfNode(end)))));

/** A port as it is written where it is declared. */
function portId(graph: Graph, port: string): string {
  for (const device of graph.setup.devices.values()) for (const one of device.ports) if (canonical(one.id) === port) return one.id;
  return port;
}

const gainOf = (held: Bound): number => valueOf(held, "gain", "quantity")?.best ?? 0;
const channelsOf = (held: Bound): string[] => valuesOf(held, "channel", "name").map((name) => name.text);
const duringOf = (held: Bound): string => (held.tails.during.length === 0 ? "" : ` during ${held.tails.during.map((name) => name.text).join(" and ")}`);
const at = (gain: number): string => (gain === 0 ? "" : ` at ${figure(gain)} dB`);

/** Every channel of a mix by as much louder, or softer. */
export function turned(scene: Scene, { bus }: BusOf, by: number): Edit[] {
  return holding(bus.statements, "holds", scene.item).filter((held) => !held.negated)
    .map((held) => rewrite(held, `holds ${channelsOf(held).join(" and ")}${at(gainOf(held) + by)}${duringOf(held)}`));
}

/** One channel in a mix, at a gain in dB. */
export function heldAt(scene: Scene, { mixer, bus }: BusOf, channel: string, gain: number): Edit[] {
  const file = fileOf(scene.setup, mixer.where.path);
  if (file === undefined) return [];
  const own = holding(bus.statements, "holds", scene.item).findLast((held) => channelsOf(held).map(canonical).join() === canonical(channel));
  return [own === undefined ? insertInto(file, bus.statement, [`holds ${channel}${at(gain)}`]) : rewrite(own, `holds ${channel}${at(gain)}${duringOf(own)}`)];
}

/** What a mix holds a channel at, dB; nothing where it does not. */
export function heldIn(scene: Scene, bus: Bus, channel: string): number | undefined {
  const holds = holding(bus.statements, "holds", scene.item);
  const own = holds.findLast((held) => channelsOf(held).map(canonical).includes(canonical(channel)));
  const all = holds.findLast((held) => channelsOf(held).map(canonical).includes("all"));
  const found = own ?? all;
  return found === undefined || found.negated ? undefined : gainOf(found);
}

/** Keeps a mix back by so many milliseconds more. */
export function keptBack(scene: Scene, { mixer, bus }: BusOf, ms: number): Edit[] {
  const file = fileOf(scene.setup, mixer.where.path);
  const stated = bus.statements.find((statement) => statement.row.head === "delay");
  if (file === undefined) return [];
  const sum = Math.round((bus.delay?.best ?? 0) * 1000 + ms);
  return [stated === undefined ? insertInto(file, bus.statement, [`delay ${sum} ms`]) : rewrite(stated, `delay ${sum} ms`)];
}
