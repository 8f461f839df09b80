/** A setup with one thing less, or with another in its place: copies on which it is tried what is lost. */
import type { Device } from "../model/device";
import { valueOf, valuesOf, type Bound } from "../model/bound";
import { canonical } from "../model/names";
import type { Join, Link, Setup } from "../model/setup";
import type { WayName } from "../model/ways";

/** Whether a name is that of the device, or of a part or a port of it. */
const within = (device: string, name: string): boolean => canonical(name) === canonical(device) || canonical(name).startsWith(`${canonical(device)}.`);

/** Without devices, and whatever is plugged into them or joins with them. */
export function without(setup: Setup, gone: readonly string[]): Setup {
  const lost = (name: string): boolean => gone.some((device) => within(device, name));
  return {
    ...setup,
    devices: new Map([...setup.devices].filter(([name]) => !lost(name))),
    links: setup.links.filter((link) => !lost(link.from) && !lost(link.to)),
    mains: setup.mains.filter((link) => !lost(link.from) && !lost(link.to)),
    joins: setup.joins.filter((join) => !lost(join.device)),
    mixers: new Map([...setup.mixers].filter(([name]) => !lost(name))),
    watches: setup.watches.filter((watch) => !lost(watch.device)),
  };
}

/** Without one cable or radio link. */
export const withoutLink = (setup: Setup, gone: Link): Setup => ({ ...setup, links: setup.links.filter((link) => link !== gone) });

/**
 * Every join falls back to what it has of its own where it named something that is gone: the microphone of the laptop for the lapel
 * microphone that nobody brought. `gone` says which names do not count any more; with `ways`, for those alone.
 */
export function onItsOwn(setup: Setup, gone: (name: string) => boolean, ways?: ReadonlySet<WayName>): Setup {
  const named = (statement: Bound): readonly string[] => ["from", "on"].flatMap((slot) => valuesOf(statement, slot, "name").map((n) => setup.names.find(statement.where.path, n.text)?.name ?? n.text));
  const keeps = (statement: Bound): boolean => {
    const way = wayOf(statement);
    if (ways !== undefined && (way === undefined || !ways.has(way))) return true;
    const names = statement.negated ? [] : named(statement);
    return names.length === 0 || !names.every(gone);
  };
  return { ...setup, joins: setup.joins.map((join): Join => ({ ...join, statements: join.statements.filter(keeps) })) };
}

/** For which way a statement of a join says what is used. */
function wayOf(statement: Bound): WayName | undefined {
  switch (statement.row.head) {
    case "plays": return "room-hears-online";
    case "shows": return "room-sees-online";
    case "sends": return valueOf(statement, "what", "word")?.word === "sound" ? "online-hears-room" : "online-sees-room";
    default: return undefined;
  }
}

/** One join uses its own microphone and loudspeaker, whatever was said of them; its pictures stay as they are planned. */
export const byItself = (setup: Setup, device: string): Setup => ({
  ...setup,
  joins: setup.joins.map((join) => (canonical(join.device) === canonical(device) ? { ...join, statements: join.statements.filter((s) => wayOf(s) !== "room-hears-online" && wayOf(s) !== "online-hears-room") } : join)),
});

/** One join alone carries the call: with the microphone, the loudspeaker, the camera and the screen that it has itself, whatever was said of it before. */
export const alone = (setup: Setup, device: string): Setup =>
  ({ ...setup, joins: setup.joins.filter((join) => canonical(join.device) === canonical(device)).map((join): Join => ({ ...join, statements: join.statements.filter((s) => s.row.head !== "sends" && s.row.head !== "plays" && s.row.head !== "shows") })) });

/** `spare` where `device` stood: there, plugged in alike as far as its ports bear the same names, under the name that the text uses. */
export function inPlaceOf(setup: Setup, device: Device, spare: Device): Setup {
  const renamed = (id: string): string => (within(spare.name, id) ? device.name + id.slice(spare.name.length) : id);
  const stand: Device = {
    ...spare, name: device.name, parts: spare.parts.map((part) => ({ ...part, id: renamed(part.id) })), ports: spare.ports.map((port) => ({ ...port, id: renamed(port.id) })),
    placed: device.placed, place: device.place, aim: device.aim, fills: device.fills, ring: device.ring, height: device.height, where: device.where,
  };
  const rest = without(setup, [spare.name]);
  return { ...rest, devices: new Map([...rest.devices].map(([name, one]) => [name, one === device ? stand : one])) };
}
