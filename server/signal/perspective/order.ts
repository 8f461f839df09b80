/**
 * The order in which things are painted, so that the nearer hides the farther. Whatever has an extent on the floor parts the others:
 * what is behind it is painted before it, what is before it or on it after. What is left are people and small things, by distance.
 */
import type { Vec3 } from "../../physics/geometry";
import { sidesOfArea, type Point2 } from "../../physics/polygon";
import type { Standing } from "./standing";

/** So many things part the others; those of a text that states more are painted by distance. */
const MOST_PARTING = 300;

const PARTING: readonly Standing["kind"][] = ["room", "opening", "screen", "stage", "display", "table", "column"];

export function painted(things: readonly Standing[], eye: Vec3): readonly Standing[] {
  const solids = things.filter((thing) => thing.outline !== undefined).sort((a, b) => PARTING.indexOf(a.kind) - PARTING.indexOf(b.kind)).slice(0, MOST_PARTING);
  return parted(things, solids, eye);
}

function parted(things: readonly Standing[], solids: readonly Standing[], eye: Vec3): readonly Standing[] {
  if (things.length < 2) return things;
  const [by, ...rest] = solids;
  if (by?.outline === undefined) return byDistance(things, eye);
  const { outline, top } = by;
  const [behind, on, before]: [Standing[], Standing[], Standing[]] = [[], [], []];
  for (const thing of things) {
    if (thing === by) continue;
    const how = standsTo(outline, eye, thing.at);
    (how === "on" ? on : how === "before" ? before : behind).push(thing);
  }
  const order = (some: readonly Standing[]): readonly Standing[] => {
    const known = new Set(some);
    return parted(some, rest.filter((solid) => known.has(solid)), eye);
  };
  // Of what stands on a stage that is higher than the eyes its edge hides the feet.
  const above = top === undefined || eye[2] >= top;
  return above ? [...order(behind), by, ...order(on), ...order(before)] : [...order(behind), ...order(on), by, ...order(before)];
}

const byDistance = (things: readonly Standing[], eye: Vec3): Standing[] => {
  const far = (thing: Standing): number => Math.hypot(thing.at.x - eye[0], thing.at.y - eye[1]);
  return things.map((thing) => ({ thing, far: far(thing) })).sort((a, b) => b.far - a.far).map(({ thing }) => thing);
};

const turn = (a: Point2, b: Point2, p: Point2): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

/** Before: one of its sides has both the eye and the point on its outer side, so that the line of sight never comes to it. */
export function standsTo(outline: readonly Point2[], eye: Vec3, point: Point2): "before" | "on" | "behind" {
  const from = { x: eye[0], y: eye[1] };
  const [a, b] = outline;
  if (outline.length < 3) return a === undefined || b === undefined || turn(a, b, from) * turn(a, b, point) >= 0 ? "before" : "behind";
  const sides = sidesOfArea(outline);
  const middle = { x: outline.reduce((sum, p) => sum + p.x, 0) / outline.length, y: outline.reduce((sum, p) => sum + p.y, 0) / outline.length };
  let within = true;
  for (const [p, q] of sides) {
    const inner = Math.sign(turn(p, q, middle));
    const outside = turn(p, q, point) * inner < 0;
    if (outside) within = false;
    if (outside && turn(p, q, from) * inner < 0) return "before";
  }
  return within ? "on" : "behind";
}
