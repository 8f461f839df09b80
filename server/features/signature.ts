/** While a statement is typed: how it goes on, which of its values is next, and what that one means. */
import { DIMENSIONS } from "../../grammar/units";
import { isRelation, rowFor, type Row, type Slot } from "../../grammar/vocabulary";
import { amount } from "../model/show";
import type { Asked } from "./asked";
import { placeOf } from "./completion/position";
import { progress } from "./completion/progress";

export interface Signature {
  /** `cable from PORT to PORT length DISTANCE`. */
  readonly label: string;
  /** What the statement says. */
  readonly about: string;
  /** Each value's place in the label, and what it means. */
  readonly values: readonly { readonly start: number; readonly end: number; readonly about: string }[];
  /** The value that is next; nothing where all are given. */
  readonly active: number | undefined;
}

/** The statement that is being typed at a position; nothing in its first word, in a comment, or where no value is wanted. */
export function signature(asked: Pick<Asked, "text">, offset: number): Signature | undefined {
  const at = placeOf(asked.text, offset);
  if (at === undefined || at.head === undefined || at.owner === undefined) return undefined;
  const first = at.line?.row;
  const row = at.isFirst ? first : (first?.body === undefined ? undefined : rowFor(first.body, at.head)) ?? rowFor(at.owner, at.head);
  // After a comma a relation says more on the line's own place.
  const own = row ?? (first !== undefined && isRelation(at.head) ? first : undefined);
  if (own === undefined || own.slots.length === 0) return undefined;
  const state = progress(own, at.items);
  const next = state.values[0] ?? state.unitOf?.slot ?? state.led[0] ?? state.more;
  return { ...labelOf(own), about: own.meaning, active: next === undefined ? undefined : own.slots.indexOf(next) };
}

function labelOf(row: Row): Pick<Signature, "label" | "values"> {
  let label = row.head;
  const values = row.slots.map((slot) => {
    const before = `${slot.required === true ? " " : " ["}${slot.after === undefined ? "" : `${slot.after} `}`;
    const word = slot.id.toUpperCase();
    const start = label.length + before.length;
    label += `${before}${word}${slot.many === true ? " and …" : ""}${slot.required === true ? "" : "]"}`;
    return { start, end: start + word.length, about: aboutOf(slot) };
  });
  return { label, values };
}

/** What a value means, how it is written, and what is taken without it. */
function aboutOf({ takes, meaning, default: otherwise }: Slot): string {
  const parts = [meaning];
  if (takes.kind === "quantity") parts.push(`${DIMENSIONS[takes.dimension].title}, like ${DIMENSIONS[takes.dimension].example}`);
  if (takes.kind === "word") {
    const words = Object.keys(takes.words);
    parts.push(words.length <= 8 ? `one of ${words.join(", ")}` : `${words.slice(0, 6).join(", ")} and ${words.length - 6} more`);
  }
  if (otherwise !== undefined && takes.kind === "quantity") parts.push(`without it ${amount(otherwise.best, takes.dimension)} is taken`);
  return parts.join("; ");
}
