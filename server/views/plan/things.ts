/** Where marks are drawn: where the thing is, or as near to it as there is room, so that no mark covers another or a seat. */
import type { GroundPlan, Thing } from "../../signal/ground-plan/plan";
import { meet, type Box } from "../svg/text";
import { placeOf, type Frame, type Spot } from "./frame";
import type { PlacedThing } from "./scene";
import { sideOf } from "./seats";
import { RADIUS } from "./sizes";
import type { Taken } from "../svg/taken";

/** So far a mark is moved at most, pixels. */
const FARTHEST = 150;

/** So near, somebody is on a seat, m. */
const ON_SEAT = 0.35;

export type Unlabelled = Omit<PlacedThing, "label">;

export const around = (at: Spot, radius: number): Box => ({ x: at.x - radius - 1, y: at.y - radius - 1, width: 2 * radius + 2, height: 2 * radius + 2 });

/** `words`: numbers of rows, on which nobody is drawn who sits beside them. */
export function placeThings(plan: GroundPlan, frame: Frame, taken: Taken, words: readonly Box[] = []): Unlabelled[] {
  const all: { readonly thing: Thing; readonly kind: PlacedThing["kind"] }[] = [
    ...plan.people.map((thing) => ({ thing, kind: "talker" as const })),
    ...plan.devices.map((thing) => ({ thing, kind: "device" as const })),
    ...plan.outlets.map((thing) => ({ thing, kind: "outlet" as const })),
  ];
  const least = { x: frame.left, y: frame.top };
  const most = { x: frame.left + plan.width * frame.scale, y: frame.top + plan.length * frame.scale };
  const side = sideOf(plan, frame);
  const seats = plan.rows.flatMap((row) => row.seats).map((seat) => placeOf(frame, seat));
  return all.map(({ thing, kind }) => {
    const truly = placeOf(frame, thing);
    const radius = RADIUS[kind];
    // Somebody who speaks from a seat is drawn on it, unless the seat has a number that is asked for.
    if (kind === "talker" && plan.answer === undefined && !words.some((box) => meet(box, around(truly, radius))) && plan.rows.some((row) => row.seats.some((seat) => Math.hypot(seat.x - thing.x, seat.y - thing.y) < ON_SEAT))) {
      taken.add(around(truly, radius));
      return { thing, kind, at: truly, truly: undefined, moved: undefined, radius };
    }
    const inside = (at: Spot): boolean => at.x - radius >= least.x && at.y - radius >= least.y && at.x + radius <= most.x && at.y + radius <= most.y;
    const at = nearestFree(truly, radius, (spot) => (inside(spot) || spot === truly) && !taken.meets(around(spot, radius)));
    taken.add(around(at, radius));
    return at === truly ? { thing, kind, at, truly: undefined, moved: undefined, radius } : { thing, kind, at, truly, moved: movedFrom(truly, at, seats, side), radius };
  });
}

/** The nearest spot about a point that will do; the point itself where none does. */
export function nearestFree(at: Spot, radius: number, free: (spot: Spot) => boolean): Spot {
  if (free(at)) return at;
  for (let far = 3; far <= FARTHEST; far += 3) {
    const steps = Math.max(8, Math.round((2 * Math.PI * far) / radius));
    for (let i = 0; i < steps; i += 1) {
      const angle = (2 * Math.PI * i) / steps;
      const spot = { x: at.x + far * Math.cos(angle), y: at.y + far * Math.sin(angle) };
      if (free(spot)) return spot;
    }
  }
  return at;
}

/** A line over the number of a seat would strike it out. */
function movedFrom(truly: Spot, at: Spot, seats: readonly Spot[], side: number): PlacedThing["moved"] {
  const seat = seats.find((each) => Math.hypot(each.x - truly.x, each.y - truly.y) < side / 2);
  if (seat === undefined) return [truly, at];
  const far = Math.hypot(at.x - seat.x, at.y - seat.y);
  return far <= side / 2 ? undefined : [{ x: seat.x + ((at.x - seat.x) * side) / 2 / far, y: seat.y + ((at.y - seat.y) * side) / 2 / far }, at];
}

/** Which way something points that was moved from `truly` to `at`, and the short arrow that says so: where to turn it, not how far it reaches. */
export function aimOf(at: Spot, truly: Spot, aim: Spot, radius: number): { readonly way: Spot; readonly line: readonly [Spot, Spot] } {
  const far = Math.hypot(aim.x - truly.x, aim.y - truly.y);
  const way = far < 1e-6 ? { x: 0, y: 1 } : { x: (aim.x - truly.x) / far, y: (aim.y - truly.y) / far };
  const end = Math.min(Math.max(far - 4, radius + 10), 62);
  const along = (by: number): Spot => ({ x: at.x + way.x * by, y: at.y + way.y * by });
  return { way, line: [along(radius), along(end)] };
}

export const boxOfMark = (placed: Pick<PlacedThing, "at" | "radius">): Box => around(placed.at, placed.radius);
