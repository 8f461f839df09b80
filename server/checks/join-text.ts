/** Edits of what a join says: turning its sound off, changing what it sends. */
import { valueOf, type Bound } from "../model/bound";
import { insertInto, rewrite, type Edit } from "../model/edits";
import { canonical } from "../model/names";
import type { Setup } from "../model/setup";
import type { JoinState } from "../signal/call-state";
import { fileOf, type Remedy } from "./check";

/** The statements of a join on one thing, `sends sound` say, that count in an item. */
function statementsOn(state: JoinState, head: string, what: string, item: string | undefined): readonly Bound[] {
  return state.join.statements.filter((s) => s.row.head === head && valueOf(s, "what", "word")?.word === what
    && (s.tails.during.length === 0 || (item !== undefined && s.tails.during.some((n) => canonical(n.text) === canonical(item)))));
}

/**
 * Makes a join say `sends no sound` or `plays no sound`: rewrites what it says of it now, else adds it.
 * What is said for certain items only is rewritten where it is what counts.
 */
export function withdraw(setup: Setup, state: JoinState, head: "sends" | "plays", what: "sound" | "picture", item: string | undefined): Edit[] {
  const file = fileOf(setup, state.join.where.path);
  if (file === undefined) return [];
  const said = statementsOn(state, head, what, item).filter((s) => !s.negated);
  if (said.length === 0) return [insertInto(file, state.join.bound, [`${head} no ${what}`])];
  const [first, ...rest] = said;
  if (first === undefined) return [];
  const during = duringOf(first);
  return [rewrite(first, `${head} no ${what}${during}`), ...rest.map((s) => rewrite(s, `${head} no ${what}${during}`))];
}

/** Puts a statement into a join in place of what it says of the same thing. */
export function replaceIn(setup: Setup, state: JoinState, head: string, what: string, item: string | undefined, text: string): Edit[] {
  const file = fileOf(setup, state.join.where.path);
  if (file === undefined) return [];
  const said = statementsOn(state, head, what, item);
  const first = said[0];
  return first === undefined ? [insertInto(file, state.join.bound, [text])] : [rewrite(first, `${text}${duringOf(first)}`)];
}

const duringOf = (s: Bound): string => (s.tails.during.length === 0 ? "" : ` during ${s.tails.during.map((n) => n.text).join(" and ")}`);

/** Switches the canceller of a join on where the text switches it off. */
export function cancelRemedy(state: JoinState): Remedy[] {
  const off = state.join.statements.find((s) => s.row.head === "cancels" && s.negated);
  return off === undefined ? [] : [{ title: `Switch echo cancellation on at ${state.join.device}`, edits: [rewrite(off, "cancels echo")] }];
}
