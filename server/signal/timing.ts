/** How late sound and picture arrive, the call left out: what devices, radio and air add on this side. */
import { assumed } from "../model/make-ranged";
import type { Trial } from "../model/trial";
import { node, type Edge } from "./edges";
import { carries, delayOf, ONLINE, type Ending, type Graph } from "./graph";

export interface Late {
  readonly ending: Ending;
  readonly path: readonly Edge[];
  /** s, from the join to the device or the reverse. */
  delay(trial: Trial): number;
}

/** Devices of a sort that a way leads to (`forth`: from the people online) or from. */
function late(graph: Graph, carried: "sound" | "picture", type: "loudspeaker" | "display" | "microphone" | "camera", sense: "forth" | "back"): readonly Late[] {
  const ways = graph.ways(carried, ONLINE, sense);
  return [...graph.endings.values()].flatMap((ending): Late[] => {
    if (ending.part.type !== type) return [];
    const path = ways.get(node(type, ending.part.id));
    if (path === undefined || path.length === 0) return [];
    // A camera or a display takes time of its own, whether or not its kind says how much.
    const inside = carried === "picture" && !path.some((edge) => edge.delay !== undefined && edge.via !== "call") ? typicalDelay(ending, type) : undefined;
    const own = carried === "sound" ? processing : inside;
    return [{ ending, path, delay: (trial) => delayOf(path, trial) + (own === undefined ? 0 : trial.value(own)) }];
  });
}

/** A computer keeps sound back for a moment on its way in and out: buffers, cancelling, levelling. Common practice, no source. */
const processing = assumed("sound-processing", "how long a computer takes to process sound", "time", { best: 0.04, low: 0.02, high: 0.08, source: "common practice, no source" });

/** USB cameras and displays, where the kind has no figure. Common practice, no source. */
const typicalDelay = ({ part }: Ending, type: string) => assumed(`${part.id}.delay`, `the delay of ${part.id}`, "time",
  type === "camera" ? { best: 0.07, low: 0.05, high: 0.12, source: "common practice, no source" } : { best: 0.05, low: 0.02, high: 0.12, source: "common practice, no source" });

/** What plays, and what shows, the people online. */
export const playing = (graph: Graph): readonly Late[] => late(graph, "sound", "loudspeaker", "forth");
export const showing = (graph: Graph): readonly Late[] => late(graph, "picture", "display", "forth");
/** What hears, and what films, the room for the people online. */
export const hearing = (graph: Graph): readonly Late[] => late(graph, "sound", "microphone", "back");
export const filming = (graph: Graph): readonly Late[] => late(graph, "picture", "camera", "back");

export const carriesNow = (one: Late, trial: Trial): boolean => carries(one.path, trial);
