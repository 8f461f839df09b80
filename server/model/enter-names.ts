/** Entering the names of everything but kinds and devices, which enter their own as they are made. */
import { SPOTS, type NameKind } from "../../grammar/vocabulary";
import { valueOf, type Bound } from "./bound";
import type { Device } from "./device";
import type { Reading } from "./reading";
import { thingOf } from "./room";

/** Enters what is in the rooms, the items, the internet connections, and what is within mixers. */
export function enterNames(reading: Reading, rooms: readonly Bound[]): void {
  const enter = (statement: Bound, kind: NameKind, name = reading.nameOf(statement)): void => {
    if (name !== "") reading.names.enter(name, kind, statement.where, reading.problems);
  };
  for (const room of rooms) enter(room, "room");
  const things = new Set(rooms.flatMap((room) => room.children).map(thingOf));
  // What is stated of a thing for this evening takes no name: the room has given it.
  const tonight = reading.by("in").flatMap((room) => room.children).filter((s) => !things.has(thingOf(s)));
  const inRooms = [...rooms.flatMap((room) => room.children), ...tonight, ...reading.all];
  const KINDS: Readonly<Record<string, NameKind>> = { spot: "spot", table: "table", screen: "surface", outlet: "outlet", seat: "seats", stage: "area", walkway: "area", column: "column", door: "door", window: "window", circuit: "circuit" };
  for (const statement of inRooms) {
    const kind = KINDS[statement.row.head];
    if (kind !== undefined) enter(statement, kind);
    if (statement.row.head === "chairs") enter(statement, "seats", valueOf(statement, "name", "name")?.text ?? "audience");
  }
  // What bears no name is called as what it is, where it is the only one and nothing else is called so.
  const nameless = inRooms.filter((s) => KINDS[s.row.head] !== undefined && !s.values.has("name"));
  for (const s of nameless) {
    const kind = KINDS[s.row.head];
    if (kind !== undefined && nameless.filter((other) => other.row.head === s.row.head).length === 1) reading.names.enter(s.row.head, kind, s.where, []);
  }
  for (const item of [...reading.by("programme").flatMap((p) => p.children), ...reading.by("item")]) if (item.row.head === "item") enter(item, "item");
  for (const internet of reading.by("internet")) enter(internet, "internet", reading.nameOf(internet) || "internet");
  for (const remote of reading.by("remote-room")) enter(remote, "remote-room");
  for (const mixer of reading.by("mixer")) {
    const device = valueOf(mixer, "device", "name")?.text ?? "";
    for (const part of mixer.children) {
      const name = valueOf(part, "name", "name")?.text;
      if (name !== undefined && (part.row.head === "channel" || part.row.head === "bus")) enter(part, part.row.head, `${device}/${name}`);
    }
  }
}

/** Enters the talkers, the parts and ports of the devices, and what every room has. */
export function enterVoicesAndMembers(reading: Reading, devices: ReadonlyMap<string, Device>): void {
  for (const talker of reading.by("talker")) reading.names.enter(reading.nameOf(talker), "talker", talker.where, reading.problems);
  for (const group of reading.by("talkers")) {
    const count = Math.round(valueOf(group, "count", "quantity")?.best ?? 0);
    for (let i = 1; i <= count; i += 1) reading.names.enter(`talker-${i}`, "talker", group.where, reading.problems);
  }
  for (const device of devices.values()) {
    for (const part of device.parts) if (part.id !== device.name) reading.names.enter(part.id, "part", undefined, reading.problems);
    const sets = new Map<string, string[]>();
    for (const port of device.ports) {
      reading.names.enter(port.id, "port", undefined, reading.problems);
      const base = /^(.+)-\d+$/.exec(port.id)?.[1];
      if (base !== undefined) sets.set(base, [...(sets.get(base) ?? []), port.id]);
    }
    for (const [base, members] of sets) reading.names.enterSet(base, "port", members);
  }
  // What every room has, where the text does not name it.
  for (const spot of Object.keys(SPOTS)) reading.names.enter(spot, spot === "audience" ? "seats" : spot === "front-screen" ? "surface" : "spot", undefined, []);
}
