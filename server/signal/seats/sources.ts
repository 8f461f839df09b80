/** Where speech comes from for those who sit in the room: the loudspeakers that play the call, or a talker with all that carries the voice. */
import type { Setup, Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { loudest, mouths, pickUps } from "../air";
import type { Edge } from "../edges";
import { nominal, speaking } from "../echo";
import { carries, delayOf, gainOf, type Ending, type Graph } from "../graph";
import { callPlayers, carriers, type Carrier } from "./carriers";
import { loudspeakerSeats, voiceSeats, type SeatField } from "./fields";
import { turnedUpTogether } from "./turned-up";

/** One source of the same speech, as the seats get it. */
export interface Source {
  /** `box`, or the talker's name. */
  readonly name: string;
  /** The loudspeaker; nothing for a voice by itself. */
  readonly ending: Ending | undefined;
  readonly path: readonly Edge[];
  readonly field: SeatField;
  /** At 1 m on its axis, dBA: as it is turned up, and at most. */
  readonly level: number;
  readonly most: number;
  /** On its way to the loudspeaker, s; the call's own delay left out. */
  readonly delay: number;
}

/**
 * What plays the people online in this trial, as loud as it can be. How loud it is turned up is not asked, so that nothing that is
 * judged by this hangs on it.
 */
export function loudestCallSources(graph: Graph, trial: Trial): readonly Source[] {
  return callPlayers(graph).filter(({ path }) => carries(path, trial)).map(({ ending, path }): Source => {
    const most = loudest(ending.part, trial);
    return { name: ending.part.id, ending, path, field: loudspeakerSeats(graph.setup, trial, ending), level: most, most, delay: 0 };
  });
}

/** What plays the people online in this trial. */
export function callSources(graph: Graph, trial: Trial): readonly Source[] {
  const { setup } = graph;
  const live = callPlayers(graph).filter(({ path }) => carries(path, trial));
  const levels = turnedUpTogether(setup, trial, live.map(({ ending }) => ending));
  return live.map(({ ending, path }, i): Source => ({
    name: ending.part.id, ending, path, field: loudspeakerSeats(setup, trial, ending), level: Math.min(loudest(ending.part, trial), (levels[i] ?? NaN) + gainOf(path)), most: loudest(ending.part, trial), delay: delayOf(path, trial),
  }));
}

/** How many decibels less than it is turned up for a microphone gets of a voice. */
function beside(graph: Graph, mic: Ending, voice: Voice, mouth: number, trial: Trial): number {
  const { setup } = graph;
  const near = nominal(setup, mic, speaking(graph), trial);
  const transfer = pickUps(setup, trial, voice, mic.device, mic.part)[mouth]?.transfer ?? -Infinity;
  return trial.value(voice.level) + transfer - near.talker - near.transfer;
}

/** A talker from one mouth: the voice by itself, then each loudspeaker that carries it, from the microphone that gives it most. */
export function talkerSources(graph: Graph, voice: Voice, mouth: number, trial: Trial): readonly Source[] {
  const { setup } = graph;
  const own: Source = { name: voice.name, ending: undefined, path: [], field: voiceSeats(graph, trial, voice, mouth), level: trial.value(voice.level), most: trial.value(voice.level), delay: 0 };
  const live = carriers(graph).filter(({ path }) => carries(path, trial));
  if (live.length === 0) return [own];
  const best = new Map<Ending, { readonly carrier: Carrier; readonly gain: number }>();
  // Each microphone is asked once, however many loudspeakers it reaches.
  const less = new Map<Ending, number>();
  for (const carrier of live) {
    const under = less.get(carrier.mic) ?? beside(graph, carrier.mic, voice, mouth, trial);
    less.set(carrier.mic, under);
    const gain = gainOf(carrier.path) + under;
    const known = best.get(carrier.ending);
    if (known === undefined || gain > known.gain) best.set(carrier.ending, { carrier, gain });
  }
  const chosen = [...best.values()];
  const levels = turnedUpTogether(setup, trial, chosen.map(({ carrier }) => carrier.ending));
  return [own, ...chosen.map(({ carrier: { ending, path }, gain }, i): Source => {
    const most = loudest(ending.part, trial);
    return { name: ending.part.id, ending, path, field: loudspeakerSeats(setup, trial, ending), level: Math.min(most, (levels[i] ?? NaN) + gain), most, delay: delayOf(path, trial) };
  })];
}

/** Mouths of seats that stand for all: the ends of the first and the last row and the middle, so that many seats take no longer. */
export function mouthsAsked(setup: Setup, voice: Voice, trial: Trial): readonly number[] {
  const count = mouths(setup, voice, trial).length;
  if (voice.seats === undefined || count <= 5) return Array.from({ length: count }, (_, i) => i);
  const rows = setup.floor.seats(voice.seats, trial).map((seat) => seat.row);
  const [first, last] = [rows[0], rows[count - 1]];
  return [...new Set([0, rows.lastIndexOf(first ?? 1), Math.floor(count / 2), rows.indexOf(last ?? 1), count - 1])];
}
