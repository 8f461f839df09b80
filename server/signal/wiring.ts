/** What is plugged into what, and what each device does inside with what it takes. */
import { CONNECTOR_TYPES } from "../../grammar/vocabulary";
import { valueOf, valuesOf } from "../model/bound";
import type { Device, Port } from "../model/device";
import { holding } from "../model/during";
import { canonical } from "../model/names";
import type { Link, Mixer, Setup } from "../model/setup";
import { node, type Carried, type Edge, type EdgeList, type Gap } from "./edges";
import { portOwners, type Feed } from "./power";
import { once } from "../model/watching/once";

/** Adds cables, radio links and the insides of devices, for sound or for picture, in one item of the programme. */
export function addWiring(edges: EdgeList, setup: Setup, item: string | undefined, carried: Carried, feeds: ReadonlyMap<string, Feed>): void {
  const gapOf = (device: Device): Gap | undefined => feeds.get(canonical(device.name))?.gap;
  for (const link of setup.links) addLink(edges, setup, link, carried);
  for (const device of setup.devices.values()) {
    const gap = gapOf(device);
    const inside = (from: string, to: string, gain = 0, delay: Edge["delay"] = undefined): void => {
      edges.add({ from, to, via: "inside", gain, delay, gap, where: device.where });
    };
    const gives = device.ports.filter((port) => port.gives.has(carried));
    const takes = device.ports.filter((port) => port.takes.has(carried));
    if (device.type === "computer") continue; // only the call's own program connects what is inside a computer
    for (const part of device.parts) {
      if (carried === "sound" && part.type === "microphone") for (const port of gives) inside(node("microphone", part.id), node("port-out", port.id), 0, port.delay);
      if (carried === "sound" && (part.type === "loudspeaker" || part.type === "earphones")) {
        for (const port of takes) inside(node("port-in", port.id), node(part.type, part.id), 0, port.delay ?? part.delay);
      }
      if (carried === "picture" && part.type === "camera") for (const port of gives) inside(node("camera", part.id), node("port-out", port.id), 0, part.delay);
      if (carried === "picture" && part.type === "display") for (const port of takes) inside(node("port-in", port.id), node("display", part.id), 0, part.delay);
    }
    if (carried === "sound" && device.type === "mixer") addMixer(setup.mixers.get(canonical(device.name)), item, gives, takes, inside);
    else if (PASSING.has(device.type)) {
      for (const from of takes) for (const to of gives) if (from.id !== to.id && passes(device, from, to)) inside(node("port-in", from.id), node("port-out", to.id), 0, to.delay);
    }
  }
}

/** Types that hand on what they take. */
const PASSING: ReadonlySet<string> = new Set(["interface", "hub", "grabber", "adapter", "mixer"]);

/** An interface turns sound for a computer into sound for cables and back; it joins no two cables. A hub joins up with down. */
function passes(device: Device, from: Port, to: Port): boolean {
  const usb = (port: Port): boolean => port.connector.startsWith("usb");
  if (device.type === "interface") return usb(from) !== usb(to);
  if (device.type === "hub") return from.host !== to.host;
  return true;
}

function addMixer(mixer: Mixer | undefined, item: string | undefined, gives: readonly Port[], takes: readonly Port[], inside: (from: string, to: string, gain: number, delay?: Edge["delay"]) => void): void {
  if (mixer === undefined) {
    // Nothing is said of how it is set: every output holds every input, as on a desk left alone.
    for (const from of takes) for (const to of gives) if (from.id !== to.id) inside(node("port-in", from.id), node("port-out", to.id), 0);
    return;
  }
  const takesById = new Map(takes.map((port) => [canonical(port.id), port]));
  const givesById = new Map(gives.map((port) => [canonical(port.id), port]));
  for (const bus of mixer.buses) {
    const holds = holding(bus.statements, "holds", item);
    for (const channel of mixer.channels) {
      const gain = heldAt(channel.name, holds);
      if (gain === undefined) continue;
      for (const from of channel.ports) {
        for (const to of bus.ports) {
          const a = takesById.get(from);
          const b = givesById.get(to);
          if (a !== undefined && b !== undefined) inside(node("port-in", a.id), node("port-out", b.id), channel.trim - channel.pad + gain, bus.delay);
        }
      }
    }
  }
}

/** How loud a bus holds a channel, in dB; nothing where it does not. A channel's own statement counts before `all`. */
function heldAt(channel: string, holds: ReturnType<typeof holding>): number | undefined {
  let all: number | undefined;
  let own: number | undefined | "no";
  for (const statement of holds) {
    const gain = valueOf(statement, "gain", "quantity")?.best ?? 0;
    for (const name of valuesOf(statement, "channel", "name")) {
      if (canonical(name.text) === "all") all = statement.negated ? undefined : gain;
      else if (canonical(name.text) === canonical(channel)) own = statement.negated ? "no" : gain;
    }
  }
  return own === "no" ? undefined : own ?? all;
}

function addLink(edges: EdgeList, setup: Setup, link: Link, carried: Carried): void {
  const from = endsOf(setup, link.from);
  const to = endsOf(setup, link.to);
  const pairs = pairUp(from, to, link.how, carried);
  for (const [a, b] of pairs) {
    const join = (x: Port, y: Port): void => {
      // What a radio or a converter takes is counted where the sound enters the device that plays it.
      edges.add({ from: node("port-out", x.id), to: node("port-in", y.id), via: link.how, gain: link.pad === 0 ? 0 : -link.pad, delay: undefined, gap: undefined, where: link.where });
    };
    if (a.gives.has(carried) && b.takes.has(carried)) join(a, b);
    if (b.gives.has(carried) && a.takes.has(carried)) join(b, a);
  }
}

/** The port that an end names, or all ports of the device that it names. */
export function endsOf(setup: Setup, end: string): readonly Port[] {
  const owner = portOwnersOf(setup).get(canonical(end));
  if (owner !== undefined) return owner.ports.filter((port) => canonical(port.id) === canonical(end));
  return setup.devices.get(canonical(end))?.ports ?? [];
}

/** `portOwners`, worked out once for a setup. */
export const portOwnersOf: (setup: Setup) => ReadonlyMap<string, Device> = once(portOwners);

/** Where an end names a whole device, its first port that fits the other end. */
function pairUp(from: readonly Port[], to: readonly Port[], how: Link["how"], carried: Carried): [Port, Port][] {
  for (const a of from) {
    for (const b of to) {
      const flows = (a.gives.has(carried) && b.takes.has(carried)) || (b.gives.has(carried) && a.takes.has(carried));
      if (flows && goTogether(a, b, how)) return [[a, b]];
    }
  }
  return [];
}

/** Whether one plain cable, or one radio link, joins two ports. */
export function goTogether(a: Port, b: Port, how: "cable" | "radio"): boolean {
  const x = CONNECTOR_TYPES[a.connector];
  const y = CONNECTOR_TYPES[b.connector];
  if (x === undefined || y === undefined) return false;
  const radio = (how === "radio");
  if ((x.radio === true) !== radio || (y.radio === true) !== radio) return false;
  if (x.families.some((family) => y.families.includes(family))) return true;
  // A USB-C port that carries a picture feeds a display through a cable made for it.
  const picture = new Set(["hdmi", "displayport"]);
  const video = (p: Port, q: Port): boolean => p.connector === "usb-c" && p.gives.has("picture") && picture.has(q.connector);
  return video(a, b) || video(b, a);
}
