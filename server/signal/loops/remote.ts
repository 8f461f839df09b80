/** Rooms at the other end of the call: what is played there comes back unless they cancel it. */
import { assumed, exactly, unsaid } from "../../model/make-ranged";
import type { Ranged } from "../../model/ranged";
import type { RemoteRoom } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { CANCELLER_LOSS, talkerEchoLoudnessRating } from "../../physics/coupling";
import { acceptableTelr } from "../../physics/talkerEcho";
import { callDelay, type Graph } from "../graph";

/** Whether a room at the other end cancels its echo; where nothing is said it is taken to, and asked for. */
export const remoteCancels = (room: RemoteRoom): Ranged => (room.cancels === undefined
  ? unsaid(`remote-room.${room.name}.cancels`, `whether ${room.name} cancels its echo`, true, "what call programs do by default; common practice, no source", `Does ${room.name} cancel the echo of what it plays?`)
  : exactly(`remote-room.${room.name}.cancels`, `echo cancellation in ${room.name}`, "count", room.cancels ? 1 : 0));

/** Echo loss of a room that cancels nothing: between a far microphone near its loudspeaker and a worn one. Model choice, from worked cases. */
const uncancelled = (room: RemoteRoom): Ranged => assumed(
  `remote-room.${room.name}.loss`, `how much softer what ${room.name} plays comes back`, "level", { best: 5, low: -2, high: 12, source: "model choice" },
);

/** Echo loss of a room at the other end, dB. */
export const remoteLoss = (room: RemoteRoom, trial: Trial): number => (trial.holds(remoteCancels(room)) ? CANCELLER_LOSS : trial.value(uncancelled(room)));

/** What comes back from a room at the other end to whoever speaks here, or online; nothing where nothing is sent there. */
export function remoteEcho(graph: Graph, room: RemoteRoom, trial: Trial): { readonly loss: number; readonly telr: number; readonly needed: number; readonly delay: number } | undefined {
  const [state] = graph.joins;
  if (state === undefined) return undefined;
  const loss = remoteLoss(room, trial);
  // There and back through the call: half the round trip is one way.
  const delay = trial.value(callDelay(graph.setup, state));
  return { loss, telr: talkerEchoLoudnessRating(loss), needed: acceptableTelr(delay), delay };
}
