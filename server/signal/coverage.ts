/** Who reaches whom: the claims that a meeting makes on the four ways across, and how each is met. */
import type { Vec3 } from "../model/geometry";
import { valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { canonical } from "../model/names";
import type { Ranged } from "../model/ranged";
import type { Setup, Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import type { WayName } from "../model/ways";
import { powerSum } from "../physics/decibel";
import { acoustics } from "./acoustics";
import { listeners, loudest, loudspeakerAtSeats, mouths, pickUps } from "./air";
import { deviceOfNode, node, type Carried, type Edge, type Gap } from "./edges";
import { carries, gapsOf, ONLINE, type Ending, type Graph } from "./graph";
import { faceAngle, FACE_LIMIT, frameOf, pointsOf } from "./sight";

/** How well a claim is met. `poor` makes the way doubtful, `bad` breaks it. */
export type Grade = "good" | "poor" | "bad";

export interface Assessment {
  readonly grade: Grade;
  /** What stands in the way, where something is missing; a way with none is judged by its measure. */
  readonly gaps: readonly Gap[];
  /** The way as it is, or as it would be without its gaps. */
  readonly path: readonly Edge[] | undefined;
  /** Through which microphone, loudspeaker, display or camera. */
  readonly through: string | undefined;
  readonly measured: { readonly value: number; readonly unit: string; readonly limit: number; readonly what: string } | undefined;
  /** How many of how many places fall short, and the worst of them. */
  readonly short: { readonly count: number; readonly of: number; readonly within: string; readonly worst: string; readonly fromRow: number | undefined } | undefined;
  /** How many are at least poorly reached, and from which row on all are. */
  readonly weak?: { readonly count: number; readonly fromRow: number | undefined };
  /** Another talker who repeats what is said. */
  readonly repeatedBy: string | undefined;
}

export interface Claim {
  readonly way: Exclude<WayName, "call" | "internet">;
  /** The person, the seats, the spot that is to hear, be heard, see or be seen. */
  readonly subject: string;
  /** What is wanted, as a sentence would have it: `Ines is heard by the people online`. */
  readonly title: string;
  /** What the sentence is when it is not met: `the people online do not hear Ines`. */
  readonly unmet: string;
  /** What else decides, besides the trial: claims of equal key are met equally in every item. */
  readonly key: string;
  /** All ways through, broken or not: what is lost when a device is lost follows from them. */
  readonly routes: readonly (readonly Edge[])[];
  assess(trial: Trial): Assessment;
}

/** Limits of the direct-to-reverberant ratio of a voice at its microphone, dB: below −6 hollow, below −12 lost. Model choice. */
const PICKUP = { poor: -6, bad: -12 } as const;
/** Limits of speech over noise, dB, at a microphone and at a seat. Common practice, no source. */
const MIC_NOISE = { poor: 6, bad: 0 } as const;
const SEAT_NOISE = { poor: 10, bad: 5 } as const;

const CLAIMS = new WeakMap<Graph, readonly Claim[]>();

/** The claims that a graph has to meet; worked out once. */
export function claims(graph: Graph): readonly Claim[] {
  let found = CLAIMS.get(graph);
  if (found === undefined) {
    found = [...roomHearsOnline(graph), ...onlineHearsRoom(graph), ...roomSeesOnline(graph), ...onlineSeesRoom(graph)];
    CLAIMS.set(graph, found);
  }
  return found;
}

const UNMET = { path: undefined, through: undefined, measured: undefined, short: undefined, repeatedBy: undefined } as const;

/** Where no device joins the call in the way that is needed. */
function nothing(graph: Graph, says: string, sentence: string, cause: string): Assessment {
  return { ...UNMET, grade: "bad", gaps: [{ says, sentence, cause, open: undefined, between: graph.joins.map((j) => j.join.device) }] };
}

/** A group of seats or a spot as a sentence has it: `the audience`; what has a name of its own is called by it. */
export const called = (name: string): string => (COMMON.has(canonical(name)) ? `the ${name}` : name);
const COMMON: ReadonlySet<string> = new Set(["audience", "lectern", "stage", "gallery", "choir", "stalls", "operator", "pulpit"]);

interface Candidate {
  readonly ending: Ending;
  readonly path: readonly Edge[];
  readonly gaps: number;
}

/** All microphones, loudspeakers, displays or cameras that a way leads to or from, fewest gaps first. */
function candidates(graph: Graph, carried: Carried, type: Ending["part"]["type"], sense: "forth" | "back"): readonly Candidate[] {
  const ways = graph.ways(carried, ONLINE, sense);
  const out: Candidate[] = [];
  for (const ending of graph.endings.values()) {
    if (ending.part.type !== type) continue;
    const path = ways.get(node(type, ending.part.id));
    if (path !== undefined && path.length > 0) out.push({ ending, path, gaps: gapsOf(path).length });
  }
  return out.sort((a, b) => a.gaps - b.gaps);
}

/** What all the candidates and their gaps are, for the key of a claim. */
const keyOf = (list: readonly Candidate[]): string => list.map((c) => `${c.ending.part.id}${c.gaps > 0 ? `!${gapsOf(c.path).map((g) => g.cause).join(",")}` : ""}`).join(" ");

function broken(graph: Graph, list: readonly Candidate[], verb: string, missing: string): Assessment {
  const first = list[0];
  if (first === undefined) return nothing(graph, "nothing there", leadsNowhere(graph, missing) ?? `no joined device ${verb}`, missing);
  return { ...UNMET, grade: "bad", gaps: gapsOf(first.path), path: first.path, through: first.ending.part.id };
}

/** Where a join does send or play, and no microphone or loudspeaker is at the other end of the wire. */
function leadsNowhere(graph: Graph, missing: string): string | undefined {
  const state = graph.joins.find((j) => (missing === "nothing-plays" ? j.plays : missing === "nothing-sends-sound" ? j.sound : []).length > 0);
  if (state === undefined) return undefined;
  return missing === "nothing-plays" ? `what ${state.join.device} plays reaches no loudspeaker` : `no microphone leads into what ${state.join.device} sends`;
}

function roomHearsOnline(graph: Graph): Claim[] {
  const { setup } = graph;
  const speakers = candidates(graph, "sound", "loudspeaker", "forth");
  const key = keyOf(speakers);
  const groups = setup.room.seats.length > 0 ? setup.room.seats.map((s) => s.name) : ["the room"];
  return groups.map((group) => ({
    way: "room-hears-online", subject: group, key: `hears ${group} ${key}`,
    routes: speakers.map((s) => s.path),
    title: `the people online are heard by ${called(group)}`, unmet: `the people online are not heard by ${called(group)}`,
    assess: (trial) => {
      const playing = speakers.filter((s) => carries(s.path, trial));
      if (playing.length === 0) return broken(graph, speakers, "plays the sound of the call", "nothing-plays");
      const { noise } = acoustics(setup, trial);
      const fields = playing.map((s) => ({ most: loudest(s.ending.part, trial), at: loudspeakerAtSeats(setup, trial, s.ending.device, s.ending.part) }));
      const seats = listeners(setup, trial).map((ear, i) => ({ ear, i })).filter(({ ear }) => ear.group === group);
      const ears = seats.map(({ ear }) => ear);
      const levels = seats.map(({ i }) => powerSum(fields.map((field) => field.most + (field.at[i] ?? -Infinity))) - noise);
      return { ...worst(ears, levels, SEAT_NOISE, "dB", "speech over the noise"), gaps: [], path: playing[0]?.path, through: playing[0]?.ending.part.id, repeatedBy: undefined };
    },
  }));
}

/** The claim that seats would make if their people spoke, whether or not the programme says that they do. */
export const heardFrom = (graph: Graph, voice: Voice): Claim | undefined => onlineHearsRoom(graph, [voice])[0];

function onlineHearsRoom(graph: Graph, voices: readonly Voice[] = graph.voices): Claim[] {
  const { setup } = graph;
  const mics = candidates(graph, "sound", "microphone", "back");
  const key = keyOf(mics);
  const pickUp = (voice: Voice, trial: Trial): Assessment => {
    const open = mics.filter((m) => carries(m.path, trial));
    if (open.length === 0) {
      // Somebody's own microphone is the one that is missed.
      const own = mics.filter((m) => isOwn(m.ending, voice));
      return broken(graph, own.length > 0 ? own : mics, "sends sound", "nothing-sends-sound");
    }
    const { noise } = acoustics(setup, trial);
    const level = trial.value(voice.level);
    const places = mouths(setup, voice, trial);
    let through = open[0]?.ending.part.id;
    let least = Infinity;
    const heard = open.map((m) => ({ by: m.ending.part.id, at: pickUps(setup, trial, voice, m.ending.device, m.ending.part) }));
    const margins = places.map((_, i) => {
      let best = -Infinity;
      let by = through;
      for (const m of heard) {
        const one = m.at[i];
        if (one === undefined) continue;
        // One figure for both: how far the worse of the two is above its limit, on the scale of the first.
        const margin = Math.min(one.ratio, level + one.transfer - noise - MIC_NOISE.bad + PICKUP.bad);
        if (margin > best) {
          best = margin;
          by = m.by;
        }
      }
      if (best < least) {
        least = best;
        through = by;
      }
      return best;
    });
    const names = voice.seats === undefined ? places.map(() => voice.name) : setup.floor.seats(voice.seats, trial).map((s) => s.name);
    const rows = voice.seats === undefined ? places.map(() => 1) : setup.floor.seats(voice.seats, trial).map((s) => s.row);
    // Somebody's own microphone is planned, and does not get there: that is what is wrong, not that another one is far.
    const own = mics.find((m) => !open.includes(m) && isOwn(m.ending, voice));
    const graded = worst(places.map((at, i) => ({ name: names[i] ?? "", group: voice.seats?.name ?? voice.name, row: rows[i] ?? 1, at })), margins, PICKUP, "dB", "direct over reverberant sound");
    if (own !== undefined && graded.grade !== "good") return broken(graph, [own], "", "");
    return { ...graded, gaps: [], path: open.find((m) => m.ending.part.id === through)?.path, through, repeatedBy: undefined };
  };
  return voices.map((voice): Claim => ({
    way: "online-hears-room", subject: voice.name, key: `heard ${voice.name} ${key} ${repeaters(graph, voice).map((v) => v.name).join(",")}`,
    routes: mics.map((m) => m.path),
    title: `the people online hear ${called(voice.name)}`, unmet: `the people online do not hear ${called(voice.name)}`,
    assess: (trial) => {
      const direct = pickUp(voice, trial);
      if (direct.grade === "good") return direct;
      const repeater = repeaters(graph, voice).find((other) => pickUp(other, trial).grade === "good");
      return repeater === undefined ? direct : { ...pickUp(repeater, trial), repeatedBy: repeater.name };
    },
  }));
}

/** A microphone that is worn by somebody, held, or stands at that very name. */
const isOwn = (mic: Ending, voice: Voice): boolean =>
  mic.device.place?.relations.some((r) => r.anchor.kind === "name" && canonical(r.anchor.name.text) === canonical(voice.name)) === true;

/** Talkers who say again what somebody says, in this item. */
function repeaters(graph: Graph, voice: Voice): Voice[] {
  return [...graph.setup.voices.values()].filter((other) => other !== voice && holding(other.statements, "repeats", graph.item)
    .some((s) => !s.negated && valuesOf(s, "of", "name").some((n) => canonical(n.text) === canonical(voice.name) || (canonical(n.text) === "audience" && voice.seats !== undefined))));
}

function roomSeesOnline(graph: Graph): Claim[] {
  const { setup } = graph;
  const shown = graph.joins.flatMap((state) => state.shows.filter((s) => s.what === "call").map((s) => ({ show: s, key: canonical(s.name) })));
  const displays = candidates(graph, "picture", "display", "forth");
  const key = keyOf(displays);
  const facesOf = (display: Ending) => shown.find((s) => s.key === canonical(display.part.id) || s.key === canonical(display.device.name))?.show.faces;
  const groups = setup.room.seats.length > 0 ? setup.room.seats.map((s) => s.name) : ["the room"];
  return groups.map((group) => ({
    way: "room-sees-online", subject: group, key: `sees ${group} ${key} ${shown.map((s) => `${s.key}${s.show.faces.best}`).join(",")}`,
    routes: displays.map((d) => d.path),
    title: `the people online are seen by ${called(group)}`, unmet: `the people online are not seen by ${called(group)}`,
    assess: (trial) => {
      const lit = displays.filter((d) => carries(d.path, trial));
      if (lit.length === 0) return broken(graph, displays, "shows the people online", "nothing-shows");
      const inGroup = listeners(setup, trial).map((seat, i) => ({ seat, i })).filter(({ seat }) => seat.group === group);
      const seats = inGroup.map(({ seat }) => seat);
      const anglesOn = (by: Candidate, faces: Ranged): readonly number[] => {
        const all = facesAtSeats(setup, trial, by.ending, faces);
        return inGroup.map(({ i }) => all[i] ?? 0);
      };
      const views = lit.flatMap((d) => {
        const faces = facesOf(d.ending) ?? shown[0]?.show.faces;
        return faces === undefined ? [] : [{ by: d, angles: anglesOn(d, faces) }];
      });
      const angles = seats.map((_, i) => Math.max(0, ...views.map((view) => view.angles[i] ?? 0)));
      // The display that most of these seats look at.
      const total = views.map((view) => view.angles.reduce((sum, angle) => sum + angle, 0));
      const by = views[total.indexOf(Math.max(...total))]?.by ?? lit[0];
      const limits = { poor: FACE_LIMIT, bad: FACE_LIMIT / 4 };
      const graded = worst(seats, angles, limits, "°", "angle of a face");
      if (graded.grade !== "good") {
        // A larger picture is planned, and does not get there: that is what is wrong, not that the small one is small.
        const larger = displays.find((d) => {
          const faces = lit.includes(d) ? undefined : facesOf(d.ending);
          return faces !== undefined && worst(seats, anglesOn(d, faces), limits, "°", "").grade === "good";
        });
        if (larger !== undefined) return broken(graph, [larger], "", "");
      }
      return { ...graded, gaps: [], path: by?.path, through: by?.ending.part.id, repeatedBy: undefined };
    },
  }));
}

/** The angle under which a face on a display is seen by all `listeners`, in their order, in degrees. */
function facesAtSeats(setup: Setup, trial: Trial, display: Ending, faces: Ranged): readonly number[] {
  return trial.keep(`faces on ${display.part.id}, ${faces.id} ${faces.low} ${faces.best} ${faces.high}`, () => {
    const angle = faceAngle(setup, trial, display.device, display.part, faces);
    return listeners(setup, trial).map((seat) => angle(seat.at));
  });
}

function onlineSeesRoom(graph: Graph): Claim[] {
  const { setup } = graph;
  const cameras = candidates(graph, "picture", "camera", "back");
  const key = keyOf(cameras);
  const wanted = new Set<string>();
  for (const voice of graph.voices) wanted.add(voice.name);
  for (const name of setup.shallShow(graph.item)) wanted.add(name.text);
  return [...wanted].map((subject): Claim => ({
    way: "online-sees-room", subject, key: `seen ${subject} ${key} ${graph.voices.map((v) => v.name).join(",")}`,
    routes: cameras.map((c) => c.path),
    title: `the people online see ${called(subject)}`, unmet: `the people online do not see ${called(subject)}`,
    assess: (trial) => {
      const live = cameras.filter((c) => carries(c.path, trial));
      if (live.length === 0) return broken(graph, cameras, "sends a picture", "nothing-sends-picture");
      const points = subject === setup.lectern.name ? [setup.lectern.position.at(trial)] : pointsOf(setup, subject, trial);
      if (points.length === 0) return { ...UNMET, grade: "good", gaps: [], path: live[0]?.path, through: live[0]?.ending.part.id };
      const frames = live.map((c) => frameOf(setup, trial, c.ending, graph.voices));
      const inside = frames.map((frame) => points.map(frame));
      const margins = points.map((_, i) => Math.max(...inside.map((of) => of[i] ?? -180)));
      // Of many, half in the frame are an audience seen; of one, that one must be.
      const sorted = [...margins].sort((a, b) => a - b);
      const value = sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
      if (value < 0) {
        // A camera that would have it in its frame is planned, and does not get there: that is what is wrong.
        const planned = cameras.find((c) => {
          if (live.includes(c)) return false;
          const far = points.map(frameOf(setup, trial, c.ending, graph.voices)).sort((a, b) => a - b);
          return (far[Math.floor((far.length - 1) / 2)] ?? -1) >= 0;
        });
        if (planned !== undefined) return broken(graph, [planned], "", "");
      }
      const by = live[mostInside(inside)];
      const out = margins.filter((m) => m < 0).length;
      return {
        grade: value < 0 ? "bad" : "good", gaps: [], path: by?.path, through: by?.ending.part.id, repeatedBy: undefined,
        measured: { value, unit: "°", limit: 0, what: "distance to the edge of the frame" },
        short: out === 0 ? undefined : { count: out, of: margins.length, within: subject, worst: subject, fromRow: undefined },
      };
    },
  }));
}

/** Which camera has most of the points well inside its frame. */
function mostInside(inside: readonly (readonly number[])[]): number {
  const sums = inside.map((of) => of.reduce((sum, margin) => sum + Math.min(10, margin), 0));
  return sums.indexOf(Math.max(...sums));
}

/** Devices that any route of a claim leads through, broken or not, by way. */
export function devicesOnWays(graph: Graph): ReadonlyMap<string, ReadonlySet<WayName>> {
  let found = ON_WAYS.get(graph);
  if (found === undefined) {
    found = new Map<string, Set<WayName>>();
    for (const claim of claims(graph)) {
      for (const edge of claim.routes.flat()) {
        for (const id of [edge.from, edge.to]) {
          const key = canonical(deviceOfNode(id, graph.setup.devices, canonical));
          const ways = found.get(key) ?? new Set<WayName>();
          ways.add(claim.way);
          found.set(key, ways);
        }
      }
    }
    ON_WAYS.set(graph, found);
  }
  return found;
}
const ON_WAYS = new WeakMap<Graph, Map<string, Set<WayName>>>();

/** Grade of many places by one figure each: the worst decides. */
function worst(
  places: readonly { readonly name: string; readonly row: number; readonly at: Vec3; readonly group: string }[], values: readonly number[],
  limits: { readonly poor: number; readonly bad: number }, unit: string, what: string,
): Pick<Assessment, "grade" | "measured" | "short" | "weak"> {
  let least = 0;
  for (let i = 1; i < values.length; i += 1) if ((values[i] ?? Infinity) < (values[least] ?? Infinity)) least = i;
  const value = values[least] ?? 0;
  const grade: Grade = value < limits.bad ? "bad" : value < limits.poor ? "poor" : "good";
  const limit = grade === "bad" ? limits.bad : limits.poor;
  const failing = values.flatMap((v, i) => (v < limit ? [i] : []));
  const rows = places.length === 0 ? [] : [...new Set(places.map((p) => p.row))].sort((a, b) => a - b);
  const from = (least: number): number | undefined =>
    rows.length > 1 ? rows.find((row) => places.every((p, i) => p.row < row || (values[i] ?? 0) < least)) : undefined;
  return {
    grade, weak: { count: values.filter((v) => v < limits.poor).length, fromRow: from(limits.poor) }, measured: { value, unit, limit, what },
    short: failing.length === 0 ? undefined : { count: failing.length, of: values.length, within: places[0]?.group ?? "", worst: places[least]?.name ?? "", fromRow: from(limit) },
  };
}
