/** Words with which a statement can begin. */
import { rowsOf, type Owner, type Row } from "../../../grammar/vocabulary";
import type { Fact } from "../../../grammar/tree";
import { offer, type Bare } from "./offer";
import { relations } from "./places";
import type { CursorPlace } from "./position";

/** What may begin here: in a line of its own, or behind a comma what says more of the line's thing. */
export function heads(at: CursorPlace): Bare[] {
  const { owner, line, siblings } = at;
  if (owner === undefined) return [];
  const beside = (rank: number): Bare[] => statements(owner, headsOf(siblings, at.word.start), rank);
  if (line?.row === undefined) {
    const first = siblings.every((fact) => fact.start >= at.word.start);
    return beside(0).filter((one) => first || one.label !== "bothways").map((one) => (owner !== "file" || one.label === "setup" ? one : { ...one, rank: 1 }));
  }
  const { row, fact } = line;
  const said = headsOf([...(fact?.also ?? []), ...(fact?.block?.facts ?? [])], at.word.start);
  const own = row.body === undefined ? [] : statements(row.body, said, 0);
  const place = row.slots.some((slot) => slot.takes.kind === "place") ? relations(1) : [];
  // Another statement of the file behind the comma would be read, but nobody means it there.
  return [...own, ...place, ...(owner === "file" && row.body !== undefined ? [] : beside(2))];
}

/** First words of facts and of those behind their commas, but for the one that is being written. */
const headsOf = (facts: readonly Fact[], written: number): ReadonlySet<string> =>
  new Set(facts.flatMap((fact) => [fact, ...fact.also]).filter((fact) => fact.start !== written).map((fact) => fact.head.text.toLowerCase()));

/** Statements of an owner; what may stand once and does already is left out. */
const statements = (owner: Owner, said: ReadonlySet<string>, rank: number): Bare[] => rowsOf(owner)
  .filter((row) => row.once !== true || !said.has(row.head))
  .map((row) => offer("statement", row.head, row.nature, row.meaning, rank, wantsMore(row) ? `${row.head} ` : row.head));

/** Whether a row says nothing without further words. */
const wantsMore = (row: Row): boolean => row.slots.some((slot) => slot.required === true || slot.after !== undefined);
