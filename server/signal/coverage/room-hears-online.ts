/** The people online are heard from every seat. */
import { powerSum } from "../../physics/decibel";
import { acoustics } from "../acoustics";
import { listeners, loudest, loudspeakerAtSeats } from "../air";
import { carries, type Graph } from "../graph";
import { broken, called, candidates, keyOf, worst, type Claim } from "./claim";

/** Limits of speech over noise at a seat, dB. Common practice, no source. */
const SEAT_NOISE = { poor: 10, bad: 5 } as const;

export function roomHearsOnline(graph: Graph): Claim[] {
  const { setup } = graph;
  const speakers = candidates(graph, "sound", "loudspeaker", "forth");
  const key = keyOf(speakers);
  const groups = setup.room.seats.length > 0 ? setup.room.seats.map((s) => s.name) : ["the room"];
  return groups.map((group) => ({
    way: "room-hears-online", subject: group, key: `hears ${group} ${key}`,
    routes: speakers.map((s) => s.path),
    title: `the people online are heard by ${called(group)}`, unmet: `the people online are not heard by ${called(group)}`,
    assess: (trial, within) => {
      const playing = speakers.filter((s) => carries(s.path, trial));
      if (playing.length === 0) return broken(graph, speakers, "plays the sound of the call", "nothing-plays");
      const { noise } = acoustics(setup, trial);
      const fields = playing.map((s) => ({ most: loudest(s.ending.part, trial), at: loudspeakerAtSeats(setup, trial, s.ending.device, s.ending.part) }));
      const seats = listeners(setup, trial).map((ear, i) => ({ ear, i })).filter(({ ear }) => ear.group === group && within?.(ear) !== false);
      const ears = seats.map(({ ear }) => ear);
      const levels = seats.map(({ i }) => powerSum(fields.map((field) => field.most + (field.at[i] ?? -Infinity))) - noise);
      return { ...worst(ears, levels, SEAT_NOISE, "dB", "speech over the noise"), gaps: [], path: playing[0]?.path, through: playing[0]?.ending.part.id, repeatedBy: undefined };
    },
  }));
}
