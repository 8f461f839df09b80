/** A floor plan in words, for those who cannot see it: the room, what stands where, and what was asked. */
import type { GroundPlan, Thing } from "../../signal/ground-plan/plan";
import { shorten } from "../svg/wrap";
import type { Scene } from "./scene";

const MOST = 60;
const NAME_LENGTH = 80;
const brief = (name: string): string => shorten(name, 1, NAME_LENGTH);

function where(plan: GroundPlan, { x, y }: Thing): string {
  const metres = (n: number): string => `${Math.max(0, n).toFixed(1)} m`;
  return `${metres(x)} from the front, ${metres(y)} from the left of ${metres(plan.width)}`;
}

export function describe(plan: GroundPlan, scene: Scene): { title: string; description: string } {
  const title = `Floor plan: ${plan.title}${plan.item === undefined ? "" : `, during ${plan.item}`}`;
  const parts = [`${brief(plan.room)} from above, the front at the top: ${plan.width.toFixed(1)} m wide, ${plan.length.toFixed(1)} m deep, ${plan.height.toFixed(1)} m high${plan.assumedSize ? ", assumed" : ""}.`];
  if (plan.asked !== undefined) parts.push(plan.asked.question, plan.asked.result);
  for (const row of scene.rows.slice(0, MOST)) parts.push(`${brief(row.says)}.`);
  if (scene.rows.length > MOST) parts.push(`${scene.rows.length - MOST} more rows.`);
  const things = [...plan.people, ...plan.devices, ...plan.outlets];
  for (const thing of things.slice(0, MOST)) parts.push(`${brief(thing.name)}: ${where(plan, thing)}${thing.aimWords === "" ? "" : `, points at ${brief(thing.aimWords)}`}.`);
  if (things.length > MOST) parts.push(`${things.length - MOST} more things.`);
  for (const route of scene.routes.slice(0, MOST)) parts.push(`${brief(route.route.from)} to ${brief(route.route.to)}: ${route.route.length.toFixed(1)} m.`);
  return { title, description: parts.join(" ") };
}
