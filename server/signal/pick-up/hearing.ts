/** How the people online hear a talker: through each live microphone, and through the best of them. Seats: `seats-heard.ts`. */
import type { Vec3 } from "../../model/geometry";
import { holding } from "../../model/during";
import { valueOf } from "../../model/bound";
import { canonical } from "../../model/names";
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { PATTERNS, randomEnergyEfficiency, type PatternName } from "../../physics/directivity";
import { angleBetween, between, distance, type Vec3 as Triple } from "../../physics/geometry";
import { decayOf } from "../../physics/modulation";
import { noiseBands } from "../../physics/noise";
import { directToReverberant, speechTransfer } from "../../physics/soundField";
import { speechBands } from "../../physics/speech";
import { clarityCauses, noiseAtMicrophone, PLAYED_AT, stiOf, type ClarityCauses } from "../../physics/speechTransmission";
import { acoustics } from "../acoustics";
import { mouths, voiceAtMicrophone } from "../air";
import type { Candidate } from "../coverage/claim";
import type { Ending, Graph } from "../graph";
import { facing, pointOf, positionOf, standOf, triple } from "../stands";
import { liveKey, liveMics, noiseRise, openWith, ownMissing } from "./mics";
import { repeaters } from "./repeaters";

/** Direct over reverberant sound, A-weighted, dB: below the first hollow, below the second far away. Model choice. */
export const FAR = { warning: -6, hint: 0 } as const;
/** STI from the talker to the call. IEC 60268-16 for the index, its limits common practice. */
export const UNCLEAR = { error: 0.4, warning: 0.55 } as const;
/** Speech over noise at the microphone, dB. Common practice, no source. */
export const NOISY = { error: 6, warning: 15 } as const;
/** Nothing reverberates outdoors; more than this is no better, dB. */
const DRY = 40;

/** One talker at one of the places where they speak, through one microphone. */
export interface Hearing {
  readonly mic: Ending;
  /** Direct over reverberant sound, dB. */
  readonly ratio: number;
  /** From the voice at 1 m to the microphone, A-weighted, dB. */
  readonly transfer: number;
  /** Speech over the noise that the call gets, dB. */
  readonly overNoise: number;
  /** Speech transmission index from the mouth to whoever listens to the call, 0 … 1. */
  readonly sti: number;
  /** What it would be without noise or without reverberation: worked out when asked. */
  causes(): ClarityCauses;
  /** Mouth to microphone, m. */
  readonly apart: number;
  /** Between where the talker looks and the way to the microphone, degrees; 0 where it is worn or held. */
  readonly turned: number;
  readonly worn: boolean;
  /** How many microphones are open on the same bus. */
  readonly open: number;
}

/** Where somebody speaks from: the mouth, or for whoever walks about the corners and the middle of the area. */
export function spots(graph: Graph, voice: Voice, trial: Trial): readonly Vec3[] {
  const [at] = mouths(graph.setup, voice, trial);
  if (voice.walks === undefined || voice.seats !== undefined || at === undefined) return mouths(graph.setup, voice, trial);
  const x = trial.value(voice.walks.length) / 2;
  const y = trial.value(voice.walks.width) / 2;
  const { room } = graph.setup;
  const within = (value: number, most: number): number => Math.max(0, Math.min(most, value));
  const [length, width] = [trial.value(room.length), trial.value(room.width)];
  return [[0, 0], [-x, -y], [-x, y], [x, -y], [x, y]].map(([dx = 0, dy = 0]) => ({ x: within(at.x + dx, length), y: within(at.y + dy, width), z: at.z }));
}

/** The way somebody looks while speaking from a place, where the text says to what. */
function lookOf(graph: Graph, voice: Voice, trial: Trial): (mouth: Vec3) => Triple {
  const { setup } = graph;
  const faces = holding(voice.statements, "faces", graph.item).find((s) => !s.negated);
  const place = faces && valueOf(faces, "at", "place");
  return (mouth) => (place === undefined ? facing(setup, voice, mouth, trial) : between(triple(mouth), triple(pointOf(setup, `${voice.name} faces`, place, trial))));
}

/** Where somebody looks may differ from item to item. */
const facesKey = (graph: Graph, voice: Voice): string => (voice.statements.some((s) => s.row.head === "faces") ? graph.item ?? "" : "");

/** How one mouth is heard through one microphone, `open` of them adding up. */
export function hearingOf(graph: Graph, voice: Voice, mouth: Vec3, face: Triple, mic: Ending, open: number, trial: Trial): Hearing {
  const { setup } = graph;
  const room = acoustics(setup, trial);
  const { device, part } = mic;
  const arrival = voiceAtMicrophone(setup, trial, voice, mouth, device, part, face);
  const ree = randomEnergyEfficiency(PATTERNS[part.pattern as PatternName] ?? 1);
  const worn = canonical(positionOf(setup, device).held?.by ?? "") === canonical(voice.seats?.name ?? voice.name);
  const at = triple(standOf(setup, device, trial));
  const decay = trial.keep("decay", () => decayOf(acoustics(setup, trial).time));
  const noise = noiseAtMicrophone(trial.keep("noise in bands", () => noiseBands(acoustics(setup, trial).noise)), ree, open);
  const speech = speechBands(trial.value(voice.level));
  return {
    mic, open, worn, ratio: Math.min(DRY, directToReverberant(arrival)),
    transfer: speechTransfer(arrival), overNoise: trial.value(voice.level) + speechTransfer(arrival) - room.noise - noiseRise(mic, open),
    sti: stiOf(arrival.direct, arrival.reverberant, decay, speech, noise, { playedAt: PLAYED_AT }),
    causes: () => clarityCauses(arrival.direct, arrival.reverberant, decay, speech, noise, { playedAt: PLAYED_AT }),
    apart: distance(triple(mouth), at), turned: worn ? 0 : (angleBetween(face, between(triple(mouth), at)) * 180) / Math.PI,
  };
}

/** How somebody is heard at each of `spots` through each live microphone. For single talkers; seats have `seatsHeard`. */
export function hearings(graph: Graph, voice: Voice, live: readonly Candidate[], trial: Trial): readonly (readonly Hearing[])[] {
  return trial.keep(`hearings ${voice.name} ${facesKey(graph, voice)} ${liveKey(graph, live)}`, () => {
    const open = openWith(graph, live);
    const look = lookOf(graph, voice, trial);
    return spots(graph, voice, trial).map((mouth) => live.map((mic, i) => hearingOf(graph, voice, mouth, look(mouth), mic.ending, open[i] ?? 1, trial)));
  });
}

/** How far the worst of a hearing's measures is above its limit; all on the scale of their own steps. */
export const margin = (h: Pick<Hearing, "ratio" | "overNoise"> & { readonly sti?: number }): number =>
  Math.min((h.ratio - FAR.warning) / 6, (h.overNoise - NOISY.error) / 9, h.sti === undefined ? Infinity : (h.sti - UNCLEAR.error) / 0.15);

/** Nothing that one would notice. Music lives by its hall: of it only the noise counts. */
export const isWell = (h: Hearing, voice: Voice): boolean =>
  h.overNoise >= NOISY.warning && (voice.music || (h.ratio >= FAR.warning && h.sti >= UNCLEAR.warning));

const bestOf = (all: readonly Hearing[]): Hearing | undefined =>
  all.reduce<Hearing | undefined>((best, one) => (best === undefined || margin(one) > margin(best) ? one : best), undefined);

/** What the people online get of somebody: where the talker stands, and at the worst spot of those walked over. */
export interface Heard {
  readonly home: Hearing;
  readonly worst: Hearing;
  /** Who repeats it; it is that voice which is heard so. */
  readonly repeatedBy: string | undefined;
}

/** How a single talker is heard through the best live microphone; nothing where none is live, or the own one is wanted and does not get there. */
export function heard(graph: Graph, voice: Voice, trial: Trial): Heard | undefined {
  if (voice.seats !== undefined) return undefined;
  const own = throughBest(graph, voice, trial);
  if (own === undefined || isWell(own.home, voice)) return own;
  if (ownMissing(graph, voice, trial)) return undefined;
  return repeated(graph, voice, trial) ?? own;
}

/** What the people online get of whoever repeats somebody's words well enough. */
export function repeated(graph: Graph, voice: Voice, trial: Trial): Heard | undefined {
  for (const other of repeaters(graph, voice)) {
    const through = other.seats === undefined ? throughBest(graph, other, trial) : undefined;
    if (through !== undefined && isWell(through.home, other)) return { ...through, repeatedBy: other.name };
  }
  return undefined;
}

function throughBest(graph: Graph, voice: Voice, trial: Trial): Heard | undefined {
  const best = hearings(graph, voice, liveMics(graph, trial), trial).flatMap((all) => bestOf(all) ?? []);
  const [home] = best;
  return home === undefined ? undefined : { home, worst: best.reduce((a, b) => (margin(b) < margin(a) ? b : a)), repeatedBy: undefined };
}
