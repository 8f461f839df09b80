import { widen, type Quantity } from "../../grammar/quantity";
import type { Dimension } from "../../grammar/units";
import type { Default } from "../../grammar/vocabulary";
import type { Bound } from "./bound";
import type { Provenance, Ranged } from "./ranged";

/** A guess that the author marks as one: a quarter either way, or 5 dB. Common practice, no source. */
const GUESS = { relative: 0.25, level: 5 } as const;

/** A value that the text states, with the provenance that its statement gives it. `builtIn`: it stands in the typical equipment. */
export function fromText(quantity: Quantity, bound: Bound, id: string, label: string, builtIn: boolean): Ranged {
  const { tails } = bound;
  const guess = tails.guessed && quantity.low === quantity.high;
  const q = guess ? within(widen(quantity, quantity.dimension === "level" ? GUESS.level : GUESS.relative), bound) : quantity;
  const how = builtIn ? "kind" : tails.measured !== undefined ? "measured" : tails.guessed || quantity.said === "about" ? "guessed" : "stated";
  const from: Provenance = {
    how, where: builtIn ? undefined : bound.where, when: tails.measured?.when,
    source: builtIn ? (tails.because ?? "common practice, no source") : undefined,
  };
  return { id, label, dimension: q.dimension, low: q.low, best: q.best, high: q.high, from };
}

/** The quantity, its ends no farther out than its slot allows. */
function within(q: Quantity, bound: Bound): Quantity {
  const slot = bound.row.slots.find(({ id }) => bound.values.get(id)?.some((value) => value.start === q.start && value.end === q.end));
  if (slot?.takes.kind !== "quantity") return q;
  const { min = -Infinity, max = Infinity } = slot.takes;
  return { ...q, low: Math.max(q.low, min), high: Math.min(q.high, max) };
}

/** A value that the text does not state: a default, marked as assumed. */
export const assumed = (id: string, label: string, dimension: Dimension, by: Default): Ranged =>
  ({ id, label, dimension, best: by.best, low: by.low, high: by.high, from: { how: "assumed", source: by.source } });

/** A value that hangs on nothing. */
export const exactly = (id: string, label: string, dimension: Dimension, value: number): Ranged =>
  ({ id, label, dimension, best: value, low: value, high: value, from: { how: "stated" } });

/** A yes or no that the text leaves open. `guess`: what is taken for the moment. */
export const unsaid = (id: string, label: string, guess: boolean, source = "common practice, no source", ask?: string): Ranged =>
  ({ id, label, ask, dimension: "count", best: guess ? 1 : 0, low: 0, high: 1, from: { how: "unsaid", source } });
