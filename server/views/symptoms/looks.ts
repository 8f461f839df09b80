/**
 * Where to look in this very setup, whatever was computed of it: what a person set first, then what runs empty, then what is plugged,
 * then what goes by radio. The order is common practice, no source.
 */
import { canonical } from "../../model/names";
import { list } from "../../model/show";
import { carries, type Graph } from "../../signal/graph";
import type { Symptom } from "./families";
import { Trial } from "../../model/trial";
import { claims } from "../../signal/coverage";
import { soundFeeds } from "../../signal/feeds-of-sound";
import { isMobile } from "../../signal/network";
import { deviceOfNode, type Edge } from "../../signal/edges";

export interface Suspect {
  /** What to look at. */
  readonly name: string;
  /** What to look for there. */
  readonly look: string;
}

/** What there is to go to in one item, in the order in which it is likeliest to be wrong. */
export function looksAlong(graph: Graph, symptom: Symptom): Suspect[] {
  switch (symptom.along) {
    case "echo": return echoing(graph);
    case "howl": return howling(graph);
    case "thin": return thin(graph);
    case "way": return alongTheWay(graph, symptom);
    case "microphones": return microphones(graph);
    case "loudspeakers": return loudspeakers(graph);
    case "displays": return displays(graph);
    case "cameras": return cameras(graph);
    case "line": return line(graph);
    case "power": return power(graph);
    case "people": return people(graph);
    case "feeds": return feeds(graph);
    case "service": return ofTheService(graph);
  }
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


/** Each once, in the order in which they come. */
const once = (names: readonly string[]): string[] => [...new Map(names.map((name) => [canonical(name), name])).values()];

/** Microphones whose sound is sent: those of a mixer by its name. */
function microphones({ joins, endings, setup }: Graph): Suspect[] {
  const sent = joins.flatMap((join) => join.sound.map((one) => ({ name: one.name, join: join.join.device })));
  const handled = [...endings.values()].filter(({ part, device }) => part.type === "microphone" && device.placed !== undefined && device.type !== "computer" && device.type !== "camera");
  return [
    ...sent.map(({ name, join }) => ({ name: join, look: `is “${name}” the microphone that is chosen there, and not the one it has itself?` })),
    ...handled.map(({ device }) => ({ name: device.name, look: "close to the mouth, turned to it, nothing rubbing on it, its battery not empty?" })),
    ...[...setup.mixers.values()].map((mixer) => ({ name: mixer.device, look: "the level of the channel, and close the channels that nobody uses" })),
    ...joins.filter((join) => join.sound.length > 0).map((join) => ({ name: join.join.device, look: "noise suppression off where it bites pieces out, or where there is music" })),
  ];
}

function loudspeakers({ joins, setup, endings }: Graph): Suspect[] {
  const played = joins.flatMap((join) => join.plays.map((one) => ({ name: one.name, join: join.join.device })));
  const standing = [...endings.values()].filter(({ part, device }) => part.type === "loudspeaker" && device.placed !== undefined && device.type !== "computer");
  return [
    ...played.map(({ name, join }) => ({ name: join, look: `is “${name}” the loudspeaker that is chosen there, its volume up, and that of the call?` })),
    ...once(standing.map(({ device }) => device.name)).map((name) => ({ name, look: "volume, aimed at those who do not hear, nothing in front of it?" })),
    ...[...setup.mixers.values()].map((mixer) => ({ name: mixer.device, look: "the channel of the call and the mix of the room: open, and at the level that was tried?" })),
  ];
}

function displays({ joins }: Graph): Suspect[] {
  const shown = joins.flatMap((join) => join.shows.map((one) => ({ name: one.name, what: one.what, join: join.join.device })));
  return [
    ...shown.map(({ name, what, join }) => ({ name: join, look: `the window that is meant on “${name}”, ${what === "call" ? "whoever speaks large, or fewer faces" : "the whole screen, text enlarged"}?` })),
    ...once(shown.map(({ name }) => name)).map((name) => ({ name, look: "lights in front of it off, curtains drawn, sharp, straight and as large as it goes, nobody in front?" })),
  ];
}

function cameras({ joins, setup }: Graph): Suspect[] {
  const sent = joins.flatMap((join) => join.pictures.map((one) => ({ name: one.name, join: join.join.device })));
  const windows = setup.room.openings.some((opening) => opening.kind === "window");
  return [
    ...once(sent.map(({ name }) => name)).map((name) => ({ name, look: "whom it has in its picture, how large, lens wiped?" })),
    { name: "light in the room", look: `light on faces on${windows ? ", curtains behind them drawn" : ", nothing bright behind them"}` },
    ...sent.map(({ name, join }) => ({ name: join, look: `is “${name}” chosen there, and sent as large as was planned?` })),
  ];
}

/** Everybody is gone at once: the line, the service, the device that carries it all. */
function line({ setup, joins }: Graph): Suspect[] {
  const { service } = setup;
  return [
    ...setup.internets.slice(0, 3).map((internet) => ({ name: internet.name, look: internet.login !== undefined ? "does it ask for its login again?" : isMobile(setup, internet) ? "signal, and what is left of its allowance?" : "does another device get a page over it?" })),
    ...(service.endsAfter === undefined ? [] : [{ name: "the call", look: "its time limit: open it anew, by the second invitation" }]),
    ...joins.map((join) => ({ name: join.join.device, look: "asleep, updating, or thrown out by another device under the same name?" })),
    ...(service.dialIn === "offered" ? [{ name: "a telephone", look: "dial in for the sound meanwhile" }] : []),
  ];
}

/** What runs on batteries before what is plugged in: the first is forgotten, the second is kicked. */
function power({ setup }: Graph): Suspect[] {
  const placed = [...setup.devices.values()].filter((device) => device.placed !== undefined && device.power.on.size > 0);
  const fed = (name: string): string | undefined => setup.mains.find((link) => canonical(link.to) === canonical(name))?.from;
  const [plugged, carried] = [placed.filter((device) => fed(device.name) !== undefined), placed.filter((device) => fed(device.name) === undefined)];
  return [
    ...carried.map((device) => ({ name: device.name, look: device.power.on.has("battery") ? "switched on, and its battery not empty?" : "is it in an outlet or a port that feeds it?" })),
    ...plugged.map((device) => ({ name: device.name, look: `in ${fed(device.name) ?? ""} all the way, and is that switched on?` })),
  ];
}

const HANDS: readonly (readonly [job: string, look: string])[] = [
  ["run-call", "lets people in, and turns their sound off and on"], ["admit", "lets people in"], ["chat", "reads what they write, and says it aloud"], ["listen", "hears what they hear, with earphones"], ["set-up", "knows what goes where"], ["keys", "has the keys"],
];

/** Whoever has a job that it hangs on; of a job that nobody has, the device at which it would be done. */
function people({ setup, joins }: Graph): Suspect[] {
  const named = HANDS.flatMap(([what, look]) => setup.jobs.filter((job) => job.what === what && job.who !== undefined).map((job) => ({ name: job.who ?? "", look })));
  const open = HANDS.slice(0, 4).filter(([what]) => !setup.jobs.some((job) => job.what === what && job.who !== undefined)).map(([, look]) => look);
  return [...named, ...(open.length === 0 ? [] : joins.slice(0, 1).map((join) => ({ name: join.join.device, look: `nobody is named who ${list(open, 4)}: do it here` })))];
}

function feeds(graph: Graph): Suspect[] {
  return [
    ...soundFeeds(graph).map(({ device, by }) => ({ name: device.name, look: by === "loop" ? "on, its level up? Let somebody with a hearing aid listen" : "on, and fed?" })),
    ...[...graph.setup.mixers.values()].map((mixer) => ({ name: mixer.device, look: "is every microphone, and the call, in the mix that feeds it?" })),
  ];
}

function ofTheService({ setup, joins }: Graph): Suspect[] {
  const starts = setup.jobs.filter((job) => (job.what === "record" || job.what === "run-call") && job.who !== undefined).map((job) => ({ name: job.who ?? "", look: "may switch captions and the recording on in the call" }));
  return [...starts, ...joins.filter((join) => join.sound.length > 0).map((join) => ({ name: join.join.device, look: "its sound clear, and the language of the captions the one that is spoken?" }))];
}
