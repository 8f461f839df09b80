/** A setup that notes what is read of it, cell by cell. */
import { Floor, type Places, type Position } from "../position";
import type { PlaceValue } from "../bound";
import type { Setup, Voice } from "../setup";
import { mouthOn } from "../voices";
import { cellKey, isCell, LISTS, MAPS, memberKey, membersKey, namesIn, talkerPlaces, type Fields } from "./cells";
import { once } from "./once";
import { noteCell, type Ledger } from "./reads";

/** The same setup, noting in the ledger what is read of it while somebody gathers. */
export function watched(raw: Setup, ledger: Ledger): Setup {
  const groups: Partial<Record<string, unknown>> = {};
  for (const key of MAPS) groups[key] = new Things<object>(raw[key], key, ledger);
  for (const key of LISTS) {
    const names = namesIn(raw[key]);
    const members = ledger.cell(membersKey(key));
    const list = raw[key].map((one, i) => thing(one, `${key}/${names[i] ?? ""}`, ledger));
    groups[key] = { members, list };
  }
  const room = thing(raw.room, "room", ledger);
  const devices = groups["devices"] as Setup["devices"];
  const talkers = new Things(talkerPlaces(raw), "talkerPlaces", ledger) as ReadonlyMap<string, { readonly place: PlaceValue | undefined }>;
  const floor = new Floor(room, new PlacesOf(talkers), new PlacesOf(devices));
  const lectern = thing(raw.lectern, "lectern", ledger);
  for (const voice of [lectern, ...(groups["voices"] as Things<Voice>).unnoted()]) stand(voice, floor);
  const call = ledger.cell(cellKey("", "call"));
  const out = thing(raw, "", ledger);
  const put = (key: string, get: () => unknown): void => { Object.defineProperty(out, key, { enumerable: true, get }); };
  for (const key of MAPS) put(key, () => groups[key]);
  for (const key of LISTS) {
    const { members, list } = groups[key] as { readonly members: number; readonly list: readonly object[] };
    put(key, () => {
      noteCell(members);
      return list;
    });
  }
  put("room", () => room);
  put("lectern", () => lectern);
  put("floor", () => floor);
  // For whoever lists them; the floor asks by name.
  put("talkerPlaces", () => new Map([...talkers].map(([name, { place }]) => [name, place])));
  put("shallShow", () => (item: string | undefined) => {
    noteCell(call);
    return raw.shallShow(item);
  });
  return out;
}

/** A voice stands on the floor whose reading is noted, not on that of the raw setup. */
function stand(voice: Voice, floor: Floor): void {
  const position = once<Voice, Position>((one) => mouthOn(floor, one.name, one.placing));
  Object.defineProperty(voice, "position", { enumerable: true, get: () => position(voice) });
}

/** An object with the facts of a thing, each noted when it is read. Its facts are its own, so that a copy of it has them all. */
function thing<T extends object>(raw: T, owner: string, ledger: Ledger): T {
  const out: Record<string, unknown> = {};
  for (const [fact, value] of Object.entries(raw as Fields)) {
    if (!isCell(owner, fact)) {
      // What is made of others is put there by whoever makes it.
      out[fact] = value;
      continue;
    }
    const cell = ledger.cell(cellKey(owner, fact));
    Object.defineProperty(out, fact, { enumerable: true, get: () => {
      noteCell(cell);
      return value;
    } });
  }
  return out as T;
}

/** Things by name: which there are is noted, and whether one is there. */
class Things<T extends object> implements ReadonlyMap<string, T> {
  readonly #things: ReadonlyMap<string, T>;
  readonly #members: number;
  readonly #group: string;
  readonly #ledger: Ledger;

  constructor(raw: ReadonlyMap<string, T>, group: string, ledger: Ledger) {
    this.#group = group;
    this.#ledger = ledger;
    this.#members = ledger.cell(membersKey(group));
    this.#things = new Map([...raw].map(([name, one]) => {
      ledger.cell(memberKey(group, name));
      return [name, thing(one, `${group}/${name}`, ledger)];
    }));
  }

  /** For whoever makes them, and does not read. */
  unnoted(): IterableIterator<T> {
    return this.#things.values();
  }

  get(name: string): T | undefined {
    noteCell(this.#ledger.cell(memberKey(this.#group, name)));
    return this.#things.get(name);
  }

  has(name: string): boolean {
    return this.get(name) !== undefined;
  }

  get size(): number {
    return this.#all().size;
  }

  keys(): MapIterator<string> {
    return this.#all().keys();
  }

  values(): MapIterator<T> {
    return this.#all().values();
  }

  entries(): MapIterator<[string, T]> {
    return this.#all().entries();
  }

  [Symbol.iterator](): MapIterator<[string, T]> {
    return this.#all().entries();
  }

  forEach(act: (value: T, key: string, map: ReadonlyMap<string, T>) => void): void {
    this.#all().forEach((value, key) => { act(value, key, this); });
  }

  #all(): ReadonlyMap<string, T> {
    noteCell(this.#members);
    return this.#things;
  }
}

/** Where things are placed, by name. */
class PlacesOf implements Places {
  readonly #things: ReadonlyMap<string, { readonly place: PlaceValue | undefined }>;

  constructor(things: ReadonlyMap<string, { readonly place: PlaceValue | undefined }>) {
    this.#things = things;
  }

  get(name: string): PlaceValue | undefined {
    return this.#things.get(name)?.place;
  }

  has(name: string): boolean {
    return this.#things.has(name);
  }
}
