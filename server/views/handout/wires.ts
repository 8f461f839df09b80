/** Everything that is plugged in or linked, with the label that goes on both of its ends. */
import { CONNECTOR_TYPES } from "../../../grammar/vocabulary";
import { valueOf, type Bound } from "../../model/bound";
import type { Port } from "../../model/device";
import { canonical } from "../../model/names";
import { amount } from "../../model/show";
import type { Setup } from "../../model/setup";
import type { Where } from "../../model/where";
import { endsOf, goTogether, portOwnersOf } from "../../signal/wiring";

/** `C`: cable, `R`: radio, `M`: mains. */
export interface Wire {
  /** `C3`. */
  readonly label: string;
  readonly from: string;
  readonly to: string;
  /** Device at each end. */
  readonly fromDevice: string;
  readonly toDevice: string;
  /** Connectors: `USB type B to USB type A`. */
  readonly what: string;
  readonly length: string | undefined;
  readonly where: Where;
}

/** What is written on the package of such a cable: the connector's meaning up to what only tells variants apart. */
function connectorWords(connector: string): string {
  const whole = (CONNECTOR_TYPES[connector]?.meaning ?? connector).split(":")[0] ?? connector;
  return /^\d/.test(whole) ? whole : whole.split(",")[0] ?? whole;
}

/** The first two ports that fit, where an end names a whole device. */
function fitting(from: readonly Port[], to: readonly Port[], how: "cable" | "radio"): [Port, Port] | undefined {
  for (const a of from) for (const b of to) if (goTogether(a, b, how)) return [a, b];
  const [a] = from;
  const [b] = to;
  // Where they do not fit, what the text names is shown: that is the mistake that somebody will stand before.
  return from.length === 1 && to.length === 1 && a !== undefined && b !== undefined ? [a, b] : undefined;
}

/** Cables and radio links in the order of the text. */
export function linksOf(setup: Setup): Wire[] {
  const owners = portOwnersOf(setup);
  const count = { cable: 0, radio: 0 };
  return setup.links.map((link): Wire => {
    count[link.how] += 1;
    const pair = fitting(endsOf(setup, link.from), endsOf(setup, link.to), link.how);
    const ends = pair?.map((port) => connectorWords(port.connector)) ?? [];
    const device = (end: string): string => owners.get(canonical(end))?.name ?? end;
    return {
      label: `${link.how === "cable" ? "C" : "R"}${count[link.how]}`, from: link.from, to: link.to, fromDevice: device(link.from), toDevice: device(link.to),
      what: [...new Set(ends)].join(" to "), length: link.length === undefined ? undefined : amount(link.length.best, "length"), where: link.where,
    };
  });
}

/** What goes into which outlet or lead. */
export function mainsOf(setup: Setup): Wire[] {
  // The length stands in the block of the statement, which the model does not keep.
  const statements = new Map<Where, Bound>(setup.files.flatMap((file) => file.statements).filter((s) => s.row.head === "mains").map((s) => [s.where, s]));
  return setup.mains.map((link, i): Wire => {
    const inner = statements.get(link.where)?.children.find((child) => child.row.head === "length");
    const metres = inner && valueOf(inner, "length", "quantity");
    return {
      label: `M${i + 1}`, from: link.from, to: link.to, fromDevice: link.from, toDevice: link.to, what: "mains", where: link.where,
      length: metres === undefined || metres.said === "unknown" ? undefined : amount(metres.best, "length"),
    };
  });
}
