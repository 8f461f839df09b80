/** Where seats are: in rows, straight or bent, or around a table; how high eyes are there, and which way one looks. */
import type { Point2 } from "../../physics/polygon";
import type { Relation } from "../bound";
import type { Vec3 } from "../geometry";
import { canonical } from "../names";
import type { Table } from "../room";
import { isAmong, seatsInRow, type Seats } from "../seating";
import type { Trial } from "../trial";
import { besideMiddle, blockOf, inBlock, sideFaced } from "./block";
import { keeper, middleOf } from "./bounds";
import type { Ground } from "./ground";
import { CROWN, HEIGHTS } from "./heights";
import { lean } from "./lean";
import { anchorOf } from "./steps";

export interface Seat {
  /** `audience.row-2.seat-5`, or `audience.seat-3` where there are no rows; a single seat bears its own name alone. */
  readonly name: string;
  readonly row: number;
  /** Its number in the row, as one faces the front from it: 1 is at the left. */
  readonly inRow: number;
  /** Eyes and ears. */
  readonly at: Vec3;
  readonly mouth: Vec3;
  /** The top of the head above the floor of the room, m. */
  readonly top: number;
  /** The floor under it, m: higher on a stage, a slope or a step. */
  readonly floor: number;
  /** Which way one looks from it: along the floor, of length 1. */
  readonly faces: Point2;
  readonly wheelchair: boolean;
  /** Whoever sits there does not want to be in any picture. */
  readonly offCamera: boolean;
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

/** A place on the floor for a seat, before anything that would lie outside is brought in. */
export interface Spot2 {
  readonly row: number;
  readonly inRow: number;
  readonly at: Point2;
  readonly faces: Point2;
  /** How much higher its row stands than the floor there, m. */
  readonly step: number;
}

/** The seats of a group, row by row, as even as the count allows, the longer rows in front. */
export function layOut(ground: Ground, group: Seats, trial: Trial): Seat[] {
  const eyes = group.eyes === undefined ? HEIGHTS.seatedEye : trial.value(group.eyes);
  const mouth = group.mouth === undefined ? Math.max(0.3, eyes - (HEIGHTS.seatedEye - HEIGHTS.seatedMouth)) : trial.value(group.mouth);
  const head = group.head === undefined ? eyes + CROWN : trial.value(group.head);
  const around = isAround(group);
  const kept = keeper(ground.room, trial);
  const bare = ground.room.slope === undefined && !ground.room.areas.some((area) => area.kind === "stage");
  return spotsOf(ground, group, trial, true).map(({ row, inRow, at, faces, step }) => {
    const floor = (bare ? 0 : ground.baseAt(at, trial)) + step;
    const place = kept({ x: at.x, y: at.y, z: floor + eyes });
    return {
      name: group.single ? group.name : around ? `${group.name}.seat-${inRow}` : `${group.name}.row-${row}.seat-${inRow}`, row, inRow, faces, floor,
      at: place, mouth: { ...place, z: place.z - eyes + mouth }, top: place.z - eyes + head,
      wheelchair: isAmong(group.wheelchair, row, inRow), offCamera: isAmong(group.offCamera, row, inRow),
    };
  });
}

/** Whether seats stand around something rather than in rows. */
export const isAround = (group: Seats): boolean => group.place?.relations.some((r) => r.relation === "around") === true;

/** Where the seats of a group are as the text has it. `fit`: rows wider than the room are drawn together. */
export function spotsOf(ground: Ground, group: Seats, trial: Trial, fit: boolean): Spot2[] {
  const around = group.place?.relations.find((r) => r.relation === "around");
  const looks = lookedAt(ground, group, trial);
  if (around !== undefined) {
    const middle = centreOf(ground, around, trial);
    return Array.from({ length: group.count }, (_, i) => {
      const at = onRing(ground, around, { index: i, count: group.count }, trial);
      return { row: 1, inRow: i + 1, at, faces: way(at, looks ?? middle, { x: -1, y: 0 }), step: 0 };
    });
  }
  const block = blockOf(ground, group, trial, fit);
  const toward = looks ?? block.arc?.centre;
  const spots: Spot2[] = [];
  for (let row = 1; row <= group.rows; row += 1) {
    const many = seatsInRow(group, row);
    for (let seat = 1; seat <= many; seat += 1) {
      const at = inBlock(block, (row - 1) * block.pitch, besideMiddle(block, group, row, seat));
      spots.push({ row, inRow: seat, at, faces: toward === undefined ? block.faces : way(at, toward, block.faces), step: (row - 1) * block.riser });
    }
  }
  return spots;
}

/** What people in a group look at, where it is no side of the room. */
function lookedAt(ground: Ground, group: Seats, trial: Trial): Point2 | undefined {
  if (group.faces === undefined || sideFaced(group.faces) !== undefined) return undefined;
  return lean(ground, `${group.name}.faces`, group.faces, trial);
}

/** The way along the floor from one point to another, of length 1; `otherwise` where they are one. */
function way(from: Point2, to: Point2, otherwise: Point2): Point2 {
  const far = Math.hypot(to.x - from.x, to.y - from.y);
  return far < 1e-6 ? otherwise : { x: (to.x - from.x) / far, y: (to.y - from.y) / far };
}

const centreOf = (ground: Ground, around: Relation, trial: Trial): Vec3 => anchorOf(ground, "", around.anchor, "around").at(trial) ?? middleOf(ground.room, trial);

/** Evenly around a table, a chair's depth from its edge. */
export function onRing(ground: Ground, around: Relation, ring: Ring, trial: Trial): Vec3 {
  const table: Table | undefined = around.anchor.kind === "name" ? ground.room.tables.get(canonical(around.anchor.name.text)) : undefined;
  const centre = centreOf(ground, around, trial);
  const a = (table === undefined ? 1.6 : trial.value(table.length)) / 2 + 0.3;
  const b = (table === undefined ? 0.9 : trial.value(table.width)) / 2 + 0.3;
  const angle = (2 * Math.PI * ring.index) / ring.count;
  return { x: centre.x + a * Math.cos(angle), y: centre.y + b * Math.sin(angle), z: 0 };
}
