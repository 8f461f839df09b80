/** How the people online hear whoever speaks from a seat: every seat through the microphone that hears it best. */
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { acoustics } from "../acoustics";
import { mouths, pickUps } from "../air";
import type { Ending, Graph } from "../graph";
import { facing } from "../stands";
import { hearingOf, isWell, margin, repeated, type Heard, type Hearing } from "./hearing";
import { liveKey, liveMics, noiseRise, openWith, ownMissing } from "./mics";

export interface SeatHeard {
  readonly name: string;
  readonly group: string;
  readonly row: number;
  /** Direct over reverberant sound at the microphone that hears this seat best, dB. */
  readonly ratio: number;
  /** Speech over the noise that the call gets, dB. */
  readonly overNoise: number;
  readonly mic: Ending;
}

export interface SeatsHeard {
  readonly seats: readonly SeatHeard[];
  /** The seat that is heard worst, and all that is to be known of it. */
  readonly worst: SeatHeard;
  readonly hearing: Hearing;
}

/** How each seat is heard; nothing where no microphone is live, or where nobody sits. */
export function seatsThrough(graph: Graph, voice: Voice, trial: Trial): SeatsHeard | undefined {
  const live = liveMics(graph, trial);
  const group = voice.seats;
  if (live.length === 0 || group === undefined) return undefined;
  return trial.keep(`seats heard ${voice.name} ${liveKey(graph, live)}`, () => {
    const { setup } = graph;
    const open = openWith(graph, live);
    const less = trial.value(voice.level) - acoustics(setup, trial).noise;
    const each = live.map((m, i) => ({ mic: m.ending, open: open[i] ?? 1, rise: noiseRise(m.ending, open[i] ?? 1), at: pickUps(setup, trial, voice, m.ending.device, m.ending.part) }));
    const seats: SeatHeard[] = [];
    let worst = 0;
    let least = Infinity;
    let through = each[0];
    setup.floor.seats(group, trial).forEach((seat, i) => {
      let best: SeatHeard | undefined;
      let most = -Infinity;
      let by = through;
      for (const one of each) {
        const got = one.at[i];
        if (got === undefined) continue;
        const heard = { name: seat.name, group: group.name, row: seat.row, ratio: got.ratio, overNoise: less + got.transfer - one.rise, mic: one.mic };
        const is = margin(heard);
        if (is <= most && best !== undefined) continue;
        [best, most, by] = [heard, is, one];
      }
      if (best === undefined) return;
      if (most < least) [worst, least, through] = [seats.length, most, by];
      seats.push(best);
    });
    const found = seats[worst];
    const mouth = mouths(setup, voice, trial)[worst];
    if (found === undefined || mouth === undefined || through === undefined) return undefined;
    return { seats, worst: found, hearing: hearingOf(graph, voice, mouth, facing(setup, voice, mouth, trial), through.mic, through.open, trial) };
  });
}

/** What the people online get of the seats: themselves, or somebody who repeats it. Nothing as with `heard`. */
export function seatsHeard(graph: Graph, voice: Voice, trial: Trial): { readonly own: SeatsHeard; readonly repeated: Heard | undefined } | undefined {
  const own = seatsThrough(graph, voice, trial);
  if (own === undefined) return undefined;
  if (isWell(own.hearing, voice)) return { own, repeated: undefined };
  if (ownMissing(graph, voice, trial)) return undefined;
  return { own, repeated: repeated(graph, voice, trial) };
}
