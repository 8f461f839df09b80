/** What leads from port to port, cables and radio, and from outlet to device, mains. */
import { valueOf, valuesOf, type Bound } from "./bound";
import { fromText } from "./make-ranged";
import { linkFacts, type LinkFacts } from "./network";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Link {
  readonly how: "cable" | "radio";
  readonly from: string;
  readonly to: string;
  readonly length: Ranged | undefined;
  /** dB that a pad in the cable takes off. */
  readonly pad: number;
  /** What is stated of it as a link of the network. */
  readonly facts: LinkFacts;
  /** The statement; several links may share one. */
  readonly statement: Bound;
  readonly where: Where;
}

export interface MainsLink {
  readonly from: string;
  readonly to: string;
  /** The statement; several plugs may share one. */
  readonly statement: Bound;
  readonly where: Where;
}

/** The links of one sort; where a statement joins numbered sets, one for each pair of members. */
export function readLinks(reading: Reading, how: Link["how"]): Link[] {
  const out: Link[] = [];
  for (const statement of reading.by(how)) {
    const ends = (slot: string): string[] => valuesOf(statement, slot, "name").flatMap((name) =>
      name.each ? [...(reading.names.spread(statement.where.path, name.text) ?? [])] : [reading.names.find(statement.where.path, name.text)?.name ?? name.text]);
    const from = ends("from");
    const to = ends("to");
    // Where an end is missing or its set is not known, that has its message.
    if (from.length === 0 || to.length === 0) continue;
    if (from.length !== to.length) {
      // Where an end is not known, that has its message.
      const known = [...from, ...to].every((end) => reading.names.find(statement.where.path, end) !== undefined);
      if (known) reading.say("unequal-sets", `There are ${from.length} ends on one side and ${to.length} on the other: each cable has two.`, statement.where);
      continue;
    }
    const length = statement.children.find((c) => c.row.head === "length");
    const pad = statement.children.find((c) => c.row.head === "pad");
    const metres = length && valueOf(length, "length", "quantity");
    from.forEach((end, i) => {
      out.push({
        how, from: end, to: to[i] ?? "", facts: linkFacts(statement, `${how}.${end}`, `the ${how === "radio" ? "radio link" : "cable"} between ${end} and ${to[i] ?? ""}`), where: statement.where, statement, pad: (pad && valueOf(pad, "loss", "quantity")?.best) ?? 0,
        length: length !== undefined && metres !== undefined && metres.said !== "unknown" ? fromText(metres, length, `${how}.${end}.length`, `the length of the cable from ${end}`, false) : undefined,
      });
    });
  }
  return out;
}

/** What draws its power from where. */
export function readMains(reading: Reading): MainsLink[] {
  return reading.by("mains").flatMap((statement) => {
    const { path } = statement.where;
    const from = valueOf(statement, "from", "name")?.text;
    const tos = valuesOf(statement, "to", "name").flatMap((name) => (name.each ? [...(reading.names.spread(path, name.text) ?? [])] : [reading.names.find(path, name.text)?.name ?? name.text]));
    return from === undefined ? [] : tos.map((to) => ({ from: reading.names.find(path, from)?.name ?? from, to, statement, where: statement.where }));
  });
}
