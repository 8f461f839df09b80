/** Whether stated corners can be those of a room or of a part of its floor. */
import { areaOf, crossingSides, type Point2 } from "../../physics/polygon";
import { figure } from "../show";

/** Rounding is no mistake, m. */
const SLACK = 0.005;
/** A room is no longer and no wider, m. */
const MOST = 200;
const LIKE = "corners (0 m, 0 m) (9 m, 0 m) (9 m, 4 m) (6 m, 4 m) (6 m, 6.4 m) (0 m, 6.4 m)";

/** Whether corners enclose a floor: then they are the room's, else its length and width are. */
export const encloses = (corners: readonly Point2[]): boolean => wrongWith(corners, 0.2) === undefined;

/** What is wrong with corners, in words; nothing with those of a proper area of at least so many m². */
export function wrongWith(corners: readonly Point2[], least: number): string | undefined {
  if (corners.length < 3) return `“corners” wants at least three points; here ${corners.length === 1 ? "is one" : `are ${corners.length}`}: ${LIKE}.`;
  if (corners.length > 200) return `“corners” takes at most 200 points; here are ${corners.length}.`;
  if (corners.some((p) => p.x < -SLACK || p.y < -SLACK || p.x > MOST || p.y > MOST)) {
    return `Each corner is measured from the front wall and then from the left wall: no figure is below 0 m or above ${MOST} m, as in ${LIKE}.`;
  }
  const crossing = crossingSides(corners);
  if (crossing !== undefined) {
    const side = (i: number): string => `the line from corner ${i + 1} to corner ${((i + 1) % corners.length) + 1}`;
    return `That cannot be: ${side(crossing[0])} meets ${side(crossing[1])}. State the corners in the order in which one comes past them, as in ${LIKE}.`;
  }
  return areaOf(corners) < least ? `These corners enclose ${figure(areaOf(corners))} m²: give each as metres from the front wall and from the left wall, as in ${LIKE}.` : undefined;
}
