/**
 * What a computation reads of a setup. Every part of a setup that can change by itself is a cell with a number; what was read is a
 * set of cells, and equal sets are one set. So it can be told after an edit which results still hold: those that read nothing that
 * the edit changed. Nobody keeps a list by hand.
 */

/** A set of cells in a ledger, by its number there; `EVERYTHING` where it is not known what was read. */
export type Footprint = number;
export const NOTHING: Footprint = 0;
export const EVERYTHING: Footprint = -1;

/** More cells or sets than any setup comes to: then it is told of nothing any more what was read, and all is computed anew. */
const MOST_CELLS = 200_000;
const MOST_SETS = 100_000;

/** The cells of a setup through all its versions, and the sets of them that were read. */
export class Ledger {
  readonly #cells = new Map<string, number>();
  readonly #keys: string[] = [];
  /** By number, a set as bits. */
  readonly #sets: Uint32Array[] = [new Uint32Array(0)];
  readonly #byHash = new Map<number, Footprint[]>();

  /** The number of a cell by its key, which names it in every version. */
  cell(key: string): number {
    let cell = this.#cells.get(key);
    if (cell === undefined) {
      cell = this.#keys.length;
      this.#cells.set(key, cell);
      this.#keys.push(key);
    }
    return cell;
  }

  get keys(): readonly string[] {
    return this.#keys;
  }

  /** Whether it has grown beyond what is worth keeping: the next version begins a new one. */
  get full(): boolean {
    return this.#keys.length > MOST_CELLS || this.#sets.length > MOST_SETS;
  }

  /** The one set of these cells and of all that is in these sets. */
  union(cells: Iterable<number>, sets: Iterable<Footprint>): Footprint {
    let bits = new Uint32Array((this.#keys.length + 31) >> 5);
    for (const set of sets) {
      if (set === EVERYTHING) return EVERYTHING;
      const other = this.#sets[set] ?? bits;
      if (other.length > bits.length) bits = widened(bits, other.length);
      for (let i = 0; i < other.length; i += 1) bits[i] = (bits[i] ?? 0) | (other[i] ?? 0);
    }
    for (const cell of cells) bits[cell >> 5] = (bits[cell >> 5] ?? 0) | (1 << (cell & 31));
    return this.#only(bits);
  }

  /** The cells of a set. */
  cellsOf(set: Footprint): readonly string[] {
    const bits = this.#sets[set] ?? new Uint32Array(0);
    return this.#keys.filter((_, cell) => ((bits[cell >> 5] ?? 0) >>> (cell & 31)) % 2 === 1);
  }

  /** Whether two sets have a cell in common. */
  meet(a: Footprint, b: Footprint): boolean {
    if (a === EVERYTHING || b === EVERYTHING) return true;
    const [one, other] = [this.#sets[a] ?? new Uint32Array(0), this.#sets[b] ?? new Uint32Array(0)];
    for (let i = Math.min(one.length, other.length) - 1; i >= 0; i -= 1) if (((one[i] ?? 0) & (other[i] ?? 0)) !== 0) return true;
    return false;
  }

  #only(bits: Uint32Array): Footprint {
    let length = bits.length;
    while (length > 0 && bits[length - 1] === 0) length -= 1;
    if (length === 0) return NOTHING;
    let hash = length;
    for (let i = 0; i < length; i += 1) hash = Math.imul(hash ^ (bits[i] ?? 0), 0x9e3779b1) ^ (hash >>> 15);
    const alike = this.#byHash.get(hash);
    for (const set of alike ?? []) if (equal(this.#sets[set], bits, length)) return set;
    if (this.#sets.length > MOST_SETS) return EVERYTHING;
    const set = this.#sets.length;
    this.#sets.push(bits.slice(0, length));
    if (alike === undefined) this.#byHash.set(hash, [set]);
    else alike.push(set);
    return set;
  }
}

function widened(bits: Uint32Array, length: number): Uint32Array<ArrayBuffer> {
  const wider = new Uint32Array(length);
  wider.set(bits);
  return wider;
}

function equal(known: Uint32Array | undefined, bits: Uint32Array, length: number): boolean {
  if (known?.length !== length) return false;
  for (let i = 0; i < length; i += 1) if (known[i] !== bits[i]) return false;
  return true;
}

/** What is being gathered. */
interface Open {
  readonly ledger: Ledger;
  readonly cells: Set<number>;
  readonly sets: Set<Footprint>;
}

// Whatever computes runs to its end before anything else does, so one is enough for all.
let open: Open | undefined;

/** A cell is read. */
export function noteCell(cell: number): void {
  open?.cells.add(cell);
}

/** Something is read that was computed before; without a footprint nobody knows what it hangs on. */
export function noteFootprint(read: Footprint | undefined): void {
  if (read !== NOTHING) open?.sets.add(read ?? EVERYTHING);
}

/** The result of `run`, and what `done` makes of it once it has ended; where it fails, that is done as well. */
export function ending<T, R>(run: () => T, done: () => R): { readonly result: T; readonly done: R } {
  let result: T;
  try {
    result = run();
  } catch (problem) {
    done();
    throw problem;
  }
  return { result, done: done() };
}

/** The result of `run` and what it read; that counts as read by whoever asks, too. */
export function gathering<T>(ledger: Ledger, run: () => T): { readonly result: T; readonly read: Footprint } {
  const outer = open;
  const inner: Open = { ledger, cells: new Set(), sets: new Set() };
  const done = (): Footprint => {
    open = outer;
    const [first] = inner.sets;
    const read = inner.cells.size === 0 && inner.sets.size <= 1 ? first ?? NOTHING : ledger.union(inner.cells, inner.sets);
    if (read !== NOTHING) outer?.sets.add(read);
    return read;
  };
  open = inner;
  const { result, done: read } = ending(run, done);
  return { result, read };
}

/** The same where somebody gathers, and else the result alone. */
export function gathered<T>(run: () => T): { readonly result: T; readonly read: Footprint | undefined } {
  return open === undefined ? { result: run(), read: undefined } : gathering(open.ledger, run);
}
