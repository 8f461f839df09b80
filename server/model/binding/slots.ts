/** From a statement to its slots: which words fill which, and what is said of those that fill none. */
import { clip } from "../../../grammar/clip";
import { isPoint, type Fact, type Item } from "../../../grammar/tree";
import type { Row, Slot } from "../../../grammar/vocabulary";
import type { Bound, Value } from "../bound";
import { RESERVED } from "./names";
import { readPlace, startsPlace } from "./place";
import { takeWord, wordOf, type Reader } from "./reader";
import { noTails, readTail } from "./tails";
import { fits, readValues } from "./values";
import { wantedBy } from "./wanted";

/** Most members of a numbered set; more are a slip of the finger. */
const MOST_MEMBERS = 1000;

/** Puts a problem. */
export type Say = (code: string, message: string, start: number, end: number) => void;

/** Puts the words of a statement into the slots of its row. `more`: what else says where it is, as if it stood at its end. */
export function fillSlots(fact: Fact, row: Row, more: readonly Item[], say: Say): Pick<Bound, "negated" | "values" | "tails"> {
  const values = new Map<string, Value[]>();
  const tails = noTails();
  let failed = false;
  const fail: Reader["fail"] = (message, start, end, code = "no-fit") => {
    if (!failed) say(code, message, start, end);
    failed = true;
  };
  const reader: Reader = { items: more.length === 0 ? fact.items : [...fact.items, ...more], at: 0, fail };
  const negated = row.negatable === true && takeWord(reader, "no");
  const open = new Set(row.slots);
  const fill = (slot: Slot, found: readonly Value[]): void => {
    open.delete(slot);
    if (found.length > 0) values.set(slot.id, [...found]);
  };
  const placeSlot = row.slots.find((slot) => slot.takes.kind === "place" && slot.after === undefined);

  while (reader.at < reader.items.length && !failed) {
    const item = reader.items[reader.at];
    if (item === undefined) break;
    const word = wordOf(item);
    if (word !== undefined && readTail(reader, word, tails, row)) continue;
    if (placeSlot !== undefined && open.has(placeSlot) && startsPlace(reader.items, reader.at)) {
      const place = readPlace(reader, !isBare(placeSlot));
      fill(placeSlot, place === undefined ? [] : [place]);
      continue;
    }
    const led = word === undefined ? undefined : [...open].find((slot) => slot.after === word);
    if (led !== undefined && word !== undefined) {
      reader.at += 1;
      const found = readValues(reader, led, row);
      if (found.length === 0 && !failed) fail(`After “${word}” belongs ${led.meaning}: ${wantedBy(led)}.`, item.start, item.end);
      fill(led, found);
      continue;
    }
    // A word of a closed list is that word before it is anybody's name: `observed no echo`, `observed box clear`.
    const next = [...open].find((slot) => slot.after === undefined && listsExactly(slot, word)) ?? [...open].find((slot) => slot.after === undefined && fits(reader, slot));
    if (next === undefined) {
      if (!failed) surplus(reader, row, open, say);
      failed = true;
      break;
    }
    fill(next, readValues(reader, next, row));
  }
  if (!failed && !negated) {
    const missing = row.slots.find((slot) => slot.required === true && !values.has(slot.id));
    if (missing !== undefined) {
      const lead = missing.after === undefined ? "" : `“${missing.after}” and `;
      say("incomplete", `“${row.head}” wants ${lead}${missing.meaning}: ${wantedBy(missing)}.`, fact.head.start, fact.end);
    } else members(row, values, say);
  }
  return { negated, values, tails };
}

const isBare = (slot: Slot): boolean => slot.takes.kind === "place" && slot.takes.bare === true;

const listsExactly = (slot: Slot, word: string | undefined): boolean => slot.takes.kind === "word" && word !== undefined && Object.hasOwn(slot.takes.words, word);

/** `devices mic 1 to 12`: the numbers of a set have to be one. */
function members(row: Row, values: ReadonlyMap<string, readonly Value[]>, say: Say): void {
  const [first] = values.get("first") ?? [];
  const [last] = values.get("last") ?? [];
  if (first?.kind !== "quantity" || last?.kind !== "quantity") return;
  if (last.best < first.best) {
    say("impossible", `That cannot be: the last number of “${row.head}” lies before the first.`, first.start, last.end);
  } else if (last.best - first.best >= MOST_MEMBERS) {
    say("impossible", `That cannot be: “${row.head}” takes at most ${MOST_MEMBERS} at once.`, first.start, last.end);
  }
}

/** What is said of words that no slot takes. */
function surplus(reader: Reader, row: Row, open: ReadonlySet<Slot>, say: Say): void {
  const item = reader.items[reader.at];
  const last = reader.items[reader.items.length - 1];
  if (item === undefined || last === undefined) return;
  const text = isPoint(item) ? "(…)" : clip(item.text);
  const next = [...open].find((slot) => slot.required === true) ?? [...open][0];
  const taken = next?.takes.kind === "new-name" && RESERVED.has(wordOf(item) ?? "");
  const wanted = taken ? ` That word is part of the language and cannot be a name: choose another, like side-table.` : next === undefined
    ? " Nothing more is wanted there: put another fact after a comma or on a line of its own."
    : ` Wanted is ${next.after === undefined ? "" : `“${next.after}” and `}${next.meaning}: ${wantedBy(next)}.`;
  say("no-fit", `“${text}” does not fit after “${row.head}”.${wanted}`, item.start, last.end);
}
