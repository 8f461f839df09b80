import { isPoint, type Item, type Token } from "./tree";
import { DIMENSIONS, unitOf, type Dimension } from "./units";

/** A quantity as written: a range in canonical units, and whether the author vouched for it. */
export interface Quantity {
  readonly kind: "quantity";
  readonly dimension: Dimension;
  readonly low: number;
  readonly best: number;
  readonly high: number;
  /** `exact`: a plain figure. `about`: with a tolerance. `range`: from … to. `unknown`: the word, nothing is known. */
  readonly said: "exact" | "about" | "range" | "unknown";
  readonly start: number;
  readonly end: number;
}

export interface QuantityError {
  readonly kind: "quantity-error";
  readonly message: string;
  readonly start: number;
  readonly end: number;
}

export interface QuantityRead {
  readonly value: Quantity | QuantityError;
  /** Index of the first item that is not part of the quantity. */
  readonly next: number;
}

/**
 * Reads the quantity that begins at `items[at]`, if one does: `9 m`, `about 9 m`, `8 m to 10 m`, `2 h 30 min`, `13 steps`,
 * `0.5 %`, `22 W within 15 to 50 W`, `22 W within 5 W`, `unknown`. Where the unit or the dimension is not the one wanted the answer is an error that says what is wanted and
 * shows one; the items are taken all the same, so that one mistake gives one message.
 *
 * `ranges`: false where the statement itself has a use for the word `to`.
 */
export function readQuantity(items: readonly Item[], at: number, dimension: Dimension, ranges = true): QuantityRead | undefined {
  let index = at;
  const first = items[index];
  if (first === undefined || isPoint(first)) return undefined;
  if (isWord(first, "unknown")) {
    return {
      value: { kind: "quantity", dimension, low: NaN, best: NaN, high: NaN, said: "unknown", start: first.start, end: first.end },
      next: index + 1,
    };
  }
  const about = isWord(first, "about");
  if (about) index += 1;
  const one = readAmount(items, index, dimension);
  if (one === undefined) return about ? { value: wanted(first, first, dimension, "after “about”"), next: index } : undefined;
  index = one.next;

  // `8 m to 10 m`; the unit may stand once, at the end: `8 to 10 m`.
  const to = items[index];
  if (ranges && to !== undefined && !isPoint(to) && isWord(to, "to")) {
    const two = readAmount(items, index + 1, dimension);
    if (two !== undefined) {
      const left = one.unit === undefined && two.unit !== undefined ? scale(one, two) : one;
      const last = items[two.next - 1] ?? to;
      const problem = mismatch([left, two], first, last, dimension);
      if (problem !== undefined) return { value: problem, next: two.next };
      const low = Math.min(left.low, two.low);
      const high = Math.max(left.high, two.high);
      return {
        value: { kind: "quantity", dimension, low, best: (low + high) / 2, high, said: "range", start: first.start, end: last.end },
        next: two.next,
      };
    }
  }
  // `22 W within 15 to 50 W`: a best guess and its range; `22 W within 5 W`: so much either way.
  const within = items[index];
  if (within !== undefined && !isPoint(within) && isWord(within, "within")) {
    const range = readQuantity(items, index + 1, dimension);
    if (range !== undefined) {
      const problem = mismatch([one], first, within, dimension);
      if (problem !== undefined) return { value: problem, next: range.next };
      if (range.value.kind === "quantity-error") return range;
      return { value: around(one.best, range.value, dimension, first), next: range.next };
    }
    const problem = mismatch([one], first, within, dimension);
    return { value: problem ?? wanted(first, within, dimension, "after “within”"), next: index + 1 };
  }
  const last = items[index - 1] ?? first;
  const problem = mismatch([one], first, last, dimension);
  if (problem !== undefined) return { value: problem, next: index };
  const quantity: Quantity = {
    kind: "quantity", dimension, low: one.low, best: one.best, high: one.high,
    said: about || one.low < one.high ? "about" : "exact", start: first.start, end: last.end,
  };
  return { value: about ? widen(quantity, DIMENSIONS[dimension].tolerance) : quantity, next: index };
}

/** The quantity with a tolerance around it: relative, or in dB for levels; a count stays whole and nothing turns negative. */
export function widen(of: Quantity, tolerance: number): Quantity {
  if (of.dimension === "level") return { ...of, low: of.low - tolerance, high: of.high + tolerance, said: "about" };
  const low = of.low - Math.abs(of.low) * tolerance;
  const high = of.high + Math.abs(of.high) * tolerance;
  if (of.dimension === "count") return { ...of, low: Math.floor(low), high: Math.ceil(high), said: "about" };
  return { ...of, low, high, said: "about" };
}

/** `best` with the range that stands after `within`. */
function around(best: number, range: Quantity, dimension: Dimension, first: Token): Quantity | QuantityError {
  if (range.said === "unknown") return wanted(first, range, dimension, "after “within”");
  const spot = { kind: "quantity", dimension, best, said: "range", start: first.start, end: range.end } as const;
  if (range.said !== "range") return { ...spot, low: best - Math.abs(range.best), high: best + Math.abs(range.best) };
  // Converted units may miss an end by the last digit.
  const slack = 1e-9 * Math.max(Math.abs(range.low), Math.abs(range.high));
  if (best < range.low - slack || best > range.high + slack) {
    return {
      kind: "quantity-error", start: first.start, end: range.end,
      message: `The figure before “within” lies outside the range after it: write it like ${DIMENSIONS[dimension].example}, with a range around it or none.`,
    };
  }
  return { ...spot, low: Math.min(range.low, best), high: Math.max(range.high, best) };
}

interface Amount {
  readonly low: number;
  readonly best: number;
  readonly high: number;
  readonly factor: number;
  /** The least and the most that the unit may be, where it is no standard. */
  readonly spread: readonly [low: number, high: number];
  readonly dimension: Dimension | undefined;
  /** The unit as written, if any. */
  readonly unit: string | undefined;
  readonly next: number;
}

function readAmount(items: readonly Item[], at: number, dimension: Dimension): Amount | undefined {
  const number = items[at];
  if (number === undefined || isPoint(number)) return undefined;
  if (number.kind === "decimal-comma") {
    // The parser has its say on the comma; the number is read as it was meant, so that nothing else is reported.
    return withUnit(items, at, withComma(signed(number.text)), dimension);
  }
  if (number.kind !== "number") return undefined;
  return withUnit(items, at, Number(signed(number.text)), dimension);
}

const signed = (text: string): string => text.replace("\u2212", "-");

/** What a number with commas was meant to say: `1,000` and `1,234.5` group digits by three, any other comma stands for a point. */
function withComma(text: string): number {
  if (/^[-+]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/.test(text)) return Number(text.replaceAll(",", ""));
  const [whole = "", ...rest] = text.split(/[.,]/);
  return Number(`${whole}.${rest.join("")}`);
}

function withUnit(items: readonly Item[], at: number, n: number, dimension: Dimension): Amount {
  const word = items[at + 1];
  const plain: Amount = { low: n, best: n, high: n, factor: 1, spread: [1, 1], dimension: undefined, unit: undefined, next: at + 1 };
  if (word === undefined || isPoint(word) || (word.kind !== "word" && word.kind !== "symbol")) return plain;
  // A count is followed by whatever it counts, which is no unit: `8 people`, `24 in 4 rows`.
  if (dimension === "count" || dimension === "ratio") {
    const people = ["people", "persons", "seats", "chairs", "rows", "times"].includes(word.text.toLowerCase());
    return people ? { ...plain, next: at + 2 } : plain;
  }
  const unit = unitOf(word.text);
  if (unit === undefined) return plain;
  const [low, high] = unit.spread ?? [unit.factor, unit.factor];
  const amount: Amount = {
    low: Math.min(n * low, n * high), best: n * unit.factor, high: Math.max(n * low, n * high), factor: unit.factor, spread: [low, high],
    dimension: unit.dimension, unit: word.text, next: at + 2,
  };
  // Composed: `2 h 30 min`, `5 ft 4 inch`: a smaller unit of the same dimension follows.
  const more = items[at + 2];
  if (more !== undefined && !isPoint(more) && more.kind === "number" && /^\d/.test(more.text)) {
    const rest = withUnit(items, at + 2, Number(more.text), dimension);
    if (rest.unit !== undefined && rest.dimension === unit.dimension && rest.factor < unit.factor) {
      return { ...amount, low: amount.low + rest.low, best: amount.best + rest.best, high: amount.high + rest.high, next: rest.next };
    }
  }
  return amount;
}

/** An amount written without its unit, read in the unit of another: the 8 of `8 to 10 m`. */
function scale(of: Amount, like: Amount): Amount {
  const [low, high] = like.spread;
  return {
    ...of, low: Math.min(of.low * low, of.low * high), best: of.best * like.factor, high: Math.max(of.high * low, of.high * high),
    dimension: like.dimension, unit: like.unit,
  };
}

/** Beyond this no quantity of a meeting lies, and sums of such numbers would no longer be numbers. */
const LARGEST = 1e15;

function mismatch(parts: readonly Amount[], first: Token, last: Item, dimension: Dimension): QuantityError | undefined {
  for (const part of parts) {
    const unitless = dimension === "count" || dimension === "ratio";
    if (part.dimension !== undefined && part.dimension !== dimension && !(unitless && part.dimension === "share")) {
      return wanted(first, last, dimension, `not ${DIMENSIONS[part.dimension].title}`);
    }
    if (part.unit === undefined && !unitless) return wanted(first, last, dimension, "with its unit");
    if (Math.abs(part.best) > LARGEST) return wanted(first, last, dimension, "within reason");
    if (dimension === "count" && !Number.isInteger(part.best)) return wanted(first, last, dimension, "that is whole");
  }
  return undefined;
}

function wanted(first: Token, last: { readonly end: number }, dimension: Dimension, but: string): QuantityError {
  const row = DIMENSIONS[dimension];
  const plain = but.startsWith("not") ? `${row.title} is wanted here, ${but}` : `${row.title} ${but} is wanted here`;
  return {
    kind: "quantity-error", start: first.start, end: last.end,
    message: `${plain.charAt(0).toUpperCase()}${plain.slice(1)}: write it like ${row.example}.`,
  };
}

const isWord = (item: Token, word: string): boolean => item.kind === "word" && item.text.toLowerCase() === word;
