import { isPoint, type Item, type Point } from "../../../grammar/tree";
import { readQuantity, type Quantity } from "../../../grammar/quantity";
import { CONNECTORS, isRelation, SIDES } from "../../../grammar/vocabulary";
import type { Anchor, NameValue, PlaceValue, Relation } from "../bound";
import { spoken, wordOf, type Reader } from "./reader";

/** Whether a place begins there: a relation, or a length and then a relation. */
export function startsPlace(items: readonly Item[], at: number): boolean {
  const item = items[at];
  if (item === undefined) return false;
  const word = wordOf(item);
  if (word !== undefined && isRelation(word)) return true;
  const length = readQuantity(items, at, "length");
  if (length === undefined || length.value.kind === "quantity-error") return false;
  const after = items[length.next];
  const relation = after === undefined ? undefined : wordOf(after);
  return relation !== undefined && isRelation(relation);
}

/**
 * Reads a place: `on table beside lectern`, `1.5 m behind row 3`, `at left front corner`, `(3.2 m, 1.0 m, 1.4 m)`.
 * `related`: a relation must come first; else a bare name or point is taken as `at` it.
 */
export function readPlace(reader: Reader, related: boolean): PlaceValue | undefined {
  const relations: Relation[] = [];
  const first = reader.items[reader.at];
  if (first === undefined) return undefined;
  while (reader.at < reader.items.length) {
    const item = reader.items[reader.at];
    if (item === undefined) break;
    const start = reader.at;
    let offset: Quantity | undefined;
    const length = readQuantity(reader.items, reader.at, "length");
    if (length !== undefined && length.value.kind === "quantity" && length.value.said !== "unknown") {
      const after = reader.items[length.next];
      const word = after === undefined ? undefined : wordOf(after);
      if (word === undefined || !isRelation(word)) break;
      offset = length.value;
      reader.at = length.next;
    }
    const here = reader.items[reader.at];
    if (here === undefined) break;
    const word = wordOf(here);
    let relation = "at";
    if (word !== undefined && isRelation(word)) {
      relation = word;
      reader.at += 1;
    } else if (related || relations.length > 0) {
      reader.at = start;
      break;
    }
    const anchor = readAnchor(reader, relation);
    if (anchor === undefined) {
      reader.fail(relation === "between" ? "After “between” belong two names with “and”: between lectern and front."
        : `After “${relation}” belongs a place: the name of a spot, of seats or of a person, “row 3”, “left front corner”, or (2 m, 3 m).`, here.start, here.end);
      return undefined;
    }
    const last = reader.items[reader.at - 1] ?? here;
    relations.push({ relation, offset, anchor, start: item.start, end: last.end });
  }
  if (relations.length === 0) return undefined;
  const words = reader.items.slice(reader.items.indexOf(first), reader.at).map((item) => (isPoint(item) ? "that point" : item.text)).join(" ");
  return { kind: "place", relations, words, start: first.start, end: relations[relations.length - 1]?.end ?? first.end };
}

function readAnchor(reader: Reader, relation: string): Anchor | undefined {
  let item = reader.items[reader.at];
  if (item === undefined) return undefined;
  if (isPoint(item)) {
    reader.at += 1;
    const coordinates = readPoint(item, reader);
    return coordinates === undefined ? undefined : { kind: "point", coordinates };
  }
  if (wordOf(item) === "the" || wordOf(item) === "a") {
    reader.at += 1;
    item = reader.items[reader.at];
    if (item === undefined || isPoint(item)) return undefined;
  }
  if (wordOf(item) === "row") {
    const number = reader.items[reader.at + 1];
    if (number !== undefined && !isPoint(number) && number.kind === "number" && /^\d+$/.test(number.text)) {
      reader.at += 2;
      return { kind: "row", row: Number(number.text), of: takeOf(reader) };
    }
  }
  if (relation === "between") return readPair(reader);
  const sides: string[] = [];
  for (;;) {
    const side = reader.items[reader.at];
    const word = side === undefined ? undefined : wordOf(side);
    if (word === undefined || !SIDES.has(word)) break;
    sides.push(word);
    reader.at += 1;
  }
  if (sides.length > 0) return { kind: "sides", sides };
  const name = takeName(reader);
  return name === undefined ? undefined : { kind: "name", name };
}

/** `between lectern and front`: two names. */
function readPair(reader: Reader): Anchor | undefined {
  const one = takeName(reader);
  const and = reader.items[reader.at];
  if (one === undefined || and === undefined || wordOf(and) !== "and") return undefined;
  reader.at += 1;
  const other = takeName(reader);
  return other === undefined ? undefined : { kind: "names", names: [one, other] };
}

function takeOf(reader: Reader): NameValue | undefined {
  const of = reader.items[reader.at];
  if (of === undefined || wordOf(of) !== "of") return undefined;
  reader.at += 1;
  return takeName(reader);
}

const NEVER_NAMES: ReadonlySet<string> = new Set(["no", "each", "about", "unknown", "within"]);

function takeName(reader: Reader): NameValue | undefined {
  const item = reader.items[reader.at];
  if (item === undefined || isPoint(item) || item.kind !== "word" || isRelation(item.text)) return undefined;
  if (CONNECTORS.has(item.text.toLowerCase()) || NEVER_NAMES.has(item.text.toLowerCase())) return undefined;
  reader.at += 1;
  return { kind: "name", text: item.text.normalize("NFC"), each: false, ...spoken(item) };
}

/** The lengths of a point; says what is wrong with one that is none. */
export function readPoint(point: Point, reader: Reader): Quantity[] | undefined {
  const out: Quantity[] = [];
  for (const coordinate of point.coordinates) {
    const read = readQuantity(coordinate, 0, "length");
    if (read === undefined || read.value.kind === "quantity-error" || read.next < coordinate.length) {
      reader.fail("A point is two or three lengths, each with its unit: (3.2 m, 1.0 m, 1.4 m).", point.start, point.end);
      return undefined;
    }
    out.push(read.value);
  }
  if (out.length < 2 || out.length > 3) {
    reader.fail("A point is two or three lengths, each with its unit: (3.2 m, 1.0 m, 1.4 m).", point.start, point.end);
    return undefined;
  }
  return out;
}
