/**
 * Polygons and lines in a camera's picture, cut at a plane just before the lens and at the four edges of the frame.
 * Sutherland and Hodgman, "Reentrant polygon clipping", 1974, in the space before the division by depth, where the edges are planes.
 */
import { axes, type Camera } from "./framing";
import { between, dot, type Vec3 } from "./geometry";

/** A point of a picture: −1 the left and the lower edge, 1 the right and the upper one. */
export type Spot = readonly [across: number, up: number];

/** A point before the division by depth: across, up and depth, all in metres of depth. */
export type BeforeLens = readonly [across: number, up: number, depth: number];

/** Nearer than this to the lens nothing is drawn, m. */
export const NEAR = 0.05;

/** Positive within: the near plane, the right, left, upper and lower edge. */
const PLANES: readonly ((p: BeforeLens) => number)[] = [
  (p) => p[2] - NEAR, (p) => p[2] - p[0], (p) => p[2] + p[0], (p) => p[2] - p[1], (p) => p[2] + p[1],
];

/** A camera with what follows from it worked out once. */
export type Lens = (point: Vec3) => BeforeLens;

/** The projection of a camera, before the division by depth: `across / depth` and `up / depth` are what `project` gives. */
export function lensOf(camera: Camera): Lens {
  const { forward, right, up } = axes(camera);
  const wide = Math.tan(camera.horizontal / 2);
  const high = Math.tan(camera.vertical / 2);
  return (point) => {
    const way = between(camera.position, point);
    return [dot(way, right) / wide, dot(way, up) / high, dot(way, forward)];
  };
}

const divided = (p: BeforeLens): Spot => [p[0] / p[2], p[1] / p[2]];

const cut = (a: BeforeLens, b: BeforeLens, atA: number, atB: number): BeforeLens => {
  const t = atA / (atA - atB);
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])];
};

/**
 * What of a flat polygon lies in the picture.
 *
 * @param lens the camera
 * @param corners going round, m
 * @returns its corners in the picture; empty where nothing of it is seen
 */
export function framedPolygon(lens: Lens, corners: readonly Vec3[]): readonly Spot[] {
  let ring: readonly BeforeLens[] = corners.map(lens);
  for (const plane of PLANES) {
    if (ring.every((p) => plane(p) >= 0)) continue;
    const next: BeforeLens[] = [];
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length] ?? a;
      const [atA, atB] = [plane(a), plane(b)];
      if (atA >= 0) next.push(a);
      if (atA >= 0 !== atB >= 0) next.push(cut(a, b, atA, atB));
    });
    if (next.length < 3) return [];
    ring = next;
  }
  return ring.map(divided);
}

/**
 * What of a stretch from a to b lies in the picture: the same planes one after the other.
 *
 * @param lens the camera
 * @param from m
 * @param to m
 * @returns its ends in the picture; nothing where none of it is seen
 */
export function framedLine(lens: Lens, from: Vec3, to: Vec3): readonly [Spot, Spot] | undefined {
  let [a, b] = [lens(from), lens(to)];
  for (const plane of PLANES) {
    const [atA, atB] = [plane(a), plane(b)];
    if (atA < 0 && atB < 0) return undefined;
    if (atA < 0) a = cut(a, b, atA, atB);
    else if (atB < 0) b = cut(a, b, atA, atB);
  }
  return [divided(a), divided(b)];
}
