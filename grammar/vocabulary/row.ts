import type { Dimension } from "../units";

/** A `fact` of the world is found out, a `choice` is made and may be changed by a fix, a `wish` says what is wanted, a `note` is for people. */
export type Nature = "fact" | "choice" | "wish" | "note";

/** Where a statement may stand: at the top of a file or in the block of one of these. */
export type Owner =
  | "file" | "meeting" | "programme" | "item" | "call" | "internet" | "room" | "seats" | "outlet" | "surface"
  | "area" | "opening" | "column" | "circuit"
  | "device" | "port" | "place" | "talker" | "link" | "join" | "shows" | "mixer" | "channel" | "bus" | "watch" | "remote-room" | "service";

/** What a name can stand for. All names of a setup live in one space. */
export type NameKind =
  | "room" | "spot" | "table" | "surface" | "outlet" | "seats" | "kind" | "device" | "part" | "port" | "talker" | "item"
  | "internet" | "channel" | "bus" | "remote-room" | "area" | "door" | "window" | "column" | "circuit";

export type Takes =
  /** Gives a name to what the statement states. */
  | { readonly kind: "new-name"; readonly of: NameKind }
  /** Names something stated elsewhere; dotted names reach into devices: `laptop.usb-1`. */
  | { readonly kind: "name"; readonly of: readonly NameKind[] }
  | { readonly kind: "quantity"; readonly dimension: Dimension; readonly min?: number; readonly max?: number }
  /** One of a closed list; each word with its meaning. */
  | { readonly kind: "word"; readonly words: Readonly<Record<string, string>> }
  | { readonly kind: "text" }
  /** A text or a bare name: who owns something. */
  | { readonly kind: "who" }
  /** Relations to spots, or a point: `on table beside lectern`. `bare`: a name or a side alone will do, as for an aim. */
  | { readonly kind: "place"; readonly bare?: true }
  | { readonly kind: "date" } | { readonly kind: "clock" } | { readonly kind: "zone" }
  /** `720p30`. */
  | { readonly kind: "mode" }
  | { readonly kind: "ratio" }
  /** `(3.2 m, 1.0 m)`: two lengths, on the floor. */
  | { readonly kind: "point" }
  /** The code of a finding. */
  | { readonly kind: "code" }
  /** A quantity of whatever dimension. */
  | { readonly kind: "any-quantity" };

/** What is taken where the text says nothing, in canonical units, with its range and where it comes from. */
export interface Default {
  readonly best: number;
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

export interface Slot {
  readonly id: string;
  /** The connector that leads to the slot; without one it stands directly after the head, in order. */
  readonly after?: string;
  readonly takes: Takes;
  readonly required?: boolean;
  /** `a and b and c`, or several in a row. */
  readonly many?: boolean;
  /** With `many`: exactly so many. */
  readonly exactly?: number;
  readonly meaning: string;
  readonly default?: Default;
}

export interface Row {
  readonly head: string;
  readonly within: readonly Owner[];
  readonly nature: Nature;
  readonly slots: readonly Slot[];
  /** What its own block (and the facts after its commas) may hold. */
  readonly body?: Owner;
  /** Facts of one head that `during` replaces: those equal in this slot; without one, all of the head. Unset: `during` makes no sense. */
  readonly during?: { readonly key?: string };
  /** `sends no sound`: may be negated. */
  readonly negatable?: boolean;
  /** May stand once with one owner. */
  readonly once?: boolean;
  readonly meaning: string;
  /** A whole text in which the statement stands and which has no problem. */
  readonly example: string;
  /** `noted`: printed for people, nothing is judged by it yet. */
  readonly use?: "judged" | "noted";
}

/** Words that open a slot or a tail. Closed: they split a statement without the table. */
export const CONNECTORS: ReadonlySet<string> = new Set([
  "at", "from", "to", "on", "in", "is", "by", "of", "as", "over", "after", "for", "around", "with",
  "during", "because", "measured", "guessed", "and", "into",
]);

/** Relations to a spot. */
export const RELATIONS: Readonly<Record<string, string>> = {
  at: "there, give or take an arm's length",
  on: "standing on it: a table, or a person for what is worn",
  near: "within a few steps of it",
  beside: "next to it, half a metre or so to the side",
  behind: "farther from the front than it",
  before: "nearer to the front than it, or in front of a person",
  above: "over it",
  under: "beneath it",
  between: "midway between two",
  around: "spread evenly around a table, or along a row of seats",
  with: "held by, or handed to, whoever speaks there",
};

/** Sides and parts of a room that need no statement. */
export const SIDES: ReadonlySet<string> = new Set(["front", "back", "left", "right", "middle", "corner", "wall"]);

/** Spots that every room has, overridden where a room states them. */
export const SPOTS: Readonly<Record<string, string>> = {
  front: "the middle of the wall that the audience faces",
  back: "the middle of the wall behind the audience",
  left: "the middle of the left wall, as the audience sees it",
  right: "the middle of the right wall",
  middle: "the middle of the room",
  lectern: "where one speaks from: a little over a metre from the front wall, a third from the left",
  operator: "behind the last row, where one sees everything",
  audience: "the seats",
  "front-screen": "the middle of the front wall, where a picture is shown",
};
