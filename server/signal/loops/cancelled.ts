/** Cancellers and what is in their way: a second one in series, a gain inside their loop that changes by itself. */
import { canonical } from "../../model/names";
import type { Channel } from "../../model/mixers";
import type { Device } from "../../model/device";
import type { JoinState } from "../call-state";
import { deviceOfNode, nameOfNode, node, type Edge } from "../edges";
import type { Ending, Graph } from "../graph";
import { mixerOf, wiresOf } from "./net";

/** One join that plays and sends, with a loudspeaker and a microphone of its own loop. */
export interface OwnLoop {
  readonly state: JoinState;
  readonly speakers: readonly Ending[];
  readonly mics: readonly { readonly ending: Ending; readonly path: readonly Edge[] }[];
}

/** The joins that play on loudspeakers and send from microphones: what their cancellers have to hold. */
export function ownLoops(graph: Graph): readonly OwnLoop[] {
  const wires = wiresOf(graph);
  const all = [...graph.endings.values()];
  return graph.joins.flatMap((state): OwnLoop[] => {
    const out = wires(node("out", state.join.device));
    const speakers = all.filter((e) => e.part.type === "loudspeaker" && out.has(node("loudspeaker", e.part.id)));
    const mics = all.flatMap((ending) => {
      const path = ending.part.type === "microphone" ? wires(node("microphone", ending.part.id)).get(node("in", state.join.device)) : undefined;
      return path === undefined ? [] : [{ ending, path }];
    });
    return speakers.length > 0 && mics.length > 0 ? [{ state, speakers, mics }] : [];
  });
}

/** A unit whose own canceller holds what the join's canceller holds, too. */
export const unitInSeries = (loop: OwnLoop): Device | undefined =>
  loop.mics.map(({ ending }) => ending.device).find((device) => device.cancels && loop.speakers.some((speaker) => speaker.device === device));

/** A gain that changes by itself on the way from a microphone to the canceller: the microphone's, a unit's on the way, a channel's. */
export interface Moving {
  readonly name: string;
  readonly device: Device | undefined;
  readonly channel: Channel | undefined;
}

export function movingGains(graph: Graph, loop: OwnLoop): readonly Moving[] {
  const { setup } = graph;
  const found = new Map<string, Moving>();
  for (const { ending, path } of loop.mics) {
    if (ending.part.gain === "automatic") found.set(ending.part.id, { name: ending.part.id, device: ending.part.id === ending.device.name ? ending.device : undefined, channel: undefined });
    for (const edge of path) {
      const device = setup.devices.get(canonical(deviceOfNode(edge.from, setup.devices, canonical)));
      if (device?.gain === "automatic" && device !== ending.device) found.set(device.name, { name: device.name, device, channel: undefined });
      const mixer = mixerOf(graph, edge);
      const channel = mixer === undefined ? undefined : setup.mixers.get(mixer)?.channels.find((c) => c.ports.includes(canonical(nameOfNode(edge.from))));
      if (channel?.gain === "automatic") found.set(`${mixer} ${channel.name}`, { name: channel.name, device: undefined, channel });
    }
  }
  return [...found.values()];
}
