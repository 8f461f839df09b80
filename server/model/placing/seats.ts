/** Where seats are: in rows, or around a table. */
import type { Relation } from "../bound";
import type { Vec3 } from "../geometry";
import { canonical } from "../names";
import type { Seats, Table } from "../room";
import type { Trial } from "../trial";
import { inside, middleOf } from "./bounds";
import type { Ground } from "./ground";
import { HEIGHTS } from "./heights";
import { lean } from "./lean";
import { anchorOf } from "./steps";

export interface Seat {
  /** `audience.row-2.seat-5`, or `audience.seat-3` where there are no rows. */
  readonly name: string;
  readonly row: number;
  /** Its number in the row, as one faces the front from it: 1 is at the left. */
  readonly inRow: number;
  readonly at: Vec3;
}

/** `audience.row-2.seat-5`, `audience.row-2` or, around a table, `audience.seat-5`: which seats a name means, if it is such a name. */
export function seatOf(name: string): { readonly group: string; readonly row: number; readonly seat: number | undefined } | undefined {
  const found = /^(.+?)(?:\.row-(\d{1,5}))?(?:\.seat-(\d{1,5}))?$/i.exec(name);
  const [, group, row, seat] = found ?? [];
  if (group === undefined || (row === undefined && seat === undefined)) return undefined;
  return { group, row: Number(row ?? 1), seat: seat === undefined ? undefined : Number(seat) };
}

/** Which one of how many: things or people that one statement places together, around a table or along a line. */
export interface Ring {
  readonly index: number;
  readonly count: number;
}

/** The seats of a group, row by row, as even as the count allows, the longer rows in front. */
export function layOut(ground: Ground, group: Seats, trial: Trial): Seat[] {
  const length = trial.value(ground.room.length);
  const width = trial.value(ground.room.width);
  const around = group.place?.relations.find((r) => r.relation === "around");
  if (around !== undefined) return layAround(ground, group, around, trial);
  const pitch = trial.value(group.pitch);
  const spacing = trial.value(group.spacing);
  const depth = (group.rows - 1) * pitch;
  const { place } = group;
  let first = group.first === undefined ? Math.max(0.8, Math.min(3, length - depth - 0.6)) : trial.value(group.first);
  let middle = width / 2;
  if (group.first === undefined && place !== undefined) {
    const point = lean(ground, group.name, place, trial);
    if (point !== undefined) {
      middle = point.y < 0.5 || point.y > width - 0.5 ? middle : point.y;
      first = Math.min(Math.max(0.8, point.x - depth / 2), Math.max(0.8, length - depth - 0.4));
    }
  }
  // Rows as even as the count allows, the longer ones in front.
  const seats: Seat[] = [];
  for (let row = 0; row < group.rows; row += 1) {
    const inRow = Math.floor(group.count / group.rows) + (row < group.count % group.rows ? 1 : 0);
    const apart = Math.min(spacing, (width - 0.4) / Math.max(1, inRow));
    for (let i = 0; i < inRow; i += 1) {
      seats.push({
        name: `${group.name}.row-${row + 1}.seat-${i + 1}`, row: row + 1, inRow: i + 1,
        at: inside(ground.room, { x: first + row * pitch, y: middle + (i - (inRow - 1) / 2) * apart, z: HEIGHTS.seatedEye }, trial),
      });
    }
  }
  return seats;
}

function layAround(ground: Ground, group: Seats, around: Relation, trial: Trial): Seat[] {
  return Array.from({ length: group.count }, (_, i) => ({
    name: `${group.name}.seat-${i + 1}`, row: 1, inRow: i + 1,
    at: inside(ground.room, { ...onRing(ground, around, { index: i, count: group.count }, trial), z: HEIGHTS.seatedEye }, trial),
  }));
}

/** Evenly around a table, a chair's depth from its edge. */
export function onRing(ground: Ground, around: Relation, ring: Ring, trial: Trial): Vec3 {
  const table: Table | undefined = around.anchor.kind === "name" ? ground.room.tables.get(canonical(around.anchor.name.text)) : undefined;
  const centre = anchorOf(ground, "", around.anchor, "around").at(trial) ?? middleOf(ground.room, trial);
  const a = (table === undefined ? 1.6 : trial.value(table.length)) / 2 + 0.3;
  const b = (table === undefined ? 0.9 : trial.value(table.width)) / 2 + 0.3;
  const angle = (2 * Math.PI * ring.index) / ring.count;
  return { x: centre.x + a * Math.cos(angle), y: centre.y + b * Math.sin(angle), z: 0 };
}
