/** What curtains, carpets or people would do to a room that rings too long. */
import { bands, type Bands } from "./bands";
import { requireNonNegative, requirePositive } from "./domain";
import { absorptionFromTime, SABINE_CONSTANT } from "./reverberation";

/** Mean absorption coefficient from which Eyring's formula is used instead of Sabine's. Source: common practice. */
export const EYRING_FROM = 0.2;

/**
 * Reverberation time by the formula that fits: Sabine while ᾱ < 0.2, Eyring from there.
 *
 * At ᾱ = 0.2 the time falls by a tenth from one to the other; it never rises with absorption.
 *
 * @param volume V, m³, > 0
 * @param surface S, m², > 0
 * @param absorbing A of surfaces, people and furniture, m², without air; ᾱ = A/S
 * @param air A_air = 4mV, m²
 * @returns T, s; Infinity when nothing absorbs, 0 when all is absorbed
 * @throws RangeError when a size is not above 0 or an absorption negative
 */
export function reverberationTime(volume: number, surface: number, absorbing: number, air = 0): number {
  requirePositive("volume", volume);
  requirePositive("surface", surface);
  requireNonNegative("absorption area", absorbing);
  requireNonNegative("absorption of air", air);
  const alpha = absorbing / surface;
  if (alpha >= 1) return 0;
  return (SABINE_CONSTANT * volume) / ((alpha < EYRING_FROM ? absorbing : -surface * Math.log1p(-alpha)) + air);
}

/** A room as it is, and what would be hung in it, in one band. */
export interface Treatment {
  /** V, m³. */
  readonly volume: number;
  /** S of walls, floor and ceiling, m². */
  readonly surface: number;
  /** T now, s, measured or worked out. */
  readonly time: number;
  /** α of what is brought in. */
  readonly alpha: number;
  /** α of what it covers; 0 for what stands free. */
  readonly covered: number;
}

/**
 * Reverberation time with so many m² treated: A′ = A + area·(α − α_covered), A from the time now.
 *
 * Both ways by Sabine while ᾱ′ < 0.2, both by Eyring from there, so that nothing treated changes nothing.
 *
 * @param room the room and what is brought in
 * @param area m², ≥ 0
 * @returns T′, s; 0 when all would be absorbed
 * @throws RangeError when a value lies outside its range, or the room could not lose what is covered
 */
export function treatedTime(room: Treatment, area: number): number {
  const { volume, surface, time, alpha, covered } = room;
  requirePositive("surface", surface);
  requireNonNegative("treated area", area);
  requireNonNegative("absorption coefficient", alpha);
  requireNonNegative("absorption coefficient of what is covered", covered);
  if (time === Infinity) requirePositive("volume", volume);
  const now = time === Infinity ? 0 : absorptionFromTime(volume, time);
  const more = area * (alpha - covered);
  if (now + more < 0) throw new RangeError("What is covered cannot absorb more than the room does.");
  if ((now + more) / surface < EYRING_FROM) return (SABINE_CONSTANT * volume) / (now + more);
  // −S·ln(1 − ᾱ) = A of Sabine: ᾱ now, then ᾱ′.
  const mean = -Math.expm1(-now / surface) + more / surface;
  return mean >= 1 ? 0 : (SABINE_CONSTANT * volume) / (-surface * Math.log1p(-mean));
}

/**
 * `treatedTime` in all bands.
 *
 * @param room volume, surface and, in bands, time and coefficients
 * @param area m²
 * @returns T′ₖ, s
 */
export function treatedTimes(
  room: { readonly volume: number; readonly surface: number; readonly time: Bands; readonly alpha: Bands; readonly covered: Bands },
  area: number,
): Bands {
  return bands((k) => treatedTime({ ...room, time: room.time[k], alpha: room.alpha[k], covered: room.covered[k] }, area));
}

/**
 * Least area that brings the reverberation time down to a wanted one.
 *
 * @param room the room and what is brought in
 * @param wanted T, s, > 0
 * @returns m²; 0 where it is short enough already; Infinity where what is brought in absorbs no more than what it covers
 * @throws RangeError as `treatedTime`
 */
export function treatmentArea(room: Treatment, wanted: number): number {
  requirePositive("wanted reverberation time", wanted);
  if (room.time <= wanted) return 0;
  const gain = room.alpha - room.covered;
  if (!(gain > 0)) return Infinity;
  // By halves: the time falls steadily with the area, with one step where the formula changes.
  let low = 0;
  let high = room.surface / gain;
  for (let step = 0; step < 200 && high - low > 1e-9 * high; step += 1) {
    const middle = (low + high) / 2;
    if (treatedTime(room, middle) > wanted) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * Reverberation time for speech, the mean of those at 500 Hz and 1 kHz.
 *
 * @param time Tₖ, s
 * @returns T, s. Source: common practice
 */
export function midFrequencyTime(time: Bands): number {
  return (time[2] + time[3]) / 2;
}

/**
 * Reverberation time told by how long a sound is heard, T = 60·t/ΔL.
 *
 * @param heard t, from the clap until it is no longer heard, s, ≥ 0
 * @param range ΔL, from the clap's reverberant level down to the noise, dB, > 0; 60 makes T the time heard. 46 and 80 dB give the
 *   factors 1.3 and 0.75 that a clap is good to
 * @returns T, s
 * @throws RangeError when the time is negative or the range not above 0
 */
export function timeFromClap(heard: number, range = 60): number {
  requireNonNegative("time that a clap is heard", heard);
  requirePositive("range of a clap over the noise", range);
  return (60 * heard) / range;
}

/** A foot, m. */
const FOOT = 0.3048;

/**
 * Longest reverberation time of a furnished, empty room for learning: 0.6 s below 10 000 ft³ (283 m³), 0.7 s to 20 000 ft³ (566 m³).
 *
 * @param volume V, m³, > 0
 * @returns T, s; undefined for larger rooms, for which the standard gives none. Source: ANSI S12.60-2002 (as transcribed)
 * @throws RangeError when the volume is not above 0
 */
export function classroomTime(volume: number): number | undefined {
  requirePositive("volume", volume);
  const cubicFeet = volume / FOOT ** 3;
  return cubicFeet < 10_000 ? 0.6 : cubicFeet <= 20_000 ? 0.7 : undefined;
}
