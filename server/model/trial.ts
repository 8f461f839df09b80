import { isOpen, type Ranged } from "./ranged";

export type End = "low" | "high";

/**
 * One try of the world: every open value at its best guess, but for those put at one of their ends.
 *
 * Whatever computes asks the trial for numbers and never reads a range itself. The trial notes which open values were read, so
 * that the study knows what each result hangs on without anybody keeping a list, and it keeps what was computed, together
 * with what that read, so that a result shared by many findings is computed once per trial.
 */
export class Trial {
  readonly #ends: ReadonlyMap<string, End>;
  readonly #kept = new Map<string, { readonly result: unknown; readonly read: ReadonlyMap<string, Ranged> }>();
  #reading: Map<string, Ranged> = new Map();

  constructor(ends: ReadonlyMap<string, End> = new Map()) {
    this.#ends = ends;
  }

  /** The value's number in this trial. */
  value(of: Ranged): number {
    if (!isOpen(of)) return of.best;
    this.#reading.set(of.id, of);
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
      const traced = this.trace(make);
      entry = traced;
      this.#kept.set(key, entry);
    }
    for (const [id, value] of entry.read) this.#reading.set(id, value);
    return entry.result as T;
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
