/** The way from a joined device through the local network to where the internet begins. */
import { canonical } from "../model/names";
import type { Device } from "../model/device";
import type { LinkFacts } from "../model/network";
import type { Internet, Setup } from "../model/setup";
import type { Where } from "../model/where";
import { endsOf, portOwnersOf } from "./wiring";
import { once } from "../model/watching/once";

export type HopKind = "wired" | "wireless" | "powerline";

/** From one device of the network to the next. */
export interface Hop {
  readonly from: string;
  readonly to: string;
  readonly kind: HopKind;
  readonly facts: LinkFacts;
  /** What shares its time with it: one radio channel, one pair of adapters, one cable. Hops of one channel have one key. */
  readonly channel: string;
  readonly where: Where;
}

/** Cable before mains wires before radio, where there are several ways: what computers do when left alone, and what one should want. */
const WEIGHT: Readonly<Record<HopKind, number>> = { wired: 1, powerline: 3, wireless: 5 };
const NETWORKS: ReadonlySet<string> = new Set(["ethernet", "wifi", "mobile"]);

/** The hops that leave each device, by canonical name. */
const hopsOf = once((setup: Setup): ReadonlyMap<string, readonly Hop[]> => {
  const out = new Map<string, Hop[]>();
  const add = (hop: Hop): void => {
    for (const one of [hop, { ...hop, from: hop.to, to: hop.from }]) out.set(canonical(one.from), [...(out.get(canonical(one.from)) ?? []), one]);
  };
  for (const link of setup.links) {
    const [a, b] = [ownerOf(setup, link.from), ownerOf(setup, link.to)];
    const kind = kindOf(setup, link.from, link.to);
    if (a === undefined || b === undefined || a === b || kind === undefined) continue;
    // All who are linked to one access point by radio take turns on its channel.
    const hub = a.type === "computer" ? b : a;
    add({ from: a.name, to: b.name, kind, facts: link.facts, where: link.where, channel: kind === "wireless" ? `radio of ${hub.name}` : `the cable between ${a.name} and ${b.name}` });
  }
  for (const pair of setup.powerlines) {
    const [a, b] = [setup.devices.get(canonical(pair.from)), setup.devices.get(canonical(pair.to))];
    if (a !== undefined && b !== undefined && a !== b) add({ from: a.name, to: b.name, kind: "powerline", facts: pair.facts, where: pair.where, channel: `the powerline between ${a.name} and ${b.name}` });
  }
  return out;
});

const ownerOf = (setup: Setup, end: string): Device | undefined => portOwnersOf(setup).get(canonical(end)) ?? setup.devices.get(canonical(end));

/** How two ends go together as a network; nothing where they do not. */
function kindOf(setup: Setup, from: string, to: string): HopKind | undefined {
  const ends = [from, to].map((end) => new Set(endsOf(setup, end).map((port) => port.connector).filter((connector) => NETWORKS.has(connector))));
  const [a, b] = ends;
  if (a === undefined || b === undefined) return undefined;
  if (a.has("ethernet") && b.has("ethernet")) return "wired";
  return a.has("wifi") && b.has("wifi") ? "wireless" : undefined;
}

/** Where a connection begins: where the text says, else at the one router there is. */
export function entryOf(setup: Setup, internet: Internet | undefined): Device | undefined {
  if (internet?.entersAt !== undefined) return setup.devices.get(canonical(internet.entersAt));
  if (setup.internets.length > 1) return undefined;
  const routers = [...setup.devices.values()].filter((device) => device.type === "router" && (hopsOf(setup).get(canonical(device.name))?.length ?? 0) > 0);
  return routers.length === 1 ? routers[0] : undefined;
}

/**
 * The hops from a device to where the internet begins, the best way where there are several; none where the text states no network,
 * or no way through it.
 */
export function wayOut(setup: Setup, device: string, internet: Internet | undefined): readonly Hop[] {
  const goal = entryOf(setup, internet);
  if (goal === undefined || canonical(goal.name) === canonical(device)) return [];
  const hops = hopsOf(setup);
  const best = new Map<string, { readonly weight: number; readonly way: readonly Hop[] }>([[canonical(device), { weight: 0, way: [] }]]);
  const done = new Set<string>();
  for (;;) {
    const [next] = [...best].filter(([name]) => !done.has(name)).sort(([, a], [, b]) => a.weight - b.weight);
    if (next === undefined) return [];
    const [name, { weight, way }] = next;
    if (name === canonical(goal.name)) return way;
    done.add(name);
    // A computer on the way passes nothing on.
    if (way.length > 0 && setup.devices.get(name)?.type === "computer") continue;
    for (const hop of hops.get(name) ?? []) {
      const to = canonical(hop.to);
      const sum = weight + WEIGHT[hop.kind];
      if (sum < (best.get(to)?.weight ?? Infinity)) best.set(to, { weight: sum, way: [...way, hop] });
    }
  }
}

/** Whether a connection comes in over the mobile telephone network. */
export const isMobile = (setup: Setup, internet: Internet): boolean =>
  internet.entersAt !== undefined && setup.devices.get(canonical(internet.entersAt))?.ports.some((port) => port.connector === "mobile") === true;
