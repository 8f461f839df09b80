/** Mixers: which ports their channels take in, and which their buses give out to. */
import { valueOf, valuesOf, type Bound } from "./bound";
import { canonical } from "./names";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Mixer {
  readonly device: string;
  readonly channels: readonly { readonly name: string; readonly ports: readonly string[]; readonly trim: number }[];
  readonly buses: readonly { readonly name: string; readonly ports: readonly string[]; readonly statements: readonly Bound[]; readonly where: Where }[];
  readonly where: Where;
}

/** The mixers by the canonical name of their device; trims in dB, 0 where none is stated. */
export function readMixers(reading: Reading): Map<string, Mixer> {
  const out = new Map<string, Mixer>();
  for (const statement of reading.by("mixer")) {
    const written = valueOf(statement, "device", "name")?.text ?? "";
    const device = reading.names.find(statement.where.path, written)?.name ?? written;
    const ports = (s: Bound, slot: string): string[] => valuesOf(s, slot, "name").map((n) => canonical(reading.names.find(s.where.path, n.text)?.name ?? n.text));
    out.set(canonical(device), {
      device, where: statement.where,
      channels: statement.children.filter((c) => c.row.head === "channel").map((c) => {
        const trim = c.children.find((t) => t.row.head === "trim");
        return { name: valueOf(c, "name", "name")?.text ?? "", ports: ports(c, "from"), trim: (trim && valueOf(trim, "gain", "quantity")?.best) ?? 0 };
      }),
      buses: statement.children.filter((c) => c.row.head === "bus").map((c) => ({
        name: valueOf(c, "name", "name")?.text ?? "", ports: ports(c, "to"), statements: c.children, where: c.where,
      })),
    });
  }
  return out;
}
