import { isOpen, type Ranged } from "./ranged";

export type End = "low" | "high";

interface Kept {
  readonly result: unknown;
  readonly read: ReadonlyMap<string, Ranged>;
}

const NONE: ReadonlyMap<string, Ranged> = new Map();

/**
 * One try of the world: every open value at its best guess, but for those put at one of their ends.
 *
 * Whatever computes asks the trial for numbers and never reads a range itself. The trial notes which open values were read, so
 * that the study knows what each result hangs on without anybody keeping a list, and it keeps what was computed, together
 * with what that read, so that a result shared by many findings is computed once per trial.
 */
export class Trial {
  readonly #ends: ReadonlyMap<string, End>;
  readonly #beside: Trial | undefined;
  readonly #kept = new Map<string, Kept>();
  #reading: Map<string, Ranged> = new Map();

  /**
   * `beside`: the trial of best guesses beside which this one is tried. What that one computed without reading any of `ends` is
   * the same here and is taken over; in exchange this trial notes no reads, as those at the best guess are what counts.
   */
  constructor(ends: ReadonlyMap<string, End> = new Map(), beside?: Trial) {
    this.#ends = ends;
    this.#beside = beside;
  }

  /** The value's number in this trial. */
  value(of: Ranged): number {
    if (!isOpen(of)) return of.best;
    if (this.#beside === undefined) this.#reading.set(of.id, of);
    const end = this.#ends.get(of.id);
    return end === undefined ? of.best : of[end];
  }

  /** For yes-or-no unknowns: 0 is no, 1 is yes. */
  holds(of: Ranged): boolean {
    return this.value(of) >= 0.5;
  }

  /** `make()` once for each key in this trial; what it read counts as read by everybody who asks for it. */
  keep<T>(key: string, make: () => T): T {
    let entry = this.#kept.get(key);
    if (entry === undefined) {
      if (this.#beside === undefined) entry = this.trace(make);
      else {
        const known = this.#beside.#kept.get(key);
        entry = known !== undefined && this.#leaves(known) ? known : { result: make(), read: NONE };
      }
      this.#kept.set(key, entry);
    }
    if (this.#beside === undefined) for (const [id, value] of entry.read) this.#reading.set(id, value);
    return entry.result as T;
  }

  /** Whether a result hangs on nothing that this trial puts at an end. */
  #leaves(kept: Kept): boolean {
    for (const id of this.#ends.keys()) if (kept.read.has(id)) return false;
    return true;
  }

  /** The result of `run` and the open values that it read. */
  trace<T>(run: () => T): { readonly result: T; readonly read: ReadonlyMap<string, Ranged> } {
    const outer = this.#reading;
    const inner = new Map<string, Ranged>();
    this.#reading = inner;
    try {
      return { result: run(), read: inner };
    } finally {
      this.#reading = outer;
      for (const [id, value] of inner) outer.set(id, value);
    }
  }
}
