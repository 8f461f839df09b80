/** The people online are heard in the room: a way leads from the call to a loudspeaker. How well seats hear it is judged by its own codes. */
import { carries, type Graph } from "../graph";
import { broken, called, candidates, keyOf, UNMET, type Claim } from "./claim";

export function roomHearsOnline(graph: Graph): Claim[] {
  const { setup } = graph;
  const speakers = candidates(graph, "sound", "loudspeaker", "forth");
  const key = keyOf(speakers);
  const groups = setup.room.seats.length > 0 ? setup.room.seats.map((s) => s.name) : ["the room"];
  return groups.map((group) => ({
    way: "room-hears-online", subject: group, key: `hears ${group} ${key}`,
    routes: speakers.map((s) => s.path),
    title: `the people online are heard by ${called(group)}`, unmet: `the people online are not heard by ${called(group)}`,
    assess: (trial) => {
      const playing = speakers.find((s) => carries(s.path, trial));
      if (playing === undefined) return broken(graph, speakers, "plays the sound of the call", "nothing-plays");
      return { ...UNMET, grade: "good", gaps: [], path: playing.path, through: playing.ending.part.id };
    },
  }));
}
