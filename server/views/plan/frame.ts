/** From metres on the floor to pixels: the front of the room is at the top, as the audience sees it. */
import type { Answer, GroundPlan, Point } from "../../signal/ground-plan/plan";
import { LARGEST, MOST_SCALE, SEAT, type Measures } from "./sizes";

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export interface Frame {
  /** Pixels to the metre. */
  readonly scale: number;
  /** Where the front left corner of the room is. */
  readonly left: number;
  readonly top: number;
}

/** The place in the drawing of a point on the floor. */
export const placeOf = (frame: Frame, point: Point): Spot => ({ x: frame.left + point.y * frame.scale, y: frame.top + point.x * frame.scale });

/** Pixels to the metre: as large as there is room for, larger where seats would be too small to read, and bounded. */
export function scaleFor(plan: Pick<GroundPlan, "length" | "width" | "seatSize" | "rows"> & { readonly answer: Answer | undefined }, measures: Measures): number {
  const length = Math.max(0.5, plan.length);
  const width = Math.max(0.5, plan.width);
  const fits = Math.min(measures.room.width / width, measures.room.height / length, MOST_SCALE);
  const seats = plan.rows.length === 0 ? 0 : SEAT.least / plan.seatSize;
  return Math.min(Math.max(fits, seats), LARGEST / Math.max(length, width));
}
