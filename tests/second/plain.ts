/** The acoustics of a box-shaped room in plain numbers, written anew for these tests: nothing is taken from the engine's physics. */
export type Point = readonly [number, number, number];

export const BANDS = [125, 250, 500, 1000, 2000, 4000, 8000];
/** Shares of the octave bands in A-weighted speech. */
const SPEECH = [0.014, 0.154, 0.476, 0.25, 0.083, 0.02, 0.003];
export const TALKER = [1.2, 1.4, 1.8, 2, 2.5, 3.2, 4];
export const COLUMN = [2, 3, 5, 8, 10, 12, 12];
export const LAPTOP = [1, 1, 1.2, 1.5, 2, 2.5, 3];

export const dB = (power: number): number => 10 * Math.log10(power);
export const power = (level: number): number => 10 ** (level / 10);
export const minus = (p: Point, q: Point): Point => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
export const length = (p: Point): number => Math.sqrt(p[0] ** 2 + p[1] ** 2 + p[2] ** 2);
const cosine = (p: Point, q: Point): number => (p[0] * q[0] + p[1] * q[1] + p[2] * q[2]) / (length(p) * length(q));
export const weighted = (bands: readonly number[]): number => dB(bands.reduce((sum, x, k) => sum + (SPEECH[k] ?? 0) * x, 0));

/** R = A/(1 − A/S) with A = 24·ln 10/c·V/T, at most 0.95·S. */
export function constant(l: number, w: number, h: number, time: readonly number[]): number[] {
  const surface = 2 * (l * w + l * h + w * h);
  return time.map((t) => {
    const area = Math.min((((24 * Math.log(10)) / 343) * l * w * h) / t, 0.95 * surface);
    return area / (1 - area / surface);
  });
}

/** Power pattern of a source at an angle off its axis: a cardioid-like family up to Q = 3, powers of the cardioid above, a floor of −15 dB. */
function sourcePattern(cos: number, q: number): number {
  const a = (1 + Math.sqrt(12 / q - 3)) / 4;
  return Math.max(10 ** -1.5, q > 3 ? ((1 + cos) / 2) ** (q - 1) : (a + (1 - a) * cos) ** 2);
}

/** First-order microphone, p + (1 − p)·cos φ, a floor of −20 dB; its share of diffuse sound is p² + (1 − p)²/3. */
const microphonePattern = (cos: number, p: number): number => Math.max(0.01, (p + (1 - p) * cos) ** 2);
const diffuseShare = (p: number): number => p * p + ((1 - p) * (1 - p)) / 3;

export interface Source { readonly at: Point; readonly toward: Point; readonly q: readonly number[] }
export interface Microphone { readonly at: Point; readonly toward: Point; readonly p: number }
export interface Field { readonly direct: readonly number[]; readonly reverberant: readonly number[] }

/** Direct and reverberant power in each band, beside the direct sound on the axis at 1 m. */
export function field({ at, toward, q }: Source, mic: Microphone, room: readonly number[]): Field {
  const way = minus(mic.at, at);
  const cos = cosine(way, minus(toward, at));
  const back = cosine(minus(at, mic.at), minus(mic.toward, mic.at));
  return {
    direct: q.map((one) => (sourcePattern(cos, one) * (mic.p === 1 ? 1 : microphonePattern(back, mic.p))) / length(way) ** 2),
    reverberant: q.map((one, k) => (16 * Math.PI * diffuseShare(mic.p)) / (one * (room[k] ?? NaN))),
  };
}

/** A mouth at its own microphone, on both axes. */
export const near = (distance: number, p: number, room: readonly number[]): Field => ({
  direct: TALKER.map(() => 1 / distance ** 2), reverberant: TALKER.map((q, k) => (16 * Math.PI * diffuseShare(p)) / (q * (room[k] ?? NaN))),
});
export const all = ({ direct, reverberant }: Field): number[] => direct.map((d, k) => d + (reverberant[k] ?? NaN));

/** What the peaks of a room add to a mean loop gain: 20·lg(√d + √(v·ln(B·T/4))) − 10·lg(d + v), B an octave. */
export function peaks(d: number, v: number, frequency: number, time: number): number {
  const logarithm = Math.log((frequency * Math.SQRT1_2 * time) / 4);
  return Math.max(0, 20 * Math.log10(Math.sqrt(d) + Math.sqrt(v * Math.max(0, logarithm))) - dB(d + v));
}
