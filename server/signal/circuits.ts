/** What hangs on each outlet, lead and circuit of the mains, and how much that is. Planning figures: the venue, the local code and licensed people decide. */
import type { Device } from "../model/device";
import { assumed } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import type { MainsLink, Setup } from "../model/setup";
import { withUnit } from "../model/show";
import { Trial } from "../model/trial";
import type { Where } from "../model/where";

const CP = "common practice, no source";

/** One place through which power goes. */
export interface Bottleneck {
  readonly name: string;
  readonly kind: "outlet" | "lead" | "circuit";
  /** A, where the text says. */
  readonly rated: Ranged | undefined;
  /** What is plugged in, through leads too. */
  readonly devices: readonly Device[];
  /** Outlets, where it is a circuit. */
  readonly outlets: readonly string[];
  /** W that hang on it besides. */
  readonly besides: Ranged | undefined;
  readonly where: Where;
}

/** What is plugged in there, through leads too, each once. A lead that is fed in a circle ends the search. */
export function hangingOn(setup: Setup, name: string, seen: Set<string> = new Set()): readonly Device[] {
  const key = canonical(name);
  if (seen.has(key)) return [];
  seen.add(key);
  const out = setup.mains.filter((link) => canonical(link.from) === key).flatMap((link): readonly Device[] => {
    const device = setup.devices.get(canonical(link.to));
    return device === undefined ? [] : device.type === "lead" ? hangingOn(setup, device.name, seen) : [device];
  });
  return [...new Set(out)];
}

/** Every outlet, lead and circuit on which something hangs. */
export function bottlenecks(setup: Setup): readonly Bottleneck[] {
  const { outlets, circuits } = setup.room;
  const ends: Bottleneck[] = [
    ...[...outlets.values()].map((o): Bottleneck => ({ name: o.name, kind: "outlet", rated: o.rated, devices: hangingOn(setup, o.name), outlets: [], besides: undefined, where: o.where })),
    ...[...setup.devices.values()].filter((d) => d.type === "lead").map((d): Bottleneck => ({ name: d.name, kind: "lead", rated: d.rated, devices: hangingOn(setup, d.name), outlets: [], besides: undefined, where: d.where })),
    ...[...circuits.values()].map((c): Bottleneck => {
      const fed = [...outlets.values()].filter((o) => o.fedBy !== undefined && canonical(o.fedBy) === canonical(c.name)).map((o) => o.name);
      return { name: c.name, kind: "circuit", rated: c.rated, devices: [...new Set(fed.flatMap((o) => hangingOn(setup, o)))], outlets: fed, besides: c.draws, where: c.where };
    }),
  ];
  return ends.filter(({ devices }) => devices.length > 0);
}

/** W that a device takes from the mains; of one of which nothing is known, a wide guess. */
export const drawOf = (device: Device, trial: Trial): number => trial.value(device.power.draws
  ?? { ...assumed(`${device.name}.draws`, `the power that ${device.name} draws`, "power", { best: 50, low: 10, high: 300, source: CP }), ask: `How much power does ${device.name} draw, in watts?` });

/** W on all of it. */
export const loadOn = ({ devices, besides }: Bottleneck, trial: Trial): number =>
  devices.reduce((sum, device) => sum + drawOf(device, trial), 0) + (besides === undefined ? 0 : trial.value(besides));

/** Whether more than half of what it may carry hangs there, at the best guess. */
export function isFull(setup: Setup, neck: Bottleneck): boolean {
  const trial = new Trial();
  return neck.rated !== undefined && loadOn(neck, trial) > (trial.value(neck.rated) * voltageOf(setup, trial)) / 2;
}

/** What hangs there at the best guess, and what may, in words: `310 W of 3680 W`; nothing where nothing does. */
export function loadWords(setup: Setup, kind: Bottleneck["kind"], name: string): string[] {
  const neck = bottlenecks(setup).find((one) => one.kind === kind && canonical(one.name) === canonical(name));
  if (neck === undefined) return [];
  const trial = new Trial();
  const most = neck.rated === undefined ? "" : ` of ${withUnit(trial.value(neck.rated) * voltageOf(setup, trial), "W")}`;
  return [`carries ${withUnit(loadOn(neck, trial), "W")}${most}`];
}

/** V of the mains. */
export function voltageOf({ room, zone }: Setup, trial: Trial): number {
  if (room.voltage !== undefined) return trial.value(room.voltage);
  const american = zone !== undefined && /^america\//i.test(zone);
  const by = american ? { best: 120, low: 110, high: 240 } : zone === undefined ? { best: 230, low: 100, high: 240 } : { best: 230, low: 220, high: 240 };
  return trial.value({ ...assumed("room.voltage", `the voltage of the mains in ${room.name}`, "voltage", { ...by, source: CP }), ask: `What voltage has the mains in ${room.name}?` });
}

/** Sockets of a lead or an outlet of which nothing is said. Common practice, no source. */
const SOCKETS = { lead: { best: 3, low: 2, high: 6 }, outlet: { best: 2, low: 1, high: 4 } } as const;

/** How many plugs go in. */
export function socketsOf(setup: Setup, name: string): Ranged {
  const lead = setup.devices.get(canonical(name));
  const stated = lead?.sockets ?? setup.room.outlets.get(canonical(name))?.sockets;
  return stated ?? { ...assumed(`${name}.sockets`, `how many plugs go into ${name}`, "count", { ...SOCKETS[lead === undefined ? "outlet" : "lead"], source: CP }), ask: `How many plugs go into ${name}?` };
}

/** The plugs in it. */
export const plugsIn = (setup: Setup, name: string): readonly MainsLink[] => setup.mains.filter((link) => canonical(link.from) === canonical(name));

/** The circuit behind an outlet, or behind the outlet that a lead is plugged into; nothing where the text does not say. */
export function circuitOf(setup: Setup, name: string, seen: Set<string> = new Set()): string | undefined {
  const key = canonical(name);
  if (seen.has(key)) return undefined;
  seen.add(key);
  const outlet = setup.room.outlets.get(key);
  if (outlet !== undefined) return outlet.fedBy;
  const into = setup.mains.find((link) => canonical(link.to) === key);
  return into === undefined ? undefined : circuitOf(setup, into.from, seen);
}
