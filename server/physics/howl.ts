/** Howl: whether sound that goes round from loudspeakers to microphones and back grows. */
import type { Matrix } from "./components";
import { toDb, toPower } from "./decibel";
import { requireNonNegative, requirePositive } from "./domain";
import { spectralRadius } from "./spectralRadius";
import { worstCycle } from "./worstCycle";

/** Mean gain with peak allowance at which a loop howls, dB (model choice: 0 dB in phase at some frequency). */
export const HOWLS_FROM = 0;

/** Mean gain with peak allowance above which a loop rings and a door that opens may set it off, dB (model choice). */
export const RINGS_ABOVE = -6;

/** Part of the peaks that an equaliser takes away, dB (common practice, no source). */
export const EQUALISED = 3;

/** Bandwidth of an octave band as a share of its mid frequency, √2 − 1/√2 = 0.707. */
const OCTAVE_WIDTH = Math.SQRT1_2;

/**
 * How far the loudest of the many peaks of a room's transfer stands above its mean,
 * P = 20·lg(√d + √(v·ln(B·T/4))) − 10·lg(d + v), B = 0.707·f.
 *
 * The reverberant field at one frequency is random with an exponential power; of the B·T/4 or so independent values in a band the
 * greatest is about ln(B·T/4) times the mean, in step with the direct sound somewhere. Within about 1 dB of simulated rooms for
 * loops through a call, 0.4–2 dB high for local reinforcement. Valid above Schroeder's frequency and for B·T above about 12; where
 * the formula would fall under the mean it is 0. The classical 6 dB of feedback stability margin is this allowance: not both.
 *
 * @param direct d, power of the direct sound, any reference
 * @param reverberant v, power of the reverberant sound, same reference
 * @param frequency f, mid frequency of the octave band, Hz
 * @param time T, s
 * @returns P, dB, ≥ 0; 0 where nothing reverberates
 * @throws RangeError when a power or time is negative, or the frequency not above 0. Source: model choice, after Schroeder 1954
 */
export function peakAllowance(direct: number, reverberant: number, frequency: number, time: number): number {
  requireNonNegative("direct sound", direct);
  requireNonNegative("reverberant sound", reverberant);
  requirePositive("frequency", frequency);
  requireNonNegative("reverberation time", time);
  if (!(reverberant > 0)) return 0;
  const among = Math.max(0, Math.log((OCTAVE_WIDTH * frequency * time) / 4));
  if (reverberant === Infinity) return Math.max(0, toDb(among));
  return Math.max(0, 2 * toDb(Math.sqrt(direct) + Math.sqrt(reverberant * among)) - toDb(direct + reverberant));
}

/**
 * The most that `peakAllowance` can be, 10·lg(1 + ln(B·T/4)): where direct and reverberant sound stand as 1 to ln(B·T/4).
 *
 * @param frequency f, mid frequency of the octave band, Hz
 * @param time T, s
 * @returns dB, ≥ 0; follows from the Cauchy–Schwarz inequality, (√d + √(v·L))² ≤ (d + v)·(1 + L)
 * @throws RangeError as `peakAllowance`
 */
export function mostPeakAllowance(frequency: number, time: number): number {
  requirePositive("frequency", frequency);
  requireNonNegative("reverberation time", time);
  return toDb(1 + Math.max(0, Math.log((OCTAVE_WIDTH * frequency * time) / 4)));
}

/**
 * Matrix of mean loop gains in one band, M_ji = Σ_l β_il·10^(G_lj/10): from microphone i to microphone j over all loudspeakers l.
 *
 * @param microphones number of microphones
 * @param loudspeakers number of loudspeakers
 * @param reach β_il, power gain from microphone i to loudspeaker l (wire, mixer, call); 0 where it does not get there
 * @param coupling G_lj from loudspeaker l to microphone j, dB; already no more than −46 where a canceller holds it
 * @returns M, microphones × microphones, M_ji at j·n + i
 */
export function loopMatrix(
  microphones: number, loudspeakers: number,
  reach: (microphone: number, loudspeaker: number) => number, coupling: (loudspeaker: number, microphone: number) => number,
): Matrix {
  return loopMatrixOfPowers(microphones, loudspeakers, reach, (l, j) => toPower(coupling(l, j)));
}

/**
 * `loopMatrix` of couplings that are powers already: to make powers of levels takes longer than all the rest.
 *
 * @param microphones number of microphones
 * @param loudspeakers number of loudspeakers
 * @param reach β_il, power gain from microphone i to loudspeaker l; 0 where it does not get there
 * @param coupling 10^(G_lj/10) from loudspeaker l to microphone j, power gain
 * @returns M, microphones × microphones, M_ji at j·n + i
 */
export function loopMatrixOfPowers(
  microphones: number, loudspeakers: number,
  reach: (microphone: number, loudspeaker: number) => number, coupling: (loudspeaker: number, microphone: number) => number,
): Matrix {
  const m = new Float64Array(microphones * microphones);
  const back = new Float64Array(microphones);
  for (let l = 0; l < loudspeakers; l += 1) {
    for (let j = 0; j < microphones; j += 1) back[j] = coupling(l, j);
    for (let i = 0; i < microphones; i += 1) {
      const there = reach(i, l);
      if (there === 0) continue;
      for (let j = 0; j < microphones; j += 1) m[j * microphones + i] = (m[j * microphones + i] ?? 0) + there * (back[j] ?? 0);
    }
  }
  return m;
}

/** One link of the loop that is loudest in the mean. */
export interface LoopLink {
  readonly from: number;
  readonly to: number;
  /** dB */
  readonly gain: number;
}

/** What goes round in one band. */
export interface LoopGain {
  /** Mean loop gain of all loops together, 10·lg ρ(M), dB; −Infinity where nothing goes round. */
  readonly gain: number;
  /** Bounds between which it surely lies, dB. */
  readonly bounds: readonly [lower: number, upper: number];
  /** The single loop that is loudest in the mean, link by link; empty where nothing goes round. */
  readonly loop: readonly LoopLink[];
}

/**
 * Mean loop gain of a whole net of loops in one band, 10·lg ρ(M), and its worst single loop.
 *
 * ρ ≥ 1 means that the mean power grows with each round. It never falls when a loop is added or a microphone opened; N equal
 * microphones in one place of equal coupling give exactly 10·lg N more than one.
 *
 * @param matrix M, power gains, see `loopMatrix`
 * @param n number of microphones
 * @returns gain, bounds and worst loop
 * @throws RangeError when a gain is negative or infinite
 */
export function loopGain(matrix: Matrix, n: number): LoopGain {
  const { value, lower, upper } = spectralRadius(matrix, n);
  return { gain: toDb(value), bounds: [toDb(lower), toDb(upper)], loop: loudestLoop(matrix, n) };
}

/**
 * The single loop of a net that is loudest in the mean, link by link, without the gain of all together.
 *
 * @param matrix M, power gains, see `loopMatrix`
 * @param n number of microphones
 * @returns its links; none where nothing goes round
 * @throws RangeError when a gain is negative or infinite
 */
export function loudestLoop(matrix: Matrix, n: number): readonly LoopLink[] {
  const cycle = worstCycle(matrix, n);
  return (cycle?.places ?? []).map((from, i, places) => ({
    from, to: places[(i + 1) % places.length] ?? from, gain: toDb(cycle?.links[i] ?? 0),
  }));
}
