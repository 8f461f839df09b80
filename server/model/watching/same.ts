/** Whether two parts of two versions of a setup mean the same, wherever in their texts they stand. */

/** Says itself whether another of its kind means the same. */
export interface Comparable {
  sameAs(other: unknown): boolean;
}

const isComparable = (value: object): value is Comparable => typeof (value as Partial<Comparable>).sameAs === "function";

/** Where something stands says nothing of what it means; its tree is there for whoever edits it. */
const PLACES: ReadonlySet<string> = new Set(["where", "whole", "fact", "cornersWhere", "titleWhere"]);

/** Deeper than any part of a setup; what is deeper is taken to differ. */
const DEEPEST = 200;

/** Of data of any shape; of functions and of objects of a class that cannot say it, only whether they are one and the same. */
export function sameMeaning(a: unknown, b: unknown, depth = 0): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null || depth > DEEPEST) return false;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((one, i) => sameMeaning(one, b[i], depth + 1));
  if (a instanceof Map) return b instanceof Map && sameMeaning([...a], [...b], depth + 1);
  if (a instanceof Set) return b instanceof Set && sameMeaning([...a], [...b], depth + 1);
  if (isComparable(a)) return a.sameAs(b);
  const plain = Object.getPrototypeOf(a) as unknown;
  return plain === Object.prototype && Object.getPrototypeOf(b) === plain && sameFields(a as Fields, b as Fields, depth);
}

type Fields = Readonly<Record<string, unknown>>;

function sameFields(a: Fields, b: Fields, depth: number): boolean {
  const stands = isSpan(a) && isSpan(b);
  const counts = (key: string): boolean => !PLACES.has(key) && !(stands && (key === "start" || key === "end" || key === "fullEnd"));
  let left = 0;
  for (const key in b) if (counts(key) && b[key] !== undefined) left += 1;
  for (const key in a) {
    if (!counts(key) || a[key] === undefined) continue;
    if (!sameMeaning(a[key], b[key], depth + 1)) return false;
    left -= 1;
  }
  return left === 0;
}

/** Begins and ends somewhere in a text. */
const isSpan = (of: Fields): boolean => typeof of["start"] === "number" && typeof of["end"] === "number";
