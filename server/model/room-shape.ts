/**
 * The room as it is in one trial, for whoever draws it or looks through it: everything in metres, x from the front wall to the back, y from
 * the left wall to the right, z up from the floor at the front wall; every thing with the place in the text that states it.
 */
import type { Point2 } from "../physics/polygon";
import type { Vec3 } from "./geometry";
import { inBlock, besideMiddle, blockOf } from "./placing/block";
import type { Seat } from "./placing/seats";
import type { Floor } from "./position";
import { seatsInRow, type Seats } from "./seating";
import { areaAt, columnAt, openingAt, type AreaAt, type ColumnAt, type OpeningAt } from "./shape/built-at";
import { outlineOf } from "./shape/outline";
import type { Trial } from "./trial";
import type { Where } from "./where";

export type { AreaAt, ColumnAt, OpeningAt } from "./shape/built-at";
export { bearingOf } from "./shape/built-at";
export { outlineOf, sizeOf, slopeOf, wallOf } from "./shape/outline";

/** A gangway through the rows of a group of seats. */
export interface AisleAt {
  readonly of: string;
  readonly outline: readonly Point2[];
  readonly width: number;
  readonly where: Where;
}

/** A group of seats with the place of each: see `Seat` for eyes, mouth, top of the head, floor, facing, wheelchair, off-camera. */
export interface SeatsAt {
  readonly group: Seats;
  readonly seats: readonly Seat[];
  readonly where: Where;
}

export interface RoomShape {
  /** The walls, corner by corner, going round. */
  readonly outline: readonly Point2[];
  readonly height: number;
  readonly stages: readonly AreaAt[];
  readonly walkways: readonly AreaAt[];
  readonly aisles: readonly AisleAt[];
  readonly columns: readonly ColumnAt[];
  readonly doors: readonly OpeningAt[];
  readonly windows: readonly OpeningAt[];
  readonly tables: readonly { readonly name: string; readonly at: Vec3; readonly length: number; readonly width: number; readonly where: Where }[];
  readonly seats: readonly SeatsAt[];
  /** How high the floor is there: slope, stage, steps of rows. */
  readonly floorAt: (p: Point2) => number;
}

/** Everything that stands fast in the room. Computed once in a trial; drawing and checks share it. */
export function roomShape(floor: Floor, trial: Trial): RoomShape {
  const built = trial.keep("room shape", (): Omit<RoomShape, "floorAt"> => {
    const { room } = floor;
    const areas = room.areas.map((area) => areaAt(floor, area, trial));
    const openings = room.openings.map((opening) => openingAt(floor, opening, trial));
    return {
      outline: outlineOf(room, trial), height: trial.value(room.height),
      stages: areas.filter((area) => area.kind === "stage"), walkways: areas.filter((area) => area.kind === "walkway"),
      aisles: room.seats.flatMap((group) => aislesOf(floor, group, trial)),
      columns: room.columns.map((column) => columnAt(floor, column, trial)),
      doors: openings.filter((one) => one.kind === "door"), windows: openings.filter((one) => one.kind === "window"),
      tables: [...room.tables.values()].flatMap((table) => {
        const at = floor.spot(table.name, trial);
        return at === undefined ? [] : [{ name: table.name, at, length: trial.value(table.length), width: trial.value(table.width), where: table.where }];
      }),
      seats: room.seats.map((group) => ({ group, seats: floor.seats(group, trial), where: group.where })),
    };
  });
  return { ...built, floorAt: (p) => floor.floorAt(p, trial) };
}

/** The gangways through the rows of a group, half a row longer than they are at either end. */
function aislesOf(floor: Floor, group: Seats, trial: Trial): AisleAt[] {
  if (group.aisles.length === 0) return [];
  const block = blockOf(floor, group, trial, true);
  const inRow = seatsInRow(group, 1);
  return group.aisles.flatMap((aisle) => {
    const after = aisle.after ?? Math.floor(inRow / 2);
    const width = trial.value(aisle.width);
    if (after < 1 || after >= inRow) return [];
    const left = besideMiddle({ ...block }, { ...group, staggered: false }, 1, after) + block.apart / 2;
    const rows = Array.from({ length: group.rows }, (_, i) => i * block.pitch);
    const us = [-block.pitch / 2, ...rows, (group.rows - 0.5) * block.pitch];
    const edge = (v: number): Point2[] => us.map((u) => inBlock(block, u, v));
    return [{ of: group.name, width, where: aisle.where, outline: [...edge(left), ...edge(left + width).reverse()] }];
  });
}
