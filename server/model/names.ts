import type { NameKind } from "../../grammar/vocabulary";
import { nearest } from "./near";
import type { TextProblem } from "./text-problem";
import type { Where } from "./where";

export interface Named {
  /** As first written. */
  readonly name: string;
  readonly kind: NameKind;
  readonly where: Where | undefined;
}

/** Names are equal when they are the same letters in any case and any composition. */
export function canonical(name: string): string {
  let key = CANONICAL.get(name);
  if (key === undefined) {
    key = name.normalize("NFC").toLowerCase().normalize("NFC");
    // Names are asked for far oftener than they are met; those of texts long closed are let go.
    if (CANONICAL.size >= MOST_NAMES) CANONICAL.clear();
    CANONICAL.set(name, key);
  }
  return key;
}
const CANONICAL = new Map<string, string>();
const MOST_NAMES = 20_000;

/** What each kind of name is called in messages. */
export const KIND_WORDS: Readonly<Record<NameKind, string>> = {
  room: "room", spot: "spot", table: "table", surface: "screen", outlet: "outlet", seats: "group of seats", kind: "kind of device", device: "device",
  part: "part of a device", port: "port", talker: "talker", item: "item of the programme", internet: "internet connection", channel: "channel", bus: "bus", "remote-room": "remote room", area: "stage or walkway", door: "door", window: "window", column: "column", circuit: "circuit",
};

/** The word with its article. */
export const a = (word: string): string => `${/^[aeiou]/i.test(word) ? "an" : "a"} ${word}`;

/** A name as it stands in a message: cut short where nobody would read it whole. */
export const clipped = (name: string): string => (name.length > 60 ? `${name.slice(0, 59)}…` : name);

/** The one space of names of a setup; `laptop.usb-1` is a name of its own. Files taken in `as x` have their names behind `x.`. */
export class Names {
  readonly #names = new Map<string, Named>();
  readonly #sets = new Map<string, { readonly kind: NameKind; readonly members: string[] }>();
  readonly #prefixes: ReadonlyMap<string, string>;
  /** By kinds wanted, what a hint chooses from. */
  readonly #sorted = new Map<string, Fitting>();

  /** `prefixes`: by path of file, the prefix with its dot. */
  constructor(prefixes: ReadonlyMap<string, string>) {
    this.#prefixes = prefixes;
  }

  /** Whether other names stand for the same. */
  sameAs(other: unknown): boolean {
    if (!(other instanceof Names)) return false;
    const said = (names: Names): string => JSON.stringify([[...names.#names].map(([key, { name, kind }]) => [key, name, kind]), [...names.#sets], [...names.#prefixes]]);
    return said(this) === said(other);
  }

  /** Kinds have a space of their own: `device laptop is laptop`. */
  static #key(name: string, kind: NameKind | undefined): string {
    return kind === "kind" ? `kind ${canonical(name)}` : canonical(name);
  }

  /** The full name of something that a file names. */
  full(path: string, name: string): string {
    return `${this.#prefixes.get(path) ?? ""}${name}`;
  }

  /** Enters a name; a second statement of one name is a collision. Names of the built-in kinds may be taken over. */
  enter(name: string, kind: NameKind, where: Where | undefined, problems: TextProblem[]): boolean {
    const key = Names.#key(name, kind);
    const first = this.#names.get(key);
    if (first !== undefined && first.where !== undefined) {
      if (where !== undefined) {
        const sameFile = first.where.path === where.path;
        // Channels and buses are entered behind the name of their mixer.
        const shown = clipped(kind === "channel" || kind === "bus" ? name.slice(name.indexOf("/") + 1) : name);
        problems.push({
          code: "name-taken", severity: "error", where,
          message: sameFile ? `The name “${shown}” is taken: ${a(KIND_WORDS[first.kind])} has it. Choose another.`
            : `The name “${shown}” is taken by ${a(KIND_WORDS[first.kind])} in ${first.where.path}: choose another, or take that file in with “use … as other”.`,
          related: [{ where: first.where, message: `“${shown}” is stated here` }],
        });
      }
      return false;
    }
    this.#names.set(key, { name, kind, where });
    this.#sorted.clear();
    return true;
  }

  /** Enters a numbered set, for `each`. */
  enterSet(name: string, kind: NameKind, members: string[]): void {
    this.#sets.set(canonical(name), { kind, members });
  }

  /** What a name written in a file stands for. */
  find(path: string, name: string, kind?: NameKind): Named | undefined {
    const prefix = this.#prefixes.get(path);
    return (prefix === undefined ? undefined : this.#names.get(Names.#key(prefix + name, kind))) ?? this.#names.get(Names.#key(name, kind));
  }

  /** The members of a set: `each mic`. */
  findSet(path: string, name: string): readonly string[] | undefined {
    const prefix = this.#prefixes.get(path);
    return ((prefix === undefined ? undefined : this.#sets.get(canonical(prefix + name))) ?? this.#sets.get(canonical(name)))?.members;
  }

  /** `each mic.plug` is the plug of every member of the set `mic`; `each desk.in` every port of that numbered set. */
  spread(path: string, name: string): readonly string[] | undefined {
    const whole = this.findSet(path, name);
    const dot = name.indexOf(".");
    if (whole !== undefined || dot < 0) return whole;
    return this.findSet(path, name.slice(0, dot))?.map((member) => `${member}${name.slice(dot)}`);
  }

  /** All names that stand for one of these. */
  ofKinds(kinds: readonly NameKind[]): Named[] {
    return [...this.#names.values()].filter((named) => kinds.includes(named.kind));
  }

  /** A hint for a name that is not known: the nearest one, else a few that would fit. What stands behind a point is looked for in its device. */
  hint(name: string, kinds: readonly NameKind[]): string {
    const fitting = this.#fitting(kinds);
    const dot = name.indexOf(".");
    const members = dot < 0 ? undefined : fitting.members.get(canonical(name.slice(0, dot)));
    const own = dot < 0 ? fitting.plain : members ?? [];
    const near = nearest(name, members !== undefined || dot < 0 ? own : fitting.all);
    if (near !== undefined) return ` Was “${clipped(near)}” meant?`;
    if (own.length === 0) return "";
    return ` There ${own.length === 1 ? "is" : "are"} ${own.slice(0, 6).map(clipped).join(", ")}${own.length > 6 ? " …" : ""}.`;
  }

  /** Names of these kinds, sorted out once: a text may have a thousand mistyped ones. */
  #fitting(kinds: readonly NameKind[]): Fitting {
    const key = kinds.join(" ");
    let found = this.#sorted.get(key);
    if (found === undefined) {
      const all = this.ofKinds(kinds).map((named) => named.name);
      const members = new Map<string, string[]>();
      for (const name of all) {
        // A device may itself stand behind the prefix of its file, so each beginning up to a point counts.
        for (let dot = name.indexOf("."); dot >= 0; dot = name.indexOf(".", dot + 1)) {
          const device = canonical(name.slice(0, dot));
          const known = members.get(device);
          if (known === undefined) members.set(device, [name]);
          else known.push(name);
        }
      }
      found = { all, plain: all.filter((name) => !name.includes(".")), members };
      this.#sorted.set(key, found);
    }
    return found;
  }
}

interface Fitting {
  readonly all: readonly string[];
  /** Without a point in them. */
  readonly plain: readonly string[];
  /** By device, what it has. */
  readonly members: ReadonlyMap<string, readonly string[]>;
}
