/** From the items of a statement to the values of a slot. */
import { clip } from "../../../grammar/clip";
import { readQuantity } from "../../../grammar/quantity";
import { isPoint } from "../../../grammar/tree";
import { unitOf } from "../../../grammar/units";
import { CONNECTORS, type Row, type Slot } from "../../../grammar/vocabulary";
import type { Value } from "../bound";
import { nearest } from "../near";
import { isDate, minutesOf, noDay } from "./calendar";
import { confined, outside } from "./measure";
import { ARTICLES, isNamed, readNames, RESERVED, skipArticle } from "./names";
import { isPicture, modeOf } from "./picture-mode";
import { readPlace, readPoint } from "./place";
import { afterAnd, spoken, takeWord, textOf, wordOf, type Reader } from "./reader";
import { impossible, wantedBy } from "./wanted";

/** Whether the next item could begin a value of the slot; decides which of several optional slots is meant. */
export function fits(reader: Reader, slot: Slot): boolean {
  const item = reader.items[reader.at];
  if (item === undefined) return false;
  const word = wordOf(item);
  switch (slot.takes.kind) {
    case "new-name": return word !== undefined && (!RESERVED.has(word) || isNamed(reader));
    case "name": return word !== undefined && (word === "each" || ARTICLES.has(word) || !RESERVED.has(word));
    case "word": return word !== undefined && !CONNECTORS.has(word);
    case "quantity": case "any-quantity":
      return !isPoint(item) && (item.kind === "number" || item.kind === "decimal-comma" || word === "about" || word === "unknown");
    case "text": return textOf(item) !== undefined;
    case "who": return textOf(item) !== undefined || (word !== undefined && !RESERVED.has(word));
    case "place": return slot.takes.bare === true || isPoint(item);
    case "point": return isPoint(item);
    case "date": return !isPoint(item) && item.kind === "date";
    case "clock": case "ratio": return !isPoint(item) && item.kind === "clock";
    case "mode": return !isPoint(item) && (item.kind === "mode" || item.kind === "size");
    case "zone": case "code": return word !== undefined && !RESERVED.has(word);
  }
}

/** Reads what a slot takes, from the reader's place on; nothing, and no step, where none is there. */
export function readValues(reader: Reader, slot: Slot, row: Row): Value[] {
  const out: Value[] = [];
  for (;;) {
    const before = reader.at;
    const value = readValue(reader, slot, row);
    if (value === undefined) {
      if (out.length === 0) reader.at = before;
      else afterAnd(reader, `${slot.meaning}: ${wantedBy(slot)}`);
      break;
    }
    out.push(value);
    if (slot.many !== true) break;
    const item = reader.items[reader.at];
    if (item === undefined) break;
    if (wordOf(item) === "and") reader.at += 1;
    else if (slot.takes.kind !== "quantity" && slot.takes.kind !== "point") break;
  }
  const [first] = out;
  if (slot.exactly !== undefined && first !== undefined && out.length !== slot.exactly) {
    reader.fail(`“${row.head}” wants ${slot.meaning}; here ${out.length === 1 ? "is" : "are"} ${out.length}.`, first.start, out.at(-1)?.end ?? first.end);
  }
  return out;
}

function readValue(reader: Reader, slot: Slot, row: Row): Value | undefined {
  const takes = slot.takes;
  if (takes.kind === "name" || takes.kind === "word") skipArticle(reader);
  const item = reader.items[reader.at];
  if (item === undefined) return undefined;
  const word = wordOf(item);
  switch (takes.kind) {
    case "new-name": case "name": return readNames(reader, false)[0];
    case "word": {
      if (word === undefined) return undefined;
      if (!Object.hasOwn(takes.words, word)) {
        const near = nearest(word, Object.keys(takes.words));
        const hint = near === undefined ? ` It is one of ${Object.keys(takes.words).join(", ")}.` : ` Was “${near}” meant?`;
        reader.fail(`“${clip(word)}” does not fit: wanted is ${slot.meaning}.${hint}`, item.start, item.end);
      }
      reader.at += 1;
      return { kind: "word", word, ...spoken(item) };
    }
    case "quantity": {
      const before = reader.at;
      const read = readQuantity(reader.items, before, takes.dimension, !row.slots.some((other) => other.after === "to"));
      if (read === undefined) return undefined;
      reader.at = read.next;
      if (read.value.kind === "quantity-error") {
        reader.fail(read.value.message, read.value.start, read.value.end);
        return undefined;
      }
      if (outside(read.value, takes)) {
        reader.fail(impossible(row, slot, takes, reader.items.slice(before, read.next)), read.value.start, read.value.end, "impossible");
        return undefined;
      }
      return confined(read.value, takes);
    }
    case "any-quantity": {
      const unit = reader.items.slice(reader.at).map((i) => (isPoint(i) ? undefined : unitOf(i.text))).find((found) => found !== undefined);
      const read = readQuantity(reader.items, reader.at, unit?.dimension ?? "ratio");
      if (read === undefined) return undefined;
      reader.at = read.next;
      if (read.value.kind === "quantity") return read.value;
      reader.fail(read.value.message, read.value.start, read.value.end);
      return undefined;
    }
    case "text": case "who": {
      const text = textOf(item) ?? (takes.kind === "who" && word !== undefined && !RESERVED.has(word) && !isPoint(item) ? item.text : undefined);
      if (text === undefined) return undefined;
      reader.at += 1;
      return { kind: "text", text, ...spoken(item) };
    }
    case "place": return readPlace(reader, false);
    case "point": {
      if (!isPoint(item)) return undefined;
      reader.at += 1;
      const coordinates = readPoint(item, reader);
      return coordinates === undefined ? undefined : { kind: "point", coordinates, ...spoken(item) };
    }
    case "date":
      if (isPoint(item) || item.kind !== "date") return undefined;
      reader.at += 1;
      if (!isDate(item.text)) reader.fail(noDay(item.text), item.start, item.end);
      return { kind: "date", date: item.text, ...spoken(item) };
    case "clock": {
      if (isPoint(item) || item.kind !== "clock") return undefined;
      reader.at += 1;
      const minutes = minutesOf(item.text);
      if (minutes === undefined) reader.fail(`${item.text} is no time of the day: write it like 18:30.`, item.start, item.end);
      const nextDay = takeWord(reader, "next-day");
      return { kind: "clock", minutes: (minutes ?? 0) + (nextDay ? 1440 : 0), ...spoken(item) };
    }
    case "mode": {
      const mode = isPoint(item) ? undefined : modeOf(item);
      if (mode === undefined) return undefined;
      reader.at += 1;
      if (!isPicture(mode)) reader.fail("That cannot be the size of a picture: write it like 720p30, or 1920x1080.", item.start, item.end);
      return { kind: "mode", ...mode, ...spoken(item) };
    }
    case "ratio": {
      if (isPoint(item) || item.kind !== "clock") return undefined;
      reader.at += 1;
      const [a, b] = item.text.split(":").map(Number);
      if (a === 0 || b === 0) reader.fail("A ratio has no nought in it: write it like 16:9.", item.start, item.end);
      return { kind: "ratio", ratio: (a ?? 1) / (b ?? 1), ...spoken(item) };
    }
    case "zone": case "code":
      if (word === undefined || isPoint(item)) return undefined;
      reader.at += 1;
      return { kind: "word", word: takes.kind === "code" ? word : item.text, ...spoken(item) };
  }
}
