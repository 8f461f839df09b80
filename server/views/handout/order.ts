/** What is set up, and in which order: power first, so that everything after it can be tried at once; the call last. */
import { canonical } from "../../model/names";
import type { Device } from "../../model/device";
import type { Setup } from "../../model/setup";
import { feeds, type Feed } from "../../signal/power";
import { portOwnersOf } from "../../signal/wiring";

export const STAGES = ["power", "pictures", "sound", "call"] as const;
export type Stage = (typeof STAGES)[number];

export const STAGE_TITLES: Readonly<Record<Stage, string>> = {
  power: "Power", pictures: "Pictures", sound: "Sound", call: "The call",
};

/** Order: common practice, no source. A device type that is not here helps others to join and comes with them. */
const STAGE_OF: Readonly<Record<string, Stage>> = {
  lead: "power", "power-bank": "power", display: "pictures", projector: "pictures", camera: "pictures", grabber: "pictures",
  loudspeaker: "sound", microphone: "sound", speakerphone: "sound", headset: "sound", mixer: "sound", interface: "sound", loop: "sound",
};

/** A device with its number on this sheet: the same in the drawing, in every list and on its label. */
export interface Numbered {
  readonly number: number;
  readonly device: Device;
  readonly stage: Stage;
  readonly feed: Feed | undefined;
}

/** What this evening needs: what is placed, joins, is plugged in or steps in; other things of the kit stay at home. */
export function inUse(setup: Setup): Device[] {
  const owners = portOwnersOf(setup);
  const named = new Set<string>();
  const use = (name: string): void => {
    named.add(canonical(owners.get(canonical(name))?.name ?? name));
  };
  for (const link of [...setup.links, ...setup.mains]) [link.from, link.to].forEach(use);
  for (const join of setup.joins) use(join.device);
  for (const mixer of setup.mixers.values()) use(mixer.device);
  for (const fallback of setup.fallbacks) use(fallback.device);
  return [...setup.devices.values()].filter((device) => device.placed !== undefined || named.has(canonical(device.name)));
}

/** Devices in the order in which they are set up, numbered from 1. */
export function setUpOrder(setup: Setup): Numbered[] {
  const fed = feeds(setup);
  const rows = inUse(setup).map((device) => ({ device, stage: STAGE_OF[device.type] ?? "call", feed: fed.get(canonical(device.name)) }));
  rows.sort((a, b) => STAGES.indexOf(a.stage) - STAGES.indexOf(b.stage));
  return rows.map((row, i) => ({ ...row, number: i + 1 }));
}

/** Numbers by canonical name of the device. */
export const numbersOf = (order: readonly Numbered[]): ReadonlyMap<string, number> =>
  new Map(order.map(({ device, number }) => [canonical(device.name), number]));
