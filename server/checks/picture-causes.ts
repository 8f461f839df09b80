/** Keys of what is wrong with a picture: findings that share one share a cause. */
import { canonical } from "../model/names";
import type { Showing } from "../signal/pictures/showing";

/** A picture that is too small, whatever is shown on it. */
export const smallKey = (showing: Showing): string => `small ${canonical(showing.ending.part.id)}`;
