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
 * `0.5 %`, `22 W within 15 to 50 W`, `unknown`. Where the unit or the dimension is not the one wanted the answer is an error that says what is wanted and
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
      const left = one.unit === undefined && two.unit !== undefined ? scale(one, two.factor) : one;
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
  // `22 W within 15 to 50 W`: a best guess and its range.
  const within = items[index];
  if (within !== undefined && !isPoint(within) && isWord(within, "within")) {
    const range = readQuantity(items, index + 1, dimension);
    if (range !== undefined) {
      const problem = mismatch([one], first, within, dimension);
      if (problem !== undefined) return { value: problem, next: range.next };
      if (range.value.kind === "quantity-error") return range;
      const { low, high } = range.value;
      return {
        value: { kind: "quantity", dimension, low: Math.min(low, one.best), best: one.best, high: Math.max(high, one.best),
          said: "range", start: first.start, end: range.value.end },
        next: range.next,
      };
    }
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

interface Amount {
  readonly low: number;
  readonly best: number;
  readonly high: number;
  readonly factor: number;
  readonly dimension: Dimension | undefined;
  /** The unit as written, if any. */
  readonly unit: string | undefined;
  readonly problem?: string;
  readonly next: number;
}

function readAmount(items: readonly Item[], at: number, dimension: Dimension): Amount | undefined {
  const number = items[at];
  if (number === undefined || isPoint(number)) return undefined;
  if (number.kind === "decimal-comma") {
    // The parser has its say on the comma; the number is read as it was meant, so that nothing else is reported.
    return withUnit(items, at, Number(number.text.replace(",", ".")), dimension);
  }
  if (number.kind !== "number") return undefined;
  return withUnit(items, at, Number(number.text.replace("\u2212", "-")), dimension);
}

function withUnit(items: readonly Item[], at: number, n: number, dimension: Dimension): Amount {
  const word = items[at + 1];
  const plain: Amount = { low: n, best: n, high: n, factor: 1, dimension: undefined, unit: undefined, next: at + 1 };
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
    low: Math.min(n * low, n * high), best: n * unit.factor, high: Math.max(n * low, n * high), factor: unit.factor,
    dimension: unit.dimension, unit: word.text, next: at + 2,
  };
  // Composed: `2 h 30 min`, `5 ft 4 inch`: a smaller unit of the same dimension follows.
  const more = items[at + 2];
  if (more !== undefined && !isPoint(more) && more.kind === "number" && !more.text.startsWith("-")) {
    const rest = withUnit(items, at + 2, Number(more.text), dimension);
    if (rest.unit !== undefined && rest.dimension === unit.dimension && rest.factor < unit.factor) {
      return { ...amount, low: amount.low + rest.low, best: amount.best + rest.best, high: amount.high + rest.high, next: rest.next };
    }
  }
  return amount;
}

const scale = (of: Amount, factor: number): Amount => ({
  ...of, low: of.low * factor, best: of.best * factor, high: of.high * factor, dimension: undefined, unit: "scaled",
});

function mismatch(parts: readonly Amount[], first: Token, last: Item, dimension: Dimension): QuantityError | undefined {
  for (const part of parts) {
    const unitless = dimension === "count" || dimension === "ratio";
    if (part.dimension !== undefined && part.dimension !== dimension && !(unitless && part.dimension === "share")) {
      return wanted(first, last, dimension, `not ${DIMENSIONS[part.dimension].title}`);
    }
    if (part.unit === undefined && !unitless) return wanted(first, last, dimension, "with its unit");
    if (dimension === "count" && !Number.isInteger(part.best)) return wanted(first, last, dimension, "that is whole");
  }
  return undefined;
}

function wanted(first: Token, last: Item, dimension: Dimension, but: string): QuantityError {
  const row = DIMENSIONS[dimension];
  const plain = but.startsWith("not") ? `${row.title} is wanted here, ${but}` : `${row.title} ${but} is wanted here`;
  return {
    kind: "quantity-error", start: first.start, end: last.end,
    message: `${plain.charAt(0).toUpperCase()}${plain.slice(1)}: write it like ${row.example}.`,
  };
}

const isWord = (item: Token, word: string): boolean => item.kind === "word" && item.text.toLowerCase() === word;
