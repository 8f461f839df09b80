/**
 * From what somebody notices to where to look in this very setup, the likeliest first: what the study found, then what a person set,
 * then what runs empty, then what is plugged, then what goes by radio. The order is common practice, no source.
 */
import type { Finding } from "../finding";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Setup } from "../model/setup";
import type { WayName } from "../model/ways";
import { carries, makeGraph, type Graph } from "../signal/graph";
import { Trial } from "../model/trial";
import { claims } from "../signal/coverage";
import { deviceOfNode, type Edge } from "../signal/edges";
import type { Study } from "../study";

export interface Symptom {
  readonly id: string;
  /** As somebody says it. */
  readonly says: string;
  /** Words by which it is told, besides. */
  readonly words: readonly string[];
  readonly way: WayName;
}

/** What is said on an evening, by the way that ails. */
export const SYMPTOMS: readonly Symptom[] = [
  { id: "echo", says: "They hear themselves", words: ["echo", "echoes", "hear themselves", "comes back", "their own voice", "everything twice"], way: "call" },
  { id: "robot", says: "Robot voice", words: ["robot", "metallic", "choppy", "breaks up", "stutters", "freezes", "garbled", "drops out", "frozen"], way: "internet" },
  { id: "silent-online", says: "They do not hear us", words: ["they cannot hear us", "we are muted", "no sound online", "silent online", "nobody online hears", "they could not hear us"], way: "online-hears-room" },
  { id: "back-row", says: "Nobody hears the back row", words: ["questions not heard", "audience not heard", "back row", "cannot hear the questions"], way: "online-hears-room" },
  { id: "silent-room", says: "We do not hear them", words: ["no sound in the room", "we cannot hear them", "loudspeaker silent", "nothing from the loudspeaker", "room cannot hear"], way: "room-hears-online" },
  { id: "black", says: "Black picture", words: ["black", "dark screen", "no picture", "no signal", "blue screen", "screen stays dark"], way: "room-sees-online" },
  { id: "unseen", says: "They do not see us", words: ["they see nothing", "camera off", "camera black", "they cannot see us", "frozen camera"], way: "online-sees-room" },
  { id: "howl", says: "It howls", words: ["howl", "howling", "feedback", "whistle", "squeal", "ringing tone"], way: "call" },
];

export interface Suspect {
  /** What to look at. */
  readonly name: string;
  /** What to look for there. */
  readonly look: string;
}

/** More than anybody looks along while people wait. */
const MOST_SUSPECTS = 8;
const MOST_ITEMS = 6;

/** Where to look, the likeliest first: in whatever item of the programme is on. */
export function suspectsOf(study: Study, symptom: Symptom): Suspect[] {
  const items: readonly (string | undefined)[] = study.items.length === 0 ? [undefined] : study.items.slice(0, MOST_ITEMS);
  const out: Suspect[] = found(study, symptom).map((finding) => ({ name: list(finding.subjects.length > 0 ? finding.subjects : [symptom.says.toLowerCase()], 2), look: finding.message.replace(/\.$/, "") }));
  const own = { echo: echoing, howl: howling, robot: thin }[symptom.id];
  const each = items.map((item) => makeGraph(study.setup, item)).map((graph) => (own === undefined ? alongTheWay(graph, symptom) : own(graph)));
  // What comes first in any item comes first.
  for (let i = 0; i < Math.max(...each.map((one) => one.length)); i += 1) for (const one of each) out.push(...one.slice(i, i + 1));
  const seen = new Set<string>();
  return out.filter((one) => !seen.has(`${one.name} ${one.look}`) && seen.add(`${one.name} ${one.look}`)).slice(0, MOST_SUSPECTS);
}

const CODES: Readonly<Record<string, readonly string[]>> = {
  echo: ["echo-path", "hears-itself", "canceller-blind", "mix-not-minus", "stream-audible"], howl: ["howl-loop", "monitor-loop"],
  robot: ["uplink-short", "voice-poor", "slow-link", "weak-wifi", "shared-link", "canceller-strained", "music-suppressed"],
};

/** What the study says of it already, the worst first; two will do. */
function found(study: Study, symptom: Symptom): Finding[] {
  const codes = CODES[symptom.id];
  return study.findings.filter((f) => f.severity !== "plan" && (codes === undefined ? f.code === "uncovered-direction" && f.measured === undefined && f.ways.includes(symptom.way) : codes.includes(f.code))).slice(0, 2);
}

/** The microphones that hear what is played: devices that join, the second ones first, for the first is meant to. */
function echoing(graph: Graph): Suspect[] {
  const { joins, setup } = graph;
  const silent = joins.filter((join) => join.plays.length === 0);
  const playing = joins.filter((join) => join.plays.length > 0);
  const sending = joins.filter((join) => join.sound.length > 0);
  return [
    ...silent.map((join) => ({ name: join.join.device, look: "its sound off, as planned: loudspeaker at nothing, microphone off?" })),
    ...(setup.visitors?.how === "none" ? [] : [{ name: "telephones and computers in the room", look: "has one joined with its sound on?" }]),
    ...playing.filter((join) => sending.includes(join)).map((join) => ({ name: join.join.device, look: `echo cancellation on, and “${list(join.sound.map((s) => s.name))}” and “${list(join.plays.map((s) => s.name))}” chosen in the call?` })),
    ...playing.flatMap((join) => join.plays.map((sent) => ({ name: sent.name, look: "turned lower, farther from the microphones?" }))),
    { name: "whoever speaks", look: "one at a time off the call: when it stops, the echo is in that one’s room" },
  ];
}

function howling(graph: Graph): Suspect[] {
  const microphones = [...new Set(graph.joins.flatMap((join) => join.sound.map((s) => s.name)))];
  const loud = [...graph.endings.values()].filter(({ part, device }) => part.type === "loudspeaker" && device.placed !== undefined && device.type !== "computer").map(({ part }) => part.id);
  return [
    ...loud.map((name) => ({ name, look: "turn it down at once" })),
    ...microphones.map((name) => ({ name, look: "nearer to the mouth, away from the loudspeaker; off when nobody speaks into it" })),
    ...[...graph.setup.mixers.values()].map((mixer) => ({ name: mixer.device, look: "close the channels that nobody uses" })),
  ];
}

/** What is sent besides the sound, the last-named first, for that is what is given up. */
function thin(graph: Graph): Suspect[] {
  const { setup, joins } = graph;
  const pictures = joins.flatMap((join) => join.pictures.map((picture) => ({ name: picture.name, size: picture.width * picture.height * picture.rate, sound: join.sound.length > 0 })));
  pictures.sort((a, b) => Number(a.sound) - Number(b.sound) || b.size - a.size);
  return [
    ...pictures.map((picture) => ({ name: picture.name, look: "switch this camera off: is it better?" })),
    ...setup.internets.slice(0, 3).map((internet) => ({ name: internet.name, look: `${internet.reach === "wired" ? "anything else on the line" : internet.reach === "shared" ? "guests on the same network" : "wireless: go nearer, or run a cable"}? Measure the uplink` })),
    ...joins.filter((join) => join.sound.length > 0).map((join) => ({ name: join.join.device, look: "noise suppression off; other programs closed" })),
    ...(setup.service.dialIn === "offered" ? [{ name: "a telephone", look: "dial in for the sound" }] : []),
  ];
}

/** Along the way that ails, from what is set to what is plugged. */
function alongTheWay(graph: Graph, symptom: Symptom): Suspect[] {
  const { setup } = graph;
  const trial = new Trial();
  const all = claims(graph).filter((claim) => claim.way === symptom.way && (symptom.id !== "back-row" || setup.floor.group(claim.subject) !== undefined));
  const some = all.length > 0 ? all : claims(graph).filter((claim) => claim.way === symptom.way);
  const paths = some.flatMap((claim) => {
    const a = claim.assess(trial);
    const path = a.path ?? claim.routes.find((route) => carries(route, trial)) ?? claim.routes[0];
    return [...(a.repeatedBy === undefined ? [] : [{ name: a.repeatedBy, look: "repeat each question before you answer it" }]), ...(path === undefined ? [] : stops(graph, path))];
  });
  const shares = (rank: number): Suspect[] => paths.filter((one): one is Ranked => "rank" in one && one.rank === rank).map(({ name, look }) => ({ name, look }));
  return [...paths.filter((one) => !("rank" in one)), ...[0, 1, 2, 3].flatMap(shares)];
}

interface Ranked extends Suspect { readonly rank: number }

/** The things that one way passes, each with what is likeliest to be wrong with it. */
function stops(graph: Graph, path: readonly Edge[]): Ranked[] {
  const { setup, joins } = graph;
  const out: Ranked[] = [];
  const seen = new Set<string>();
  for (const edge of path) {
    if (edge.gap !== undefined) out.push({ name: edge.gap.between.join(" and "), look: edge.gap.sentence, rank: 0 });
    const ends = [edge.from, edge.to].map((id) => deviceOfNode(id, setup.devices, canonical));
    if (edge.via === "cable") out.push({ name: `the cable from ${ends[0] ?? ""} to ${ends[1] ?? ""}`, look: "in all the way at both ends, in the port that is planned?", rank: 2 });
    if (edge.via === "radio") out.push({ name: `the radio link from ${ends[0] ?? ""} to ${ends[1] ?? ""}`, look: "still paired, and with this device?", rank: 1 });
    for (const name of ends) {
      const device = setup.devices.get(canonical(name));
      if (device === undefined || seen.has(name)) continue;
      seen.add(name);
      const join = joins.find((one) => canonical(one.join.device) === canonical(name));
      if (join !== undefined) out.push({ name: device.name, look: "chosen in the call, and not switched off there?", rank: 0 });
      else if (device.power.on.has("battery") && !setup.mains.some((link) => canonical(link.to) === canonical(name))) out.push({ name: device.name, look: "switched on, and its battery not empty?", rank: 1 });
      else if (device.type === "mixer") out.push({ name: device.name, look: "channel open, and in the right bus?", rank: 1 });
      else out.push({ name: device.name, look: device.type === "display" || device.type === "projector" ? "on, and set to that input?" : device.type === "camera" ? "on, and pointing the right way?" : device.power.on.has("mains") ? "on, and turned up?" : "there, and pointing the right way?", rank: 2 });
    }
  }
  return out;
}

/** The symptom that somebody's words come nearest to; nothing where none is near. `score`: how much two texts have in common, 0 to 1. */
export function symptomLike(words: string, score: (sought: string, text: string) => number): Symptom | undefined {
  const best = SYMPTOMS.map((symptom) => ({ symptom, near: Math.max(...[symptom.says, ...symptom.words].map((text) => score(words, text))) })).sort((a, b) => b.near - a.near)[0];
  return best === undefined || best.near < 0.35 ? undefined : best.symptom;
}

/** Those that can come up in this setup at all: what it does not have cannot fail. */
export const symptomsFor = (setup: Setup): readonly Symptom[] => (setup.joins.length === 0 ? [] : SYMPTOMS);
