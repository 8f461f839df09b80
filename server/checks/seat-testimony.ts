/** What something noticed on the evening has to do with seats that hear the people online. */
import { canonical } from "../model/names";
import type { Observation } from "../model/observations";
import { Trial } from "../model/trial";
import { listeners } from "../signal/air";
import { nameOfNode } from "../signal/edges";
import { callPlayers } from "../signal/seats/carriers";
import type { Scene } from "./check";
import { concerns, seatsMeant } from "./observes";

/**
 * The seats of a group that a statement speaks of, as places in `listeners`; nothing where it speaks of something else: of a device
 * through which the call is not played, of somebody's voice, of other seats.
 */
export function aboutSeats(scene: Scene, group: string, seen: Observation): readonly number[] | undefined {
  const { setup, graph } = scene;
  const players = callPlayers(graph);
  if (players.length === 0) return undefined;
  if (seen.subject !== undefined) {
    if (setup.voices.has(canonical(seen.subject)) || setup.floor.group(seen.subject) !== undefined) return undefined;
    const through = players.flatMap(({ path }) => path.flatMap((edge) => [nameOfNode(edge.from), nameOfNode(edge.to)]));
    if (!through.some((name) => concerns(seen, [name]))) return undefined;
  }
  const meant = seatsMeant(setup, seen);
  const own = listeners(setup, new Trial()).flatMap((ear, i) => (ear.group === group && meant?.(ear) !== false ? [i] : []));
  return own.length === 0 ? undefined : own;
}
