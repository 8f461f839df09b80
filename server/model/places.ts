/** Places that cannot be: rows with more of them than chairs, things placed by each other in a circle. */
import { valueOf, type Anchor, type NameValue, type PlaceValue } from "./bound";
import type { Device } from "./device";
import { canonical } from "./names";
import { everywhere, type Reading } from "./reading";
import type { Room, Seats } from "./room";
import type { Where } from "./where";

/** The names that a place leans on. */
export const anchored = (anchor: Anchor): readonly NameValue[] => {
  switch (anchor.kind) {
    case "name": return [anchor.name];
    case "names": return anchor.names;
    case "row": return anchor.of === undefined ? [] : [anchor.of];
    case "sides": case "point": return [];
  }
};

/** Says of which chairs there are fewer than rows. */
export function rowsWithoutChairs(reading: Reading, seats: readonly Seats[]): void {
  for (const chairs of everywhere(reading.all).filter((s) => s.row.head === "chairs")) {
    const group = seats.find((one) => one.where === chairs.where);
    const rows = valueOf(chairs, "rows", "quantity");
    if (group === undefined || rows === undefined || rows.said === "unknown" || rows.best <= group.count) continue;
    reading.say("impossible", `That cannot be: ${group.count} chairs in ${rows.best} rows.`, { path: chairs.where.path, start: rows.start, end: rows.end });
  }
}

/** Things that are placed by each other, and by nothing else. */
export function placesInCircles(reading: Reading, room: Room, devices: ReadonlyMap<string, Device>): void {
  const stands = new Map<string, { readonly name: string; readonly place: PlaceValue | undefined; readonly where: Where }>();
  const enter = (name: string, place: PlaceValue | undefined, where: Where): void => {
    if (!stands.has(canonical(name))) stands.set(canonical(name), { name, place, where });
  };
  for (const [name, spot] of room.spots) enter(name, spot.place, spot.where);
  for (const kind of [room.tables, room.surfaces, room.outlets]) for (const thing of kind.values()) enter(thing.name, thing.place, thing.where);
  for (const talker of reading.by("talker")) enter(reading.nameOf(talker), valueOf(talker, "place", "place"), talker.where);
  for (const device of devices.values()) enter(device.name, device.place, device.placed?.where ?? device.where);
  for (const kind of [room.areas, room.columns, room.openings]) for (const thing of kind) enter(thing.name, thing.place, thing.where);
  for (const seats of room.seats) enter(seats.name, seats.place, seats.where);
  const leansOn = (name: string): readonly string[] =>
    (stands.get(name)?.place?.relations ?? []).flatMap((r) => anchored(r.anchor)).map((n) => canonical(n.text)).filter((n) => stands.has(n));
  const done = new Set<string>();
  for (const start of stands.keys()) {
    const way: string[] = [];
    // One step after the other, since a chain of things may be as long as the text.
    for (const todo = [{ name: start, depth: 0 }]; todo.length > 0;) {
      const next = todo.pop();
      if (next === undefined) break;
      way.length = next.depth;
      const at = way.indexOf(next.name);
      if (at >= 0) {
        const names = way.slice(at).map((name) => `“${stands.get(name)?.name ?? name}”`);
        const last = stands.get(way[at] ?? "");
        if (last !== undefined) {
          reading.say("place-circle", names.length === 1 ? `${names.join("")} is placed by itself: say where it stands by something else.`
            : `${names.join(" and ")} are placed by each other in a circle: say of one of them where it stands by something else.`, last.where);
        }
        continue;
      }
      if (done.has(next.name)) continue;
      done.add(next.name);
      way.push(next.name);
      for (const other of leansOn(next.name)) todo.push({ name: other, depth: way.length });
    }
  }
}
