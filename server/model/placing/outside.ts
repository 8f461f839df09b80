/** Places that the text states outside the room: geometry keeps them in, so whoever wrote them has to be told. */
import { clip } from "../../../grammar/clip";
import { valueOf, type PlaceValue } from "../bound";
import type { Device } from "../device";
import { canonical } from "../names";
import type { Floor } from "../position";
import type { Ranged } from "../ranged";
import type { Reading } from "../reading";
import type { Room, Seats } from "../room";
import { figure } from "../show";
import { Trial, type End } from "../trial";
import type { Where } from "../where";
import { farOutside } from "../../physics/polygon";
import { outlineOf } from "../shape/outline";
import { lean } from "./lean";
import { spotsOf, type Spot2 } from "./seats";

/** Rounding is no mistake, m. */
const SLACK = 0.005;

const AXES = [
  { of: "x", side: "length", from: "from the front wall", before: "before the front wall", size: "long" },
  { of: "y", side: "width", from: "from the left wall", before: "to the left of the left wall", size: "wide" },
  { of: "z", side: "height", from: "above the floor", before: "below the floor", size: "high" },
] as const;

/** Says which points, and which lengths from somewhere, lead out of the room, and where rows of chairs do not go into it. */
export function placesOutside(reading: Reading, floor: Floor, devices: ReadonlyMap<string, Device>): void {
  const { room } = floor;
  for (const { name, place, where } of stated(reading, room, devices)) {
    // What a relation leaves open is ours to choose: only what is stated in figures can be wrong.
    if (!place.relations.some((relation) => relation.anchor.kind === "point" || relation.offset !== undefined)) continue;
    const message = outside(floor, name, place);
    if (message !== undefined) reading.warn("outside-room", message, where);
  }
  for (const group of room.seats) {
    const message = tooDeep(room, group) ?? seatsOutside(floor, group);
    if (message !== undefined) reading.warn("outside-room", message, group.where);
  }
}

interface Stated {
  readonly name: string;
  readonly place: PlaceValue;
  readonly where: Where;
}

function stated(reading: Reading, room: Room, devices: ReadonlyMap<string, Device>): Stated[] {
  const all: { readonly name: string; readonly place: PlaceValue | undefined; readonly where: Where }[] = [
    ...[...room.spots].map(([name, spot]) => ({ name, ...spot })),
    ...[room.tables, room.surfaces, room.outlets].flatMap((kind) => [...kind.values()]), ...room.columns, ...room.openings,
    ...[...reading.by("talker"), ...reading.by("talkers")].map((talker) => ({ name: reading.nameOf(talker) || "talkers", place: valueOf(talker, "place", "place"), where: talker.where })),
    ...[...devices.values()].map((device) => ({ name: device.name, place: device.place, where: device.placed?.where ?? device.where })),
  ];
  return all.flatMap(({ name, place, where }) => (place === undefined ? [] : [{ name, place, where }]));
}

/** What is said of a place that is outside at whichever end of what it is reckoned from; nothing where it may be inside. */
function outside(floor: Floor, name: string, place: PlaceValue): string | undefined {
  const { room } = floor;
  const best = new Trial();
  const { result: at, read } = best.trace(() => lean(floor, canonical(name), place, best));
  if (at === undefined) return undefined;
  const tries = [...read.keys()].flatMap((id) => (["low", "high"] as End[]).map((end) => lean(floor, canonical(name), place, new Trial(new Map([[id, end]]))) ?? at));
  for (const axis of AXES) {
    const size = room[axis.side];
    const beyond = (n: number): boolean => n > size.high + SLACK;
    const before = (n: number): boolean => n < -SLACK;
    const all = [at, ...tries].map((point) => point[axis.of]);
    if (!all.every(beyond) && !all.every(before)) continue;
    const so = all.every(before) ? `${figure(-at[axis.of])} m ${axis.before}` : `${figure(at[axis.of])} m ${axis.from}`;
    return `${clip(name)} would stand ${so}, outside ${clip(room.name)}, which is ${sizeOf(room, size)} ${axis.size}: correct the place, or the size of the room.`;
  }
  if (room.corners === undefined) return undefined;
  const far = farOutside(outlineOf(room, best), at);
  if (far <= SLACK || !tries.every((point) => farOutside(outlineOf(room, best), point) > SLACK)) return undefined;
  return `${clip(name)} would stand ${figure(far)} m outside the walls of ${clip(room.name)}: correct the place, or the corners of the room.`;
}

/** What is said of seats that would stand outside the walls, however near together they may be. */
function seatsOutside(floor: Floor, group: Seats): string | undefined {
  const { room } = floor;
  const beyond = (trial: Trial): Spot2[] => {
    const outline = outlineOf(room, trial);
    return spotsOf(floor, group, trial, false).filter(({ at }) => farOutside(outline, at) > SLACK);
  };
  const best = new Trial();
  const { result: out, read } = best.trace(() => beyond(best));
  const [first] = out;
  if (first === undefined) return undefined;
  if (![...read.keys()].every((id) => (["low", "high"] as End[]).every((end) => beyond(new Trial(new Map([[id, end]]))).length > 0))) return undefined;
  const far = Math.max(...out.map(({ at }) => farOutside(outlineOf(room, best), at)));
  const what = group.single ? clip(group.name) : out.length === group.count ? `All seats of ${clip(group.name)}` : `${out.length} of ${group.count} seats of ${clip(group.name)}, the first in row ${first.row},`;
  const remedy = group.single ? "correct its place" : "state fewer chairs in a row, less between them, or another place";
  return `${what} would stand outside ${clip(room.name)}, by up to ${figure(far)} m: ${remedy}.`;
}

/** What is said of rows of which the last would stand behind the back wall, as near together as they may be. */
function tooDeep(room: Room, group: Seats): string | undefined {
  if (group.place?.relations.some((relation) => relation.relation === "around") === true) return undefined;
  const behind = (group.rows - 1) * group.pitch.low;
  const first = group.first?.low ?? 0;
  if (group.rows < 2 || first + behind <= room.length.high + SLACK) return undefined;
  const last = (group.first?.best ?? 0) + (group.rows - 1) * group.pitch.best;
  const so = group.first === undefined ? `${figure(last)} m behind the first` : `${figure(last)} m from the front wall`;
  return `Row ${group.rows} of ${clip(group.name)} would stand ${so}, and ${clip(room.name)} is ${sizeOf(room, room.length)} long: state fewer rows, or less between them.`;
}

const sizeOf = (room: Room, size: Ranged): string => (room.where === undefined ? `taken to be ${figure(size.best)} m` : `${figure(size.best)} m`);
