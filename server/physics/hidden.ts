/** How much of a flat picture something hides from an eye. Metres. */
import type { Vec3 } from "./geometry";
import { length } from "./geometry";

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

/** A convex outline on the picture's plane, across and up of one point after the other: 0, 0 the middle, ±1 the edges. */
export type Shadow = Float64Array;

/** The points of an outline one by one. */
export const pointsOf = (shadow: Shadow): (readonly [across: number, up: number])[] => Array.from({ length: shadow.length / 2 }, (_, i) => [shadow[2 * i] ?? 0, shadow[2 * i + 1] ?? 0] as const);

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
  const { right, up, centre } = picture;
  const [nx, ny, nz] = cross(right, up);
  const depth = nx * (centre[0] - eye[0]) + ny * (centre[1] - eye[1]) + nz * (centre[2] - eye[2]);
  const half = shape.width / 2;
  const middle = (shape.top + shape.bottom) / 2;
  const tall = (shape.top - shape.bottom) / 2;
  const corners = shape.round ? ROUND : SQUARE;
  const out = new Float64Array(corners.length * 2);
  let at = 0;
  for (const [a, b] of corners) {
    const px = dx - (dy / apart) * half * a;
    const py = dy + (dx / apart) * half * a;
    const pz = middle + tall * b - eye[2];
    const along = nx * px + ny * py + nz * pz;
    // Behind the picture, or on the other side of the eye.
    if (along * depth <= 0 || Math.abs(along) >= Math.abs(depth)) return undefined;
    const t = depth / along;
    const [hx, hy, hz] = [eye[0] + t * px - centre[0], eye[1] + t * py - centre[1], eye[2] + t * pz - centre[2]];
    out[at] = (hx * right[0] + hy * right[1] + hz * right[2]) / (picture.width / 2);
    out[at + 1] = (hx * up[0] + hy * up[1] + hz * up[2]) / (picture.height / 2);
    at += 2;
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
  const [nx, ny, nz] = cross(picture.right, picture.up);
  const depth = nx * (picture.centre[0] - eye[0]) + ny * (picture.centre[1] - eye[1]) + nz * (picture.centre[2] - eye[2]);
  for (const shape of shapes) {
    if (passes(eye, picture, shape, nx * (shape.x - eye[0]) + ny * (shape.y - eye[1]) + nz * ((shape.top + shape.bottom) / 2 - eye[2]), depth)) continue;
    const shadow = shadowOn(eye, picture, shape);
    if (shadow !== undefined && touches(shadow)) shadows.push(shadow);
  }
  return shadows.length === 0 ? 0 : covered(shadows);
}

/** Whether a shape is sure to leave the picture free, told by its middle and a ball around it that is twice as large as need be. */
function passes(eye: Vec3, { centre, right, up, width, height }: Rectangle, shape: Upright, along: number, depth: number): boolean {
  if (along * depth <= 0) return Math.abs(along) > shape.width;
  const t = depth / along;
  const [x, y, z] = [eye[0] + t * (shape.x - eye[0]) - centre[0], eye[1] + t * (shape.y - eye[1]) - centre[1], eye[2] + t * ((shape.top + shape.bottom) / 2 - eye[2]) - centre[2]];
  const ball = t * (shape.width + shape.top - shape.bottom);
  return Math.abs(x * right[0] + y * right[1] + z * right[2]) > width / 2 + ball || Math.abs(x * up[0] + y * up[1] + z * up[2]) > height / 2 + ball;
}

/**
 * Share of the square from −1 to 1 that convex outlines cover together.
 *
 * @param shadows outlines, any of them partly or wholly outside
 * @returns 0 … 1, summed along 40 lines
 */
export function covered(shadows: readonly Shadow[]): number {
  const lines: (number[] | undefined)[] = [];
  for (const shadow of shadows) spread(shadow, lines);
  let sum = 0;
  for (const line of lines) {
    if (line === undefined) continue;
    // The starts of all spans, in order, each with its end.
    const starts = Array.from({ length: line.length / 2 }, (_, i) => 2 * i).sort((p, q) => (line[p] ?? 0) - (line[q] ?? 0));
    let end = -1;
    for (const start of starts) {
      const to = Math.min(1, line[start + 1] ?? -1);
      if (to <= end) continue;
      sum += to - Math.max(end, line[start] ?? 1);
      end = to;
      if (end >= 1) break;
    }
  }
  return sum / (2 * LINES);
}

/** Adds to each line across the picture from where to where an outline covers it, kept to the picture. */
function spread(shadow: Shadow, lines: (number[] | undefined)[]): void {
  let [lowest, highest] = [Infinity, -Infinity];
  for (let i = 1; i < shadow.length; i += 2) {
    const y = shadow[i] ?? 0;
    if (y < lowest) lowest = y;
    if (y > highest) highest = y;
  }
  const last = Math.min(LINES - 1, Math.ceil(((highest + 1) * LINES) / 2 - 0.5));
  for (let line = Math.max(0, Math.floor(((lowest + 1) * LINES) / 2 - 0.5)); line <= last; line += 1) {
    const y = -1 + (2 * (line + 0.5)) / LINES;
    let [least, most] = [Infinity, -Infinity];
    let [ax, ay] = [shadow[shadow.length - 2] ?? 0, shadow[shadow.length - 1] ?? 0];
    for (let i = 0; i < shadow.length; i += 2) {
      const [bx, by] = [shadow[i] ?? 0, shadow[i + 1] ?? 0];
      if (ay > y !== by > y) {
        const x = ax + ((y - ay) / (by - ay)) * (bx - ax);
        if (x < least) least = x;
        if (x > most) most = x;
      }
      [ax, ay] = [bx, by];
    }
    if (least < most && most > -1 && least < 1) (lines[line] ??= []).push(Math.max(-1, least), Math.min(1, most));
  }
}

/** Whether an outline may reach into the picture. */
function touches(shadow: Shadow): boolean {
  for (let axis = 0; axis < 2; axis += 1) {
    let [under, over] = [true, true];
    for (let i = axis; i < shadow.length; i += 2) {
      const value = shadow[i] ?? 0;
      if (value > -1) under = false;
      if (value < 1) over = false;
    }
    if (under || over) return false;
  }
  return true;
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
