/** Plugs put elsewhere. */
import type { Device } from "../model/device";
import { append, rewrite } from "../model/edits";
import { valuesOf } from "../model/bound";
import { canonical } from "../model/names";
import type { MainsLink } from "../model/setup";
import { Trial } from "../model/trial";
import { circuitOf, drawOf } from "../signal/circuits";
import { rootFile, fileOf, type Remedy, type Scene } from "./check";
import { freeOutlets } from "./outlets";

/** One plug of a statement put into another outlet or lead; the others of the statement stay. */
export function replug(scene: Scene, link: MainsLink, into: string): Remedy[] {
  const { statement } = link;
  const file = fileOf(scene.setup, statement.where.path);
  const own = rootFile(scene.setup);
  const tos = valuesOf(statement, "to", "name");
  if (file === undefined || own === undefined || tos.some((to) => to.each)) return [];
  const line = `mains from ${into} to ${link.to}`;
  const rest = tos.filter((to) => canonical(to.text) !== canonical(link.to)).map((to) => to.text);
  const edits = rest.length === 0 ? [rewrite(statement, line)] : [rewrite(statement, `mains from ${link.from} to ${rest.join(" and ")}`), append(own, line, ["mains"])];
  return [{ title: `Plug ${link.to} into ${into}`, edits }];
}

/** Where else a plug may go: sockets that are free, none on a circuit, a lead or an outlet that is to be spared. */
export function elsewhere(scene: Scene, device: Device, spare: { readonly circuit: string | undefined; readonly names: readonly string[] }): readonly string[] {
  const lead = device.type === "lead";
  const barred = new Set(spare.names.map(canonical));
  return freeOutlets(scene, device).filter((o) => {
    const circuit = circuitOf(scene.setup, o.name);
    return !(o.lead && lead) && !barred.has(canonical(o.name)) && !(spare.circuit !== undefined && circuit !== undefined && canonical(circuit) === canonical(spare.circuit));
  }).map((o) => o.name);
}

/** The plugs there, those that take most first. */
export const heaviest = (devices: readonly Device[]): Device[] => {
  const trial = new Trial();
  return [...devices].sort((a, b) => drawOf(b, trial) - drawOf(a, trial));
};
