/** What feeds each device: an outlet through leads, a port, a power bank, its own battery. */
import type { Device } from "../model/device";
import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import type { Setup } from "../model/setup";
import type { Gap } from "./edges";

export interface Feed {
  readonly device: Device;
  /** `mains`: through to an outlet. `usb`: from a port. `battery`: only its own. `none`: nothing feeds it. */
  readonly by: "mains" | "usb" | "phantom" | "battery" | "needs-none" | "none" | "unknown";
  /** From what, where something feeds it: the outlet, the lead, the device whose port it is. */
  readonly from: string | undefined;
  /** Where nothing feeds it: why, and whether the text leaves it open. */
  readonly gap: Gap | undefined;
}

/** Feeds of all devices, by canonical name. */
export function feeds(setup: Setup): ReadonlyMap<string, Feed> {
  const out = new Map<string, Feed>();
  const visiting = new Set<string>();
  const ports = portOwners(setup);

  const feedOf = (device: Device): Feed => {
    const key = canonical(device.name);
    const known = out.get(key);
    if (known !== undefined) return known;
    if (visiting.has(key)) return none(device, setup, "it is fed in a circle");
    visiting.add(key);
    const feed = decide(device);
    visiting.delete(key);
    out.set(key, feed);
    return feed;
  };

  const decide = (device: Device): Feed => {
    const { on } = device.power;
    const plain = (by: Feed["by"], from?: string): Feed => ({ device, by, from, gap: undefined });
    if (device.type === "lead") {
      const feeding = plugs(device);
      return feeding.length > 0 ? (feeding.find((f) => f.by === "mains") ?? none(device, setup, "it is not plugged into an outlet")) : none(device, setup, "it is not plugged into an outlet");
    }
    if (on.has("nothing")) return plain("needs-none");
    const mains = plugs(device).find((f) => f.by === "mains");
    if (mains !== undefined) return mains;
    if (on.size === 0) return plain("unknown");
    if (on.has("usb") || (on.has("battery") && device.ports.some((p) => p.takes.has("power")))) {
      const host = usbHost(device);
      if (host !== undefined) return plain("usb", host);
    }
    if (on.has("phantom") && wired(device)) return plain("phantom");
    if (on.has("battery")) return plain("battery");
    const dead = plugs(device)[0]?.from;
    if (dead === undefined) return none(device, setup, undefined);
    // What hangs on a dead lead has one cause with it.
    const lead = setup.devices.get(canonical(dead));
    return none(device, setup, `${dead} has no power itself`, lead === undefined ? undefined : feedOf(lead).gap?.cause);
  };

  const plugs = (device: Device): Feed[] => setup.mains
    .filter((link) => canonical(link.to) === canonical(device.name))
    .map((link) => {
      if (setup.room.outlets.has(canonical(link.from))) return { device, by: "mains", from: link.from, gap: undefined };
      const lead = setup.devices.get(canonical(link.from));
      // Plugged into something whose name is not known: that is said of the name, not of the power.
      if (lead === undefined) return { device, by: "mains", from: link.from, gap: undefined };
      return { device, by: feedOf(lead).by === "mains" ? "mains" : "none", from: link.from, gap: undefined };
    });

  /** The powered device whose port a cable takes power from. */
  const usbHost = (device: Device): string | undefined => {
    for (const link of setup.links) {
      if (link.how !== "cable") continue;
      for (const [mine, other] of [[link.from, link.to], [link.to, link.from]] as const) {
        if (canonical(ports.get(canonical(mine))?.name ?? mine) !== canonical(device.name)) continue;
        const owner = ports.get(canonical(other)) ?? setup.devices.get(canonical(other));
        if (owner === undefined) continue;
        const port = owner.ports.find((p) => canonical(p.id) === canonical(other));
        const myPort = device.ports.find((p) => canonical(p.id) === canonical(mine));
        const usb = port === undefined || port.host || port.gives.has("power");
        const plugged = myPort === undefined || myPort.connector.startsWith("usb");
        if (!usb || !plugged || (port !== undefined && !port.connector.startsWith("usb"))) continue;
        const feed = feedOf(owner);
        if (feed.by !== "none") return owner.name;
      }
    }
    return undefined;
  };

  const wired = (device: Device): boolean => setup.links.some((link) =>
    [link.from, link.to].some((end) => canonical(ports.get(canonical(end))?.name ?? end) === canonical(device.name)));

  for (const device of setup.devices.values()) feedOf(device);
  return out;
}

/** Whether any statement says how this device, or anything at all, gets its power; if none does, the plan is simply not that far. */
function none(device: Device, setup: Setup, why: string | undefined, cause = `no-power ${canonical(device.name)}`): Feed {
  const silent = device.power.on.has("usb") ? setup.links.length === 0 : setup.mains.length === 0;
  const open: Ranged | undefined = silent ? unsaid(`power ${device.name}`, `how ${device.name} gets its power`, false, "the text does not say", `From where does ${device.name} get its power?`) : undefined;
  const wants = [...device.power.on].filter((on) => on !== "battery");
  const lacks = wants.includes("mains") ? "it is plugged into no outlet" : wants.includes("usb") ? "no cable brings it power" : wants.includes("phantom") ? "no cable joins it to an input that feeds it" : "nothing feeds it";
  return {
    device, by: "none", from: undefined,
    gap: { says: "no power", sentence: `${device.name} has no power: ${why ?? lacks}`, cause, open, between: [device.name] },
  };
}

/** The device of each port, by the port's canonical name. */
export function portOwners(setup: Setup): ReadonlyMap<string, Device> {
  const out = new Map<string, Device>();
  for (const device of setup.devices.values()) for (const port of device.ports) out.set(canonical(port.id), device);
  return out;
}
