/** One thing that may be written at the cursor. */
import type { Span } from "../asked";

export type OfferKind = "statement" | "connector" | "name" | "word" | "unit" | "file" | "value";

export interface Offer {
  readonly label: string;
  readonly kind: OfferKind;
  /** A word or two beside the label. */
  readonly detail: string;
  /** A sentence. */
  readonly about: string;
  readonly insert: string;
  /** What the insertion takes the place of. */
  readonly replaces: Span;
  /** What stands first is likeliest. */
  readonly rank: number;
}

/** An offer before it is known what it takes the place of. */
export type Bare = Omit<Offer, "replaces">;

export const offer = (kind: OfferKind, label: string, detail: string, about: string, rank: number, insert = label): Bare => ({ kind, label, detail, about, rank, insert });
