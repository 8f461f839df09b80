/** Whoever speaks in the room is heard online, through a microphone or through somebody who repeats it. How well, is for others to say. */
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import type { Graph } from "../graph";
import { heard } from "../pick-up/hearing";
import { isOwn, liveMics, micsOf } from "../pick-up/mics";
import { repeaters } from "../pick-up/repeaters";
import { seatsHeard } from "../pick-up/seats-heard";
import { broken, called, keyOf, UNMET, type Assessment, type Claim } from "./claim";

export function onlineHearsRoom(graph: Graph): Claim[] {
  const mics = micsOf(graph);
  const key = keyOf(mics);
  return graph.voices.map((voice): Claim => ({
    way: "online-hears-room", subject: voice.name, key: `heard ${voice.name} ${key} ${repeaters(graph, voice).map((v) => v.name).join(",")}`,
    routes: mics.map((m) => m.path),
    title: `the people online hear ${called(voice.name)}`, unmet: `the people online do not hear ${called(voice.name)}`,
    assess: (trial) => assess(graph, voice, trial),
  }));
}

function assess(graph: Graph, voice: Voice, trial: Trial): Assessment {
  const mics = micsOf(graph);
  const got = voice.seats === undefined ? heard(graph, voice, trial) : seatsHeard(graph, voice, trial);
  if (got === undefined) {
    // Somebody's own microphone is the one that is missed.
    const live = liveMics(graph, trial);
    const own = mics.filter((m) => isOwn(m.ending, voice) && !live.includes(m));
    return broken(graph, own.length > 0 ? own : mics, "sends sound", "nothing-sends-sound");
  }
  const by = "own" in got ? got.repeated ?? { home: got.own.hearing, repeatedBy: undefined } : got;
  const { mic } = by.home;
  return { ...UNMET, grade: "good", gaps: [], path: mics.find((m) => m.ending === mic)?.path, through: mic.part.id, repeatedBy: by.repeatedBy };
}
