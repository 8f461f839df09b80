/** How loud loudspeakers are turned up: those that play the same together, because whoever sets the volume hears them all. */
import type { Part } from "../../model/device";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { toDb, toPower } from "../../physics/decibel";
import { LISTENING_LEVEL, median, solveLevel, WANTED_OVER_NOISE } from "../../physics/loudspeaker";
import { acoustics } from "../acoustics";
import { listeners, loudest, loudspeakerAtSeats, turnedUp } from "../air";
import { carries, type Ending, type Graph } from "../graph";
import { callKey, callPlayers, carriers, speakersKey } from "./carriers";

/**
 * How loud loudspeakers that play the same are turned up before anybody's taste, dBA at 1 m: each as if it were alone, then all by as
 * much less as makes the middle seat get what it wants of all together. What each can give at most caps it afterwards, and the
 * others do not make up for that (model choice).
 */
function wantedTogether(setup: Setup, trial: Trial, endings: readonly Ending[]): readonly number[] {
  return trial.keep(`wanted together ${endings.map(({ part }) => part.id).join(",")}`, () => {
    const { noise } = acoustics(setup, trial);
    const each = endings.map(({ device, part }) => {
      const seats = loudspeakerAtSeats(setup, trial, device, part);
      return { seats, level: solveLevel(seats, noise, Infinity).level };
    });
    if (each.length < 2) return each.map(({ level }) => level);
    const sums = new Float64Array(listeners(setup, trial).length);
    for (const { seats, level } of each) for (let i = 0; i < sums.length; i += 1) sums[i] = (sums[i] ?? 0) + toPower(level + (seats[i] ?? -Infinity));
    const over = Math.max(0, median(Array.from(sums, toDb)) - Math.max(LISTENING_LEVEL, noise + WANTED_OVER_NOISE));
    return each.map(({ level }) => level - over);
  });
}

/** As loud as it is wanted or as it can, then give or take what people differ by: dBA at 1 m. */
function leveled(part: Part, wanted: number, trial: Trial): number {
  const most = loudest(part, trial);
  return Math.min(most, Math.min(most, wanted) + trial.value(turnedUp(part)));
}

/** What loudspeakers that play the same play at, dBA at 1 m. */
export function turnedUpTogether(setup: Setup, trial: Trial, endings: readonly Ending[]): readonly number[] {
  const wanted = wantedTogether(setup, trial, endings);
  return endings.map(({ part }, i) => leveled(part, wanted[i] ?? NaN, trial));
}

/** The loudspeakers that are turned up together with one: those that play the call in this trial, else those that carry voices in the room. */
function peers(graph: Graph, ending: Ending, of: "call" | "room", trial: Trial): readonly Ending[] {
  const sets = of === "call" ? [callPlayers(graph), carriers(graph)] : [carriers(graph), callPlayers(graph)];
  for (const players of sets) {
    if (!players.some((player) => player.ending === ending)) continue;
    const live = [...new Set(players.filter(({ path }) => carries(path, trial)).map((player) => player.ending))];
    if (live.includes(ending)) return live;
  }
  return [ending];
}

/**
 * Level at 1 m at which a loudspeaker plays nominal speech: what the middle seat wants, as far as it can, of all together that play
 * the call, or that carry voices in the room. dBA. What it is asked for is part of a key beside `playersKey`.
 */
export function playingLevel(graph: Graph, trial: Trial, ending: Ending, of: "call" | "room" = "call"): number {
  const all = peers(graph, ending, of, trial);
  return leveled(ending.part, wantedTogether(graph.setup, trial, all)[all.indexOf(ending)] ?? NaN, trial);
}

/** Names all that decides which loudspeakers are turned up together, besides a trial. */
export const playersKey = (graph: Graph): string => `${callKey(graph)} ${speakersKey(graph)}`;
