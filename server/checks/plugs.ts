/** Which ports of two devices a cable could join, and whether one does. */
import type { Device, Port, Signal } from "../model/device";
import { canonical } from "../model/names";
import type { Link, Setup } from "../model/setup";
import { goTogether } from "../signal/wiring";

export const touches = (link: Link, device: Device): boolean => [link.from, link.to].map(canonical)
  .some((end) => end === canonical(device.name) || end.startsWith(`${canonical(device.name)}.`));

export const wiredTo = (setup: Setup, a: Device, b: Device): boolean => setup.links.some((l) => touches(l, a) && touches(l, b));

/** Ports that a cable would join, the sink's free; `any`: whether it is free does not matter. */
export function portPair(setup: Setup, source: Device, sink: Device, signal: Signal, any = false): [Port, Port] | undefined {
  const taken = new Set(any ? [] : setup.links.flatMap((l) => [canonical(l.from), canonical(l.to)]));
  for (const x of source.ports.filter((p) => p.gives.has(signal) && !taken.has(canonical(p.id)))) {
    for (const y of sink.ports.filter((p) => p.takes.has(signal) && !taken.has(canonical(p.id)))) if (goTogether(x, y, "cable")) return [x, y];
  }
  return undefined;
}
