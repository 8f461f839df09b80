/** Where something stands: relations, and what they relate to. */
import { RELATIONS, SIDES, type NameKind } from "../../../grammar/vocabulary";
import { canonical } from "../../model/names";
import type { Setup } from "../../model/setup";
import { offer, type Bare } from "./offer";
import { namesOf, type Scope } from "./scope";

export const relations = (rank: number): Bare[] => Object.entries(RELATIONS).map(([word, meaning]) => offer("connector", word, "", meaning, rank, `${word} `));

const PLACE_KINDS: readonly NameKind[] = ["spot", "table", "surface", "seats", "talker", "outlet", "area", "door", "window", "column", "device"];
/** What things stand on, or hang from. */
const CARRIES: ReadonlySet<NameKind> = new Set(["table", "talker"]);

/** What a relation relates to: places before devices, and behind `on` what carries something. */
export function anchors(scope: Scope, relation: string | undefined): Bare[] {
  const first = (kind: NameKind): boolean => (relation === "on" ? CARRIES.has(kind) : kind !== "device");
  return [
    ...namesOf(scope, PLACE_KINDS, (named) => (first(named.kind) ? 0 : named.kind === "device" ? 3 : 1)),
    ...sides(1), offer("word", "row", "", "one row of the seats, such as row 2", 1, "row "), offer("word", "table", "", "any table", relation === "on" ? 0 : 1),
  ];
}

export const sides = (rank: number): Bare[] => [...SIDES].map((side) => offer("word", side, "side of the room", "", rank));

/** Rows that the seats have. */
export function rows(setup: Setup): Bare[] {
  const most = Math.max(...setup.room.seats.map((seats) => seats.rows), 0);
  return Array.from({ length: Math.min(most, 60) }, (_, i) => offer("value", String(i + 1), i === 0 ? "the row in front" : i + 1 === most ? "the row at the back" : "a row of the seats", "", i / 100));
}

/** Groups of seats that have rows, behind `row 3 of`. */
export const groups = (scope: Scope): Bare[] => namesOf(scope, ["seats"], (named) => (scope.setup.room.seats.some((seats) => canonical(seats.name) === canonical(named.name)) ? 0 : 1));
