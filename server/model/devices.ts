/** The devices of a setup: each of its kind, those of a numbered set one by one, and where they are placed. */
import { valueOf, valuesOf, type Bound } from "./bound";
import { makeDevice, numbered, type Device, type Layer } from "./device";
import type { Kinds } from "./kinds";
import { canonical } from "./names";
import type { Ring } from "./position";
import type { Reading } from "./reading";

/** Devices by canonical name. */
export interface Devices {
  readonly devices: ReadonlyMap<string, Device>;
  /** Devices whose kind is not known: what is said of them cannot be judged, and their kind has its message. */
  readonly vague: ReadonlySet<string>;
}

/** Makes every device that is stated, alone, in a set or where it is placed, and enters its name. */
export function readDevices(reading: Reading, kinds: Kinds): Devices {
  const { places, rings } = readPlaces(reading);
  const out = new Map<string, Device>();
  const vague = new Set<string>();
  const make = (name: string, statement: Bound, layers: readonly Bound[]): void => {
    const kindName = valueOf(statement, "kind", "name");
    const kind = kindName && kinds.of(statement.where.path, kindName.text);
    const placed = places.get(canonical(name));
    const type = (kind && valueOf(kind.bound, "type", "word")?.word) ?? "adapter";
    if (kind === undefined) vague.add(canonical(name));
    const described: Layer[] = [
      ...(kind === undefined ? [] : [{ statements: kind.bound.children, builtIn: kind.builtIn }]),
      ...layers.map((l) => ({ statements: l.children, builtIn: false })),
      ...(placed === undefined || layers.includes(placed) ? [] : [{ statements: placed.children, builtIn: false }]),
    ];
    if (!reading.names.enter(name, "device", statement.where, reading.problems)) return;
    out.set(canonical(name), makeDevice(name, type, kindName?.text ?? "", kind?.builtIn ?? false, described, placed, rings.get(canonical(name)), placed?.where ?? statement.where));
  };
  for (const statement of reading.by("device")) make(reading.nameOf(statement), statement, [statement]);
  for (const statement of reading.by("devices")) {
    const base = reading.nameOf(statement);
    const members = numbered(statement, base);
    reading.names.enterSet(base, "device", members);
    for (const member of members) make(member, statement, [statement]);
  }
  for (const statement of reading.by("place")) {
    if (!statement.values.has("kind")) continue;
    for (const name of valuesOf(statement, "device", "name")) make(reading.names.full(statement.where.path, name.text), statement, [statement]);
  }
  return { devices: out, vague };
}

/** Which statement places which device, and which of a set stand around something together. */
function readPlaces(reading: Reading): { places: Map<string, Bound>; rings: Map<string, Ring> } {
  const stated = new Set([
    ...reading.by("device").map((d) => canonical(reading.nameOf(d))),
    ...reading.by("devices").flatMap((d) => numbered(d, reading.nameOf(d)).map(canonical)),
  ]);
  const places = new Map<string, Bound>();
  const rings = new Map<string, Ring>();
  for (const place of reading.by("place")) {
    for (const name of valuesOf(place, "device", "name")) {
      const members = name.each ? setMembers(reading, place.where.path, name.text) : [name.text];
      for (const [index, member] of members.entries()) {
        const key = canonical(placedDevice(reading, place, member, stated));
        if (name.each) rings.set(key, { index, count: members.length });
        const first = places.get(key);
        if (first !== undefined) reading.say("placed-twice", `“${member}” is placed twice; a thing stands in one place.`, place.where, { where: first.where, message: "placed here first" });
        else places.set(key, place);
      }
    }
  }
  return { places, rings };
}

function setMembers(reading: Reading, path: string, name: string): readonly string[] {
  const set = reading.by("devices").find((s) => canonical(reading.nameOf(s)) === canonical(reading.names.full(path, name)) || canonical(reading.nameOf(s)) === canonical(name));
  return set === undefined ? [] : numbered(set, reading.nameOf(set));
}

/** The full name of what a statement places: its own new device, else one of its file, else one of any other. */
function placedDevice(reading: Reading, place: Bound, name: string, stated: ReadonlySet<string>): string {
  const full = reading.names.full(place.where.path, name);
  return place.values.has("kind") || stated.has(canonical(full)) || !stated.has(canonical(name)) ? full : name;
}
