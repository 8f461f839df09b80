/** From a device, or a part or port of one, to the kind that it is of. */
import { canonical } from "../model/names";
import type { Where } from "../model/where";
import type { Asked } from "./asked";
import { deviceOf, meantBy, occurrenceAt, occurrences } from "./names";

/** Where the kind gets its name; empty for typical equipment, which no text states, and for what is of no kind. */
export function typeDefinition(asked: Pick<Asked, "setup" | "path" | "text">, offset: number): readonly Where[] {
  const { setup, path } = asked;
  const all = occurrences(setup);
  const here = occurrenceAt(all, path, offset);
  if (here === undefined || !["device", "part", "port"].includes(here.kind)) return [];
  const kind = kindOf(asked, here);
  if (kind === undefined) return [];
  return all.filter((one) => one.kind === "kind" && one.declares && one.key === `kind ${canonical(kind)}`).map(({ path: at, start, end }) => ({ path: at, start, end }));
}

function kindOf({ setup, path, text }: Pick<Asked, "setup" | "path" | "text">, here: { readonly start: number; readonly end: number; readonly key: string }): string | undefined {
  // A part or port stands behind its device: what is written from the device on says which.
  const line = text.lastIndexOf("\n", here.start - 1) + 1;
  const before = /[^\s,{}()]*$/u.exec(text.slice(line, here.end))?.[0] ?? "";
  const meant = meantBy(setup, path, before, ["device", "part", "port"]) ?? meantBy(setup, path, text.slice(here.start, here.end), ["device"]);
  const name = meant === undefined ? undefined : deviceOf(setup, meant.named.name);
  const device = name === undefined ? [...setup.devices.values()].find((one) => here.key === `set ${canonical(one.name.replace(/-\d+$/u, ""))}`) : setup.devices.get(canonical(name));
  if (device === undefined) return undefined;
  return setup.names.find(device.where.path, device.kind, "kind")?.name ?? device.kind;
}
