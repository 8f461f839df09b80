/** Who reaches whom: the claims that a meeting makes on the four ways across, and how each is met. */
import { canonical } from "../../model/names";
import type { WayName } from "../../model/ways";
import { deviceOfNode } from "../edges";
import type { Graph } from "../graph";
import type { Claim } from "./claim";
import { onlineHearsRoom } from "./online-hears-room";
import { onlineSeesRoom } from "./online-sees-room";
import { roomHearsOnline } from "./room-hears-online";
import { roomSeesOnline } from "./room-sees-online";

export { called, type Assessment, type Claim, type Grade, type SeatAsked } from "./claim";

const CLAIMS = new WeakMap<Graph, readonly Claim[]>();

/** The claims that a graph has to meet; worked out once. */
export function claims(graph: Graph): readonly Claim[] {
  let found = CLAIMS.get(graph);
  if (found === undefined) {
    found = [...roomHearsOnline(graph), ...onlineHearsRoom(graph), ...roomSeesOnline(graph), ...onlineSeesRoom(graph)];
    CLAIMS.set(graph, found);
  }
  return found;
}

/** Devices that any route of a claim leads through, broken or not, by way. */
export function devicesOnWays(graph: Graph): ReadonlyMap<string, ReadonlySet<WayName>> {
  let found = ON_WAYS.get(graph);
  if (found === undefined) {
    found = new Map<string, Set<WayName>>();
    for (const claim of claims(graph)) {
      for (const edge of claim.routes.flat()) {
        for (const id of [edge.from, edge.to]) {
          const key = canonical(deviceOfNode(id, graph.setup.devices, canonical));
          const ways = found.get(key) ?? new Set<WayName>();
          ways.add(claim.way);
          found.set(key, ways);
        }
      }
    }
    ON_WAYS.set(graph, found);
  }
  return found;
}
const ON_WAYS = new WeakMap<Graph, Map<string, Set<WayName>>>();
