/** Who says again what somebody else says, so that those far away get it. */
import { valuesOf } from "../../model/bound";
import { holding } from "../../model/during";
import { canonical } from "../../model/names";
import type { Voice } from "../../model/setup";
import type { Graph } from "../graph";

/** Talkers who say again what somebody says, in this item. */
export function repeaters(graph: Graph, voice: Voice): Voice[] {
  return [...graph.setup.voices.values()].filter((other) => other !== voice && holding(other.statements, "repeats", graph.item)
    .some((s) => !s.negated && valuesOf(s, "of", "name").some((n) => canonical(n.text) === canonical(voice.name) || (canonical(n.text) === "audience" && voice.seats !== undefined))));
}
