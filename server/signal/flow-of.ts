import type { Flow } from "./flow";
import type { Graph } from "./graph";
export function flowOf(graph: Graph, _ways: readonly unknown[], _findings: readonly unknown[] = []): Flow {
  throw new Error(`todo ${graph.setup.root}`);
}
