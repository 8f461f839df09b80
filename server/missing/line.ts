/** What of a copy still reaches the internet, and what takes it there instead: another line, or radio where a cable is gone. */
import { canonical } from "../model/names";
import type { Device } from "../model/device";
import type { LinkFacts } from "../model/network";
import type { Internet, Join, Link, Setup } from "../model/setup";
import { standIns } from "../signal/load";
import { entryOf, wayOut } from "../signal/network";

/** The connection over which a device joins; the first where it names none. */
const lineOf = (setup: Setup, join: Join): Internet | undefined => (join.over === undefined ? setup.internets[0] : setup.internets.find((one) => canonical(one.name) === canonical(join.over ?? "")));

/** Devices that join as planned, are there, and have lost their way to the internet: as far as the text tells of one. */
export function cutOff(planned: Setup, copy: Setup): readonly string[] {
  return copy.joins.filter((join) => {
    const line = lineOf(copy, join);
    const before = planned.joins.find((one) => canonical(one.device) === canonical(join.device));
    // Rerouted: what is not said of the way to another line is taken to be there.
    if (line === undefined || before === undefined || lineOf(planned, before) !== line) return false;
    const entry = entryOf(planned, line);
    if (entry !== undefined && !copy.devices.has(canonical(entry.name))) return canonical(entry.name) !== canonical(join.device);
    return wayOut(planned, join.device, line).length > 0 && wayOut(copy, join.device, line).length === 0;
  }).map((join) => join.device);
}

/** A copy without what cannot join any more. */
export const withoutCut = (copy: Setup, cut: readonly string[]): Setup => (cut.length === 0 ? copy : { ...copy, joins: copy.joins.filter((join) => !cut.includes(join.device)) });

export interface OtherWay {
  readonly by: "planned" | "radio";
  readonly names: readonly string[];
  readonly copy: () => Setup;
}

/** What takes those that are cut off to the internet all the same. */
export function otherWays(planned: Setup, bare: Setup): OtherWay[] {
  const cut = new Set(cutOff(planned, bare));
  if (cut.size === 0) return [];
  const lines = [...new Set(bare.joins.filter((join) => cut.has(join.device)).flatMap((join) => lineOf(bare, join) ?? []))];
  const others = lines.flatMap((line) => standIns(planned, line)).filter((other) => other.entersAt === undefined || bare.devices.has(canonical(other.entersAt)));
  return [
    ...others.slice(0, 2).map((other): OtherWay => ({ by: "planned", names: [other.name], copy: () => ({ ...bare, joins: bare.joins.map((join) => (cut.has(join.device) ? { ...join, over: other.name } : join)) }) })),
    ...byRadio(planned, bare, cut),
  ];
}

/** Nothing is known of a link that nobody planned. */
const NOTHING: LinkFacts = { rate: undefined, signal: undefined, margin: undefined, loss: undefined, delay: undefined };

/** Devices with radio of their own, to a router that has it, too. */
function byRadio(planned: Setup, bare: Setup, cut: ReadonlySet<string>): OtherWay[] {
  const radioOf = (device: Device | undefined): string | undefined => device?.ports.find((port) => port.connector === "wifi")?.id;
  const links = bare.joins.filter((join) => cut.has(join.device)).flatMap((join): Link[] => {
    const [from, to] = [radioOf(bare.devices.get(canonical(join.device))), radioOf(entryOf(planned, lineOf(bare, join)))];
    const entry = entryOf(planned, lineOf(bare, join));
    // What was linked by radio and is not any more is no way either.
    const was = planned.links.some((link) => link.how === "radio" && [link.from, link.to].every((end) => [from, to].some((port) => port !== undefined && canonical(port) === canonical(end))));
    return was || from === undefined || to === undefined || entry === undefined || !bare.devices.has(canonical(entry.name)) ? [] : [{ how: "radio", from, to, length: undefined, pad: 0, facts: NOTHING, statement: join.bound, where: join.where }];
  });
  return links.length === 0 ? [] : [{ by: "radio", names: [...cut], copy: () => ({ ...bare, links: [...bare.links, ...links] }) }];
}
