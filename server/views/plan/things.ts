/** Where marks are drawn: where the thing is, or as near to it as there is room, so that no mark covers another or a seat. */
import type { GroundPlan, Thing } from "../../signal/ground-plan/plan";
import type { Box } from "../svg/text";
import { placeOf, type Frame, type Spot } from "./frame";
import type { PlacedThing } from "./scene";
import { RADIUS } from "./sizes";
import type { Taken } from "./taken";

/** So far a mark is moved at most, pixels. */
const FARTHEST = 150;

/** So near, somebody is on a seat, m. */
const ON_SEAT = 0.35;

export type Unlabelled = Omit<PlacedThing, "label">;

export const around = (at: Spot, radius: number): Box => ({ x: at.x - radius - 1, y: at.y - radius - 1, width: 2 * radius + 2, height: 2 * radius + 2 });

export function placeThings(plan: GroundPlan, frame: Frame, taken: Taken): Unlabelled[] {
  const all: { readonly thing: Thing; readonly kind: PlacedThing["kind"] }[] = [
    ...plan.people.map((thing) => ({ thing, kind: "talker" as const })),
    ...plan.devices.map((thing) => ({ thing, kind: "device" as const })),
    ...plan.outlets.map((thing) => ({ thing, kind: "outlet" as const })),
  ];
  const least = { x: frame.left, y: frame.top };
  const most = { x: frame.left + plan.width * frame.scale, y: frame.top + plan.length * frame.scale };
  return all.map(({ thing, kind }) => {
    const truly = placeOf(frame, thing);
    const radius = RADIUS[kind];
    // Somebody who speaks from a seat is drawn on it, unless the seat has a number that is asked for.
    if (kind === "talker" && plan.answer === undefined && plan.rows.some((row) => row.seats.some((seat) => Math.hypot(seat.x - thing.x, seat.y - thing.y) < ON_SEAT))) {
      taken.add(around(truly, radius));
      return { thing, kind, at: truly, truly: undefined, radius };
    }
    const inside = (at: Spot): boolean => at.x - radius >= least.x && at.y - radius >= least.y && at.x + radius <= most.x && at.y + radius <= most.y;
    const at = nearestFree(truly, radius, (spot) => (inside(spot) || spot === truly) && !taken.meets(around(spot, radius)));
    taken.add(around(at, radius));
    return { thing, kind, at, truly: at === truly ? undefined : truly, radius };
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

export const boxOfMark = (placed: Pick<PlacedThing, "at" | "radius">): Box => around(placed.at, placed.radius);
