/** What a camera frames. Lengths in metres, angles in radians. */
import { requireNonNegative, requirePositive } from "./domain";
import type { Vec3 } from "./geometry";
import { between, dot, length } from "./geometry";

/** Width of a face, m (common practice in surveillance). */
export const FACE_WIDTH = 0.16;

function requireView(angle: number): void {
  requirePositive("angle of view", angle);
  if (angle >= Math.PI) throw new RangeError(`An angle of view must be less than 180°, not ${(angle * 180) / Math.PI}°.`);
}

/**
 * Angle of view of a lens, α = 2·arctan(d/2f). For a lens that draws straight lines straight, focused far away.
 *
 * @param sensorSize d, width, height or diagonal of the sensor part in use, m, > 0
 * @param focalLength f, m, > 0
 * @returns α in that direction, rad
 * @throws RangeError when a length ≤ 0
 */
export function angleOfView(sensorSize: number, focalLength: number): number {
  requirePositive("sensor size", sensorSize);
  requirePositive("focal length", focalLength);
  return 2 * Math.atan(sensorSize / (2 * focalLength));
}

/** A direction across the picture. */
export type Direction = "horizontal" | "vertical" | "diagonal";

function extent(direction: Direction, aspect: number): number {
  switch (direction) {
    case "horizontal":
      return aspect;
    case "vertical":
      return 1;
    case "diagonal":
      return Math.hypot(aspect, 1);
  }
}

/**
 * Angle of view in another direction, tan(α₂/2) = tan(α₁/2)·e₂/e₁, with e = aspect, 1, √(aspect² + 1) for horizontal, vertical,
 * diagonal.
 *
 * @param angle α₁, rad, between 0 and π
 * @param from direction of α₁
 * @param to direction wanted
 * @param aspect width over height of the picture, > 0; 16/9 for most
 * @returns α₂, rad
 * @throws RangeError when the angle lies outside 0 … π or the aspect ≤ 0
 */
export function convertView(angle: number, from: Direction, to: Direction, aspect: number): number {
  requireView(angle);
  requirePositive("aspect", aspect);
  return 2 * Math.atan((Math.tan(angle / 2) * extent(to, aspect)) / extent(from, aspect));
}

/**
 * Angle of view of a lens that is zoomed in: its focal length grows as the factor, so the tangent of the half angle shrinks by it.
 *
 * @param angle α at the widest, in any one direction, rad, between 0 and π
 * @param factor z, focal length over the shortest, > 0
 * @returns 2·atan(tan(α/2)/z), rad
 * @throws RangeError when the angle lies outside 0 … π or the factor ≤ 0
 */
export function zoomedAngle(angle: number, factor: number): number {
  requireView(angle);
  requirePositive("zoom factor", factor);
  return 2 * Math.atan(Math.tan(angle / 2) / factor);
}

/**
 * Width of the scene that a camera frames at a distance, w = 2·D·tan(α/2).
 *
 * @param angle α, rad, between 0 and π
 * @param depth D along the axis, m, ≥ 0
 * @returns w, m
 * @throws RangeError when the angle lies outside 0 … π or the depth is negative
 */
export function widthAt(angle: number, depth: number): number {
  requireView(angle);
  requireNonNegative("depth", depth);
  return 2 * depth * Math.tan(angle / 2);
}

/**
 * Pixels to the metre at a distance, p/w.
 *
 * @param pixels p across the picture in that direction, ≥ 0
 * @param angle α in that direction, rad
 * @param depth D along the axis, m; 0 gives Infinity
 * @returns 1/m
 * @throws RangeError when the angle lies outside 0 … π or another quantity is negative
 */
export function pixelsPerMetre(pixels: number, angle: number, depth: number): number {
  requireNonNegative("number of pixels", pixels);
  return pixels / widthAt(angle, depth);
}

/**
 * Pixels across a face in the stream as sent.
 *
 * @param pixels width of the stream, ≥ 0
 * @param angle horizontal angle of view, rad
 * @param depth distance along the axis, m; 0 gives Infinity
 * @param faceWidth m
 * @returns pixels
 * @throws RangeError as `pixelsPerMetre`
 */
export function pixelsAcrossFace(pixels: number, angle: number, depth: number, faceWidth = FACE_WIDTH): number {
  requireNonNegative("face width", faceWidth);
  return pixelsPerMetre(pixels, angle, depth) * faceWidth;
}

/** A camera held level (no roll). */
export interface Camera {
  /** p, where it stands, m. */
  readonly position: Vec3;
  /** q, the point that it is aimed at, m. */
  readonly aim: Vec3;
  /** Horizontal angle of view, rad, between 0 and π. */
  readonly horizontal: number;
  /** Vertical angle of view, rad, between 0 and π. */
  readonly vertical: number;
}

/** Where a point falls in a picture. */
export interface InPicture {
  /** Distance along the camera's axis, m; negative behind it. */
  readonly depth: number;
  /** From −1 at the left edge of the picture to 1 at the right; beyond outside. NaN where the point lies behind. */
  readonly across: number;
  /** From −1 at the bottom edge to 1 at the top. NaN where the point lies behind. */
  readonly up: number;
  /** The point lies before the camera and within all four edges. */
  readonly inside: boolean;
}

/**
 * Where a point falls in a camera's picture: the pinhole projection.
 *
 * The picture's horizontal is level; a camera aimed straight up or down takes the room's y axis as its right. A camera aimed at
 * its own position looks along +x.
 *
 * @param camera position, aim and angles of view
 * @param point the point, m
 * @returns depth and place in the picture
 * @throws RangeError when an angle of view lies outside 0 … π
 */
export function project(camera: Camera, point: Vec3): InPicture {
  requireView(camera.horizontal);
  requireView(camera.vertical);
  const { forward, right, up } = axes(camera);
  const way = between(camera.position, point);
  const depth = dot(way, forward);
  if (depth <= 0) return { depth, across: NaN, up: NaN, inside: false };
  const across = dot(way, right) / (depth * Math.tan(camera.horizontal / 2));
  const height = dot(way, up) / (depth * Math.tan(camera.vertical / 2));
  return { depth, across, up: height, inside: Math.abs(across) <= 1 && Math.abs(height) <= 1 };
}

/**
 * Unit vectors of a camera held level: right = forward × z, up = right × forward. The room's axes are right-handed: whoever
 * looks toward the front wall, along −x, has +y at the right.
 */
export function axes(camera: Camera): Axes {
  const known = AXES.get(camera);
  if (known !== undefined) return known;
  const made = makeAxes(camera);
  AXES.set(camera, made);
  return made;
}

interface Axes {
  readonly forward: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
}

/** A camera sees many points: its axes are worked out once. */
const AXES = new WeakMap<Camera, Axes>();

function makeAxes(camera: Camera): Axes {
  const aimed = between(camera.position, camera.aim);
  const far = length(aimed);
  const forward: Vec3 = far === 0 ? [1, 0, 0] : [aimed[0] / far, aimed[1] / far, aimed[2] / far];
  const level = Math.hypot(forward[0], forward[1]);
  const right: Vec3 = level < 1e-9 ? [0, 1, 0] : [forward[1] / level, -forward[0] / level, 0];
  const up: Vec3 = [right[1] * forward[2], -right[0] * forward[2], right[0] * forward[1] - right[1] * forward[0]];
  return { forward, right, up };
}
