/** The outline of a room on the floor, and its sides: what is said in words of sides and corners, in metres. */
import { areaOf, centroidOf, contains, cutAt, nearestSide, perimeterOf, rectangle, sidesOfArea, type Point2 } from "../../physics/polygon";
import type { Vec3 } from "../geometry";
import type { Room } from "../room";
import type { Trial } from "../trial";

/** The corners, going round. A stated outline is as long and as wide as the room is in this trial. */
export function outlineOf(room: Room, trial: Trial): readonly Point2[] {
  const length = trial.value(room.length);
  const width = trial.value(room.width);
  const { corners } = room;
  if (corners === undefined) return rectangle({ x: length / 2, y: width / 2 }, length, width);
  const stretch = { x: length / room.length.best, y: width / room.width.best };
  return stretch.x === 1 && stretch.y === 1 ? corners : corners.map((p) => ({ x: p.x * stretch.x, y: p.y * stretch.y }));
}

/** Floor area, m²; length of all walls, m; volume, m³; walls, floor and ceiling, m². The ceiling is level, a sloping floor rises toward it. */
export function sizeOf(room: Room, trial: Trial): { readonly floor: number; readonly round: number; readonly walls: number; readonly volume: number; readonly surface: number } {
  const height = trial.value(room.height);
  const outline = outlineOf(room, trial);
  const floor = areaOf(outline);
  const round = perimeterOf(outline);
  const walls = round * height;
  return { floor, round, walls, volume: Math.max(0.5 * floor * height, floor * height - underSlope(room, outline, trial)), surface: 2 * floor + walls };
}

/** From where to where a floor rises, and by how much, m. */
export function slopeOf(room: Room, trial: Trial): { readonly rise: number; readonly from: number; readonly to: number } | undefined {
  const { slope } = room;
  if (slope === undefined) return undefined;
  const from = slope.from === undefined ? 0 : trial.value(slope.from);
  const to = slope.to === undefined ? trial.value(room.length) : trial.value(slope.to);
  return { rise: trial.value(slope.rise), from, to: Math.max(from + 0.01, to) };
}

/** What lies under a sloping floor, m³: each part of the floor has the height of its own centre. */
function underSlope(room: Room, outline: readonly Point2[], trial: Trial): number {
  const slope = slopeOf(room, trial);
  if (slope === undefined) return 0;
  const rising = cutAt(cutAt(outline, slope.from), slope.to, true);
  const whole = areaOf(cutAt(outline, slope.to));
  return slope.rise * (whole + (areaOf(rising) * (centroidOf(rising).x - slope.from)) / (slope.to - slope.from));
}

export type Side = "front" | "back" | "left" | "right";

/** The wall on one side: of those that look that way the longest, from corner to corner; of a box the whole side. */
export function wallOf(outline: readonly Point2[], side: Side): readonly [Point2, Point2] | undefined {
  const axis = side === "front" || side === "back" ? "x" : "y";
  const along = axis === "x" ? "y" : "x";
  const sign = side === "front" || side === "left" ? 1 : -1;
  const most = Math.min(...outline.map((p) => p[axis] * sign));
  const reach = Math.max(...outline.map((p) => p[axis])) - Math.min(...outline.map((p) => p[axis]));
  let best: readonly [Point2, Point2] | undefined;
  let longest = 0;
  for (const wall of sidesOfArea(outline)) {
    const [a, b] = wall;
    const middle = ((a[axis] + b[axis]) / 2) * sign;
    // Those that lie on that side of the room, and run along it rather than away from it.
    if (Math.abs(b[axis] - a[axis]) > 0.6 * Math.abs(b[along] - a[along]) || middle > most + 0.25 * reach) continue;
    const length = Math.abs(b[along] - a[along]);
    if (length > longest + 1e-9) [best, longest] = [wall, length];
  }
  return best;
}

/** Nothing stands nearer to a wall, the floor or the ceiling than this, m. */
export const FROM_WALL = 0.05;

/** The point, brought inside an outline that need not be a box, and so far from the wall. */
export function broughtIn(outline: readonly Point2[], p: Point2, from = FROM_WALL): Point2 {
  const near = nearestSide(outline, p);
  if (near === undefined || (near.far >= from - 1e-9 && contains(outline, p))) return p;
  const [a, b] = near.side;
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  if (length === 0) return p;
  const n = { x: -(b.y - a.y) / length, y: (b.x - a.x) / length };
  for (const way of [1, -1]) {
    const q = { x: near.at.x + way * from * n.x, y: near.at.y + way * from * n.y };
    if (contains(outline, q)) return q;
  }
  // Beside a corner: toward the middle.
  const middle = centroidOf(outline);
  const far = Math.hypot(middle.x - near.at.x, middle.y - near.at.y);
  return far === 0 ? near.at : { x: near.at.x + ((middle.x - near.at.x) * from) / far, y: near.at.y + ((middle.y - near.at.y) * from) / far };
}

/** The middle of the floor: of the box around it where that lies in the room, else its centre of gravity, brought in. */
export function middleOfOutline(outline: readonly Point2[], length: number, width: number): Point2 {
  const middle = { x: length / 2, y: width / 2 };
  return contains(outline, middle) ? middle : broughtIn(outline, centroidOf(outline), 0.3);
}

/** The point on the floor that those words mean in a room that is no box. */
export function sidesIn(outline: readonly Point2[], sides: readonly string[], length: number, width: number): Vec3 {
  const named = (["front", "back", "left", "right"] as const).filter((side) => sides.includes(side));
  const [one] = named;
  if (one === undefined) return { ...middleOfOutline(outline, length, width), z: 0 };
  if (named.length === 1) {
    const wall = wallOf(outline, one);
    if (wall !== undefined) return { ...broughtIn(outline, { x: (wall[0].x + wall[1].x) / 2, y: (wall[0].y + wall[1].y) / 2 }, sides.includes("corner") ? 0.5 : 0.2), z: 0 };
  }
  const x = named.includes("front") ? -1 : named.includes("back") ? 1 : 0;
  const y = named.includes("left") ? -1 : named.includes("right") ? 1 : 0;
  const far = (p: Point2): number => (x * p.x) / length + (y * p.y) / width;
  const corner = outline.reduce((best, p) => (far(p) > far(best) ? p : best), outline[0] ?? { x: 0, y: 0 });
  const from = sides.includes("corner") ? 0.5 : 0.2;
  return { ...broughtIn(outline, { x: corner.x - x * from, y: corner.y - y * from }), z: 0 };
}
