/** The floor of a room along a line from the front wall to the back. */
import type { RoomShape } from "../../model/room-shape";
import type { Point } from "../ground-plan/plan";

/** A floor is looked at this often, m; in a very long room at so many places. */
const STEP = 0.05;
const MOST = 2400;
/** What rises more than this from one place to the next is a step, m. */
const SHEER = 0.04;

/** What lies this near to a line is on it, m. */
const FLAT = 1e-3;

/** Corners of the floor's outline at `y` from the left wall: a step goes straight up, to within 5 cm of where it is. */
export function floorProfile(shape: Pick<RoomShape, "floorAt">, length: number, y: number): Point[] {
  const count = Math.max(2, Math.min(MOST, Math.ceil(length / STEP)));
  const at = (i: number): Point => {
    const x = (length * i) / count;
    return { x, y: shape.floorAt({ x: Math.min(Math.max(x, 1e-4), length - 1e-4), y }) };
  };
  const points: Point[] = [at(0)];
  let before = at(0);
  for (let i = 1; i <= count; i += 1) {
    const here = at(i);
    if (Math.abs(here.y - before.y) > Math.max(SHEER, 0.6 * (here.x - before.x))) {
      const middle = (before.x + here.x) / 2;
      points.push({ x: middle, y: before.y }, { x: middle, y: here.y });
    } else points.push(here);
    before = here;
  }
  points.push(before);
  return straightened(points);
}

/** Without the points that lie on a line with their neighbours. */
function straightened(points: readonly Point[]): Point[] {
  const out: Point[] = [];
  for (const point of points) {
    const [a, b] = [out.at(-2), out.at(-1)];
    if (a !== undefined && b !== undefined && Math.abs((b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x)) < FLAT * Math.hypot(point.x - a.x, point.y - a.y)) out.pop();
    out.push(point);
  }
  return out;
}
