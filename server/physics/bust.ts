/** Head and shoulders in a camera's picture. Metres, radians. */
import { requirePositive } from "./domain";
import type { Camera } from "./framing";
import { project } from "./framing";
import type { Vec3 } from "./geometry";

/** From the mouth: the top of the head, the upper chest, and how far the shoulders reach to either side, m. Common practice, no source. */
export const BUST = { above: 0.18, below: 0.25, side: 0.23 } as const;

/** Where head and shoulders fall in a picture; −1 and 1 are its edges. */
export interface InFrame {
  /** Along the camera's axis to the mouth, m; not positive behind the camera. */
  readonly depth: number;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
  /** The mouth itself. */
  readonly across: number;
  readonly up: number;
  /** All of it lies in the picture. */
  readonly whole: boolean;
  /** The face at least does. */
  readonly face: boolean;
}

/**
 * Where the head and shoulders of somebody fall in a camera's picture: an upright rectangle turned to the camera, through the
 * pinhole projection.
 *
 * @param camera position, aim and angles of view
 * @param mouth m
 * @param scale of the body; 1 for a grown-up, > 0
 * @returns its bounds; NaN and neither whole nor face where any of it lies behind the camera
 * @throws RangeError when an angle of view lies outside 0 … π or the scale ≤ 0
 */
export function bustInFrame(camera: Camera, mouth: Vec3, scale = 1): InFrame {
  requirePositive("scale", scale);
  const dx = mouth[0] - camera.position[0];
  const dy = mouth[1] - camera.position[1];
  const apart = Math.hypot(dx, dy);
  const [sx, sy] = apart < 1e-9 ? [0, 1] : [-dy / apart, dx / apart];
  const corners = [-1, 1].flatMap((side) => [BUST.above, -BUST.below].map((z): Vec3 => [mouth[0] + sx * side * BUST.side * scale, mouth[1] + sy * side * BUST.side * scale, mouth[2] + z * scale]));
  const seen = corners.map((corner) => project(camera, corner));
  const middle = project(camera, mouth);
  const across = seen.map((p) => p.across);
  const up = seen.map((p) => p.up);
  return {
    depth: middle.depth, left: Math.min(...across), right: Math.max(...across), bottom: Math.min(...up), top: Math.max(...up),
    across: middle.across, up: middle.up, whole: seen.every((p) => p.inside), face: middle.inside,
  };
}
