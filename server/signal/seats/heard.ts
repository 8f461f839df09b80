/** What is measured at the seats, once for all codes and figures: levels, speech over noise, clarity, and what comes late. */
import type { Setup, Voice } from "../../model/setup";
import { shelfOf, Trial } from "../../model/trial";
import { median } from "../../physics/loudspeaker";
import { acoustics } from "../acoustics";
import { listeners } from "../air";
import { speaking } from "../echo";
import { carries, gainOf, type Graph } from "../graph";
import { clarityAt, EACH, hallOf, inDanger } from "./clarity";
import { levelsAt } from "./levels";
import { callKey, callPlayers, carriersKey } from "./carriers";
import { callSources, loudestCallSources, talkerSources, type Source } from "./sources";
import { onceFor } from "../../model/watching/once";

/** Seats of one name, as places in `listeners`. */
export interface Group {
  readonly name: string;
  readonly seats: readonly number[];
}

/** The groups of seats; where the text has none, whoever is in the room. */
export const groupNames = (setup: Setup): readonly string[] => (setup.room.seats.length > 0 ? setup.room.seats.map((seats) => seats.name) : ["the room"]);

/** Places of a group's seats in `listeners`. */
export function seatsOf(setup: Setup, trial: Trial, group: string): readonly number[] {
  return trial.keep(`seats of ${group}`, () => listeners(setup, trial).flatMap((ear, i) => (ear.group === group ? [i] : [])));
}

/** Who speaks, as far as a seat is concerned: the people online, or somebody in the room from one of the mouths. */
export type Speaking = { readonly who: "online" } | { readonly who: "voice"; readonly voice: Voice; readonly mouth: number };

const ONLINE: Speaking = { who: "online" };
export { ONLINE as ONLINE_SPEAKS };

/** All that decides what is heard of somebody, besides a trial. */
export const keyOfSpeaking = onceFor(whoOf, (graph: Graph, speaking_: Speaking): string => (speaking_.who === "online"
  ? `online ${callKey(graph)} ${callPlayers(graph).map(({ path }) => Math.round(gainOf(path) * 100)).join(",")}`
  : `${whoOf(speaking_)} ${facesKey(graph, speaking_.voice)} ${carriersKey(graph)} ${speaking(graph).map((voice) => voice.name).join(",")}`));

function whoOf(speaking_: Speaking): string {
  return speaking_.who === "online" ? "" : `${speaking_.voice.name} ${speaking_.mouth}`;
}

/** Where somebody looks may differ from item to item. */
const facesKey = (graph: Graph, voice: Voice): string => (voice.statements.some((s) => s.row.head === "faces") ? graph.item ?? "" : "");

/** Everything that speech comes from in this trial; none where nothing plays. */
export function sourcesOf(graph: Graph, speaking_: Speaking, trial: Trial): readonly Source[] {
  return trial.keep(`sources ${keyOfSpeaking(graph, speaking_)}`, () =>
    (speaking_.who === "online" ? callSources(graph, trial) : talkerSources(graph, speaking_.voice, speaking_.mouth, trial)));
}

/** Whether the call is played at all. */
export const isPlayed = (graph: Graph, trial: Trial): boolean => callPlayers(graph).some(({ path }) => carries(path, trial));

/** The loudspeakers that play the people online, each as loud as it can be. */
export const loudestOf = (graph: Graph, trial: Trial): readonly Source[] => trial.keep(`loudest ${callKey(graph)}`, () => loudestCallSources(graph, trial));

/** Level at each listener, dBA: as it is turned up, or at most. */
export function levelsOf(graph: Graph, speaking_: Speaking, how: "level" | "most", trial: Trial): Float64Array {
  return trial.keep(`levels ${how} ${keyOfSpeaking(graph, speaking_)}`, () =>
    levelsAt(how === "most" && speaking_.who === "online" ? loudestOf(graph, trial) : sourcesOf(graph, speaking_, trial), how));
}

/** The seat of a group that is softest, as a place in `listeners`, and its level, dBA; nothing where nothing plays. */
export function softest(graph: Graph, speaking_: Speaking, how: "level" | "most", group: string, trial: Trial): { readonly seat: number; readonly level: number } | undefined {
  return trial.keep(`softest ${how} ${group} ${keyOfSpeaking(graph, speaking_)}`, () => {
    const levels = levelsOf(graph, speaking_, how, trial);
    let seat = -1;
    let level = Infinity;
    for (const i of seatsOf(graph.setup, trial, group)) {
      const here = levels[i] ?? Infinity;
      if (here >= level) continue;
      level = here;
      seat = i;
    }
    return seat < 0 || level === -Infinity ? undefined : { seat, level };
  });
}

/** The middle of all seats, dBA. */
export function medianOf(graph: Graph, speaking_: Speaking, trial: Trial): number {
  return trial.keep(`median ${keyOfSpeaking(graph, speaking_)}`, () => median([...levelsOf(graph, speaking_, "level", trial)]));
}

/**
 * The seats of a group of which one understands least. Of very many, those that are in danger at the best guess are asked in every
 * trial (model choice): what is not known moves the index of all of them more than it moves the worst seat.
 */
function askedOf(graph: Graph, speaking_: Speaking, group: string, trial: Trial): readonly number[] {
  const seats = seatsOf(graph.setup, trial, group);
  if (seats.length <= EACH) return seats;
  return endangered(graph, `${group} ${keyOfSpeaking(graph, speaking_)}`, speaking_, seats, trial);
}

const endangered = onceFor((key: string) => key, (graph: Graph, _key: string, speaking_: Speaking, seats: readonly number[], trial: Trial): readonly number[] => {
  const best = new Trial(new Map(), shelfOf(graph.setup));
  const sources = sourcesOf(graph, speaking_, best);
  // Where nothing plays at the best guess, the trial that asks decides.
  return inDanger(sources.length > 0 ? sources : sourcesOf(graph, speaking_, trial), hallOf(acoustics(graph.setup, best)), seats);
});

/** The seat of a group that understands least, and its index; of very many seats, the least of those in danger. */
export function leastClear(graph: Graph, speaking_: Speaking, group: string, trial: Trial): { readonly seat: number; readonly sti: number } | undefined {
  return trial.keep(`least clear ${group} ${keyOfSpeaking(graph, speaking_)}`, () => {
    const sources = sourcesOf(graph, speaking_, trial);
    if (sources.length === 0) return undefined;
    const hall = hallOf(acoustics(graph.setup, trial));
    let seat = -1;
    let sti = Infinity;
    for (const i of askedOf(graph, speaking_, group, trial)) {
      const here = clarityAt(sources, hall, i);
      if (here < sti) {
        sti = here;
        seat = i;
      }
    }
    return seat < 0 ? undefined : { seat, sti };
  });
}

/** The index at every listener. */
export function clarityOf(graph: Graph, speaking_: Speaking, trial: Trial): Float64Array {
  return trial.keep(`clarity ${keyOfSpeaking(graph, speaking_)}`, () => {
    const sources = sourcesOf(graph, speaking_, trial);
    const hall = hallOf(acoustics(graph.setup, trial));
    return Float64Array.from(listeners(graph.setup, trial), (_, i) => clarityAt(sources, hall, i));
  });
}
