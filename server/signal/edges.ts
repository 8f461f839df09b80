/** The pieces of the signal graph: places that sound or picture passes, and how it gets from one to the next. */
import type { Ranged } from "../model/ranged";
import type { Where } from "../model/where";
import type { Via } from "./drawing/flow";

export type Carried = "sound" | "picture";

/** Why an edge does not carry anything. */
export interface Gap {
  /** In a few words: `no cable`. */
  readonly says: string;
  /** Whole: `nothing connects laptop and box`. */
  readonly sentence: string;
  /** Key of the root cause; findings of one cause are one finding: `no-power projector`, `link laptop box`. */
  readonly cause: string;
  /** Set where the text leaves it open: if this holds, the edge carries after all. */
  readonly open: Ranged | undefined;
  /** The things between which something is missing. */
  readonly between: readonly string[];
}

export interface Edge {
  readonly from: string;
  readonly to: string;
  readonly via: Via;
  /** dB beside nominal. */
  readonly gain: number;
  readonly delay: Ranged | undefined;
  readonly gap: Gap | undefined;
  readonly where: Where | undefined;
}

/** A node is a string of its sort and its name: `port-out:laptop.hdmi`. */
export type Sort =
  | "voice" // a mouth in the room
  | "microphone" | "loudspeaker" | "earphones" | "camera" | "display" // parts
  // Ports, each way apart: what goes out of a port does not come back in at it.
  | "port-in" | "port-out"
  | "in" | "out" | "picture-in" | "picture-out" // what a computer gathers for the call, and gives from it
  | "sends" | "plays" // the call's ends at a join
  | "device" // a device as a whole, where no port of it is in question
  | "online"; // the people online

export const node = (sort: Sort, name: string): string => `${sort}:${name}`;
export const nameOfNode = (id: string): string => id.slice(id.indexOf(":") + 1);
export const sortOf = (id: string): Sort => id.slice(0, id.indexOf(":")) as Sort;
/** The device that a node belongs to: what stands before the first dot that a device bears. */
export const deviceOfNode = (id: string, devices: ReadonlyMap<string, unknown>, key: (name: string) => string): string => {
  let name = nameOfNode(id);
  while (!devices.has(key(name))) {
    const dot = name.lastIndexOf(".");
    if (dot < 0) return name;
    name = name.slice(0, dot);
  }
  return name;
};

/** Directed edges by the node that they leave. */
export class EdgeList {
  readonly #out = new Map<string, Edge[]>();
  readonly #in = new Map<string, Edge[]>();
  readonly all: Edge[] = [];

  add(edge: Edge): void {
    this.all.push(edge);
    push(this.#out, edge.from, edge);
    push(this.#in, edge.to, edge);
  }

  from(id: string): readonly Edge[] {
    return this.#out.get(id) ?? [];
  }

  to(id: string): readonly Edge[] {
    return this.#in.get(id) ?? [];
  }
}

function push(map: Map<string, Edge[]>, key: string, edge: Edge): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [edge]);
  else list.push(edge);
}

/** `forth`: from `end` to every node that it reaches. `back`: from every node that reaches `end`, to it. */
export type Sense = "forth" | "back";

/** The ways from, or to, one node: for each other node the one with the fewest gaps, then the fewest steps. */
export function reach(edges: EdgeList, source: string, sense: Sense = "forth"): ReadonlyMap<string, readonly Edge[]> {
  const next = (id: string): readonly Edge[] => (sense === "forth" ? edges.from(id) : edges.to(id));
  const far = (edge: Edge): string => (sense === "forth" ? edge.to : edge.from);
  const near = (edge: Edge): string => (sense === "forth" ? edge.from : edge.to);
  const best = new Map<string, { gaps: number; steps: number; by: Edge | undefined }>([[source, { gaps: 0, steps: 0, by: undefined }]]);
  // Gaps are few: a queue for each number of them visits every node once.
  let front: string[] = [source];
  const settled = new Set<string>();
  for (let gaps = 0; front.length > 0; gaps += 1) {
    const later: string[] = [];
    for (let i = 0; i < front.length; i += 1) {
      const id = front[i] as string;
      const here = best.get(id);
      if (settled.has(id) || here === undefined || here.gaps < gaps) continue;
      settled.add(id);
      for (const edge of next(id)) {
        const to = far(edge);
        const cost = here.gaps + (edge.gap === undefined ? 0 : 1);
        const known = best.get(to);
        if (known !== undefined && (known.gaps < cost || (known.gaps === cost && known.steps <= here.steps + 1))) continue;
        if (settled.has(to)) continue;
        best.set(to, { gaps: cost, steps: here.steps + 1, by: edge });
        (edge.gap === undefined ? front : later).push(to);
      }
    }
    front = later;
  }
  const paths = new Map<string, readonly Edge[]>();
  for (const id of best.keys()) {
    const path: Edge[] = [];
    let at: string = id;
    for (let by = best.get(at)?.by; by !== undefined; by = best.get(at)?.by) {
      path.push(by);
      at = near(by);
    }
    paths.set(id, sense === "forth" ? path.reverse() : path);
  }
  return paths;
}
