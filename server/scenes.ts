/** A setup in each item of its programme, and the cases of a check in it: each made once, and only when it is asked for. */
import type { Case, Check, Scene } from "./checks/check";
import type { Setup } from "./model/setup";
import { once, onceFor } from "./model/watching/once";
import { makeGraph, type Graph } from "./signal/graph";
import { feeds } from "./signal/power";

/** The items of a programme; without one there is one stretch of no name. */
export const itemsOf = (setup: Setup): readonly (string | undefined)[] => (setup.items.length > 0 ? setup.items.map((item) => item.name) : [undefined]);

/** A setup in each item of its programme; of items that nobody asks about no graph is made. */
export const scenesOf = once((setup: Setup): readonly Scene[] => itemsOf(setup).map((item): Scene => ({ setup, item, get graph() { return graphIn(setup, item); } })));
const feedsOf = once(feeds);
/** The graph of a setup in an item. */
export const graphIn = onceFor((item: string | undefined) => item ?? "", (setup: Setup, item: string | undefined): Graph => makeGraph(setup, item, feedsOf(setup)));

/** By key, the cases of a check in a scene. */
export const casesIn = onceFor((check: Check) => check.entry.code, (scene: Scene, check: Check): ReadonlyMap<string, Case> => new Map(check.cases(scene).map((one) => [one.key, one])));
