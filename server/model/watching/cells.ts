/**
 * Of what cells a setup is made: its devices, voices, items and the like are things of their own, each of whose facts is a cell;
 * all else that a setup states is a cell as a whole.
 */
import type { Setup } from "../setup";
import { sameMeaning } from "./same";

export type Fields = Readonly<Record<string, unknown>>;

/** Things by name, in a map or in a list. */
export const MAPS = ["devices", "voices", "mixers"] as const;
export const LISTS = ["items", "joins", "internets", "watches", "remoteRooms", "links", "mains", "powerlines"] as const;
/** Things by themselves. */
export const SINGLE = ["room", "lectern"] as const;

/** Facts that are no cells: what is a thing by its name has the same in every version, and where it stands in the text changes nothing that is computed. */
const NO_CELLS: ReadonlySet<string> = new Set(["name", "where", "titleWhere", "root"]);

/** Facts that are made of others, which are cells. */
const MADE: ReadonlySet<string> = new Set(["position"]);
const MADE_OF_SETUP: ReadonlySet<string> = new Set([...MAPS, ...LISTS, ...SINGLE, "talkerPlaces", "floor", "shallShow"]);

/** The key of a cell: a fact of a thing, the setup itself having no name. */
export const cellKey = (owner: string, fact: string): string => `${owner}\n${fact}`;
/** Which things there are, and whether there is one. */
export const membersKey = (group: string): string => cellKey(group, " all");
export const memberKey = (group: string, name: string): string => cellKey(group, ` ${name}`);

/** By what things of a list are told apart: a cable by its ends. */
const NAMING = ["name", "device", "from", "to"] as const;

/** The name of each thing of a list: what it is told apart by, with a number where it is not the first of the name. */
export function namesIn(list: readonly object[]): string[] {
  const met = new Map<string, number>();
  return list.map((one) => {
    const own = NAMING.map((fact) => (one as Fields)[fact]).filter((name) => typeof name === "string").join(" ");
    const count = (met.get(own) ?? 0) + 1;
    met.set(own, count);
    return count === 1 ? own : `${own} ${count}`;
  });
}

/** Where each talker is placed, as things. */
export const talkerPlaces = (setup: Setup): ReadonlyMap<string, { readonly place: unknown }> => new Map([...setup.talkerPlaces].map(([name, place]) => [name, { place }]));

/** A setup as cells, to compare it with another version. */
export class Cells {
  /** By name, the things; the setup itself by none. */
  readonly #things = new Map<string, Fields>();
  /** By group, the things in their order: key, and name as written. */
  readonly #groups = new Map<string, ReadonlyMap<string, string>>();

  /** `setup`: as it was read, not watched. */
  constructor(setup: Setup) {
    this.#things.set("", setup as unknown as Fields);
    for (const key of SINGLE) this.#things.set(key, setup[key] as unknown as Fields);
    for (const key of MAPS) this.#add(key, setup[key]);
    for (const key of LISTS) {
      const names = namesIn(setup[key]);
      this.#add(key, new Map(setup[key].map((one, i) => [names[i] ?? "", one])));
    }
    this.#add("talkerPlaces", talkerPlaces(setup));
  }

  /** Of these keys, those whose cells do not mean the same in the other version. */
  changed(other: Cells, keys: readonly string[]): number[] {
    const otherFacts = new Set([...this.#things].filter(([name, thing]) => {
      const there = other.#things.get(name);
      return there !== undefined && factsOf(thing) !== factsOf(there);
    }).map(([name]) => name));
    const out: number[] = [];
    keys.forEach((key, i) => {
      const at = key.indexOf("\n");
      const [owner, fact] = [key.slice(0, at), key.slice(at + 1)];
      if (otherFacts.has(owner) || !this.#same(other, owner, fact, otherFacts)) out.push(i);
    });
    return out;
  }

  #same(other: Cells, owner: string, fact: string, otherFacts: ReadonlySet<string>): boolean {
    const [here, there] = [this.#groups.get(owner), other.#groups.get(owner)];
    if (here !== undefined && there !== undefined) {
      // Who has a thing may have asked it for a fact that it has not.
      if (fact === " all") return sameMeaning([...here], [...there]) && ![...here.keys()].some((name) => otherFacts.has(`${owner}/${name}`));
      const name = fact.slice(1);
      return here.get(name) === there.get(name) && !otherFacts.has(`${owner}/${name}`);
    }
    const [a, b] = [this.#things.get(owner), other.#things.get(owner)];
    if (owner === "" && fact === "files") return sameMeaning(textsOf(a), textsOf(b));
    return sameMeaning(a?.[fact], b?.[fact]);
  }

  #add(group: string, things: ReadonlyMap<string, object>): void {
    for (const [name, one] of things) this.#things.set(`${group}/${name}`, one as Fields);
    this.#groups.set(group, new Map([...things].map(([name, one]) => [name, (one as { readonly name?: string }).name ?? name])));
  }
}

/** Whether a fact of a thing is a cell of its own. A thing by itself may be called otherwise in the next version, or be stated nowhere. */
export function isCell(owner: string, fact: string): boolean {
  if (owner === "") return !NO_CELLS.has(fact) && !MADE_OF_SETUP.has(fact);
  return !MADE.has(fact) && (BY_ITSELF.has(owner) || !NO_CELLS.has(fact));
}
const BY_ITSELF: ReadonlySet<string> = new Set(SINGLE);

const factsOf = (thing: Fields): string => Object.keys(thing).sort().join(" ");

const textsOf = (setup: Fields | undefined): unknown => (setup?.["files"] as Setup["files"] | undefined)?.map(({ path, text }) => ({ path, text }));
