/** What stands behind a head, seen from a camera. */
import type { Vec3 } from "../../model/geometry";
import { BUST } from "../../physics/bust";
import type { Vec3 as Triple } from "../../physics/geometry";
import { pointsOf, shadowOn, type Rectangle } from "../../physics/hidden";
import { bodyOf } from "./people";

/** A background so many times as bright as a face turns it dark. Common practice, no source. */
export const BACKLIT = 4;

/** How much of a head lies before something bright, seen from a camera: 0 or 1, and between where its outline crosses the edge. */
export function headBefore(eye: Triple, bright: Rectangle, mouth: Vec3): number {
  const [head] = bodyOf(mouth.x, mouth.y, mouth.z + BUST.above);
  const shadow = head && shadowOn(eye, bright, head);
  if (shadow === undefined) return 0;
  const points = pointsOf(shadow);
  return points.filter(([x, y]) => Math.abs(x) <= 1 && Math.abs(y) <= 1).length / points.length;
}
