/**
 * Where each name of a setup is given and used. A dotted name is several: in `ours.desk.in-3` stand the prefix of a file, a device and
 * the number of a set of ports. What is meant decides, not how it is written: each thing has a key, equal wherever it is named.
 */
import type { NameKind } from "../../grammar/vocabulary";
import { valueOf, type Bound, type NameValue } from "../model/bound";
import type { SourceFile } from "../model/files";
import { canonical, type Named } from "../model/names";
import { numbered } from "../model/device";
import { anchored } from "../model/places";
import { everywhere } from "../model/reading";
import { typicalKinds, type Setup } from "../model/setup";
import type { Where } from "../model/where";

/** `alias`: the name before the point of a file taken in with `as`. */
export type SymbolKind = NameKind | "alias";

export interface Occurrence extends Where {
  /** Equal for all occurrences of one thing. */
  readonly key: string;
  readonly kind: SymbolKind;
  /** Whether the thing gets its name here. */
  readonly declares: boolean;
  /** Set where the name is part of the typical equipment and no text's to give. */
  readonly builtIn?: true;
}

/** Every name in every file of a setup, in the order of the files and their texts. What nothing is called has no occurrence. */
export function occurrences(setup: Setup): readonly Occurrence[] {
  const known = KNOWN.get(setup);
  if (known !== undefined) return known;
  const finder = new Finder(setup);
  const found = setup.files.flatMap((file) => finder.inFile(file).sort((a, b) => a.start - b.start || a.end - b.end));
  KNOWN.set(setup, found);
  return found;
}
/** A setup does not change once it is read. */
const KNOWN = new WeakMap<Setup, readonly Occurrence[]>();

/** The name at a position; of two that touch it, the one that begins there. */
export const occurrenceAt = (all: readonly Occurrence[], path: string, offset: number): Occurrence | undefined =>
  all.filter((one) => one.path === path && one.start <= offset && offset <= one.end).sort((a, b) => b.start - a.start)[0];

/** What a name in a file stands for, whole; the longest beginning of it that stands for anything. */
export interface Meant {
  readonly named: Named;
  /** The part of the written name that was understood. */
  readonly written: string;
}

export function meantBy(setup: Setup, path: string, raw: string, kinds: readonly NameKind[]): Meant | undefined {
  const kind = kinds.length === 1 && kinds[0] === "kind" ? "kind" as const : undefined;
  for (let cut = raw.length; cut > 0; cut = raw.lastIndexOf(".", cut - 1)) {
    const written = raw.slice(0, cut);
    const named = setup.names.find(path, written, kind);
    if (named !== undefined) return { named, written };
  }
  return undefined;
}

/** The device that a full name begins with: `ours.desk` of `ours.desk.in-3`. */
export function deviceOf(setup: Setup, full: string): string | undefined {
  for (let cut = full.length; cut > 0; cut = full.lastIndexOf(".", cut - 1)) {
    const device = setup.devices.get(canonical(full.slice(0, cut)));
    if (device !== undefined) return device.name;
  }
  return undefined;
}

const NUMBER = /-\d+$/;

/** Where a part or a port gets its name: in a kind, a device or the place of one. */
interface Stated {
  readonly layer: Bound;
  readonly statement: Bound;
  readonly builtIn: boolean;
}

type At = (from: number, to: number) => Where;
const same = (a: string, b: string): boolean => canonical(a) === canonical(b);
const nameIn = (statement: Bound, slot = "name"): string => valueOf(statement, slot, "name")?.text ?? "";

class Finder {
  readonly #setup: Setup;
  /** Statements by where they stand, so that a name leads to what states it. */
  readonly #statements = new Map<string, Bound>();

  constructor(setup: Setup) {
    this.#setup = setup;
    for (const file of setup.files) for (const statement of everywhere(file.statements)) this.#statements.set(`${file.path}:${statement.where.start}`, statement);
  }

  inFile(file: SourceFile): Occurrence[] {
    const out: Occurrence[] = [];
    const visit = (statement: Bound, owners: readonly Bound[]): void => {
      out.push(...this.#inStatement(file, statement, owners));
      for (const inner of statement.children) visit(inner, [statement, ...owners]);
    };
    for (const statement of file.statements) visit(statement, []);
    return out;
  }

  #inStatement(file: SourceFile, statement: Bound, owners: readonly Bound[]): Occurrence[] {
    const out: Occurrence[] = [];
    for (const slot of statement.row.slots) {
      const { takes } = slot;
      for (const value of statement.values.get(slot.id) ?? []) {
        if (value.kind === "place") for (const relation of value.relations) for (const name of anchored(relation.anchor)) out.push(...this.#use(file, name, []));
        if (value.kind !== "name") continue;
        if (takes.kind === "new-name") out.push(...this.#declaration(file, statement, owners, takes.of, value));
        else if (takes.kind === "name" && takes.of.includes("channel")) out.push(...this.#channel(file, owners, value));
        else if (takes.kind === "name") {
          const makes = statement.row.head === "place" && slot.id === "device" && statement.values.has("kind");
          out.push(...this.#use(file, value, takes.of).map((one) => (makes && one.kind === "device" ? { ...one, declares: true } : one)));
        }
      }
    }
    for (const name of statement.tails.during) out.push(...this.#use(file, name, ["item"]));
    return out;
  }

  #declaration(file: SourceFile, statement: Bound, owners: readonly Bound[], of: NameKind, value: NameValue): Occurrence[] {
    const at = { path: file.path, start: value.start, end: value.end, declares: true };
    const full = canonical(this.#setup.names.full(file.path, value.text));
    switch (statement.row.head) {
      case "use": return [{ ...at, key: `alias ${full}`, kind: "alias" }];
      case "devices": return [{ ...at, key: `set ${full}`, kind: "device" }];
      case "kind": return [{ ...at, key: `kind ${full}`, kind: "kind" }];
      case "channel": case "bus": {
        const mixer = owners.find((owner) => owner.row.head === "mixer");
        return mixer === undefined ? [] : [{ ...at, key: inMixer(statement.row.head, mixer, value.text), kind: of }];
      }
      case "part": case "port": case "ports": {
        const [owner] = owners;
        const first = statement.row.head === "ports" ? numbered(statement, value.text)[0] : value.text;
        const layers = owner === undefined ? [] : owner.row.head === "kind" ? [{ layer: owner, builtIn: false }] : this.#layersOf(this.#deviceStatedBy(owner));
        const stated = first === undefined ? undefined : statedIn(layers, first);
        return stated === undefined ? [] : [{ ...at, kind: of, ...this.#member(stated) }];
      }
      default: {
        // What is stated of a thing for this evening bears the name that the room has given.
        const named = this.#setup.names.find(file.path, value.text);
        return named === undefined ? [] : [{ ...at, key: `name ${canonical(named.name)}`, kind: named.kind }];
      }
    }
  }

  #channel(file: SourceFile, owners: readonly Bound[], value: NameValue): Occurrence[] {
    const mixer = owners.find((owner) => owner.row.head === "mixer");
    if (mixer?.children.some((c) => c.row.head === "channel" && same(nameIn(c), value.text)) !== true) return [];
    return [{ path: file.path, start: value.start, end: value.end, key: inMixer("channel", mixer, value.text), kind: "channel", declares: false }];
  }

  #use(file: SourceFile, value: NameValue, kinds: readonly NameKind[]): Occurrence[] {
    const raw = file.text.slice(value.start, value.end);
    const { names } = this.#setup;
    const at: At = (from, to) => ({ path: file.path, start: value.start + from, end: value.start + to });
    if (value.each) {
      // `each mic.plug` is written with the name of the set, and so is `each desk.in`: a member stands for all.
      const dot = raw.indexOf(".");
      const whole = names.findSet(file.path, raw)?.[0];
      if (whole !== undefined) return this.#full(whole, raw, at, false);
      const stem = dot < 0 ? undefined : names.findSet(file.path, raw.slice(0, dot))?.[0];
      return stem === undefined ? [] : [...this.#full(stem, raw.slice(0, dot), at, false), ...this.#full(`${stem}${raw.slice(dot)}`, raw, at).slice(-1)];
    }
    const meant = meantBy(this.#setup, file.path, raw, kinds);
    return meant === undefined ? [] : this.#full(meant.named.name, meant.written, at, true, meant.named);
  }

  /** The occurrences within a written name that stands for a full one; the two end alike, but for the number that `each` leaves out. */
  #full(full: string, written: string, at: At, withNumber = true, known?: Named): Occurrence[] {
    const named = known ?? this.#setup.names.find("", full);
    if (named === undefined) return [];
    if (named.kind !== "part" && named.kind !== "port") return this.#plain(named, written, at, withNumber);
    const name = deviceOf(this.#setup, full);
    const device = name === undefined ? undefined : this.#setup.names.find("", name);
    const dot = written.lastIndexOf(".");
    if (name === undefined || device === undefined || dot < 0) return [];
    const stated = statedIn(this.#layersOf(device), full.slice(name.length + 1));
    const own = written.slice(dot + 1);
    const shown = stated?.statement.row.head === "ports" && withNumber ? own.replace(NUMBER, "") : own;
    return [
      ...this.#plain(device, written.slice(0, dot), at, true),
      ...(stated === undefined ? [] : [{ ...at(dot + 1, dot + 1 + shown.length), kind: named.kind, declares: false, ...this.#member(stated) }]),
    ];
  }

  /** A name without a part or a port behind it: the names that its file was taken in as, then the thing's own. */
  #plain(named: Named, written: string, at: At, withNumber: boolean): Occurrence[] {
    const prefix = named.where === undefined ? "" : this.#setup.names.full(named.where.path, "");
    const set = this.#statementOf(named)?.row.head === "devices" && named.kind === "device";
    const whole = set ? named.name.replace(NUMBER, "") : named.name;
    const shown = set && withNumber ? written.replace(NUMBER, "") : written;
    // Counted in parts between points: letters may be composed otherwise here than where the name is given. A name may itself hold points.
    const parts = shown.split(".");
    const aliases = Math.max(0, parts.length - whole.slice(prefix.length).split(".").length);
    const before = prefix.split(".").slice(0, -1);
    const out: Occurrence[] = [];
    let ownStart = 0;
    for (const [i, part] of parts.slice(0, aliases).entries()) {
      const key = `alias ${canonical(before.slice(0, before.length - aliases + i + 1).join("."))}`;
      out.push({ ...at(ownStart, ownStart + part.length), key, kind: "alias", declares: false });
      ownStart += part.length + 1;
    }
    const space = set ? "set" : named.kind === "kind" ? "kind" : "name";
    const builtIn = named.where === undefined ? { builtIn: true as const } : {};
    return [...out, { ...at(ownStart, shown.length), key: `${space} ${canonical(whole)}`, kind: named.kind, declares: false, ...builtIn }];
  }

  /** The statement that gave a name. */
  #statementOf(named: Named): Bound | undefined {
    return named.where === undefined ? undefined : this.#statements.get(`${named.where.path}:${named.where.start}`);
  }

  /** The device whose parts and ports stand in the block of a statement; of a set, one of them. */
  #deviceStatedBy(owner: Bound): Named | undefined {
    const { path } = owner.where;
    switch (owner.row.head) {
      case "device": return this.#setup.names.find(path, nameIn(owner));
      case "devices": return this.#setup.names.find(path, numbered(owner, nameIn(owner))[0] ?? "");
      case "place": return this.#setup.names.find(path, nameIn(owner, "device"));
      default: return undefined;
    }
  }

  /** What speaks of a device, the most general first: its kind, its own statement, its place. */
  #layersOf(named: Named | undefined): readonly { readonly layer: Bound; readonly builtIn: boolean }[] {
    const device = named && this.#setup.devices.get(canonical(named.name));
    const own = named && this.#statementOf(named);
    if (device === undefined || own === undefined) return [];
    const kind = this.#setup.names.find(own.where.path, device.kind, "kind");
    const stated = kind && this.#statementOf(kind);
    const typical = stated === undefined ? typicalKinds().find((k) => same(nameIn(k), device.kind)) : undefined;
    const layers = [
      ...(stated === undefined ? [] : [{ layer: stated, builtIn: false }]), ...(typical === undefined ? [] : [{ layer: typical, builtIn: true }]),
      { layer: own, builtIn: false },
    ];
    return device.placed === undefined || device.placed === own ? layers : [...layers, { layer: device.placed, builtIn: false }];
  }

  /** The key of a part or a port: of the most general statement that has it, so that a device that says more of it keeps its name. */
  #member({ layer, statement, builtIn }: Stated): { readonly key: string; readonly builtIn?: true } {
    const place = builtIn ? `typical ${nameIn(layer)}` : `${layer.where.path}:${layer.where.start}`;
    return { key: `member ${place} ${statement.row.head === "ports" ? "set " : ""}${canonical(nameIn(statement))}`, ...(builtIn ? { builtIn: true as const } : {}) };
  }
}

const inMixer = (what: string, mixer: Bound, name: string): string => `${what} ${mixer.where.path} ${canonical(nameIn(mixer, "device"))}/${canonical(name)}`;

/** The first layer that states a part or a port of that name, alone or in a set. */
function statedIn(layers: readonly { readonly layer: Bound; readonly builtIn: boolean }[], member: string): Stated | undefined {
  for (const { layer, builtIn } of layers) {
    const statement = layer.children.find((c) => {
      if (c.row.head === "ports") return same(nameIn(c), member.replace(NUMBER, "")) && numbered(c, nameIn(c)).some((one) => same(one, member));
      return (c.row.head === "port" || c.row.head === "part") && same(nameIn(c), member);
    });
    if (statement !== undefined) return { layer, statement, builtIn };
  }
  return undefined;
}
