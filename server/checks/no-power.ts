import { append } from "../model/edits";
import type { Device } from "../model/device";
import { canonical } from "../model/names";
import type { WayName } from "../model/ways";
import { devicesOnWays } from "../signal/coverage";
import type { Feed } from "../signal/power";
import { rootFile, type Case, type Check, type Remedy, type Scene } from "./check";
import { freeOutlets } from "./outlets";

export const noPower: Check = {
  bearing: "device",
  entry: {
    code: "no-power", title: "A device has no power", severity: "error", group: "Power and heat",
    notice: "It stays dark, and somebody goes looking for an outlet while the room waits.",
    why: "It has no battery, no cable brings it power from a port, and no chain of leads ends in an outlet.",
    todo: ["Plug it into an outlet or a lead that reaches it.", "A power bank, where it runs on USB.", "Mains is the venue's: ask which outlets may carry what, unwind leads fully, and never plug a lead into a lead."],
    source: "common practice, no source",
    symptoms: ["black picture", "dark screen", "dead", "no light", "nothing happens", "does not start"],
    limit: "none may be without",
  },
  cases: (scene) => [...scene.graph.feeds.values()].filter((feed) => feed.gap !== undefined && inUse(scene, feed.device)).map((feed): Case => ({
    key: `${feed.device.name} ${feed.gap?.sentence ?? ""}`, ways: waysOf(scene, feed.device),
    measure: (trial) => {
      const dead = !(feed.gap?.open !== undefined && trial.holds(feed.gap.open));
      const { name } = feed.device;
      const key = `no-power ${canonical(name)}`;
      const under = feed.gap !== undefined && feed.gap.cause !== key ? feed.gap.cause : missingLink(scene, feed);
      return {
        severity: dead ? "error" : undefined, badness: dead ? 1 : 0,
        cause: { key, subjects: [name], where: feed.device.where }, ...(under === undefined ? {} : { foldUnder: under }),
        say: () => ({
          because: feed.gap?.sentence ?? "", effect: under === undefined ? "" : feed.gap?.sentence ?? "", summary: dead ? `${name} has no power` : `${name} has power`, chain: [],
        }),
      };
    },
    remedies: () => remedies(scene, feed),
  })),
};

/** Of what runs on USB alone: the one missing cable that would bring power and signal both, where a join wants its signal. */
function missingLink(scene: Scene, feed: Feed): string | undefined {
  const { device } = feed;
  if (!device.power.on.has("usb") || device.power.on.has("mains")) return undefined;
  const gaps = [...scene.graph.picture.all, ...scene.graph.sound.all].flatMap((edge) => (edge.gap === undefined ? [] : [edge.gap]));
  return gaps.find((gap) => gap.cause.startsWith("link ") && gap.between.some((name) => canonical(name) === canonical(device.name)))?.cause;
}

/** Kit that stays in the box needs no power. */
export const inUse = (scene: Scene, device: Device): boolean =>
  device.placed !== undefined || scene.graph.joins.some((j) => j.device === device)
  || scene.setup.mains.some((m) => [m.from, m.to].some((end) => canonical(end) === canonical(device.name)))
  || scene.setup.links.some((l) => [l.from, l.to].some((end) => canonical(end) === canonical(device.name) || canonical(end).startsWith(`${canonical(device.name)}.`)));

/** The ways that go through a device, as far as they exist at all. */
export const waysOf = (scene: Scene, device: Device): readonly WayName[] => [...(devicesOnWays(scene.graph).get(canonical(device.name)) ?? [])];

function remedies(scene: Scene, feed: Feed): Remedy[] {
  const { setup } = scene;
  const file = rootFile(setup);
  if (file === undefined) return [];
  const { device } = feed;
  const options = freeOutlets(scene, device);
  const wantsMains = device.type === "lead" || device.power.on.has("mains");
  // One lead is never plugged into another.
  const plain = wantsMains ? options.filter((o) => !(o.lead && device.type === "lead")).map((o): Remedy => ({
    title: `Plug ${device.name} into ${o.name}`, edits: [append(file, `mains from ${o.name} to ${device.name}`, ["mains"])],
  })) : [];
  // What hangs on a lead that is itself unplugged is mended at the lead.
  const dead = setup.mains.find((m) => canonical(m.to) === canonical(device.name));
  const lead = dead && setup.devices.get(canonical(dead.from));
  const atLead = lead?.type === "lead" ? options.filter((o) => !o.lead).map((o): Remedy => ({
    title: `Plug ${lead.name} into ${o.name}`, edits: [append(file, `mains from ${o.name} to ${lead.name}`, ["mains"])],
  })) : [];
  return [...atLead.slice(0, 2), ...plain.slice(0, 3), ...byUsb(scene, device)];
}

/** A port that is free and gives power, on a device that has some itself: a computer, a hub, a power bank. */
function byUsb(scene: Scene, device: Device): Remedy[] {
  const { setup } = scene;
  const file = rootFile(setup);
  const mine = device.ports.find((p) => p.connector.startsWith("usb"));
  if (file === undefined || mine === undefined || !device.power.on.has("usb")) return [];
  const taken = new Set(setup.links.flatMap((l) => [canonical(l.from), canonical(l.to)]));
  const hosts = [...setup.devices.values()].filter((d) => d !== device && scene.graph.feeds.get(canonical(d.name))?.by !== "none" && (d.placed !== undefined || d.type === "power-bank"));
  return hosts.flatMap((host) => {
    const port = host.ports.find((p) => (p.host || p.gives.has("power")) && p.connector.startsWith("usb") && !taken.has(canonical(p.id)));
    return port === undefined ? [] : [{ title: `Plug ${device.name} into ${port.id}`, edits: [append(file, `cable from ${mine.id} to ${port.id}`, ["cable"])] }];
  }).slice(0, 2);
}
