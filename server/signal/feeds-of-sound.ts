/** What does not go to the room or the call but to some: a hearing loop, receivers that people wear, a recorder. */
import type { Device } from "../model/device";
import { canonical } from "../model/names";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { pickUps } from "./air";
import { node, type Edge } from "./edges";
import { carries, ONLINE, type Graph } from "./graph";

const FED: ReadonlySet<string> = new Set(["loop", "transmitter", "recorder"]);

/** Devices that are fed with sound and give it to some, or keep it. */
export const fed = (graph: Graph): readonly Device[] => [...graph.setup.devices.values()].filter((device) => FED.has(device.type) && device.placed !== undefined);

/** From below this ratio of direct to reverberant sound on, a microphone that is meant for others does not pick somebody up, dB. Model choice. */
const PICKED_UP = -6;

/** All ways into a device, by the node at which each begins. */
function waysInto(graph: Graph, device: Device): ReadonlyMap<string, readonly (readonly Edge[])[]> {
  const out = new Map<string, (readonly Edge[])[]>();
  for (const port of device.ports.filter((one) => one.takes.has("sound"))) {
    for (const [from, path] of graph.ways("sound", node("port-in", port.id), "back")) out.set(from, [...(out.get(from) ?? []), path]);
  }
  return out;
}

/** Whether the people online reach a device. */
export const onlineReaches = (graph: Graph, device: Device, trial: Trial): boolean =>
  (waysInto(graph, device).get(ONLINE) ?? []).some((path) => path.length > 0 && carries(path, trial));

/** Whether a voice reaches a device: through a microphone in its reach that leads there, the call left out. */
export function voiceReaches(graph: Graph, voice: Voice, device: Device, trial: Trial): boolean {
  const ways = waysInto(graph, device);
  return [...graph.endings.values()].some((ending) => {
    if (ending.part.type !== "microphone") return false;
    const live = (ways.get(node("microphone", ending.part.id)) ?? []).some((path) => path.length > 0 && carries(path, trial) && path.every((edge) => edge.via !== "call"));
    if (!live) return false;
    const heard = pickUps(graph.setup, trial, voice, ending.device, ending.part);
    return Math.min(...heard.map((one) => one.ratio)) >= PICKED_UP;
  });
}

export const fedKey = (graph: Graph, device: Device): string => `${canonical(device.name)} ${graph.voices.map((voice) => voice.name).join(",")} ${graph.item ?? ""}`;
