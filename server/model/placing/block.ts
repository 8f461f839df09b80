/** Where a block of rows stands and how it is turned: what the places of its seats follow from. */
import type { PlaceValue } from "../bound";
import type { Point2 } from "../../physics/polygon";
import { seatsInRow, type Seats } from "../seating";
import type { Trial } from "../trial";
import type { Ground } from "./ground";
import { lean } from "./lean";
import { anchorOf } from "./steps";

/** A block of rows: a place in it is `origin − u·faces + v·right`, u from row 1 backwards, v to the right of those who sit there. */
export interface Block {
  /** The middle of the first row. */
  readonly origin: Point2;
  readonly faces: Point2;
  readonly right: Point2;
  readonly pitch: number;
  /** From chair to chair. */
  readonly apart: number;
  readonly riser: number;
  /** Rows as arcs around a point, with the radius of the first. */
  readonly arc: { readonly centre: Point2; readonly radius: number } | undefined;
  /** Where gangways are: behind so many chairs from the left, so wide. */
  readonly aisles: readonly { readonly after: number | undefined; readonly width: number }[];
}

const TOWARD: Readonly<Record<string, Point2>> = { front: { x: -1, y: 0 }, back: { x: 1, y: 0 }, left: { x: 0, y: -1 }, right: { x: 0, y: 1 } };

/** The side of the room toward which rows are set, where they face one. */
export function sideFaced(faces: PlaceValue | undefined): string | undefined {
  const anchor = faces?.relations[0]?.anchor;
  return anchor?.kind === "sides" ? anchor.sides.find((side) => Object.hasOwn(TOWARD, side)) : undefined;
}

/** Rows keep so far from the wall behind them, and chairs from those beside them, where the text does not say. */
const BEHIND = 0.6;
const BESIDE = 0.2;

/** `fit`: chairs stand nearer to each other where the row would else be wider than the room. */
export function blockOf(ground: Ground, group: Seats, trial: Trial, fit: boolean): Block {
  const size = { x: trial.value(ground.room.length), y: trial.value(ground.room.width) };
  const side = sideFaced(group.faces) ?? "front";
  const straight = TOWARD[side] ?? { x: -1, y: 0 };
  // Along the way they face, and across it.
  const along = straight.x === 0 ? "y" : "x";
  const across = along === "x" ? "y" : "x";
  const pitch = trial.value(group.pitch);
  const spacing = trial.value(group.spacing);
  const aisles = group.aisles.map((aisle) => ({ after: aisle.after, width: trial.value(aisle.width) }));
  const widest = seatsInRow(group, 1);
  const gaps = aisles.reduce((sum, aisle) => sum + aisle.width, 0);
  const apart = fit && group.curved === undefined ? Math.min(spacing, Math.max(0.1, (size[across] - 2 * BESIDE - gaps) / widest)) : spacing;
  const depth = (group.rows - 1) * pitch;
  const place = placed(ground, group, trial);
  const from = (n: number): number => (straight[along] < 0 ? n : size[along] - n);
  let first = group.first === undefined ? Math.max(0.8, Math.min(3, size[along] - depth - BEHIND)) : trial.value(group.first);
  let middle = size[across] / 2;
  if (place !== undefined) {
    const { exact } = place;
    const half = (widest * apart + gaps) / 2 + 2 * BESIDE;
    const there = place.at[across];
    middle = exact ? there : there < 0.5 ? Math.min(middle, half) : there > size[across] - 0.5 ? Math.max(middle, size[across] - half) : there;
    if (group.single) middle = there;
    if (group.first === undefined) {
      const begins = from(place.at[along]) - depth / 2;
      first = exact || group.single ? begins : Math.min(Math.max(0.8, begins), Math.max(0.8, size[along] - depth - 0.4));
    }
  }
  const origin = along === "x" ? { x: from(first), y: middle } : { x: middle, y: from(first) };
  const angle = group.turned === undefined ? 0 : (trial.value(group.turned) * Math.PI) / 180;
  const right = { x: straight.y, y: -straight.x };
  const faces = angle === 0 ? straight : { x: straight.x * Math.cos(angle) + right.x * Math.sin(angle), y: straight.y * Math.cos(angle) + right.y * Math.sin(angle) };
  const block = {
    origin, faces, right: angle === 0 ? right : { x: faces.y, y: -faces.x }, pitch, apart, aisles,
    riser: group.riser === undefined ? 0 : trial.value(group.riser), arc: undefined,
  };
  return group.curved === undefined ? block : curve(ground, group, block, trial);
}

/** Where the text says that a block stands; `exact`: in figures. */
function placed(ground: Ground, group: Seats, trial: Trial): { readonly at: Point2; readonly exact: boolean } | undefined {
  if (group.place === undefined) return undefined;
  const at = lean(ground, group.name, group.place, trial);
  return at === undefined ? undefined : { at, exact: group.place.relations.some((relation) => relation.anchor.kind === "point") };
}

/** The block with its rows bent around a point before it. */
function curve(ground: Ground, group: Seats, block: Block, trial: Trial): Block {
  const { origin, faces } = block;
  const relation = group.curved?.around?.relations[0];
  const centre = relation && anchorOf(ground, group.name, relation.anchor, "around").at(trial);
  const stated = group.curved?.radius === undefined ? relation?.offset?.best : trial.value(group.curved.radius);
  if (centre === undefined) {
    const radius = stated ?? 6;
    return { ...block, arc: { centre: { x: origin.x + faces.x * radius, y: origin.y + faces.y * radius }, radius } };
  }
  const radius = Math.max(0.5, stated ?? (centre.x - origin.x) * faces.x + (centre.y - origin.y) * faces.y);
  return { ...block, origin: { x: centre.x - faces.x * radius, y: centre.y - faces.y * radius }, arc: { centre, radius } };
}

/** How far a chair of a row is to the right of the middle of the row, m. */
export function besideMiddle(block: Block, group: Seats, row: number, seat: number): number {
  const inRow = seatsInRow(group, row);
  let at = (seat - 1 - (inRow - 1) / 2) * block.apart;
  for (const aisle of block.aisles) {
    const after = aisle.after ?? Math.floor(inRow / 2);
    if (after < 1 || after >= inRow) continue;
    at += (seat > after ? 1 : -1) * (aisle.width / 2);
  }
  // By a quarter either way: every row is as far from the middle as any other.
  return group.staggered ? at + (row % 2 === 0 ? 0.25 : -0.25) * block.apart : at;
}

/** The place u behind the first row and v to the right of its middle. */
export function inBlock(block: Block, u: number, v: number): Point2 {
  const { origin, faces, right, arc } = block;
  if (arc === undefined) return { x: origin.x - u * faces.x + v * right.x, y: origin.y - u * faces.y + v * right.y };
  const radius = arc.radius + u;
  const angle = v / radius;
  return {
    x: arc.centre.x + radius * (-faces.x * Math.cos(angle) + right.x * Math.sin(angle)),
    y: arc.centre.y + radius * (-faces.y * Math.cos(angle) + right.y * Math.sin(angle)),
  };
}

/** The reverse: how far behind the first row a place is, and how far to the right. */
export function outOfBlock(block: Block, p: Point2): { readonly u: number; readonly v: number } {
  const { origin, faces, right, arc } = block;
  const d = arc === undefined ? { x: p.x - origin.x, y: p.y - origin.y } : { x: p.x - arc.centre.x, y: p.y - arc.centre.y };
  const back = -(d.x * faces.x + d.y * faces.y);
  const side = d.x * right.x + d.y * right.y;
  if (arc === undefined) return { u: back, v: side };
  const radius = Math.hypot(back, side);
  return { u: radius - arc.radius, v: Math.atan2(side, back) * radius };
}
