/** Edits of how a device reaches the internet: by cable in place of radio, over another connection. */
import { append, rewrite, type Edit } from "../model/edits";
import { canonical } from "../model/names";
import type { Internet, Setup } from "../model/setup";
import type { JoinState } from "../signal/call-state";
import { joinsOver } from "../signal/streams";
import type { Hop } from "../signal/network";
import { goTogether } from "../signal/wiring";
import { fileOf, rootFile, type Remedy, type Scene } from "./check";

/** The connections over which a scene's devices join, with the joins; what the text does not name is left out. */
export const inUse = (scene: Scene): { readonly internet: Internet; readonly joins: readonly JoinState[] }[] => scene.setup.internets
  .map((internet) => ({ internet, joins: joinsOver(scene.graph, internet) })).filter(({ joins }) => joins.length > 0);

const taken = (setup: Setup, port: string): boolean => setup.links.some((link) => [link.from, link.to].some((end) => canonical(end) === canonical(port)));

/** Runs a cable where a hop of a way goes by radio or over the mains. */
export function wireRemedies(setup: Setup, hops: readonly Hop[]): Remedy[] {
  const file = rootFile(setup);
  if (file === undefined) return [];
  return hops.filter((hop) => hop.kind !== "wired").flatMap((hop): Remedy[] => {
    const [a, b] = [setup.devices.get(canonical(hop.from)), setup.devices.get(canonical(hop.to))];
    const free = (device: typeof a) => device?.ports.filter((port) => port.connector === "ethernet" && !taken(setup, port.id)) ?? [];
    const from = free(a)[0];
    const to = from && free(b).find((port) => goTogether(from, port, "cable"));
    if (from === undefined || to === undefined) return [];
    return [{ title: `Run a cable from ${from.id} to ${to.id}`, edits: [append(file, `cable from ${from.id} to ${to.id}`, ["cable"])] }];
  });
}

/** Lets the devices join over another connection that the text states. `better`: which of them would do. */
export function otherConnection(setup: Setup, joins: readonly JoinState[], now: Internet, better: (other: Internet) => boolean): Remedy[] {
  return setup.internets.filter((other) => other !== now && better(other)).slice(0, 2).map((other): Remedy => ({
    title: `Join over ${other.name}`,
    edits: joins.flatMap((state): Edit[] => {
      const { bound, where } = state.join;
      const text = fileOf(setup, where.path)?.text.slice(where.start, where.end) ?? "";
      const base = text.replace(/\s+over\s+\S+\s*$/, "").trimEnd();
      return base === "" ? [] : [rewrite(bound, `${base} over ${other.name}`)];
    }),
  }));
}
