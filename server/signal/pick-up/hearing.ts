/** How the people online hear whoever speaks in the room: each talker through each live microphone, and through the best of them. */
import type { Vec3 } from "../../model/geometry";
import { canonical } from "../../model/names";
import { holding } from "../../model/during";
import { valueOf } from "../../model/bound";
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { PATTERNS, randomEnergyEfficiency, type PatternName } from "../../physics/directivity";
import { angleBetween, between, distance } from "../../physics/geometry";
import { decayOf } from "../../physics/modulation";
import { noiseBands } from "../../physics/noise";
import { directToReverberant, speechTransfer } from "../../physics/soundField";
import { speechBands } from "../../physics/speech";
import { clarityCauses, noiseAtMicrophone, type ClarityCauses } from "../../physics/speechTransmission";
import { openMicrophoneRise } from "../../physics/openMicrophones";
import { acoustics } from "../acoustics";
import { mouths, pickUps, voiceAtMicrophone } from "../air";
import { candidates, type Candidate } from "../coverage/claim";
import { nameOfNode, sortOf } from "../edges";
import { carries, type Ending, type Graph } from "../graph";
import { mixerOf } from "../loops/net";
import { facing, pointOf, positionOf, standOf, triple } from "../stands";
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
  /** Speech over the noise that the call gets, dB. */
  readonly overNoise: number;
  readonly clarity: ClarityCauses;
  /** Mouth to microphone, m. */
  readonly apart: number;
  /** Between where the talker looks and the way to the microphone, degrees; 0 where it is worn or held. */
  readonly turned: number;
  readonly worn: boolean;
  /** How many microphones are open on the same bus. */
  readonly open: number;
}

/** Every microphone that a way leads from to the people online. */
export const micsOf = (graph: Graph): readonly Candidate[] => candidates(graph, "sound", "microphone", "back");

/** A microphone that is worn by somebody, held, or stands at that very name. */
export const isOwn = (mic: Ending, voice: Voice): boolean =>
  mic.device.place?.relations.some((r) => r.anchor.kind === "name" && canonical(r.anchor.name.text) === canonical(voice.name)) === true;

/** The join through which a microphone is sent. */
export const sentBy = (mic: Candidate): string => {
  const edge = mic.path.find((e) => sortOf(e.to) === "sends");
  return edge === undefined ? "" : nameOfNode(edge.to);
};

/** Whether a mixer on the way opens one channel at a time. */
export const isGated = (graph: Graph, mic: Candidate): boolean => mic.path.some((edge) => {
  const mixer = mixerOf(graph, edge);
  return mixer !== undefined && graph.setup.mixers.get(mixer)?.automatic === true;
});

/** Microphones whose sound is added up with that of one of them; those that a mixer opens in turn count as one. */
export function openWith(graph: Graph, mic: Candidate, live: readonly Candidate[]): number {
  if (isGated(graph, mic)) return 1;
  const same = live.filter((other) => sentBy(other) === sentBy(mic));
  const gated = same.filter((other) => isGated(graph, other)).length;
  return Math.max(1, same.length - gated + (gated > 0 ? 1 : 0));
}

/** What the open microphones are, for the key of what hangs on them. */
const liveKey = (live: readonly Candidate[]): string => live.map((m) => m.ending.part.id).join(",");

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

/** How somebody is heard at each of `spots` through each live microphone. For single talkers; seats have `seatsHeard`. */
export function hearings(graph: Graph, voice: Voice, live: readonly Candidate[], trial: Trial): readonly (readonly Hearing[])[] {
  return trial.keep(`hearings ${voice.name} ${graph.item ?? ""} ${liveKey(live)}`, () => {
    const { setup } = graph;
    const room = acoustics(setup, trial);
    const decay = decayOf(room.time);
    const speech = speechBands(trial.value(voice.level));
    const faces = holding(voice.statements, "faces", graph.item).find((s) => !s.negated);
    const place = faces && valueOf(faces, "at", "place");
    return spots(graph, voice, trial).map((mouth) => {
      const face = place === undefined ? facing(setup, voice, mouth, trial) : between(triple(mouth), triple(pointOf(setup, `${voice.name} faces`, place, trial)));
      return live.map((mic): Hearing => {
        const { device, part } = mic.ending;
        const arrival = voiceAtMicrophone(setup, trial, voice, mouth, device, part, face);
        const open = openWith(graph, mic, live);
        const ree = randomEnergyEfficiency(PATTERNS[part.pattern as PatternName] ?? 1);
        const worn = positionOf(setup, device).held !== undefined;
        const way = between(triple(mouth), triple(standOf(setup, device, trial)));
        const rise = 10 * Math.log10(ree) + openMicrophoneRise(open);
        return {
          mic: mic.ending, open, worn, ratio: Math.min(DRY, directToReverberant(arrival)),
          overNoise: trial.value(voice.level) + speechTransfer(arrival) - room.noise - rise,
          clarity: clarityCauses(arrival.direct, arrival.reverberant, decay, speech, noiseAtMicrophone(noiseBands(room.noise), ree, open), { playedAt: 65 }),
          apart: distance(triple(mouth), triple(standOf(setup, device, trial))), turned: worn ? 0 : (angleBetween(face, way) * 180) / Math.PI,
        };
      });
    });
  });
}

/** How far the worst of a hearing's measures is above its limit; all on the scale of their own steps. */
export const margin = (h: Hearing): number =>
  Math.min((h.ratio - FAR.warning) / 6, (h.overNoise - NOISY.error) / 9, (h.clarity.sti - UNCLEAR.error) / 0.15);

const bestOf = (all: readonly Hearing[]): Hearing | undefined =>
  all.reduce<Hearing | undefined>((best, one) => (best === undefined || margin(one) > margin(best) ? one : best), undefined);

/** What the people online get of somebody: where the talker stands, and at the worst spot of those walked over. */
export interface Heard {
  readonly home: Hearing;
  readonly worst: Hearing;
  /** Who repeats it, and how that is heard. */
  readonly repeatedBy: string | undefined;
}

/** How somebody is heard through the best live microphone; nothing where no microphone is live or the own one does not get there. */
export function heard(graph: Graph, voice: Voice, trial: Trial): Heard | undefined {
  const mics = micsOf(graph);
  const live = mics.filter((m) => carries(m.path, trial));
  const of = (who: Voice): Heard | undefined => {
    const best = hearings(graph, who, live, trial).flatMap((all) => bestOf(all) ?? []);
    const [home] = best;
    if (home === undefined) return undefined;
    return { home, worst: best.reduce((a, b) => (margin(b) < margin(a) ? b : a)), repeatedBy: undefined };
  };
  const own = voice.seats === undefined ? of(voice) : undefined;
  if (own === undefined) return undefined;
  if (own.home.clarity.sti >= UNCLEAR.warning && own.home.ratio >= FAR.warning) return own;
  if (mics.some((m) => !live.includes(m) && isOwn(m.ending, voice))) return undefined;
  for (const other of repeaters(graph, voice)) {
    const through = other.seats === undefined ? of(other) : undefined;
    if (through !== undefined && through.home.clarity.sti >= UNCLEAR.warning) return { ...through, repeatedBy: other.name };
  }
  return own;
}

/** The seats of somebody's group: direct over reverberant sound at the best live microphone, dB, and which that is. */
export function seatsHeard(graph: Graph, voice: Voice, trial: Trial): { readonly ratios: readonly number[]; readonly through: readonly (Ending | undefined)[] } | undefined {
  const mics = micsOf(graph);
  const live = mics.filter((m) => carries(m.path, trial));
  if (live.length === 0 || voice.seats === undefined) return undefined;
  return trial.keep(`seats heard ${voice.name} ${liveKey(live)}`, () => {
    const { setup } = graph;
    const through: (Ending | undefined)[] = [];
    const ratios: number[] = [];
    const at = live.map((m) => pickUps(setup, trial, voice, m.ending.device, m.ending.part));
    const count = at[0]?.length ?? 0;
    for (let i = 0; i < count; i += 1) {
      let best = -Infinity;
      let by = 0;
      for (let m = 0; m < at.length; m += 1) {
        const ratio = at[m]?.[i]?.ratio ?? -Infinity;
        if (ratio > best) {
          best = ratio;
          by = m;
        }
      }
      ratios.push(Math.min(DRY, best));
      through.push(live[by]?.ending);
    }
    return { ratios, through };
  });
}
