/** How far the words behind a relation have got: `row 3 of audience`, `left front corner`, `between lectern and front`, a name, a point. */
import { isPoint, type Item } from "../../../grammar/tree";
import { SIDES } from "../../../grammar/vocabulary";
import { wordOf } from "./position";

export type PlaceNext =
  /** A relation; `must`: a distance stands before, and nothing else may follow. */
  | { readonly kind: "relation"; readonly must?: true }
  /** What the relation relates to. */
  | { readonly kind: "anchor"; readonly relation: string | undefined }
  /** The number of a row. */
  | { readonly kind: "row" }
  /** Seats, behind `row 3 of`. */
  | { readonly kind: "group" }
  /** The `and` of `between … and …`. */
  | { readonly kind: "and" }
  /** More sides, or another relation. */
  | { readonly kind: "sides" };

/** Past what stands at `from`, and what may follow where the words end there. */
export function anchorAt(items: readonly Item[], from: number, relation: string | undefined): { readonly next: number; readonly place: PlaceNext } {
  let at = from;
  while (["a", "an", "the"].includes(wordOf(items[at]) ?? "")) at += 1;
  const item = items[at];
  const done = (next: number): { next: number; place: PlaceNext } => ({ next, place: { kind: "relation" } });
  if (item === undefined) return { next: at, place: { kind: "anchor", relation } };
  if (isPoint(item)) return done(at + 1);
  const word = wordOf(item) ?? "";
  at += 1;
  if (word === "row") {
    const number = items[at];
    if (number === undefined) return { next: at, place: { kind: "row" } };
    if (isPoint(number) || number.kind !== "number") return done(at);
    at += 1;
    if (wordOf(items[at]) !== "of") return done(at);
    return items[at + 1] === undefined ? { next: at + 1, place: { kind: "group" } } : done(at + 2);
  }
  if (relation === "between") {
    if (items[at] === undefined) return { next: at, place: { kind: "and" } };
    if (wordOf(items[at]) !== "and") return done(at);
    return items[at + 1] === undefined ? { next: at + 1, place: { kind: "anchor", relation } } : done(at + 2);
  }
  if (!SIDES.has(word)) return done(at);
  while (SIDES.has(wordOf(items[at]) ?? "")) at += 1;
  return items[at] === undefined ? { next: at, place: { kind: "sides" } } : done(at);
}
