/** Floor, walls, doors, windows, stages, tables and columns as surfaces. */
import type { AreaAt, OpeningAt, RoomShape } from "../../model/room-shape";
import type { Where } from "../../model/where";
import type { Vec3 } from "../../physics/geometry";
import { contains, cutAt, rectangle, sidesOfArea, type Point2 } from "../../physics/polygon";
import type { Standing } from "./standing";

/** A slope of the floor from one x to another, m. */
export interface Slope {
  readonly rise: number;
  readonly from: number;
  readonly to: number;
}

export interface RoomSeen {
  readonly shape: RoomShape;
  readonly slope: Slope | undefined;
  readonly outdoors: boolean;
  readonly name: string;
  readonly where: Where | undefined;
}

/** More lines than that across the floor would be a grey. */
const MOST_LINES = 40;
/** Thickness of a table's top, m. Common practice, no source. */
const TOP = 0.04;
export const TABLE_HEIGHT = 0.75;

/** How high the bare floor is, stages left aside, m. */
const heightAt = ({ slope }: RoomSeen, x: number): number => (slope === undefined || slope.to <= slope.from ? 0 : slope.rise * Math.min(1, Math.max(0, (x - slope.from) / (slope.to - slope.from))));

/** How far apart the lines on the floor are, m. */
export function gridOf({ shape }: RoomSeen): number {
  const reach = Math.max(...shape.outline.flatMap((p) => [p.x, p.y]), 1) - Math.min(...shape.outline.flatMap((p) => [p.x, p.y]), 0);
  return [1, 2, 5, 10, 20, 50, 100].find((step) => reach / step <= MOST_LINES) ?? reach / MOST_LINES;
}

/** What lies behind everything else: the floor, and the walls that nothing stands behind. */
export function ground(seen: RoomSeen, eye: Vec3): readonly Standing[] {
  const { shape, name, where } = seen;
  const base = { kind: "room" as const, name, says: "", where, at: { x: eye[0], y: eye[1] } };
  const breaks = seen.slope === undefined ? [] : [seen.slope.from, seen.slope.to];
  const pieces = [-Infinity, ...breaks].map((from, i) => {
    const right = Number.isFinite(from) ? cutAt(shape.outline, from) : shape.outline;
    const to = breaks[i];
    return to === undefined ? right : cutAt(right, to, true);
  }).filter((piece) => piece.length > 2);
  const lifted = (p: Point2): Vec3 => [p.x, p.y, heightAt(seen, p.x)];
  const floor: Standing = { ...base, faces: [...pieces.map((piece) => ({ look: "floor" as const, ring: piece.map(lifted) })), { look: "floor", ring: [], lines: floorLines(seen, breaks) }] };
  return [floor, ...walls(seen, eye).filter((wall) => !wall.inner).map(({ standing }) => standing)];
}

/** Walls behind which a part of the room lies, as where a room goes round a corner. */
export const innerWalls = (seen: RoomSeen, eye: Vec3): readonly Standing[] => walls(seen, eye).filter((wall) => wall.inner).map(({ standing }) => standing);

const turn = (a: Point2, b: Point2, p: Point2): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

function walls(seen: RoomSeen, eye: Vec3): { readonly inner: boolean; readonly standing: Standing }[] {
  const { shape, outdoors, name, where } = seen;
  const { outline, height } = shape;
  const from = { x: eye[0], y: eye[1] };
  const round = outline.reduce((sum, a, i) => sum + a.x * (outline[(i + 1) % outline.length]?.y ?? 0) - (outline[(i + 1) % outline.length]?.x ?? 0) * a.y, 0) >= 0 ? 1 : -1;
  return sidesOfArea(outline).flatMap(([a, b]) => {
    // Walls are seen from within: what is beyond a wall's back another wall hides.
    if (turn(a, b, from) * round < -1e-9) return [];
    const low = (p: Point2): Vec3 => [p.x, p.y, heightAt(seen, p.x)];
    const high = (p: Point2): Vec3 => [p.x, p.y, height];
    const inner = outline.some((p) => turn(a, b, p) * round < -1e-6);
    return [{
      inner,
      standing: {
        kind: "room" as const, name, says: "", where, at: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, ...(inner && !outdoors ? { outline: [a, b] } : {}),
        faces: [outdoors ? { look: "open-wall" as const, ring: [], lines: [[low(a), low(b)]] } : { look: "wall" as const, ring: [low(a), low(b), high(b), high(a)] }],
      },
    }];
  });
}

/** Lines across the floor, so that distances can be counted. */
function floorLines(seen: RoomSeen, breaks: readonly number[]): Vec3[][] {
  const { outline } = seen.shape;
  const step = gridOf(seen);
  const lines: Vec3[][] = [];
  for (const along of ["x", "y"] as const) {
    const across = along === "x" ? "y" : "x";
    const values = outline.map((p) => p[along]);
    for (let n = Math.ceil(Math.min(...values) / step + 1e-6); n * step < Math.max(...values) - 1e-6; n += 1) {
      const at = n * step;
      const ends = sidesOfArea(outline).flatMap(([a, b]) => (a[along] > at === b[along] > at ? [] : [a[across] + ((b[across] - a[across]) * (at - a[along])) / (b[along] - a[along])])).sort((p, q) => p - q);
      for (let i = 0; i + 1 < ends.length; i += 2) {
        const stops = [ends[i] ?? 0, ...(along === "y" ? breaks.filter((x) => x > (ends[i] ?? 0) && x < (ends[i + 1] ?? 0)) : []), ends[i + 1] ?? 0];
        lines.push(stops.map((value): Vec3 => (along === "x" ? [at, value, heightAt(seen, at)] : [value, at, heightAt(seen, value)])));
      }
    }
  }
  return lines;
}

export function openings(seen: RoomSeen): readonly Standing[] {
  return [...seen.shape.doors, ...seen.shape.windows].map((opening): Standing => {
    const { from, to, name, where, kind } = opening;
    const base = heightAt(seen, opening.at.x);
    const [low, high] = [base + opening.bottom, Math.max(opening.top, base + opening.bottom)];
    // A finger's breadth before its wall, so that the wall does not hide it.
    const moved = (p: Point2, z: number, share = 0): Vec3 => [p.x + opening.inward.x * 0.01, p.y + opening.inward.y * 0.01, z + share * (high - low)];
    const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    return {
      kind: "opening", name, says: "", where, at: inwards(opening, 0.01), outline: [inwards(opening, 0.01, from), inwards(opening, 0.01, to)],
      faces: [{
        look: kind, ring: [moved(from, low), moved(to, low), moved(to, high), moved(from, high)],
        lines: kind === "window" ? [[moved(middle, low), moved(middle, high)], [moved(from, low, 0.5), moved(to, low, 0.5)]] : [],
      }],
    };
  });
}

const inwards = ({ inward, at }: OpeningAt, far: number, p: Point2 = at): Point2 => ({ x: p.x + inward.x * far, y: p.y + inward.y * far });

export const stages = (seen: RoomSeen, eye: Vec3): readonly Standing[] => seen.shape.stages.flatMap((area) => area.outlines.map((outline) => block(area, outline, eye)));

/** A stage: the sides that one sees, and its upper side for whoever looks down on it. */
function block({ name, where, height, named }: AreaAt, outline: readonly Point2[], eye: Vec3): Standing {
  const middle = { x: outline.reduce((sum, p) => sum + p.x, 0) / outline.length, y: outline.reduce((sum, p) => sum + p.y, 0) / outline.length };
  return { kind: "stage", name, says: named ? name : "", where, at: middle, outline, top: height, faces: solidFaces("stage", outline, 0, height, eye) };
}

function solidFaces(look: "stage" | "column", outline: readonly Point2[], low: number, high: number, eye: Vec3): Standing["faces"] {
  const from = { x: eye[0], y: eye[1] };
  const within = contains(outline, from);
  const middle = { x: outline.reduce((sum, p) => sum + p.x, 0) / outline.length, y: outline.reduce((sum, p) => sum + p.y, 0) / outline.length };
  const sides = within ? [] : sidesOfArea(outline).filter(([a, b]) => turn(a, b, from) * turn(a, b, middle) < 0);
  return [
    ...sides.map(([a, b]) => ({ look, ring: [[a.x, a.y, low], [b.x, b.y, low], [b.x, b.y, high], [a.x, a.y, high]] satisfies Vec3[] })),
    ...(eye[2] > high ? [{ look, ring: outline.map((p): Vec3 => [p.x, p.y, high]) }] : []),
  ];
}

export const columns = (seen: RoomSeen, eye: Vec3): readonly Standing[] => seen.shape.columns.map(({ name, at, width, where }) => {
  const outline = rectangle(at, width, width);
  return { kind: "column", name, says: "", where, at, outline, faces: solidFaces("column", outline, heightAt(seen, at.x), seen.shape.height, eye) };
});

export const tables = (seen: RoomSeen, eye: Vec3): readonly Standing[] => seen.shape.tables.map(({ name, at: stated, length, width, where }) => {
  const xs = seen.shape.outline.map((p) => p.x);
  const ys = seen.shape.outline.map((p) => p.y);
  // Placed in words, a table is pushed against the wall, not into it.
  const at = { x: within(stated.x, length / 2, Math.min(...xs), Math.max(...xs)), y: within(stated.y, width / 2, Math.min(...ys), Math.max(...ys)) };
  const outline = rectangle(at, length, width);
  const floor = seen.shape.floorAt(at);
  const top = floor + TABLE_HEIGHT;
  const legs = rectangle(at, Math.max(0.02, length - 0.12), Math.max(0.02, width - 0.12));
  return {
    kind: "table" as const, name, says: "", where, at, outline, top,
    faces: [
      { look: "table" as const, ring: [], lines: legs.map((p): Vec3[] => [[p.x, p.y, floor], [p.x, p.y, top - TOP]]) },
      ...solidFaces("stage", outline, top - TOP, top, eye).map((face) => ({ ...face, look: "table" as const })),
      ...(eye[2] < top - TOP ? [{ look: "table" as const, ring: outline.map((p): Vec3 => [p.x, p.y, top - TOP]) }] : []),
    ],
  };
});

const within = (middle: number, half: number, least: number, most: number): number => (2 * half >= most - least ? (least + most) / 2 : Math.min(Math.max(middle, least + half), most - half));
