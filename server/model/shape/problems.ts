/** What cannot be about the shape of a room and what is built into it: one message for each, with what to write. */
import { clip } from "../../../grammar/clip";
import { farOutside, type Point2 } from "../../physics/polygon";
import { valueOf, type Bound } from "../bound";
import { canonical } from "../names";
import type { Floor } from "../position";
import type { Ranged } from "../ranged";
import { everywhere, type Reading } from "../reading";
import { seatsInRow } from "../seating";
import { figure } from "../show";
import { Trial, type End } from "../trial";
import type { Where } from "../where";
import { pointsOf, type Opening } from "./built";
import { wrongWith } from "./corners";
import { areaAt, bearingOf, BEARINGS, openingAt } from "./built-at";
import { outlineOf } from "./outline";

/** Rounding is no mistake, m. */
const SLACK = 0.005;
/** Says what is wrong with the shape of the room that is meant, and with what stands in it. */
export function shapeProblems(reading: Reading, floor: Floor): void {
  corners(reading, floor);
  const all = everywhere(reading.all);
  for (const statement of all.filter((s) => s.row.head === "north" && !s.values.has("side") && !s.values.has("angle"))) {
    reading.say("incomplete", "“north” wants the side of the room on which it is, or how far round from the front: north left, or north 30 deg.", statement.where);
  }
  for (const statement of all.filter((s) => s.row.head === "curtains" && !s.values.has("area") && !s.values.has("over"))) {
    reading.say("incomplete", "“curtains” wants how much is drawn, or over which window they hang: curtains heavy 12 m2, or curtains heavy over street-side.", statement.where);
  }
  for (const owner of [...reading.by("room"), ...reading.by("in")]) twice(reading, owner.children);
  for (const statement of all.filter((s) => s.row.head === "slope")) slope(reading, statement);
  areas(reading, floor);
  for (const opening of floor.room.openings) inWall(reading, floor, opening);
  rows(reading, floor);
}

function corners(reading: Reading, floor: Floor): void {
  const { room } = floor;
  for (const statement of everywhere(reading.all).filter((s) => s.row.head === "corners" && s.values.has("points"))) {
    // A point that cannot be read has had its message.
    if (reading.problems.some(({ where }) => where.path === statement.where.path && where.start >= statement.where.start && where.start < statement.where.end)) continue;
    const points = pointsOf(statement);
    const wrong = wrongWith(points, statement.owner === "area" ? 0.01 : 0.2);
    if (wrong !== undefined) reading.say("impossible", wrong, statement.where);
    else if (statement.owner === "room" && room.cornersWhere?.start === statement.where.start && room.cornersWhere.path === statement.where.path) {
      const least = (axis: "x" | "y"): number => Math.min(...points.map((p) => p[axis]));
      for (const [axis, wall] of [["x", "front"], ["y", "left"]] as const) {
        if (least(axis) > 0.05) reading.warn("outside-room", `No corner stands at the ${wall} wall: measured from there, the nearest has ${axis === "x" ? "a first" : "a second"} figure of 0 m, here it has ${figure(least(axis))} m.`, statement.where);
      }
      sizes(reading, statement, points);
    }
  }
}

/** A room whose stated length and width are others than those of its corners. */
function sizes(reading: Reading, statement: Bound, points: readonly Point2[]): void {
  const owner = reading.by("room").find((room) => room.children.includes(statement));
  if (owner === undefined) return;
  for (const [slot, axis] of [["length", "x"], ["width", "y"]] as const) {
    const stated = valueOf(owner, slot, "quantity");
    const reach = Math.max(...points.map((p) => p[axis]));
    if (stated === undefined || stated.said === "unknown" || (reach >= stated.low - 0.02 && reach <= stated.high + 0.02)) continue;
    reading.warn("outside-room", `The corners reach ${figure(reach)} m, and the ${slot} of the room is stated as ${figure(stated.best)} m: the corners are taken. Correct one of the two.`, statement.where);
  }
}

/** Curtains that are stated twice for the same window, or twice for all of them. */
function twice(reading: Reading, statements: readonly Bound[]): void {
  const seen = new Map<string, Bound>();
  for (const statement of statements.filter((s) => s.row.head === "curtains")) {
    const over = canonical(valueOf(statement, "over", "name")?.text ?? "");
    const first = seen.get(over);
    if (first === undefined) seen.set(over, statement);
    else reading.say("said-twice", over === "" ? "“curtains” is stated twice here; keep one, or say over which window each hangs." : "Curtains over this window are stated twice; keep one.", statement.where, { where: first.where, message: "the first one" });
  }
}

function slope(reading: Reading, statement: Bound): void {
  const [from, to] = [valueOf(statement, "from", "quantity"), valueOf(statement, "to", "quantity")];
  if (from === undefined || to === undefined || !(from.best >= to.best)) return;
  reading.say("impossible", "That cannot be: the slope ends before it begins. Both are measured from the front wall: slope 0.8 m from 4 m to 12 m.", statement.where);
}

/** What is stated only roughly may still be inside: only what is outside at every end is said. */
function always<T>(make: (trial: Trial) => T, wrong: (found: T) => boolean): T | undefined {
  const best = new Trial();
  const { result, read } = best.trace(() => make(best));
  if (!wrong(result)) return undefined;
  return [...read.keys()].every((id) => (["low", "high"] as End[]).every((end) => wrong(make(new Trial(new Map([[id, end]])))))) ? result : undefined;
}

function areas(reading: Reading, floor: Floor): void {
  const { room } = floor;
  for (const area of room.areas) {
    if (area.kind === "walkway" && (area.from === undefined) !== (area.to.length === 0)) {
      reading.say("incomplete", "A walkway leads from somewhere to somewhere: walkway from main-door to lectern, width 1.2 m.", area.where);
      continue;
    }
    const found = always((trial) => ({ outline: outlineOf(room, trial), at: areaAt(floor, area, trial) }), ({ outline, at }) => outside(outline, at.outlines, area.kind === "stage" ? SLACK : 0.3) > 0);
    if (found !== undefined) {
      const far = outside(found.outline, found.at.outlines, SLACK);
      reading.warn("outside-room", `${clip(area.name)} would reach ${figure(far)} m outside ${clip(room.name)}, which is ${sizeWords(room.length, room.width)}: correct its place or its size, like: stage at front, size 2 m by 4 m.`, area.where);
    }
    if (area.kind === "stage" && area.height.low > room.height.high - 1) {
      reading.say("impossible", `That cannot be: ${clip(area.name)} is ${figure(area.height.best)} m high, in a room of ${figure(room.height.best)} m.`, area.where);
    }
  }
}

/** How far corners lie outside, m, where it is more than `slack`. */
function outside(outline: readonly Point2[], shapes: readonly (readonly Point2[])[], slack: number): number {
  const far = Math.max(0, ...shapes.flat().map((p) => farOutside(outline, p)));
  return far > slack ? far : 0;
}

const sizeWords = (length: Ranged, width: Ranged): string => `${figure(length.best)} m by ${figure(width.best)} m`;

/** A door in the middle of the floor, one wider than its wall, one higher than the room, one that looks elsewhere than it can. */
function inWall(reading: Reading, floor: Floor, opening: Opening): void {
  const { room } = floor;
  const name = clip(opening.name);
  const wide = always((trial) => openingAt(floor, opening, trial), (at) => at.tooWide !== undefined);
  if (wide?.tooWide !== undefined) {
    reading.say("impossible", `That cannot be: ${name} is ${figure(opening.width.best)} m wide, and the wall in which it is is ${figure(wide.tooWide)} m long. Correct its width or its place, like: ${opening.kind} at left, width 1.2 m.`, opening.where);
    return;
  }
  if (opening.sill.low + opening.height.low > room.height.high + SLACK) {
    reading.say("impossible", `That cannot be: the upper edge of ${name} is ${figure(opening.sill.best + opening.height.best)} m above the floor, and the room is ${figure(room.height.best)} m high.`, opening.where);
    return;
  }
  const trial = new Trial();
  const { inward } = openingAt(floor, opening, trial);
  const bearing = bearingOf(floor, { x: -inward.x, y: -inward.y }, trial);
  if (opening.looks === undefined || bearing === undefined) return;
  const off = Math.abs(((bearing - BEARINGS[opening.looks] + 540) % 360) - 180);
  if (off > 50) {
    const [word] = Object.entries(BEARINGS).reduce((best, one) => (apart(one[1], bearing) < apart(best[1], bearing) ? one : best));
    reading.warn("looks-elsewhere", `${name} looks ${word} by its wall and where north is, and ${opening.looks} by what is said of it: correct one of the two.`, opening.where);
  }
}

const apart = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

/** What is said of rows and seats that there are not, and rows that have no bend. */
function rows(reading: Reading, floor: Floor): void {
  for (const group of floor.room.seats) {
    const about = (which: { row: number | undefined; first: number | undefined; last: number | undefined; where: Where }): void => {
      const { row, first, last } = which;
      if (row !== undefined && row > group.rows) {
        reading.say("unknown-name", `There is no row ${row}: ${clip(group.name)} has ${group.rows === 1 ? "one row" : `rows 1 to ${group.rows}`}.`, which.where);
        return;
      }
      const most = seatsInRow(group, row ?? 1);
      const wanted = Math.max(first ?? 1, last ?? 1);
      if (wanted > most) reading.say("unknown-name", `There is no seat ${wanted} there: row ${row ?? 1} of ${clip(group.name)} has ${most === 1 ? "one seat" : `seats 1 to ${most}`}.`, which.where);
    };
    group.wheelchair.forEach(about);
    group.offCamera.forEach(about);
    const most = seatsInRow(group, 1);
    for (const aisle of group.aisles) {
      if (aisle.after !== undefined && aisle.after >= most) reading.say("impossible", `That cannot be: an aisle after ${aisle.after} chairs, in rows of ${most}. Say behind which chair it is, from the left: aisle 1.2 m after ${Math.max(1, Math.floor(most / 2))}.`, aisle.where);
    }
    if (group.curved !== undefined && group.curved.radius === undefined && group.curved.around === undefined) {
      reading.say("incomplete", "“curved” wants around what, or with which radius: curved around lectern, or curved 6 m.", group.where);
    }
  }
}
