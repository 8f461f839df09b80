import type { Dimension } from "../../grammar/units";
import type { Where } from "./where";

/**
 * Where a value came from.
 * `stated` in the text, `measured` there with a date, `guessed` by the author, `kind`: from the typical device of that kind,
 * `assumed`: from a published default or common practice, `unsaid`: the text leaves open whether something is there.
 */
export type How = "stated" | "measured" | "guessed" | "kind" | "assumed" | "unsaid";

export interface Provenance {
  readonly how: How;
  /** Where a default or a kind's figure comes from, in words. */
  readonly source?: string | undefined;
  /** The statement that gave it. */
  readonly where?: Where | undefined;
  /** For measured values, as written: `2026-10-07 18:40`. */
  readonly when?: string | undefined;
  /** The statement of the evening that took ends off the range, as written. */
  readonly narrowed?: { readonly by: string; readonly where: Where } | undefined;
}

/**
 * A quantity as this house knows quantities: a best guess inside a range, and where it came from. SI units by dimension
 * (see `grammar/units.ts`); levels in dB, angles in degrees, shares as fractions of one. `low <= best <= high`.
 * Two values with the same id are the same unknown: whoever tries one end of it tries it everywhere.
 */
export interface Ranged {
  readonly id: string;
  readonly best: number;
  readonly low: number;
  readonly high: number;
  readonly dimension: Dimension;
  /** As one would name the fact to somebody: `the noise in old-schoolroom`. */
  readonly label: string;
  /** The question that one would ask for it, where it is not plainly what the label says. */
  readonly ask?: string | undefined;
  readonly from: Provenance;
}

/** Whether anything is open about the value. */
export const isOpen = (value: Ranged): boolean => value.low < value.high;

/** Whether the text itself vouches for the value; everything else is marked as assumed wherever it counts. */
export const isAssumed = (value: Ranged): boolean =>
  value.from.how === "kind" || value.from.how === "assumed" || value.from.how === "unsaid";
