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
import { once } from "../../model/watching/once";

export { called, type Assessment, type Claim, type Grade, type SeatAsked } from "./claim";

/** The claims that a graph has to meet; worked out once. */
export const claims = once((graph: Graph): readonly Claim[] => [...roomHearsOnline(graph), ...onlineHearsRoom(graph), ...roomSeesOnline(graph), ...onlineSeesRoom(graph)]);

/** Devices that any route of a claim leads through, broken or not, by way. */
export const devicesOnWays = once((graph: Graph): ReadonlyMap<string, ReadonlySet<WayName>> => {
  const found = new Map<string, Set<WayName>>();
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
  return found;
});
