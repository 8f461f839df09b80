/** Connections to the internet. */
import { valueOf } from "./bound";
import { fromText } from "./make-ranged";
import { canonical } from "./names";
import type { Observation } from "./observations";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Internet {
  readonly name: string;
  readonly up: Ranged | undefined;
  readonly down: Ranged | undefined;
  readonly roundTrip: Ranged | undefined;
  /** Its wireless network keeps guests apart from each other. */
  readonly isolates: boolean;
  readonly reach: "wired" | "wireless" | "shared" | undefined;
  readonly where: Where;
  /** Measured on the evening, which counts instead of what is stated. */
  readonly observed?: { readonly by: readonly Observation[]; readonly stated: Ranged | undefined };
}

/** The connections with the rates in bit/s and the round trip in s, as far as they are stated or were measured on the evening. */
export function readInternets(reading: Reading, observations: readonly Observation[]): Internet[] {
  const statements = reading.by("internet");
  const measured = observations.filter((seen) => seen.what === "uplink" && !seen.negated && seen.value?.dimension === "rate");
  return statements.map((statement, i) => {
    const name = reading.nameOf(statement) || "internet";
    const one = (head: string, slot: string, label: string): Ranged | undefined => {
      const inner = statement.children.find((c) => c.row.head === head);
      const value = inner && valueOf(inner, slot, "quantity");
      return inner !== undefined && value !== undefined && value.said !== "unknown" ? fromText(value, inner, `internet.${name}.${head}`, `the ${label} of ${name}`, false) : undefined;
    };
    const reach = (["shared", "wireless", "wired"] as const).find((head) => statement.children.some((c) => c.row.head === head));
    // Said of no connection, it is of the first one.
    const by = measured.filter((seen) => (seen.subject === undefined ? i === 0 : canonical(seen.subject) === canonical(name)));
    const stated = one("up", "rate", "uplink");
    const up = by.length === 0 ? stated : asMeasured(by, `internet.${name}.up`, `the uplink of ${name}`);
    return { name, up, ...(by.length === 0 ? {} : { observed: { by, stated } }), down: one("down", "rate", "downlink"), roundTrip: one("round-trip", "time", "round trip"), reach, isolates: statement.children.some((c) => c.row.head === "isolates"), where: statement.where };
  });
}

/** Several measurements of one uplink are its range. */
function asMeasured(by: readonly Observation[], id: string, label: string): Ranged | undefined {
  const values = by.flatMap((seen) => seen.value ?? []);
  const [first] = by;
  if (first === undefined) return undefined;
  const when = by.map((seen) => seen.statement.tails.measured?.when).find((one) => one !== undefined);
  return {
    id, label, dimension: "rate", low: Math.min(...values.map((v) => v.low)), high: Math.max(...values.map((v) => v.high)),
    best: values.reduce((sum, v) => sum + v.best, 0) / values.length, from: { how: "measured", where: first.where, when },
  };
}
