/** How long a device runs on its own battery, and how long it has to. */
import { assumed } from "../model/make-ranged";
import type { Device } from "../model/device";
import type { Ranged } from "../model/ranged";
import type { Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { canonical } from "../model/names";
import { runtime } from "../physics/battery";
import type { Feed } from "./power";

/** Share of the printed energy that a battery in use still gives. Common practice, no source. */
const ageing = (device: Device): Ranged =>
  assumed(`${device.name}.ageing`, `what the battery of ${device.name} still holds`, "share", { best: 0.8, low: 0.7, high: 1, source: "common practice, no source" });
/** Share of a power bank's printed energy that comes out of its port. Common practice, no source. */
const bankShare = (device: Device): Ranged =>
  assumed(`${device.name}.share`, `what ${device.name} gives of its printed energy`, "share", { best: 0.65, low: 0.55, high: 0.75, source: "common practice, no source" });

/** Seconds from access, or start, to the end; nothing where the timetable does not say. */
export function timeNeeded(setup: Setup): { readonly seconds: number; readonly from: "access" | "start" } | undefined {
  const from = setup.access ?? setup.start;
  return from === undefined || setup.end === undefined ? undefined : { seconds: (setup.end - from) * 60, from: setup.access === undefined ? "start" : "access" };
}

/** Seconds that a device lasts with nothing but batteries, a power bank that feeds it included; nothing where no figure is known. */
export function lasts(setup: Setup, device: Device, feed: Feed, feeds: ReadonlyMap<string, Feed>, trial: Trial): number | undefined {
  const own = ownLife(device, trial);
  if (feed.by !== "usb" || feed.from === undefined) return own;
  const host = setup.devices.get(canonical(feed.from));
  if (host === undefined || host.type !== "power-bank") return Infinity;
  const sharing = [...feeds.values()].filter((f) => f.by === "usb" && f.from !== undefined && canonical(f.from) === canonical(host.name));
  const draw = sharing.reduce((sum, f) => sum + (f.device.power.draws === undefined ? 0 : trial.value(f.device.power.draws)), 0);
  const energy = host.power.battery;
  if (energy === undefined || draw === 0) return own;
  return (own ?? 0) + runtime(trial.value(energy), draw, trial.value(bankShare(host)));
}

function ownLife(device: Device, trial: Trial): number | undefined {
  const { life, battery, draws } = device.power;
  if (life !== undefined) return trial.value(life);
  if (battery === undefined || draws === undefined) return undefined;
  return runtime(trial.value(battery), trial.value(draws), trial.value(ageing(device)));
}

/** Whether the text itself gives the figures that the life follows from: only then can a battery be an error. */
export const isStated = (device: Device): boolean => {
  const stated = (value: Ranged | undefined): boolean => value !== undefined && value.from.how !== "kind" && value.from.how !== "assumed";
  return stated(device.power.life) || stated(device.power.draws);
};
