/** Whether a quantity is one that can be, by the bounds that the vocabulary gives its slot. */
import type { Quantity } from "../../../grammar/quantity";
import type { Slot } from "../../../grammar/vocabulary";

/** What a slot for a quantity takes. */
export type Measure = Extract<Slot["takes"], { kind: "quantity" }>;

/** Whether a quantity is none that can be: its figure out of bounds, or an end of a range that the author gives. */
export function outside(q: Quantity, { min = -Infinity, max = Infinity }: Measure): boolean {
  if (q.said === "unknown") return false;
  return q.best < min || q.best > max || (q.said === "range" && (q.low < min || q.high > max));
}

/** A tolerance never reaches beyond what can be. */
export function confined(q: Quantity, { min = -Infinity, max = Infinity }: Measure): Quantity {
  return q.said === "about" ? { ...q, low: Math.max(q.low, min), high: Math.min(q.high, max) } : q;
}
