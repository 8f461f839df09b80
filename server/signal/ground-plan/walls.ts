/** Rays and ways in a room whose walls go round as a polygon, on the floor, in metres. */
import type { Point } from "./plan";

/** Walls as pairs of corners. */
export const wallsOf = (outline: readonly Point[]): (readonly [Point, Point])[] =>
  outline.flatMap((from, i) => {
    const to = outline[(i + 1) % outline.length];
    return to === undefined ? [] : [[from, to] as const];
  });

/** How far a ray goes until it meets a wall or one of the `obstacles`, m; at most `most`. `way`: a unit vector. */
export function reachOf(outline: readonly Point[], from: Point, way: Point, most: number, obstacles: readonly (readonly Point[])[] = []): number {
  let reach = most;
  for (const ring of [outline, ...obstacles]) {
    for (const [a, b] of wallsOf(ring)) {
      const ex = b.x - a.x;
      const ey = b.y - a.y;
      const across = way.x * ey - way.y * ex;
      if (Math.abs(across) < 1e-12) continue;
      const along = ((a.x - from.x) * ey - (a.y - from.y) * ex) / across;
      const share = ((a.x - from.x) * way.y - (a.y - from.y) * way.x) / across;
      if (along > 1e-6 && along < reach && share >= -1e-9 && share <= 1 + 1e-9) reach = along;
    }
  }
  return reach;
}

/** The nearest point of the walls, how far it is, m, and how far it lies along the round of the walls from the first corner, m. */
export function nearestWall(outline: readonly Point[], point: Point): { readonly at: Point; readonly distance: number; readonly along: number } {
  let best = { at: point, distance: Infinity, along: 0 };
  let before = 0;
  for (const [a, b] of wallsOf(outline)) {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const share = length === 0 ? 0 : Math.min(1, Math.max(0, ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length ** 2));
    const at = { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
    const distance = Math.hypot(point.x - at.x, point.y - at.y);
    if (distance < best.distance) best = { at, distance, along: before + share * length };
    before += length;
  }
  return best;
}

/** Along the walls from one place on their round to another, the shorter way about: the corners between. */
export function alongWalls(outline: readonly Point[], from: number, to: number): Point[] {
  const walls = wallsOf(outline);
  const corners: { readonly at: Point; readonly along: number }[] = [];
  let round = 0;
  for (const [a, b] of walls) {
    corners.push({ at: a, along: round });
    round += Math.hypot(b.x - a.x, b.y - a.y);
  }
  const forth = (((to - from) % round) + round) % round;
  const forward = forth <= round / 2;
  const span = forward ? forth : round - forth;
  const past = (along: number): number => (((forward ? along - from : from - along) % round) + round) % round;
  return corners.map(({ at, along }) => ({ at, past: past(along) })).filter((corner) => corner.past > 1e-9 && corner.past < span - 1e-9)
    .sort((a, b) => a.past - b.past).map((corner) => corner.at);
}

/** Length of a way, m. */
export const lengthOf = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, point, i) => sum + Math.hypot(point.x - (points[i]?.x ?? point.x), point.y - (points[i]?.y ?? point.y)), 0);

/** The corners moved outwards by so much, or inwards where it is negative, each by both of its walls. */
export function offset(outline: readonly Point[], far: number): Point[] {
  const turned = outline.reduce((sum, a, i) => {
    const b = outline[(i + 1) % outline.length] ?? a;
    return sum + (b.x - a.x) * (b.y + a.y);
  }, 0);
  const outwards = (a: Point, b: Point): Point => {
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const sign = turned < 0 ? 1 : -1;
    return length < 1e-9 ? { x: 0, y: 0 } : { x: (sign * (b.y - a.y)) / length, y: (-sign * (b.x - a.x)) / length };
  };
  return outline.map((at, i) => {
    const before = outline[(i + outline.length - 1) % outline.length] ?? at;
    const after = outline[(i + 1) % outline.length] ?? at;
    const [n, m] = [outwards(before, at), outwards(at, after)];
    const share = Math.max(0.5, 1 + n.x * m.x + n.y * m.y);
    return { x: at.x + ((n.x + m.x) / share) * far, y: at.y + ((n.y + m.y) / share) * far };
  });
}
