import { assumed } from "../make-ranged";
import type { Ranged } from "../ranged";

/** A length of a place that the text leaves to whoever reads it, m. Common practice, no source. */
export const offset = (id: string, label: string, best: number, low: number, high: number): Ranged =>
  assumed(id, label, "length", { best, low, high, source: "common practice, no source" });
