/** How much of a flat picture something hides from an eye. Metres. */
import type { Vec3 } from "./geometry";
import { between, dot, length } from "./geometry";

/** A flat, upright or tilted rectangle. */
export interface Rectangle {
  readonly centre: Vec3;
  /** Unit vector along the width; `up` along the height, at right angles to it. */
  readonly right: Vec3;
  readonly up: Vec3;
  readonly width: number;
  readonly height: number;
}

/** An upright flat shape that always turns its face to whoever looks: good for heads, shoulders, columns. */
export interface Upright {
  /** Its middle on the floor plan. */
  readonly x: number;
  readonly y: number;
  readonly bottom: number;
  readonly top: number;
  readonly width: number;
  /** A head is round; shoulders, columns and things are square. */
  readonly round: boolean;
}

/** A convex outline on the picture's plane: 0, 0 the middle, ±1 the edges. */
export type Shadow = readonly (readonly [across: number, up: number])[];

const ROUND = Array.from({ length: 12 }, (_, i) => [Math.cos((2 * Math.PI * i) / 12), Math.sin((2 * Math.PI * i) / 12)] as const);
const SQUARE = [[-1, -1], [1, -1], [1, 1], [-1, 1]] as const;

/** Nearer than this to an eye nobody else's head is, m. */
const NEAR = 0.3;

/** Lines across the picture along which what is hidden is summed: to better than a fortieth of what one shape hides. */
const LINES = 40;

/**
 * The outline that a shape casts on the picture, seen from an eye: the central projection through the eye.
 *
 * @param eye m
 * @param picture the rectangle
 * @param shape what stands there
 * @returns its outline, or nothing where it is not between the two
 */
export function shadowOn(eye: Vec3, picture: Rectangle, shape: Upright): Shadow | undefined {
  const dx = shape.x - eye[0];
  const dy = shape.y - eye[1];
  const apart = Math.hypot(dx, dy);
  if (apart < NEAR) return undefined;
  const normal = cross(picture.right, picture.up);
  const depth = dot(normal, between(eye, picture.centre));
  const half = shape.width / 2;
  const middle = (shape.top + shape.bottom) / 2;
  const tall = (shape.top - shape.bottom) / 2;
  const out: (readonly [number, number])[] = [];
  for (const [a, b] of shape.round ? ROUND : SQUARE) {
    const point: Vec3 = [shape.x - (dy / apart) * half * a, shape.y + (dx / apart) * half * a, middle + tall * b];
    const along = dot(normal, between(eye, point));
    // Behind the picture, or on the other side of the eye.
    if (along * depth <= 0 || Math.abs(along) >= Math.abs(depth)) return undefined;
    const t = depth / along;
    const hit: Vec3 = [eye[0] + t * (point[0] - eye[0]), eye[1] + t * (point[1] - eye[1]), eye[2] + t * (point[2] - eye[2])];
    const from = between(picture.centre, hit);
    out.push([dot(from, picture.right) / (picture.width / 2), dot(from, picture.up) / (picture.height / 2)]);
  }
  return out;
}

/**
 * Share of a picture that shapes hide from an eye, those that overlap counted once.
 *
 * @param eye m
 * @param picture the rectangle
 * @param shapes what stands in the room
 * @returns 0 … 1
 */
export function shareHidden(eye: Vec3, picture: Rectangle, shapes: Iterable<Upright>): number {
  const shadows: Shadow[] = [];
  for (const shape of shapes) {
    const shadow = shadowOn(eye, picture, shape);
    if (shadow !== undefined && touches(shadow)) shadows.push(shadow);
  }
  return shadows.length === 0 ? 0 : covered(shadows);
}

/**
 * Share of the square from −1 to 1 that convex outlines cover together.
 *
 * @param shadows outlines, any of them partly or wholly outside
 * @returns 0 … 1, summed along 40 lines
 */
export function covered(shadows: readonly Shadow[]): number {
  let sum = 0;
  for (let i = 0; i < LINES; i += 1) {
    const y = -1 + (2 * (i + 0.5)) / LINES;
    const spans = shadows.map((shadow) => spanAt(shadow, y)).filter((span): span is [number, number] => span !== undefined).sort((a, b) => a[0] - b[0]);
    let end = -1;
    for (const [from, to] of spans) {
      if (to <= end) continue;
      sum += Math.min(1, to) - Math.max(end, from);
      end = Math.min(1, to);
      if (end >= 1) break;
    }
  }
  return sum / (2 * LINES);
}

/** From where to where an outline covers a line across the picture, kept to the picture. */
function spanAt(shadow: Shadow, y: number): [number, number] | undefined {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < shadow.length; i += 1) {
    const [ax, ay] = shadow[i] as readonly [number, number];
    const [bx, by] = shadow[(i + 1) % shadow.length] as readonly [number, number];
    if (ay > y === by > y) continue;
    const x = ax + ((y - ay) / (by - ay)) * (bx - ax);
    least = Math.min(least, x);
    most = Math.max(most, x);
  }
  return least >= most || most <= -1 || least >= 1 ? undefined : [Math.max(-1, least), Math.min(1, most)];
}

function touches(shadow: Shadow): boolean {
  const beyond = (axis: 0 | 1, sign: 1 | -1): boolean => shadow.every((point) => sign * point[axis] >= 1);
  return !(beyond(0, 1) || beyond(0, -1) || beyond(1, 1) || beyond(1, -1));
}

const cross = (a: Vec3, b: Vec3): Vec3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

/**
 * An upright rectangle that faces a direction on the floor plan.
 *
 * @param centre its middle, m
 * @param facing the way that its face looks, any length; what it has of height is left out; +x where nothing is left
 * @param width m
 * @param height m
 * @returns the rectangle; `right` is to the right of whoever looks at it
 */
export function upright(centre: Vec3, facing: Vec3, width: number, height: number): Rectangle {
  const far = length([facing[0], facing[1], 0]);
  const [nx, ny] = far < 1e-9 ? [1, 0] : [facing[0] / far, facing[1] / far];
  // Whoever looks at it looks along −n; x to the back and y to the right of whoever looks along −x.
  return { centre, right: [-ny, nx, 0], up: [0, 0, 1], width, height };
}
