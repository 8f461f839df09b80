/** Where the things that are built into a room are, in metres, in one trial. */
import { band, contains, nearestSide, rectangle, sidesOfArea, type Point2 } from "../../physics/polygon";
import type { PlaceValue } from "../bound";
import { middleOf } from "../placing/bounds";
import type { Ground } from "../placing/ground";
import { lean } from "../placing/lean";
import type { Trial } from "../trial";
import type { Where } from "../where";
import type { Area, Column, Opening } from "./built";
import { outlineOf, sidesIn, slopeOf } from "./outline";

export interface AreaAt {
  readonly name: string;
  readonly named: boolean;
  readonly kind: Area["kind"];
  /** Going round; a walkway with bends is several stretches. */
  readonly outlines: readonly (readonly Point2[])[];
  /** Above the floor. */
  readonly height: number;
  readonly where: Where;
}

export interface ColumnAt {
  readonly name: string;
  readonly at: Point2;
  /** How thick. */
  readonly width: number;
  readonly where: Where;
}

export interface OpeningAt {
  readonly name: string;
  readonly kind: Opening["kind"];
  /** On the wall, from its one edge to its other, and its middle. */
  readonly from: Point2;
  readonly to: Point2;
  readonly at: Point2;
  /** Into the room, of length 1. */
  readonly inward: Point2;
  /** Above the floor. */
  readonly bottom: number;
  readonly top: number;
  /** Compass bearing of the way one looks out, degrees from north with the clock, where it can be told. */
  readonly bearing: number | undefined;
  /** Wider than the wall in which it is, which is so long; else nothing. */
  readonly tooWide: number | undefined;
  readonly where: Where;
}

/** Where a place leads, on the floor. */
const pointOf = (ground: Ground, owner: string, place: PlaceValue | undefined, trial: Trial): Point2 | undefined =>
  (place === undefined ? undefined : lean(ground, owner, place, trial));

/** The middle of an area: what is placed at a side of the room lies along its wall. */
function middleOfArea(ground: Ground, area: Area, trial: Trial): Point2 {
  const size = { x: trial.value(area.length), y: trial.value(area.width) };
  const [only] = area.place?.relations ?? [];
  const sides = area.place === undefined ? (area.kind === "stage" ? ["front"] : ["middle"]) : only?.anchor.kind === "sides" && area.place.relations.length === 1 ? only.anchor.sides : undefined;
  if (sides === undefined) return pointOf(ground, area.name, area.place, trial) ?? middleOf(ground.room, trial);
  const at = sidesIn(outlineOf(ground.room, trial), sides, trial.value(ground.room.length), trial.value(ground.room.width));
  const from = sides.includes("corner") ? 0.5 : 0.2;
  const x = sides.includes("front") ? at.x - from + size.x / 2 : sides.includes("back") ? at.x + from - size.x / 2 : at.x;
  const y = sides.includes("left") ? at.y - from + size.y / 2 : sides.includes("right") ? at.y + from - size.y / 2 : at.y;
  return { x, y };
}

export function areaAt(ground: Ground, area: Area, trial: Trial): AreaAt {
  const { name, named, kind, where } = area;
  const make = (outlines: readonly (readonly Point2[])[]): AreaAt => ({ name, named, kind, outlines, where, height: kind === "stage" ? trial.value(area.height) : 0 });
  if (area.corners !== undefined && area.corners.length > 2) return make([area.corners]);
  const from = pointOf(ground, `${name}.from`, area.from, trial);
  const to = area.to.flatMap((place, i) => pointOf(ground, `${name}.to-${i}`, place, trial) ?? []);
  if (from !== undefined && to.length > 0) {
    const width = trial.value(area.width);
    return make(to.map((end, i) => band(to[i - 1] ?? from, end, width)));
  }
  return make([rectangle(middleOfArea(ground, area, trial), trial.value(area.length), trial.value(area.width))]);
}

export const columnAt = (ground: Ground, column: Column, trial: Trial): ColumnAt => ({
  name: column.name, where: column.where, width: trial.value(column.width), at: pointOf(ground, column.name, column.place, trial) ?? middleOf(ground.room, trial),
});

/** The bearing of a way along the floor, degrees with the clock from north; nothing where no north is stated. */
export function bearingOf(ground: Ground, toward: Point2, trial: Trial): number | undefined {
  const { north } = ground.room;
  if (north === undefined) return undefined;
  const turned = (Math.atan2(toward.y, -toward.x) * 180) / Math.PI;
  return (((turned - trial.value(north)) % 360) + 360) % 360;
}

export const BEARINGS = { north: 0, "north-east": 45, east: 90, "south-east": 135, south: 180, "south-west": 225, west: 270, "north-west": 315 } as const;

/** A door or a window, in the wall that is nearest to its place, and no farther along it than the wall goes. */
export function openingAt(ground: Ground, opening: Opening, trial: Trial): OpeningAt {
  const outline = outlineOf(ground.room, trial);
  const place = pointOf(ground, opening.name, opening.place, trial) ?? middleOf(ground.room, trial);
  const near = nearestSide(outline, place);
  const [a, b] = near?.side ?? sidesOfArea(outline)[0] ?? [place, place];
  const long = Math.hypot(b.x - a.x, b.y - a.y);
  const along = long === 0 ? { x: 1, y: 0 } : { x: (b.x - a.x) / long, y: (b.y - a.y) / long };
  const width = trial.value(opening.width);
  const half = Math.min(width, long) / 2;
  const at = near?.at ?? place;
  const t = Math.min(Math.max((at.x - a.x) * along.x + (at.y - a.y) * along.y, half), long - half);
  const on = (s: number): Point2 => ({ x: a.x + s * along.x, y: a.y + s * along.y });
  const middle = on(t);
  const left = { x: -along.y, y: along.x };
  const inward = contains(outline, { x: middle.x + 0.01 * left.x, y: middle.y + 0.01 * left.y }) ? left : { x: along.y, y: -along.x };
  const bottom = trial.value(opening.sill);
  return {
    name: opening.name, kind: opening.kind, from: on(t - half), to: on(t + half), at: middle, inward, bottom,
    top: Math.min(trial.value(ground.room.height), bottom + trial.value(opening.height)),
    bearing: opening.looks === undefined ? bearingOf(ground, { x: -inward.x, y: -inward.y }, trial) : BEARINGS[opening.looks],
    tooWide: width > long + 0.005 ? long : undefined, where: opening.where,
  };
}

/** How high the bare floor is at a point, m: a slope, and a stage on it. Steps of rows come on top. */
export function baseAt(ground: Ground, p: Point2, trial: Trial): number {
  const { room } = ground;
  let height = 0;
  const slope = room.slope === undefined ? undefined : slopeOf(room, trial);
  if (slope !== undefined) height = slope.rise * Math.min(1, Math.max(0, (p.x - slope.from) / (slope.to - slope.from)));
  if (!room.areas.some((area) => area.kind === "stage")) return height;
  const stages = trial.keep("stages", () => room.areas.filter((area) => area.kind === "stage").map((area) => areaAt(ground, area, trial)));
  for (const stage of stages) if (stage.outlines.some((outline) => contains(outline, p))) height = Math.max(height, stage.height);
  return height;
}
