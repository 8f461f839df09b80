/** How clearly speech is understood at a seat: direct and reverberant sound of all its sources, those that come late, and noise. */
import { flat, SPEED_OF_SOUND, type Bands } from "../../physics/bands";
import { toPower } from "../../physics/decibel";
import type { Decay, LaterArrival } from "../../physics/modulation";
import { decayOf, MODULATION_FREQUENCIES, MODULATIONS } from "../../physics/modulation";
import { noiseBands } from "../../physics/noise";
import { speechBands } from "../../physics/speech";
import { clarityCauses, stiOf, type ClarityCauses } from "../../physics/speechTransmission";
import type { Acoustics } from "../acoustics";
import { BANDS } from "./fields";
import type { Source } from "./sources";

/** What is weaker than the strongest by so much comes as more of the reverberation, dB; and no more than so many arrive one by one. Model choice. */
const APART = 15;
const MOST_APART = 6;
/** Up to so many seats each is worked out; of more, those that are worst off by what is useful over what disturbs. Model choice. */
export const EACH = 60;
const MOST_IN_DANGER = 24;

/** What listeners have in common. */
export interface Hall {
  readonly decay: Decay;
  readonly noise: Bands;
  /** dBA */
  readonly noiseLevel: number;
}

export const hallOf = (room: Acoustics): Hall => ({ decay: decayOf(room.time), noise: noiseBands(room.noise), noiseLevel: room.noise });

/** What comes to one seat: the first arrival and the later ones, in the reference of `level` at 1 m. */
export interface Arriving {
  readonly direct: Bands;
  readonly reverberant: Bands;
  readonly later: readonly LaterArrival[];
  readonly level: number;
  /** Sources of the first and of the later arrivals. */
  readonly first: Source | undefined;
  readonly others: readonly Source[];
}

/** When a source comes to a seat, s. */
export const timeAt = (source: Source, i: number): number => source.delay + (source.field.distance[i] ?? 0) / SPEED_OF_SOUND;

export function arrivingAt(sources: readonly Source[], i: number): Arriving {
  const heard = sources.map((source) => ({ source, level: source.level + (source.field.transfer[i] ?? -Infinity) })).sort((a, b) => b.level - a.level);
  const loudest = heard[0];
  if (loudest === undefined) return { direct: flat(0), reverberant: flat(0), later: [], level: 0, first: undefined, others: [] };
  const [apart, rest] = split(heard, loudest.level);
  apart.sort((a, b) => timeAt(a, i) - timeAt(b, i));
  const [first, ...others] = apart;
  if (first === undefined) return { direct: flat(0), reverberant: flat(0), later: [], level: 0, first: undefined, others: [] };
  const { level } = first;
  const reverberant = scaled(first.field.reverberant, 0, 1);
  for (const source of rest) {
    const power = toPower(source.level - level);
    for (let k = 0; k < BANDS; k += 1) reverberant[k] = (reverberant[k] ?? 0) + power * ((source.field.direct[i * BANDS + k] ?? 0) + (source.field.reverberant[k] ?? 0));
  }
  const start = timeAt(first, i);
  return {
    direct: scaled(first.field.direct, i * BANDS, 1) as unknown as Bands, reverberant: reverberant as unknown as Bands, level, first, others,
    later: others.map((source) => {
      const power = toPower(source.level - level);
      return { delay: timeAt(source, i) - start, direct: scaled(source.field.direct, i * BANDS, power) as unknown as Bands, reverberant: scaled(source.field.reverberant, 0, power) as unknown as Bands };
    }),
  };
}

/** Those that are heard one by one, and those that are too weak or too many for it. */
function split(heard: readonly { readonly source: Source; readonly level: number }[], most: number): [Source[], Source[]] {
  const apart: Source[] = [];
  const rest: Source[] = [];
  for (const { source, level } of heard) (level >= most - APART && apart.length < MOST_APART ? apart : rest).push(source);
  return [apart, rest];
}

function scaled(values: ArrayLike<number>, from: number, power: number): number[] {
  const out: number[] = [];
  for (let k = 0; k < BANDS; k += 1) out.push(power * (values[from + k] ?? 0));
  return out;
}

/** Speech transmission index at a listener. */
export function clarityAt(sources: readonly Source[], hall: Hall, i: number): number {
  const { direct, reverberant, later, level } = arrivingAt(sources, i);
  return stiOf(direct, reverberant, hall.decay, speechBands(level), hall.noise, later.length === 0 ? {} : { later });
}

/** What the index would be without each of its causes. */
export function causesAt(sources: readonly Source[], hall: Hall, i: number): ClarityCauses {
  const { direct, reverberant, later, level } = arrivingAt(sources, i);
  return clarityCauses(direct, reverberant, hall.decay, speechBands(level), hall.noise, { later });
}

/**
 * Of many seats those that are worst off: by how much of three modulations is left of the sound of all sources together, A-weighted,
 * decaying as at 1 kHz, over the noise. Worth it, for this takes a tenth of the time of an index.
 */
export function inDanger(sources: readonly Source[], hall: Hall, seats: readonly number[]): readonly number[] {
  if (seats.length <= EACH) return seats;
  const noise = toPower(hall.noiseLevel);
  const gains = sources.map((source) => toPower(source.level));
  const scores = seats.map((i) => {
    let all = noise;
    const real = [0, 0, 0];
    const imaginary = [0, 0, 0];
    for (const [n, source] of sources.entries()) {
      const direct = (gains[n] ?? 0) * (source.field.directPower[i] ?? 0);
      const whole = (gains[n] ?? 0) * (source.field.power[i] ?? 0);
      const time = timeAt(source, i);
      all += whole;
      for (let f = 0; f < TRIED.length; f += 1) {
        const at = TRIED[f] ?? 0;
        const square = hall.decay.squares[AT_1_KHZ + at] ?? 0;
        const diffuse = (whole - direct) * square;
        const [re, im] = [direct + diffuse, square > 0 ? -diffuse * (hall.decay.lags[AT_1_KHZ + at] ?? 0) : 0];
        const phase = 2 * Math.PI * (MODULATION_FREQUENCIES[at] ?? 0) * time;
        const [cosine, sine] = [Math.cos(phase), Math.sin(phase)];
        real[f] = (real[f] ?? 0) + re * cosine + im * sine;
        imaginary[f] = (imaginary[f] ?? 0) + im * cosine - re * sine;
      }
    }
    return { i, score: real.reduce((sum, re, f) => sum + Math.hypot(re, imaginary[f] ?? 0), 0) / all };
  });
  return scores.sort((a, b) => a.score - b.score || a.i - b.i).slice(0, MOST_IN_DANGER).map(({ i }) => i);
}

/** 1.6, 5 and 12.5 Hz, and where the band of 1 kHz begins. */
const TRIED = [4, 9, 13] as const;
const AT_1_KHZ = 3 * MODULATIONS;
