/** Several microphones: what each further open one costs, how far apart they belong, how near to the talker. */
import { requireNonNegative, requirePositive } from "./domain";

/** Spacing of microphones as a multiple of the talker's distance. Source: common practice (a microphone maker's guide). */
export const SPACING_RATIO = 3;

/**
 * Share of the critical distance up to which a microphone is counted as in the direct field. Source: common practice (handbook of
 * sound system design): ≤ ⅓. The direct sound is 9.5 dB above the reverberant there.
 */
export const DIRECT_FIELD_SHARE = 1 / 3;

/**
 * Rise of noise, reverberation and loop gain by several open microphones of equal gain, 10·lg NOM: 3 dB with each doubling.
 *
 * @param open NOM ≥ 1; a mean over the meeting need not be whole
 * @returns rise, dB
 * @throws RangeError when fewer than one
 */
export function openMicrophoneRise(open: number): number {
  if (!(open >= 1)) throw new RangeError(`The number of open microphones must be at least 1, not ${open}.`);
  return 10 * Math.log10(open);
}

/**
 * Level at which a talker reaches a neighbour's microphone below the own one, 20·lg(r₂/r₁), direct sound, equal patterns.
 *
 * @param own r₁, talker to the own microphone, m, > 0
 * @param other r₂, talker to the other microphone, m, > 0
 * @returns dB; 9.5 at the ratio of 3:1
 * @throws RangeError when a distance is not above 0
 */
export function microphoneSeparation(own: number, other: number): number {
  requirePositive("distance to the own microphone", own);
  requirePositive("distance to the other microphone", other);
  return 20 * Math.log10(other / own);
}

/**
 * Whether two microphones on one bus keep the spacing of 3:1.
 *
 * @param talkerDistance talker to the own microphone, m
 * @param spacing between the microphones, m
 * @returns true where the spacing is at least three times the talker's distance
 * @throws RangeError when a distance is negative
 */
export function wellSpaced(talkerDistance: number, spacing: number): boolean {
  requireNonNegative("distance to the own microphone", talkerDistance);
  requireNonNegative("spacing of microphones", spacing);
  return spacing >= SPACING_RATIO * talkerDistance;
}

/**
 * Greatest distance of a talker from a microphone in the direct field, Dc·√(1/REE)/3.
 *
 * @param criticalDistance Dc of the talker, m
 * @param distanceFactor 1/√REE of the microphone, see `distanceFactor`; 1 for an omni
 * @returns m
 * @throws RangeError when either is negative
 */
export function directFieldDistance(criticalDistance: number, distanceFactor = 1): number {
  requireNonNegative("critical distance", criticalDistance);
  requireNonNegative("distance factor", distanceFactor);
  return DIRECT_FIELD_SHARE * criticalDistance * distanceFactor;
}
