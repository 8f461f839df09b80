/** Kinds of device: those built in, and those that the files state. */
import { parse } from "../../grammar/parse";
import { bind } from "./bind";
import { valueOf, type Bound } from "./bound";
import { canonical } from "./names";
import type { Reading } from "./reading";
import equipment from "./typical/equipment.bothways";

let typical: readonly Bound[] | undefined;

/** The kinds that need no statement, from the built-in text; read once. */
export function typicalKinds(): readonly Bound[] {
  typical ??= bind(parse(equipment), "typical equipment").statements.filter((s) => s.row.head === "kind");
  return typical;
}

/** The built-in text itself, for those who want to read it. */
export const TYPICAL_TEXT: string = equipment;

/** What a kind states, and whether it is one of ours. */
export interface Kind {
  readonly bound: Bound;
  readonly builtIn: boolean;
}

/** The kinds that a device can be of, by name. */
export class Kinds {
  readonly #kinds = new Map<string, Kind>();

  constructor(private readonly reading: Reading) {
    for (const kind of typicalKinds()) this.enter(kind, true);
    for (const kind of reading.by("kind")) this.enter(kind, false);
  }

  /** The kind that a file means by a name: its own or one that it uses, else one of any name. */
  of(path: string, name: string): Kind | undefined {
    return this.#kinds.get(canonical(this.reading.names.full(path, name))) ?? this.#kinds.get(canonical(name));
  }

  private enter(bound: Bound, builtIn: boolean): void {
    const name = valueOf(bound, "name", "name")?.text;
    if (name === undefined) return;
    const full = builtIn ? name : this.reading.names.full(bound.where.path, name);
    if (!builtIn && this.#kinds.get(canonical(full))?.builtIn !== true && this.#kinds.has(canonical(full))) {
      this.reading.names.enter(full, "kind", bound.where, this.reading.problems);
      return;
    }
    // A file may state a typical kind anew: its own data sheet counts more than ours.
    this.reading.names.enter(full, "kind", builtIn ? undefined : bound.where, this.reading.problems);
    this.#kinds.set(canonical(full), { bound, builtIn });
  }
}
