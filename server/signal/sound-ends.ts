/** From what a computer could take its sound, and on what it could play: its own parts, and what wires or radio bring. */
import type { Device, Port } from "../model/device";
import { canonical } from "../model/names";
import { deviceOfNode, node, sortOf } from "./edges";
import type { Graph } from "./graph";

export interface SoundEnd {
  /** As a join would name it: `laptop.microphone`, `lapel`. */
  readonly name: string;
  readonly device: Device;
}

/** Every source of sound that a joined computer can choose from: its own microphones, then what is plugged in. */
export function inputs(graph: Graph, device: Device): readonly SoundEnd[] {
  return [...own(device, "microphone"), ...plugged(graph, device, device.ports.filter((port) => port.takes.has("sound")), "back")];
}

/** Everything on which a joined computer can play: its own loudspeakers, then what is plugged in. */
export function outputs(graph: Graph, device: Device): readonly SoundEnd[] {
  return [...own(device, "loudspeaker"), ...plugged(graph, device, device.ports.filter((port) => port.gives.has("sound")), "forth")];
}

const own = (device: Device, type: "microphone" | "loudspeaker"): SoundEnd[] => device.parts.filter((part) => part.type === type).map((part) => ({ name: part.id, device }));

/** The devices plugged into these ports through which sound comes from a microphone, or gets to a loudspeaker. */
function plugged(graph: Graph, device: Device, ports: readonly Port[], sense: "forth" | "back"): SoundEnd[] {
  const found = new Map<string, SoundEnd>();
  for (const port of ports) {
    for (const [id, path] of graph.ways("sound", node(sense === "back" ? "port-in" : "port-out", port.id), sense)) {
      if (sortOf(id) !== (sense === "back" ? "microphone" : "loudspeaker") || path.some((edge) => edge.via === "call")) continue;
      const next = sense === "back" ? path.at(-1)?.from : path[0]?.to;
      const other = next === undefined ? undefined : graph.setup.devices.get(canonical(deviceOfNode(next, graph.setup.devices, canonical)));
      if (other !== undefined && other !== device) found.set(canonical(other.name), { name: other.name, device: other });
    }
  }
  return [...found.values()];
}
