/** Connections to the internet. */
import { valueOf } from "./bound";
import { canonical } from "./names";
import { stated as statedIn } from "./network";
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
  /** Share of packets lost, 0 … 1. */
  readonly loss: Ranged | undefined;
  readonly reach: "wired" | "wireless" | "shared" | undefined;
  /** dBm, and dB over noise, of the wireless network where it is used. */
  readonly signal: Ranged | undefined;
  readonly margin: Ranged | undefined;
  /** The statement that guests are on the same network. */
  readonly shared: Where | undefined;
  /** s for which a login holds. */
  readonly login: Ranged | undefined;
  /** bit that may pass, both ways together. */
  readonly allowance: Ranged | undefined;
  /** The device where it begins. */
  readonly entersAt: string | undefined;
  /** Version of the internet protocol. */
  readonly ip: 4 | 6;
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
    const one = (head: string, slot: string, label: string): Ranged | undefined => statedIn(statement, head, slot, `internet.${name}.${head}`, `${label} of ${name}`);
    const find = (head: string) => statement.children.find((c) => c.row.head === head);
    const reach = (["shared", "wireless", "wired"] as const).find((head) => statement.children.some((c) => c.row.head === head));
    // Said of no connection, it is of the first one.
    const by = measured.filter((seen) => (seen.subject === undefined ? i === 0 : canonical(seen.subject) === canonical(name)));
    const stated = one("up", "rate", "the uplink");
    const enters = find("enters");
    const at = enters && valueOf(enters, "at", "name")?.text;
    const up = by.length === 0 ? stated : asMeasured(by, `internet.${name}.up`, `the uplink of ${name}`);
    return {
      name, up, ...(by.length === 0 ? {} : { observed: { by, stated } }), down: one("down", "rate", "the downlink"), roundTrip: one("round-trip", "time", "the round trip"),
      loss: one("loss", "share", "the loss"), signal: one("signal", "level", "the wireless signal"), margin: one("margin", "level", "the wireless signal over noise"),
      login: one("login", "for", "the login time"), allowance: one("allowance", "data", "the data allowance"),
      shared: find("shared")?.where, entersAt: at === undefined ? undefined : reading.names.find(statement.where.path, at)?.name ?? at, ip: find("ipv6") === undefined ? 4 : 6,
      reach, isolates: find("isolates") !== undefined, where: statement.where,
    };
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
