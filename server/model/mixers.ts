/** Mixers: which ports their channels take in, and which their buses give out to. */
import { valueOf, valuesOf, type Bound } from "./bound";
import { gainOf } from "./device";
import { canonical } from "./names";
import { fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Channel {
  readonly name: string;
  /** Canonical names of its inputs. */
  readonly ports: readonly string[];
  /** dB beside nominal, and dB that a pad takes off before. */
  readonly trim: number;
  readonly pad: number;
  readonly phantom: boolean;
  readonly gain: "fixed" | "automatic" | undefined;
  readonly statement: Bound;
}

export interface Bus {
  readonly name: string;
  /** Canonical names of its outputs. */
  readonly ports: readonly string[];
  /** By how much it is kept back. */
  readonly delay: Ranged | undefined;
  /** `holds` and whatever else stands in its block. */
  readonly statements: readonly Bound[];
  readonly statement: Bound;
  readonly where: Where;
}

export interface Mixer {
  readonly device: string;
  readonly channels: readonly Channel[];
  readonly buses: readonly Bus[];
  /** Opens only the channels in which somebody speaks. */
  readonly automatic: boolean;
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
        const find = (head: string): Bound | undefined => c.children.find((t) => t.row.head === head);
        const trim = find("trim");
        const pad = find("pad");
        return {
          name: valueOf(c, "name", "name")?.text ?? "", ports: ports(c, "from"), trim: (trim && valueOf(trim, "gain", "quantity")?.best) ?? 0,
          pad: (pad && valueOf(pad, "loss", "quantity")?.best) ?? 0, phantom: find("phantom") !== undefined, gain: gainOf(find("gain")), statement: c,
        };
      }),
      buses: statement.children.filter((c) => c.row.head === "bus").map((c) => ({
        name: valueOf(c, "name", "name")?.text ?? "", ports: ports(c, "to"), delay: delayOf(c, device), statements: c.children, statement: c, where: c.where,
      })),
      automatic: statement.children.some((c) => c.row.head === "automatic"),
    });
  }
  return out;
}

function delayOf(bus: Bound, device: string): Ranged | undefined {
  const stated = bus.children.find((c) => c.row.head === "delay");
  const time = stated && valueOf(stated, "time", "quantity");
  const name = valueOf(bus, "name", "name")?.text ?? "";
  return stated === undefined || time === undefined || time.said === "unknown" ? undefined : fromText(time, stated, `${device}.${name}.delay`, `the delay of ${name}`, false);
}
