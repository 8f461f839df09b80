import type { Fact } from "../../grammar/tree";
import type { Quantity } from "../../grammar/quantity";
import type { Owner, Row } from "../../grammar/vocabulary";
import type { Where } from "./where";

/** A name as written; what it stands for is resolved once all files are read. */
export interface NameValue {
  readonly kind: "name";
  readonly text: string;
  /** `each mic`: all that bear the name with a number. */
  readonly each: boolean;
  readonly start: number;
  readonly end: number;
}

/** What a relation relates to. */
export type Anchor =
  | { readonly kind: "sides"; readonly sides: readonly string[] }
  | { readonly kind: "row"; readonly row: number; readonly of: NameValue | undefined }
  | { readonly kind: "name"; readonly name: NameValue }
  | { readonly kind: "names"; readonly names: readonly NameValue[] }
  | { readonly kind: "point"; readonly coordinates: readonly Quantity[] };

/** `1.5 m behind lectern`: one step of a place. */
export interface Relation {
  readonly relation: string;
  readonly offset: Quantity | undefined;
  readonly anchor: Anchor;
  readonly start: number;
  readonly end: number;
}

export interface PlaceValue {
  readonly kind: "place";
  readonly relations: readonly Relation[];
  /** As written. */
  readonly words: string;
  readonly start: number;
  readonly end: number;
}

interface Spoken { readonly start: number; readonly end: number }
export type Value =
  | Quantity
  | NameValue
  | PlaceValue
  | (Spoken & { readonly kind: "word"; readonly word: string })
  | (Spoken & { readonly kind: "text"; readonly text: string })
  /** ISO 8601 calendar date. */
  | (Spoken & { readonly kind: "date"; readonly date: string })
  /** Minutes since the midnight that the day begins with; over 1440 for the next day. */
  | (Spoken & { readonly kind: "clock"; readonly minutes: number })
  /** Pixels and frames a second. */
  | (Spoken & { readonly kind: "mode"; readonly width: number; readonly height: number; readonly rate: number })
  | (Spoken & { readonly kind: "ratio"; readonly ratio: number })
  /** On the floor, or with a third length for the height. */
  | (Spoken & { readonly kind: "point"; readonly coordinates: readonly Quantity[] });

/** What follows any statement: for which items it holds, why, and how well it is known. */
export interface Tails {
  readonly during: readonly NameValue[];
  readonly because: string | undefined;
  readonly measured: { readonly when: string | undefined; readonly date: string | undefined; readonly minutes: number | undefined } | undefined;
  readonly guessed: boolean;
}

/** A statement of the text that the table knows. */
export interface Bound {
  readonly row: Row;
  readonly owner: Owner;
  readonly fact: Fact;
  readonly negated: boolean;
  readonly values: ReadonlyMap<string, readonly Value[]>;
  readonly tails: Tails;
  readonly children: readonly Bound[];
  readonly where: Where;
  /** The whole statement with its block. */
  readonly whole: Where;
}

/** The first value of a slot, if it is of that kind. */
export function valueOf<K extends Value["kind"]>(bound: Bound, slot: string, kind: K): Extract<Value, { kind: K }> | undefined {
  const value = bound.values.get(slot)?.[0];
  return value?.kind === kind ? (value as Extract<Value, { kind: K }>) : undefined;
}

/** All values of a slot that are of that kind. */
export function valuesOf<K extends Value["kind"]>(bound: Bound, slot: string, kind: K): readonly Extract<Value, { kind: K }>[] {
  return (bound.values.get(slot) ?? []).filter((value): value is Extract<Value, { kind: K }> => value.kind === kind);
}
