import type { PlaceValue } from "../bound";
import type { Vec3 } from "../geometry";
import type { Trial } from "../trial";
import type { Ground } from "./ground";
import { stepOf } from "./steps";

/** One thing placed by another: follows its own relations, without the heights. */
export function lean(ground: Ground, owner: string, place: PlaceValue, trial: Trial): Vec3 | undefined {
  const steps = place.relations.map((relation, i) => stepOf(ground, owner, relation, i));
  return steps.reduce<Vec3 | undefined>((so, step) => step(trial, so) ?? so, undefined);
}
