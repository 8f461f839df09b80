import { canonical } from "./names";
import type { Bound } from "./bound";

/**
 * The statements of one head that hold in an item of the programme (`undefined`: where no item is named).
 *
 * A statement with `during` replaces, for its items, those without that are equal in the row's key (`sends sound …` replaces
 * `sends sound …`, never `sends picture …`). `no` without more takes back all of its key. Those for the item come last: where a
 * statement names several keys at once (`holds pulpit and hand`) whoever reads them in order finds the last word on each.
 */
export function holding(statements: readonly Bound[], head: string, item: string | undefined): Bound[] {
  const all = statements.filter((statement) => statement.row.head === head);
  const inItem = (statement: Bound): boolean =>
    item !== undefined && statement.tails.during.some((name) => canonical(name.text) === canonical(item));
  const special = all.filter(inItem);
  const replaced = new Set(special.map(keyOf));
  const plain = all.filter((statement) => statement.tails.during.length === 0 && !replaced.has(keyOf(statement)));
  return [...plain, ...special];
}

function keyOf(statement: Bound): string {
  const slot = statement.row.during?.key;
  if (slot === undefined) return statement.row.head;
  const values = (statement.values.get(slot) ?? []).map((value) =>
    value.kind === "word" ? value.word : value.kind === "name" ? canonical(value.text) : value.kind);
  // `a and b` is the same as `b and a`.
  return `${statement.row.head} ${values.sort().join("+")}`;
}
