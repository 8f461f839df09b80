/** What does not go to the room or the call but to some: a hearing loop, receivers and earphones that people wear, a recorder. */
import type { Device } from "../model/device";
import { valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { canonical } from "../model/names";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { pickUps } from "./air";
import { node, type Edge } from "./edges";
import { carries, ONLINE, type Graph } from "./graph";
import { interpreted, interprets } from "./interpreters";
import { positionOf } from "./stands";

/** How a feed reaches those whom it is for. */
export type FeedWay = "loop" | "receivers" | "earphones" | "record";

/** A device that gives sound to some, or keeps it. */
export interface SoundFeed {
  readonly device: Device;
  readonly by: FeedWay;
  /** Whose words it has to hold; nothing where the text does not say. */
  readonly wants: { readonly voices: readonly Voice[]; readonly online: boolean } | undefined;
  /** The interpreter who listens to it. */
  readonly for: Voice | undefined;
}

const WAY_OF_TYPE: Readonly<Record<string, FeedWay>> = { loop: "loop", transmitter: "receivers", recorder: "record" };

/** Every feed of the setup in this item. */
export function soundFeeds(graph: Graph): readonly SoundFeed[] {
  const online = graph.joins.some((join) => join.plays.length > 0);
  return [...graph.setup.devices.values()].filter((device) => device.placed !== undefined).flatMap((device): SoundFeed[] => {
    const by = WAY_OF_TYPE[device.type];
    if (by !== undefined) {
      const named = namedBy(graph, device);
      // A hearing loop is for everybody, and so is a recorder on which the meeting is to be kept.
      const wants = named !== undefined ? { voices: named, online: false } : by === "loop" || (by === "record" && recordsOn(graph).includes(canonical(device.name))) ? { voices: graph.voices, online } : undefined;
      return [{ device, by, wants, for: undefined }];
    }
    const wearer = interpreterWith(graph, device);
    if (wearer === undefined) return [];
    const of = interpreted(wearer, graph.item);
    const voices = graph.voices.filter((voice) => voice !== wearer && (of === undefined || of.has(canonical(voice.name))));
    return [{ device, by: "earphones", wants: { voices, online: online && of === undefined }, for: wearer }];
  });
}

/** The devices on which the meeting is to be recorded in this item, canonical. */
const recordsOn = ({ setup, item }: Graph): readonly string[] => holding(setup.call, "records", item).flatMap((s) => valuesOf(s, "on", "name").map((name) => canonical(name.text)));

/** Those whose words a device is for, as far as they speak in this item; nothing where the text names nobody. */
function namedBy({ setup, voices, item }: Graph, device: Device): readonly Voice[] | undefined {
  return device.carries?.flatMap((name) => {
    const voice = setup.voices.get(canonical(name));
    return voice !== undefined && (voices.includes(voice) || interprets(voice, item)) ? [voice] : [];
  });
}

/** Whoever interprets with the earphones of a device on. */
function interpreterWith({ setup, item }: Graph, device: Device): Voice | undefined {
  if (!device.parts.some((part) => part.type === "earphones")) return undefined;
  const by = positionOf(setup, device).held?.by;
  const voice = by === undefined ? undefined : setup.voices.get(canonical(by));
  return voice !== undefined && interprets(voice, item) ? voice : undefined;
}

/** From below this ratio of direct to reverberant sound on, a microphone that is meant for others does not pick somebody up, dB. Model choice. */
const PICKED_UP = -6;

/** Nodes at which sound ends in a device. */
const endsOf = (device: Device): readonly string[] => [
  ...device.parts.filter((part) => part.type === "earphones").map((part) => node("earphones", part.id)),
  ...device.ports.filter((port) => port.takes.has("sound")).map((port) => node("port-in", port.id)),
];

/** All ways into a device, by the node at which each begins. */
function waysInto(graph: Graph, device: Device): ReadonlyMap<string, readonly (readonly Edge[])[]> {
  const out = new Map<string, (readonly Edge[])[]>();
  for (const end of endsOf(device)) {
    for (const [from, path] of graph.ways("sound", end, "back")) out.set(from, [...(out.get(from) ?? []), path]);
  }
  return out;
}

/** A way from the people online to a device that carries. */
export const wayOfOnline = (graph: Graph, device: Device, trial: Trial): readonly Edge[] | undefined =>
  (waysInto(graph, device).get(ONLINE) ?? []).find((path) => path.length > 0 && carries(path, trial));

/** A way from a voice to a device: through a microphone in its reach that leads there, the call left out. */
export function wayOfVoice(graph: Graph, voice: Voice, device: Device, trial: Trial): readonly Edge[] | undefined {
  const ways = waysInto(graph, device);
  for (const ending of graph.endings.values()) {
    if (ending.part.type !== "microphone") continue;
    const live = (ways.get(node("microphone", ending.part.id)) ?? []).find((path) => path.length > 0 && carries(path, trial) && path.every((edge) => edge.via !== "call"));
    if (live === undefined) continue;
    const heard = pickUps(graph.setup, trial, voice, ending.device, ending.part);
    if (Math.min(...heard.map((one) => one.ratio)) >= PICKED_UP) return live;
  }
  return undefined;
}

export const feedKey = (graph: Graph, { device, wants }: SoundFeed): string =>
  `${canonical(device.name)} ${wants?.voices.map((voice) => voice.name).join(",") ?? ""} ${wants?.online ?? ""} ${graph.item ?? ""}`;
