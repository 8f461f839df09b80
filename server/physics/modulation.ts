/**
 * Modulation transfer: how much of the rise and fall of speech's loudness is left after a room, noise and late arrivals.
 *
 * A modulation transfer m is kept for 7 octave bands × 14 modulation frequencies, band by band in one array, so that a chain of
 * stages is a product of arrays and a hall of seats is worked out without making a new object for each.
 */
import { BAND_INDICES, type Bands } from "./bands";
import { toPower } from "./decibel";
import { requireNonNegative } from "./domain";

/** Modulation frequencies F, Hz: thirds of an octave. Source: IEC 60268-16 Ed. 5 (as transcribed). */
export const MODULATION_FREQUENCIES = [0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5] as const;

/** Number of modulation frequencies. */
export const MODULATIONS = MODULATION_FREQUENCIES.length;

/** m of every band and modulation frequency: m of band k at Fᵢ stands at k·14 + i. */
export type Modulation = Float64Array;

/** Decay constant of the modulation transfer, T·1/s: 13.8 as the standard rounds 6·ln 10, a fall by 60 dB. */
export const DECAY_CONSTANT = 13.8;

/** What reverberation does to modulations, worked out once for all seats of a room. */
export interface Decay {
  /** 1/(1 + x²), x = 2π·F·T/13.8: the square of a diffuse field's modulation transfer; k·14 + i. */
  readonly squares: Float64Array;
  /** x, likewise. */
  readonly lags: Float64Array;
}

/** A later arrival of the same speech: a second loudspeaker, a delayed feed, an echo. */
export interface LaterArrival {
  /** Delay behind the first arrival, s, ≥ 0. */
  readonly delay: number;
  /** d of its direct sound, a power ratio to the same reference as the first arrival's. */
  readonly direct: Bands;
  /** v of its reverberant sound, likewise. */
  readonly reverberant: Bands;
}

/**
 * Prepares the modulation transfer of an exponential decay, 1/(1 + j·2πFT/13.8).
 *
 * @param time T in bands, s, ≥ 0; 0 leaves modulations whole, Infinity takes them all
 * @returns tables for `modulationOf` and for the speech transmission index
 * @throws RangeError when a time is negative or NaN
 */
export function decayOf(time: Bands): Decay {
  const squares = new Float64Array(7 * MODULATIONS);
  const lags = new Float64Array(7 * MODULATIONS);
  for (const k of BAND_INDICES) {
    requireNonNegative("reverberation time", time[k]);
    MODULATION_FREQUENCIES.forEach((frequency, i) => {
      const lag = (2 * Math.PI * frequency * time[k]) / DECAY_CONSTANT;
      lags[k * MODULATIONS + i] = lag;
      squares[k * MODULATIONS + i] = 1 / (1 + lag * lag);
    });
  }
  return { squares, lags };
}

/** Whether times have been prepared already. */
export function decayFrom(time: Bands | Decay): Decay {
  return "squares" in time ? time : decayOf(time);
}

/** Cosines and sines of the phases of later arrivals; contents are of no meaning after a call. */
let cosines = new Float64Array(8 * MODULATIONS);
let sines = new Float64Array(8 * MODULATIONS);

/** Works out 2πF·delay of all later arrivals; the phases are the same in all bands. */
function preparePhases(later: readonly LaterArrival[]): void {
  if (cosines.length < later.length * MODULATIONS) {
    cosines = new Float64Array(2 * later.length * MODULATIONS);
    sines = new Float64Array(2 * later.length * MODULATIONS);
  }
  for (let a = 0; a < later.length; a += 1) {
    const delay = later[a]?.delay ?? 0;
    requireNonNegative("delay of a later arrival", delay);
    for (let i = 0; i < MODULATIONS; i += 1) {
      const phase = 2 * Math.PI * (MODULATION_FREQUENCIES[i] ?? 0) * delay;
      cosines[a * MODULATIONS + i] = Math.cos(phase);
      sines[a * MODULATIONS + i] = Math.sin(phase);
    }
  }
}

/**
 * Modulation transfer of a room without noise, m(F) = |Σ e^(−j2πFt)·(d + v/(1 + j·2πFT/13.8))|/Σ(d + v), written into an array.
 *
 * The direct sound keeps its modulations, the diffuse field smears them, and the two are added as what they are: waves of
 * intensity with a phase. For one arrival this is m² = ρ² + (1 − ρ²)/(1 + x²), ρ = d/(d + v). Reverberation alone gives Schroeder's
 * 1981 form, which makes a microphone at the lips no clearer than the back row.
 *
 * @param out gets the 98 values
 * @param direct d of the first arrival, power ratio
 * @param reverberant v of the first arrival
 * @param decay the room's decay
 * @param later arrivals behind the first, in the same reference; none when left out
 */
export function roomModulationInto(
  out: Modulation, direct: Bands, reverberant: Bands, decay: Decay, later: readonly LaterArrival[] = [],
): void {
  const { squares, lags } = decay;
  if (later.length > 0) preparePhases(later);
  for (let k = 0; k < 7; k += 1) {
    const d = direct[k] ?? 0;
    const v = reverberant[k] ?? 0;
    const from = k * MODULATIONS;
    if (later.length === 0) {
      const all = d + v;
      const share = all > 0 ? d / all : 0;
      const whole = share * share;
      for (let i = 0; i < MODULATIONS; i += 1) {
        out[from + i] = all > 0 ? Math.sqrt(whole + (1 - whole) * (squares[from + i] ?? 0)) : 0;
      }
      continue;
    }
    let all = d + v;
    for (let a = 0; a < later.length; a += 1) all += (later[a]?.direct[k as 0] ?? 0) + (later[a]?.reverberant[k as 0] ?? 0);
    for (let i = 0; i < MODULATIONS; i += 1) {
      const square = squares[from + i] ?? 0;
      const slope = square > 0 ? square * (lags[from + i] ?? 0) : 0;
      let real = d + v * square;
      let imaginary = -v * slope;
      for (let a = 0; a < later.length; a += 1) {
        const arrival = later[a];
        if (arrival === undefined) continue;
        const directly = arrival.direct[k as 0];
        const diffusely = arrival.reverberant[k as 0];
        const re = directly + diffusely * square;
        const im = -diffusely * slope;
        const cosine = cosines[a * MODULATIONS + i] ?? 1;
        const sine = sines[a * MODULATIONS + i] ?? 0;
        real += re * cosine + im * sine;
        imaginary += im * cosine - re * sine;
      }
      out[from + i] = all > 0 ? Math.min(1, Math.sqrt(real * real + imaginary * imaginary) / all) : 0;
    }
  }
}

/**
 * Modulation transfer of one stage of a chain, room and noise: m(F) of `roomModulationInto` · 1/(1 + 10^(−SNR/10)).
 *
 * The ear's own masking and threshold belong to the last stage only (`stiOf`).
 *
 * @param direct d at the stage's receiver, power ratio to the source's direct sound at 1 m
 * @param reverberant v likewise
 * @param time T in bands, s, or its prepared decay
 * @param speech levels of the source at 1 m on its axis in bands, dB
 * @param noise levels at the receiver in bands, dB; −Infinity for none
 * @param later later arrivals, in the same reference
 * @returns the 98 values
 */
export function modulationOf(
  direct: Bands, reverberant: Bands, time: Bands | Decay, speech: Bands, noise: Bands, later: readonly LaterArrival[] = [],
): Modulation {
  const out = new Float64Array(7 * MODULATIONS);
  roomModulationInto(out, direct, reverberant, decayFrom(time), later);
  for (const k of BAND_INDICES) {
    const arrived = later.reduce((sum, arrival) => sum + arrival.direct[k] + arrival.reverberant[k], direct[k] + reverberant[k]);
    const signal = arrived * toPower(speech[k]);
    const share = signal === Infinity ? 1 : signal > 0 ? signal / (signal + toPower(noise[k])) : 0;
    for (let i = k * MODULATIONS; i < (k + 1) * MODULATIONS; i += 1) out[i] = (out[i] ?? 0) * share;
  }
  return out;
}

/**
 * Modulation transfer of linear stages one after the other, m = Π mₛ.
 *
 * Valid for linear stages with independent noises; a codec is not one.
 *
 * @param stages at least none: an empty chain transfers everything
 * @returns the product
 */
export function chainModulation(...stages: readonly Modulation[]): Modulation {
  const out = new Float64Array(7 * MODULATIONS).fill(1);
  for (const stage of stages) for (let i = 0; i < out.length; i += 1) out[i] = (out[i] ?? 0) * (stage[i] ?? 0);
  return out;
}
