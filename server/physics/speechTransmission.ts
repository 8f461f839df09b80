/**
 * Speech transmission index: how well speech is understood, 0 … 1, from room, noise, late arrivals and the ear.
 *
 * IEC 60268-16 Ed. 5 (as transcribed), male speech, with the direct and the diffuse field together (model choice, see
 * `roomModulationInto`). An index worked out from reverberation time and noise tends to lie low by up to 0.1, 0.06 in the mean
 * (Galbrun & Kitapci 2014).
 */
import { A_WEIGHTING, bands, type Bands } from "./bands";
import { toPower } from "./decibel";
import { decayFrom, MODULATIONS, roomModulationInto, type Decay, type LaterArrival, type Modulation } from "./modulation";

/** Weights αₖ of the octave bands, male speech. Source: IEC 60268-16 Ed. 5 (as transcribed). */
export const STI_ALPHA: Bands = [0.085, 0.127, 0.23, 0.233, 0.309, 0.224, 0.173];

/** Redundancy βₖ of a band with the next higher one, male speech. Source: IEC 60268-16 Ed. 5 (as transcribed). */
export const STI_BETA = [0.085, 0.078, 0.065, 0.011, 0.047, 0.095] as const;

/** Absolute reception threshold of speech in octaves, dB. Source: IEC 60268-16 Ed. 5 (as transcribed). */
export const RECEPTION_THRESHOLD: Bands = [46, 27, 12, 6.5, 7.5, 8, 12];

/** Smallest difference in the index that a listener notices. Source: as transcribed, no standard at hand. */
export const STI_JUST_NOTICEABLE = 0.03;

/** What a narrow-band link, 300 … 3400 Hz, leaves of the index of each band (model choice). */
export const NARROW_BAND_LINK: Bands = [0, 0.3, 1, 1, 1, 0.3, 0];

/** Level at which sound that a call delivers is taken to be heard, dBA (model choice: the listener sets the volume). */
export const PLAYED_AT = 65;

/** Apparent signal-to-noise ratios beyond ±15 dB change nothing more: as power ratios. */
const MOST_RATIO = toPower(15);
const LEAST_RATIO = toPower(-15);

const RECEPTION_POWER = bands((k) => toPower(RECEPTION_THRESHOLD[k]));
const A_POWER = bands((k) => toPower(A_WEIGHTING[k]));

/**
 * Auditory masking of a band by the next lower one: am = 0.5·L − 65 under 63 dB, 1.8·L − 146.9 to 67 dB, 0.5·L − 59.8 to 100 dB,
 * −10 from 100 dB. Source: IEC 60268-16 Ed. 5 (as transcribed).
 *
 * @param level L of the lower band, speech and noise together, dB
 * @returns level of what is masked, dB relative to L
 */
export function maskingLevel(level: number): number {
  if (level < 63) return 0.5 * level - 65;
  if (level < 67) return 1.8 * level - 146.9;
  if (level < 100) return 0.5 * level - 59.8;
  return -10;
}

const AT_63 = toPower(63);
const AT_67 = toPower(67);
const AT_100 = toPower(100);
const LOW_SLOPE = toPower(-65);
const MIDDLE_SLOPE = toPower(-146.9);
const HIGH_SLOPE = toPower(-59.8);

/** `maskingLevel` as powers, I·10^(am/10): without a logarithm, for it is asked six times a seat. */
function maskingPower(intensity: number): number {
  if (intensity < AT_63) return intensity * Math.sqrt(intensity) * LOW_SLOPE;
  if (intensity < AT_67) return intensity * intensity ** 1.8 * MIDDLE_SLOPE;
  if (intensity < AT_100) return intensity * Math.sqrt(intensity) * HIGH_SLOPE;
  return intensity * 0.1;
}

/**
 * Speech transmission index of the bands' modulation transfer indices, STI = Σ αₖ·MTIₖ − Σ βₖ·√(MTIₖ·MTIₖ₊₁), at most 1.
 *
 * The redundancy term makes it fall by up to 0.05 where a band that was lost just begins to be heard: the standard's own way.
 *
 * @param mti MTIₖ, 0 … 1
 * @returns STI, 0 … 1. Source: IEC 60268-16 Ed. 5 (as transcribed)
 */
export function stiFromBands(mti: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < 7; k += 1) {
    const here = mti[k] ?? 0;
    sum += (STI_ALPHA[k] ?? 0) * here;
    if (k < 6) sum -= (STI_BETA[k] ?? 0) * Math.sqrt(here * (mti[k + 1] ?? 0));
  }
  return Math.min(1, Math.max(0, sum));
}

/**
 * Modulation transfer index of each band, MTI = mean over F of (clip(10·lg(m/(1 − m)), ±15) + 15)/30, written into an array.
 *
 * The mean of logarithms is one logarithm of the product: clipped to ±15 dB, 14 of them stay far from overflow.
 *
 * @param out gets seven values
 * @param modulation m, 0 … 1
 */
function mtiInto(out: Float64Array, modulation: Modulation): void {
  for (let k = 0; k < 7; k += 1) {
    let product = 1;
    for (let i = k * MODULATIONS; i < (k + 1) * MODULATIONS; i += 1) {
      const m = modulation[i] ?? 0;
      const ratio = m / (1 - m);
      product *= ratio > MOST_RATIO ? MOST_RATIO : ratio > LEAST_RATIO ? ratio : LEAST_RATIO;
    }
    out[k] = ((10 / MODULATIONS) * Math.log10(product) + 15) / 30;
  }
}

/** The index with what it is made of. */
export interface SpeechTransmission {
  readonly sti: number;
  /** Modulation transfer index of each band, 0 … 1, after the link's weights. */
  readonly mti: Bands;
}

/**
 * Index of a modulation transfer that holds everything already: room, noise, and what the ear adds.
 *
 * @param modulation m of every band and modulation frequency, 0 … 1
 * @param link weight of each band's MTI by a band-limiting link, 0 … 1; 1 when left out
 * @returns the index and its bands
 */
export function speechTransmissionOf(modulation: Modulation, link?: Bands): SpeechTransmission {
  const out = new Float64Array(7);
  mtiInto(out, modulation);
  const mti = bands((k) => (out[k] ?? 0) * (link?.[k] ?? 1));
  return { sti: stiFromBands(mti), mti };
}

/** What else a listener's index depends on. */
export interface StiOptions {
  /** Later arrivals of the same speech, in the reference of the first. */
  readonly later?: readonly LaterArrival[];
  /** Modulation transfer of the linear stages before this one (a microphone in another room); nothing lost when left out. */
  readonly before?: Modulation;
  /** Weight of each band's MTI by a band-limiting link before this stage, such as `NARROW_BAND_LINK`. */
  readonly link?: Bands;
  /** The sound is carried on and heard at this level, dBA: speech and noise are shifted together. Left out: heard as it is. */
  readonly playedAt?: number;
  /** Auditory masking and reception threshold; at work when left out. */
  readonly ear?: boolean;
}

/** e^(this·L) is 10^(L/10), in a third of the time. */
const NEPER = Math.LN10 / 10;

// Worked in place, so that 500 seats × 20 loudspeakers make no garbage; nothing in them outlives a call.
const modulationHere = new Float64Array(7 * MODULATIONS);
const mtiHere = new Float64Array(7);
const signals = new Float64Array(7);
const totals = new Float64Array(7);

/** Fills `mtiHere` for a listener. */
function listen(direct: Bands, reverberant: Bands, decay: Decay, speech: Bands, noise: Bands, options: StiOptions): void {
  const { later, before, link } = options;
  roomModulationInto(modulationHere, direct, reverberant, decay, later);
  let loudness = 0;
  for (let k = 0; k < 7; k += 1) {
    let arrived = (direct[k] ?? 0) + (reverberant[k] ?? 0);
    if (later !== undefined) {
      for (let a = 0; a < later.length; a += 1) arrived += (later[a]?.direct[k as 0] ?? 0) + (later[a]?.reverberant[k as 0] ?? 0);
    }
    const signal = arrived > 0 ? arrived * Math.exp(NEPER * (speech[k] ?? 0)) : 0;
    signals[k] = signal;
    totals[k] = signal + Math.exp(NEPER * (noise[k] ?? 0));
    loudness += signal * (A_POWER[k] ?? 0);
  }
  // Speech that is silent cannot be turned up to a level.
  const gain = options.playedAt === undefined || !(loudness > 0 && loudness < Infinity) ? 1 : 10 ** (options.playedAt / 10) / loudness;
  const ear = options.ear !== false;
  for (let k = 0; k < 7; k += 1) {
    const signal = (signals[k] ?? 0) * gain;
    let against = (totals[k] ?? 0) * gain;
    if (ear) {
      against += RECEPTION_POWER[k] ?? 0;
      if (k > 0) against += maskingPower((totals[k - 1] ?? 0) * gain);
    }
    const share = signal === Infinity ? 1 : signal > 0 ? signal / against : 0;
    for (let i = k * MODULATIONS; i < (k + 1) * MODULATIONS; i += 1) {
      const m = (modulationHere[i] ?? 0) * share;
      modulationHere[i] = before === undefined ? m : m * (before[i] ?? 0);
    }
  }
  mtiInto(mtiHere, modulationHere);
  if (link !== undefined) for (let k = 0; k < 7; k += 1) mtiHere[k] = (mtiHere[k] ?? 0) * (link[k] ?? 1);
}

const NOTHING: StiOptions = {};

/**
 * Speech transmission index at a listener.
 *
 * m = m_room(F) · I_s/(I_s + I_n + I_am + I_rt): direct and diffuse field with later arrivals, noise, masking by the next lower
 * band and reception threshold; then MTI and STI. Valid for linear paths in a diffuse field with exponential decay.
 *
 * @param direct dₖ at the listener, power ratio to the source's direct sound on its axis at 1 m (see `transferBands`)
 * @param reverberant vₖ likewise
 * @param time Tₖ, s, or `decayOf` it, which is worth it for more than one listener
 * @param speech levels of the source at 1 m on its axis in bands, dB (see `speechBands`)
 * @param noise levels at the listener in bands, dB; −Infinity for none (see `noiseBands`)
 * @param options later arrivals, earlier stages, band-limiting link, playback level
 * @returns STI, 0 … 1. Source: IEC 60268-16 Ed. 5, male (as transcribed); direct with diffuse field a model choice
 * @throws RangeError when a time or delay is negative
 */
export function stiOf(
  direct: Bands, reverberant: Bands, time: Bands | Decay, speech: Bands, noise: Bands, options: StiOptions = NOTHING,
): number {
  listen(direct, reverberant, decayFrom(time), speech, noise, options);
  return stiFromBands(mtiHere);
}

/**
 * `stiOf` with the index of each band, for an explanation.
 *
 * @returns the index and its bands
 */
export function speechTransmission(
  direct: Bands, reverberant: Bands, time: Bands | Decay, speech: Bands, noise: Bands, options: StiOptions = NOTHING,
): SpeechTransmission {
  listen(direct, reverberant, decayFrom(time), speech, noise, options);
  return { sti: stiFromBands(mtiHere), mti: bands((k) => mtiHere[k] ?? 0) };
}

/** What the index would be if one cause were taken away. */
export interface ClarityCauses {
  readonly sti: number;
  readonly withoutNoise: number;
  readonly withoutReverberation: number;
  readonly withoutLaterArrivals: number;
}

/**
 * Tells the cause of an index: what it would be without the noise, without the reverberant field, without the later arrivals.
 *
 * Without reverberation the level falls to that of the direct sound, as outdoors: with much noise that may be worse.
 *
 * @returns four indices
 */
export function clarityCauses(
  direct: Bands, reverberant: Bands, time: Bands | Decay, speech: Bands, noise: Bands, options: StiOptions = NOTHING,
): ClarityCauses {
  const decay = decayFrom(time);
  const { later = [], ...rest } = options;
  const none = bands(() => 0);
  return {
    sti: stiOf(direct, reverberant, decay, speech, noise, options),
    withoutNoise: stiOf(direct, reverberant, decay, speech, bands(() => -Infinity), options),
    withoutReverberation: stiOf(
      direct, none, decay, speech, noise, { ...rest, later: later.map((arrival) => ({ ...arrival, reverberant: none })) },
    ),
    withoutLaterArrivals: stiOf(direct, reverberant, decay, speech, noise, rest),
  };
}

/** Words for an index, from worst to best, with the value under which each holds. Source: ISO 9921 (as transcribed). */
export const CLARITY_WORDS = [
  { word: "bad", under: 0.3 }, { word: "poor", under: 0.45 }, { word: "fair", under: 0.6 }, { word: "good", under: 0.75 },
  { word: "excellent", under: Infinity },
] as const;

/** Word for an index. */
export type ClarityWord = (typeof CLARITY_WORDS)[number]["word"];

/**
 * The word for an index: bad < 0.30 ≤ poor < 0.45 ≤ fair < 0.60 ≤ good < 0.75 ≤ excellent.
 *
 * @param sti STI, 0 … 1
 * @returns the word. Source: ISO 9921 (as transcribed)
 */
export function clarityWord(sti: number): ClarityWord {
  return CLARITY_WORDS.find(({ under }) => sti < under)?.word ?? "excellent";
}

/**
 * Noise that a microphone sends, relative to what an omni hears: Nₖ + 10·lg REE + 10·lg NOM.
 *
 * A directional microphone takes up a share REE of the room's diffuse noise; each further open microphone on the same bus adds its
 * own. As a model of several microphones at one talker it is pessimistic where an automatic mixer closes the others.
 *
 * @param noise Nₖ in the room, dB
 * @param ree random energy efficiency of the microphone
 * @param open NOM, number of open microphones of equal gain, ≥ 1
 * @returns levels in bands, dB
 */
export function noiseAtMicrophone(noise: Bands, ree: number, open = 1): Bands {
  const rise = 10 * Math.log10(ree * open);
  return bands((k) => noise[k] + rise);
}
