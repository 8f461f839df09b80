/** What somebody with a sound level meter reads at some seats while a loudspeaker plays speech. */
import { canonical } from "../model/names";
import type { Trial } from "../model/trial";
import { powerSum } from "../physics/decibel";
import { acoustics } from "./acoustics";
import { listeners, loudspeakerAtSeats } from "./air";
import type { SeatAsked } from "./coverage";
import type { Ending, Graph } from "./graph";
import { playingLevel } from "./seats/turned-up";

/** The loudspeakers that a name stands for. */
export const loudspeakersNamed = (graph: Graph, name: string): readonly Ending[] =>
  [...graph.endings.values()].filter(({ device, part }) => part.type === "loudspeaker" && [device.name, part.id].some((one) => canonical(one) === canonical(name)));

/** The level there, noise of the room included, dBA: at the seat in the middle of those asked about, where they are in a row. */
export function levelRead(graph: Graph, speakers: readonly Ending[], asked: (seat: SeatAsked) => boolean, trial: Trial): number | undefined {
  const { setup } = graph;
  const seats = listeners(setup, trial).flatMap((ear, i) => (asked(ear) ? [i] : []));
  const middle = seats[Math.floor((seats.length - 1) / 2)];
  if (middle === undefined) return undefined;
  const levels = speakers.map((speaker) => playingLevel(graph, trial, speaker) + (loudspeakerAtSeats(setup, trial, speaker.device, speaker.part)[middle] ?? -Infinity));
  return powerSum([...levels, acoustics(setup, trial).noise]);
}
