/** Connections to the internet. */
import { valueOf } from "./bound";
import { fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Internet {
  readonly name: string;
  readonly up: Ranged | undefined;
  readonly down: Ranged | undefined;
  readonly roundTrip: Ranged | undefined;
  readonly reach: "wired" | "wireless" | "shared" | undefined;
  readonly where: Where;
}

/** The connections with the rates in bit/s and the round trip in s, as far as they are stated. */
export function readInternets(reading: Reading): Internet[] {
  return reading.by("internet").map((statement) => {
    const name = reading.nameOf(statement) || "internet";
    const one = (head: string, slot: string, label: string): Ranged | undefined => {
      const inner = statement.children.find((c) => c.row.head === head);
      const value = inner && valueOf(inner, slot, "quantity");
      return inner !== undefined && value !== undefined && value.said !== "unknown" ? fromText(value, inner, `internet.${name}.${head}`, `the ${label} of ${name}`, false) : undefined;
    };
    const reach = (["shared", "wireless", "wired"] as const).find((head) => statement.children.some((c) => c.row.head === head));
    return { name, up: one("up", "rate", "uplink"), down: one("down", "rate", "downlink"), roundTrip: one("round-trip", "time", "round trip"), reach, where: statement.where };
  });
}
