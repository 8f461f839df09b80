/** Where speech comes from for those who sit in the room: the loudspeakers that play the call, or a talker with all that carries the voice. */
import { canonical } from "../../model/names";
import type { Setup, Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { powerSum } from "../../physics/decibel";
import { LISTENING_LEVEL, median, solveLevel, WANTED_OVER_NOISE } from "../../physics/loudspeaker";
import { acoustics } from "../acoustics";
import { listeners, loudest, loudspeakerAtSeats, mouths, pickUps, turnedUp } from "../air";
import { candidates, keyOf } from "../coverage/claim";
import { nameOfNode, node, sortOf, type Edge } from "../edges";
import { nominal, speaking } from "../echo";
import { carries, delayOf, gainOf, type Ending, type Graph } from "../graph";
import { wiresOf } from "../loops/net";
import { loudspeakerSeats, voiceSeats, type SeatField } from "./fields";

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

/** A loudspeaker to which the sound in question leads, whether or not it gets there. */
interface Player {
  readonly ending: Ending;
  readonly path: readonly Edge[];
}

/**
 * How loud loudspeakers that play the same are turned up, dBA at 1 m: each as if it were alone, then all by as much less as makes the
 * middle seat get what it wants of all together (model choice: whoever sets the volume hears them all).
 */
function turnedUpTogether(setup: Setup, trial: Trial, players: readonly Player[]): readonly number[] {
  const names = players.map(({ ending }) => ending.part.id).join(",");
  const solved = trial.keep(`solved together ${names}`, () => {
    const { noise } = acoustics(setup, trial);
    const each = players.map(({ ending }) => {
      const seats = loudspeakerAtSeats(setup, trial, ending.device, ending.part);
      return { seats, level: solveLevel(seats, noise, loudest(ending.part, trial)).level };
    });
    if (each.length < 2) return each.map(({ level }) => level);
    const all = listeners(setup, trial).map((_, i) => powerSum(each.map(({ seats, level }) => level + (seats[i] ?? -Infinity))));
    const over = Math.max(0, median(all) - Math.max(LISTENING_LEVEL, noise + WANTED_OVER_NOISE));
    return each.map(({ level }) => level - over);
  });
  return players.map(({ ending }, i) => Math.min(loudest(ending.part, trial), (solved[i] ?? NaN) + trial.value(turnedUp(ending.part))));
}

/** The loudspeakers that play the call, those with the fewest gaps first. */
export const callPlayers = (graph: Graph): readonly Player[] => candidates(graph, "sound", "loudspeaker", "forth");

/** Names all that decides which loudspeakers play the call, besides a trial. */
export const callKey = (graph: Graph): string => keyOf(candidates(graph, "sound", "loudspeaker", "forth"));

/** What plays the people online in this trial. */
export function callSources(graph: Graph, trial: Trial): readonly Source[] {
  const { setup } = graph;
  const live = callPlayers(graph).filter(({ path }) => carries(path, trial));
  const levels = turnedUpTogether(setup, trial, live);
  return live.map(({ ending, path }, i): Source => ({
    name: ending.part.id, ending, path, field: loudspeakerSeats(setup, trial, ending), level: Math.min(loudest(ending.part, trial), (levels[i] ?? NaN) + gainOf(path)), most: loudest(ending.part, trial), delay: delayOf(path, trial),
  }));
}

/** A microphone and a loudspeaker that it is carried to by wires in the room. */
interface Carrier extends Player {
  readonly mic: Ending;
}

const CARRIERS = new WeakMap<Graph, readonly Carrier[]>();

/** Every way by wires alone from a microphone to a loudspeaker in the room; worked out once. */
export function carriers(graph: Graph): readonly Carrier[] {
  let found = CARRIERS.get(graph);
  if (found === undefined) {
    const wires = wiresOf(graph);
    found = [...graph.endings.values()].filter(({ part }) => part.type === "microphone").flatMap((mic) =>
      [...wires(node("microphone", mic.part.id))].flatMap(([end, path]): Carrier[] => {
        const ending = sortOf(end) === "loudspeaker" ? graph.endings.get(canonical(nameOfNode(end))) : undefined;
        return ending === undefined ? [] : [{ mic, ending, path }];
      }));
    CARRIERS.set(graph, found);
  }
  return found;
}

/** Names all that decides what carries voices in the room, besides a trial. */
export const carriersKey = (graph: Graph): string =>
  carriers(graph).map(({ mic, ending, path }) => `${mic.part.id}>${ending.part.id}${Math.round(gainOf(path) * 100)}${path.flatMap((edge) => edge.gap?.cause ?? []).join("!")}`).join(" ");

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
  for (const carrier of live) {
    const gain = gainOf(carrier.path) + beside(graph, carrier.mic, voice, mouth, trial);
    const known = best.get(carrier.ending);
    if (known === undefined || gain > known.gain) best.set(carrier.ending, { carrier, gain });
  }
  const chosen = [...best.values()];
  const levels = turnedUpTogether(setup, trial, chosen.map(({ carrier }) => carrier));
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
