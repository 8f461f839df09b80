/** The line check: each way tried once before people come, and the chain of things to look at where it does not work. */
import { canonical } from "../../model/names";
import type { WayName } from "../../model/ways";
import type { Band, Hop, Run } from "../../signal/drawing/flow";
import type { Study } from "../../study";
import type { Wire } from "./wires";

/** A link of the chain: a device, the label of what leads to the next one, or what is missing between the two. */
export type Link =
  | { readonly kind: "device"; readonly name: string }
  | { readonly kind: "lead"; readonly label: string }
  | { readonly kind: "missing"; readonly says: string };

export interface Trial {
  readonly way: Band["way"];
  /** Who speaks, hears, sees or is seen in the room: all that go along the same chain. */
  readonly subjects: readonly string[];
  /** Whoever says it again before the first microphone. */
  readonly repeatedBy: string | undefined;
  readonly chain: readonly Link[];
  /** Items in which it goes this way; none where it does throughout. */
  readonly items: readonly string[];
}

/** More items than any evening has; each has a flow of its own. */
const MOST_ITEMS = 30;
const ORDER: readonly WayName[] = ["room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room"];

interface One extends Omit<Trial, "subjects" | "items"> {
  readonly subject: string;
  readonly within: Set<string>;
}

/** Everything to be tried, in the order of the ways; what goes the same way in several items, or for several people, is tried once. */
export function trialsOf(study: Study, wires: readonly Wire[], isDevice: (name: string) => boolean): Trial[] {
  const items: readonly (string | undefined)[] = study.items.length === 0 ? [undefined] : study.items.slice(0, MOST_ITEMS);
  const found = new Map<string, One>();
  for (const item of items) {
    for (const band of study.flow(item).bands) {
      for (const run of band.runs) {
        const one = { way: band.way, subject: subjectOf(band.way, run), chain: chainOf(run, wires, isDevice), repeatedBy: repeaterOf(study, run) };
        const key = JSON.stringify(one);
        const known = found.get(key) ?? { ...one, within: new Set<string>() };
        known.within.add(item ?? "");
        found.set(key, known);
      }
    }
  }
  const together = new Map<string, Trial>();
  for (const { subject, within, ...one } of found.values()) {
    const trial = { ...one, items: within.size === items.length ? [] : [...within] };
    const key = JSON.stringify(trial);
    together.set(key, { ...trial, subjects: [...(together.get(key)?.subjects ?? []), subject] });
  }
  return [...together.values()].sort((a, b) => ORDER.indexOf(a.way) - ORDER.indexOf(b.way));
}

/** The end of a run that is in the room. */
function subjectOf(way: Band["way"], run: Run): string {
  const out = way === "online-hears-room" || way === "online-sees-room";
  return (out ? run.hops[0]?.from : run.hops.at(-1)?.to) ?? "";
}

/** Somebody between the one who speaks and the first device only says it again. */
function repeaterOf({ setup }: Study, run: Run): string | undefined {
  const second = run.hops[0]?.to;
  return second !== undefined && setup.voices.has(canonical(second)) && run.hops.length > 1 ? second : undefined;
}

/** Those at the ends are the ones who try it, and every chain has the call: what one looks at lies between. */
function chainOf(run: Run, wires: readonly Wire[], isDevice: (name: string) => boolean): Link[] {
  const out: Link[] = [];
  const device = (name: string): void => {
    if (isDevice(name)) out.push({ kind: "device", name });
  };
  const [first] = run.hops;
  if (first !== undefined) device(first.from);
  for (const hop of run.hops) {
    if (hop.gap !== undefined) out.push({ kind: "missing", says: hop.gap });
    else {
      const label = labelOf(hop, wires);
      if (label !== undefined) out.push({ kind: "lead", label });
    }
    device(hop.to);
  }
  return out;
}

/** The label of the cable or radio link that a hop takes. */
function labelOf(hop: Hop, wires: readonly Wire[]): string | undefined {
  if (hop.via !== "cable" && hop.via !== "radio") return undefined;
  const here = wires.filter((wire) => {
    const ends = [canonical(wire.fromDevice), canonical(wire.toDevice)];
    return ends.includes(canonical(hop.from)) && ends.includes(canonical(hop.to));
  });
  const port = (device: string, name: string | undefined): string => canonical(name === undefined ? device : `${device}.${name}`);
  const ends = [port(hop.from, hop.fromPort), port(hop.to, hop.toPort)];
  // Several cables between the same two things differ in their ports; one that names a device stands for whichever port fits.
  const exact = here.find((wire) => [canonical(wire.from), canonical(wire.to)].every((end) => ends.includes(end)));
  return (exact ?? here[0])?.label;
}
