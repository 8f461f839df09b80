/** What a way through the local network allows, as far as the text states it, and pairs of powerline adapters. */
import { valueOf, type Bound } from "./bound";
import { fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

/** What is stated of one link of the network. */
export interface LinkFacts {
  /** bit/s that it was measured to carry. */
  readonly rate: Ranged | undefined;
  /** s. */
  readonly delay: Ranged | undefined;
  /** Share of packets, 0 … 1. */
  readonly loss: Ranged | undefined;
  /** dBm. */
  readonly signal: Ranged | undefined;
  /** dB over noise. */
  readonly margin: Ranged | undefined;
}

/** Two powerline adapters. */
export interface Powerline {
  readonly from: string;
  readonly to: string;
  readonly facts: LinkFacts;
  readonly where: Where;
}

/** More pairs than any building has mains for. */
const MOST_PAIRS = 40;

/** What a statement's own block states of a link; `id` names it in ranges, `label` in words. */
export function linkFacts(statement: Bound, id: string, label: string): LinkFacts {
  const one = (head: string, slot: string, what: string): Ranged | undefined => stated(statement, head, slot, `${id}.${head}`, `${what} ${label}`);
  return {
    rate: one("rate", "rate", "the rate of"), delay: one("delay", "time", "the delay of"), loss: one("loss", "share", "the loss on"),
    signal: one("signal", "level", "the signal of"), margin: one("margin", "level", "the signal over noise of"),
  };
}

/** A quantity that stands in the block of a statement; nothing where it is not there, or not known. */
export function stated(owner: Bound, head: string, slot: string, id: string, label: string): Ranged | undefined {
  const inner = owner.children.find((child) => child.row.head === head);
  const value = inner && valueOf(inner, slot, "quantity");
  return inner !== undefined && value !== undefined && value.said !== "unknown" ? fromText(value, inner, id, label, false) : undefined;
}

/** The pairs of powerline adapters. */
export function readPowerlines(reading: Reading): Powerline[] {
  return reading.by("powerline").slice(0, MOST_PAIRS).flatMap((statement): Powerline[] => {
    const end = (slot: string): string | undefined => {
      const name = valueOf(statement, slot, "name");
      return name && (reading.names.find(statement.where.path, name.text)?.name ?? name.text);
    };
    const [from, to] = [end("from"), end("to")];
    if (from === undefined || to === undefined) return [];
    return [{ from, to, where: statement.where, facts: linkFacts(statement, `powerline.${from}`, `the powerline between ${from} and ${to}`) }];
  });
}
