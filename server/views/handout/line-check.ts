/** The line check: each way tried once before people come, and the chain of things to look along where it does not work. */
import { canonical } from "../../model/names";
import type { WayName } from "../../model/ways";
import type { Band, Hop, Run } from "../../signal/flow";
import type { Study } from "../../study";
import type { Wire } from "./wires";

/** A link of the chain: a thing, or what leads to the next thing. */
export type Link =
  | { readonly kind: "thing"; readonly name: string }
  /** `C2`; or in words what there is no label for. */
  | { readonly kind: "lead"; readonly label: string }
  | { readonly kind: "missing"; readonly says: string };

export interface Trial {
  readonly way: Band["way"];
  /** Who speaks, hears, sees or is seen in the room. */
  readonly subject: string;
  readonly chain: readonly Link[];
  /** Items in which it goes this way; none where it does throughout. */
  readonly items: readonly string[];
}

/** More items than any evening has; each has a flow of its own. */
const MOST_ITEMS = 30;

/** Everything to be tried, in the order of the ways; what goes the same way in several items is tried once. */
export function trialsOf(study: Study, wires: readonly Wire[]): Trial[] {
  const items: readonly (string | undefined)[] = study.items.length === 0 ? [undefined] : study.items.slice(0, MOST_ITEMS);
  const found = new Map<string, Trial & { readonly within: string[] }>();
  for (const item of items) {
    for (const band of study.flow(item).bands) {
      for (const run of band.runs) {
        const chain = chainOf(run, wires);
        const subject = subjectOf(band.way, run);
        // Who stands where one is to be seen is seen with it: the same people along the same things are one trial.
        const key = `${band.way} ${subject} ${JSON.stringify(chain)}`;
        const known = found.get(key);
        if (known === undefined) found.set(key, { way: band.way, subject, chain, items: [], within: [item ?? ""] });
        else if (!known.within.includes(item ?? "")) known.within.push(item ?? "");
      }
    }
  }
  const order: readonly WayName[] = ["room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room"];
  return [...found.values()].sort((a, b) => order.indexOf(a.way) - order.indexOf(b.way))
    .map(({ within, ...trial }) => ({ ...trial, items: within.length === items.length ? [] : within }));
}

/** The end of a run that is in the room. */
function subjectOf(way: Band["way"], run: Run): string {
  const out = way === "online-hears-room" || way === "online-sees-room";
  return (out ? run.hops[0]?.from : run.hops.at(-1)?.to) ?? "";
}

function chainOf(run: Run, wires: readonly Wire[]): Link[] {
  const out: Link[] = [];
  const [first] = run.hops;
  if (first !== undefined) out.push({ kind: "thing", name: first.from });
  for (const hop of run.hops) {
    if (hop.gap !== undefined) out.push({ kind: "missing", says: hop.gap });
    else {
      const label = labelOf(hop, wires);
      if (label !== undefined) out.push({ kind: "lead", label });
    }
    out.push({ kind: "thing", name: hop.to });
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
