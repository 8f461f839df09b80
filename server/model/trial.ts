import { isOpen, type Ranged } from "./ranged";
import { ending, gathered, noteFootprint, type Footprint } from "./watching/reads";

export type End = "low" | "high";
/** An end of a range, or a number inside it. */
export type At = End | number;
/** By id, values of which less is open than the text leaves: what was noticed on the evening took ends off. */
export type Narrowed = ReadonlyMap<string, Ranged>;

interface Kept {
  readonly result: unknown;
  /** Open values, and parts of the setup. */
  readonly read: ReadonlyMap<string, Ranged>;
  readonly parts: Footprint | undefined;
}

/**
 * What the trials of one study have computed between them. Two trials that put the values that a result reads at the same ends
 * have the same result, whatever else they put at an end: it is computed once for both.
 */
export class Shelf {
  /** By key, what was computed, those of equal reads together: then by the ends at which the reads were. */
  readonly #known = new Map<string, { readonly read: ReadonlyMap<string, Ranged>; readonly at: Map<string, Kept> }[]>();

  find(key: string, at: (read: ReadonlyMap<string, Ranged>) => string): Kept | undefined {
    for (const group of this.#known.get(key) ?? []) {
      const found = group.at.get(at(group.read));
      if (found !== undefined) return found;
    }
    return undefined;
  }

  add(key: string, kept: Kept, at: string): void {
    const groups = this.#known.get(key);
    const group = groups?.find(({ read }) => sameKeys(read, kept.read));
    if (group !== undefined) group.at.set(at, kept);
    else if (groups !== undefined) groups.push({ read: kept.read, at: new Map([[at, kept]]) });
    else this.#known.set(key, [{ read: kept.read, at: new Map([[at, kept]]) }]);
  }
}

type Values = ReadonlyMap<string, Ranged>;
type Reading = Map<string | Values, Ranged | Values>;

/** Each value once, in the order in which they were first read. */
function flat(reading: Reading): Values {
  const [only] = reading.values();
  if (reading.size === 1 && only instanceof Map) return only;
  const out = new Map<string, Ranged>();
  for (const one of reading.values()) {
    if (one instanceof Map) for (const [id, value] of one as Values) out.set(id, value);
    else out.set((one as Ranged).id, one as Ranged);
  }
  return out;
}

const SHELVES = new WeakMap<object, Shelf>();

/** The one shelf of a setup: what is computed while its loops are chosen serves when its cases are judged. */
export function shelfOf(setup: object): Shelf {
  let shelf = SHELVES.get(setup);
  if (shelf === undefined) {
    shelf = new Shelf();
    SHELVES.set(setup, shelf);
  }
  return shelf;
}

function sameKeys(a: ReadonlyMap<string, unknown>, b: ReadonlyMap<string, unknown>): boolean {
  if (a.size !== b.size) return false;
  for (const key of a.keys()) if (!b.has(key)) return false;
  return true;
}

/**
 * One try of the world: every open value at its best guess, but for those put at one of their ends.
 *
 * Whatever computes asks the trial for numbers and never reads a range itself. The trial notes which open values were read, so
 * that the study knows what each result hangs on without anybody keeping a list, and it keeps what was computed, together
 * with what that read, so that a result shared by many findings is computed once per trial.
 */
export class Trial {
  readonly #ends: ReadonlyMap<string, At>;
  readonly #narrowed: Narrowed;
  /** The same in one order, and as words. */
  readonly #sorted: readonly (readonly [id: string, word: string])[];
  readonly #shelf: Shelf;
  readonly #kept = new Map<string, Kept>();
  /** In the order in which they were read: values by id, and what was kept before as a whole, by itself. */
  #reading: Reading = new Map();

  /** `shelf`: shared with other trials of the same setup. `narrowed`: ranges that hold instead of those of the text. */
  constructor(ends: ReadonlyMap<string, At> = new Map(), shelf: Shelf = new Shelf(), narrowed: Narrowed = new Map()) {
    this.#ends = ends;
    this.#narrowed = narrowed;
    // An end that lies elsewhere than the text has it is another end on the shelf.
    const word = (id: string, end: At): string => `${id} ${end}${typeof end === "string" && narrowed.has(id) ? ` ${narrowed.get(id)?.[end] ?? ""}` : ""}`;
    this.#sorted = [...ends].map(([id, end]) => [id, word(id, end)] as const).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
    this.#shelf = shelf;
  }

  /** The value's number in this trial. */
  value(of: Ranged): number {
    if (!isOpen(of)) return of.best;
    this.#reading.set(of.id, of);
    const end = this.#ends.get(of.id);
    if (typeof end === "number") return end;
    return end === undefined ? of.best : (this.#narrowed.get(of.id) ?? of)[end];
  }

  /** The range that holds for a value: the text's, or what was noticed on the evening has left of it. */
  known(of: Ranged): Ranged {
    return this.#narrowed.get(of.id) ?? of;
  }

  /** For yes-or-no unknowns: 0 is no, 1 is yes. */
  holds(of: Ranged): boolean {
    return this.value(of) >= 0.5;
  }

  /**
   * `make()` once for each key in this trial; what it read counts as read by everybody who asks for it. The key must name
   * everything that decides the result besides the values that `make` reads.
   */
  keep<T>(key: string, make: () => T): T {
    let entry = this.#kept.get(key);
    if (entry === undefined) {
      entry = this.#shelf.find(key, this.#at);
      if (entry === undefined) {
        const { result: traced, read: parts } = gathered(() => this.#trace(make));
        entry = { ...traced, parts };
        this.#shelf.add(key, entry, this.#at(entry.read));
      } else noteFootprint(entry.parts);
      this.#kept.set(key, entry);
    } else noteFootprint(entry.parts);
    this.#reading.set(entry.read, entry.read);
    return entry.result as T;
  }

  /** The ends at which this trial puts those of the values that are in `read`. */
  readonly #at = (read: ReadonlyMap<string, Ranged>): string => {
    let at = "";
    for (const [id, word] of this.#sorted) if (read.has(id)) at += `${word}|`;
    return at;
  };

  /** The result of `run` and the values that it read and that are open still. */
  trace<T>(run: () => T): { readonly result: T; readonly read: ReadonlyMap<string, Ranged> } {
    const { result, read } = this.#trace(run);
    if (this.#narrowed.size === 0) return { result, read };
    const open = [...read].map(([id, value]) => [id, this.#narrowed.get(id) ?? value] as const).filter(([, value]) => isOpen(value));
    return { result, read: new Map(open) };
  }

  /** The same with the ranges that the text has: what is kept is kept for trials that know of nothing narrower, too. */
  #trace<T>(run: () => T): { readonly result: T; readonly read: ReadonlyMap<string, Ranged> } {
    const outer = this.#reading;
    const inner: Reading = new Map();
    this.#reading = inner;
    const done = (): Values => {
      this.#reading = outer;
      const read = flat(inner);
      outer.set(read, read);
      return read;
    };
    const { result, done: read } = ending(run, done);
    return { result, read };
  }
}
