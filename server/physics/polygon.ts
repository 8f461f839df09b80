/** Areas on the floor: corners going round, either way; metres. Concave ones too; a side never crosses another. */

/** A point on the floor. */
export interface Point2 {
  readonly x: number;
  readonly y: number;
}

/** Each side of an area, from corner to corner, the last one back to the first. */
export const sidesOfArea = (corners: readonly Point2[]): (readonly [Point2, Point2])[] =>
  corners.flatMap((a, i) => {
    const b = corners[(i + 1) % corners.length];
    return b === undefined ? [] : [[a, b] as const];
  });

const cross = (a: Point2, b: Point2): number => a.x * b.y - b.x * a.y;

/** Twice the area, positive where the corners go round from x toward y. The shoelace formula. */
const twiceArea = (corners: readonly Point2[]): number => sidesOfArea(corners).reduce((sum, [a, b]) => sum + cross(a, b), 0);

/**
 * Area by the shoelace formula (C. F. Gauss), A = ½·|Σ(xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ)|.
 *
 * @param corners going round
 * @returns m²; 0 for fewer than three corners
 */
export const areaOf = (corners: readonly Point2[]): number => Math.abs(twiceArea(corners)) / 2;

/** Way round, in metres. */
export const perimeterOf = (corners: readonly Point2[]): number => sidesOfArea(corners).reduce((sum, [a, b]) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0);

/**
 * Centre of an area, C = Σ(pᵢ + pᵢ₊₁)(pᵢ × pᵢ₊₁)/(6·A).
 *
 * @param corners going round
 * @returns its centre of gravity; the mean of the corners where they enclose nothing
 */
export function centroidOf(corners: readonly Point2[]): Point2 {
  const [origin] = corners;
  if (origin === undefined) return { x: 0, y: 0 };
  const near = corners.map((p) => ({ x: p.x - origin.x, y: p.y - origin.y }));
  const twice = twiceArea(near);
  if (Math.abs(twice) < 1e-12) return { x: corners.reduce((sum, p) => sum + p.x, 0) / corners.length, y: corners.reduce((sum, p) => sum + p.y, 0) / corners.length };
  let x = 0;
  let y = 0;
  for (const [a, b] of sidesOfArea(near)) {
    x += (a.x + b.x) * cross(a, b);
    y += (a.y + b.y) * cross(a, b);
  }
  return { x: origin.x + x / (3 * twice), y: origin.y + y / (3 * twice) };
}

/** Whether a point lies in an area, by the rays that leave it (even–odd rule); a point on the very edge may fall either way. */
export function contains(corners: readonly Point2[], p: Point2): boolean {
  let within = false;
  for (const [a, b] of sidesOfArea(corners)) {
    if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) within = !within;
  }
  return within;
}

/** The point of a stretch from `a` to `b` that is nearest to `p`. */
export function nearestOn(a: Point2, b: Point2, p: Point2): Point2 {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / length2));
  return { x: a.x + t * dx, y: a.y + t * dy };
}

/** The side nearest to a point, where on it, and how far away that is, in metres. Nothing where there are no corners. */
export function nearestSide(corners: readonly Point2[], p: Point2): { readonly side: readonly [Point2, Point2]; readonly at: Point2; readonly far: number } | undefined {
  let best: { side: readonly [Point2, Point2]; at: Point2; far: number } | undefined;
  for (const side of sidesOfArea(corners)) {
    const at = nearestOn(side[0], side[1], p);
    const far = Math.hypot(at.x - p.x, at.y - p.y);
    if (best === undefined || far < best.far) best = { side, at, far };
  }
  return best;
}

/** How far a point lies outside an area, in metres; 0 inside it. */
export const farOutside = (corners: readonly Point2[], p: Point2): number => (contains(corners, p) ? 0 : (nearestSide(corners, p)?.far ?? 0));

/** Which side of the line from a to b a point lies on: positive, negative, or 0 on the line, give or take rounding. */
const turn = (a: Point2, b: Point2, c: Point2): number => {
  const n = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  return Math.abs(n) < 1e-9 ? 0 : n;
};

const onStretch = (a: Point2, b: Point2, p: Point2): boolean =>
  turn(a, b, p) === 0 && p.x >= Math.min(a.x, b.x) - 1e-9 && p.x <= Math.max(a.x, b.x) + 1e-9 && p.y >= Math.min(a.y, b.y) - 1e-9 && p.y <= Math.max(a.y, b.y) + 1e-9;

/** Whether two stretches have a point in common. */
export function meet([a, b]: readonly [Point2, Point2], [c, d]: readonly [Point2, Point2]): boolean {
  const [abc, abd, cda, cdb] = [turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)];
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return onStretch(a, b, c) || onStretch(a, b, d) || onStretch(c, d, a) || onStretch(c, d, b);
}

/**
 * The first two sides that cross or touch where they are no neighbours, or that fold back on each other.
 *
 * @param corners going round
 * @returns the numbers of both sides, from 0; nothing for a proper area
 */
export function crossingSides(corners: readonly Point2[]): readonly [number, number] | undefined {
  const sides = sidesOfArea(corners);
  for (const [i, one] of sides.entries()) {
    for (const [j, other] of sides.entries()) {
      if (j <= i) continue;
      const next = j === i + 1;
      const last = i === 0 && j === sides.length - 1;
      if (!next && !last) {
        if (meet(one, other)) return [i, j];
        continue;
      }
      // Neighbours share a corner: they must not share more.
      const [from, shared, to] = next ? [one[0], one[1], other[1]] : [other[0], other[1], one[1]];
      if (onStretch(shared, to, from) || onStretch(from, shared, to)) return [i, j];
    }
  }
  return undefined;
}

/** What of an area lies at x ≥ `x` (or ≤, with `below`). Sutherland and Hodgman, 1974; seams of no area may be left where it is concave. */
export function cutAt(corners: readonly Point2[], x: number, below = false): Point2[] {
  const inside = (p: Point2): boolean => (below ? p.x <= x : p.x >= x);
  const out: Point2[] = [];
  for (const [a, b] of sidesOfArea(corners)) {
    if (inside(a)) out.push(a);
    if (inside(a) !== inside(b)) out.push({ x, y: a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x) });
  }
  return out;
}

/** A rectangle about a middle: `length` along x, `width` along y, in metres. */
export const rectangle = (middle: Point2, length: number, width: number): Point2[] => [
  { x: middle.x - length / 2, y: middle.y - width / 2 }, { x: middle.x + length / 2, y: middle.y - width / 2 },
  { x: middle.x + length / 2, y: middle.y + width / 2 }, { x: middle.x - length / 2, y: middle.y + width / 2 },
];

/** The band of a width along a stretch; nothing wide where the stretch has no length. */
export function band(a: Point2, b: Point2, width: number): Point2[] {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const n = length === 0 ? { x: 0, y: 0 } : { x: (-(b.y - a.y) / length) * (width / 2), y: ((b.x - a.x) / length) * (width / 2) };
  return [{ x: a.x + n.x, y: a.y + n.y }, { x: b.x + n.x, y: b.y + n.y }, { x: b.x - n.x, y: b.y - n.y }, { x: a.x - n.x, y: a.y - n.y }];
}
