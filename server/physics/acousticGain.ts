/** Acoustic gain of a sound system: how much is needed so that the last row hears as well as a near listener, and how much there can be. */
import { requireNonNegative, requirePositive } from "./domain";
import { openMicrophoneRise } from "./openMicrophones";

/** Feedback stability margin, dB. Source: common practice (as transcribed from a handbook). It is the peak allowance of `howl`: not both. */
export const STABILITY_MARGIN = 6;

/** The four distances of a simple sound system, m. Their letters vary between sources. */
export interface GainDistances {
  /** D₀, talker to the farthest listener. */
  readonly talkerToListener: number;
  /** D₁, microphone to the nearest loudspeaker. */
  readonly microphoneToLoudspeaker: number;
  /** D₂, loudspeaker to the farthest listener. */
  readonly loudspeakerToListener: number;
  /** Dₛ, talker to the microphone. */
  readonly talkerToMicrophone: number;
}

/**
 * Potential acoustic gain, PAG = 20·lg(D₀·D₁/(Dₛ·D₂)) − 10·lg NOM − FSM.
 *
 * Valid outdoors, omnidirectional microphone and loudspeaker. Indoors it promises far too much: use `loopGain` there. A directional
 * pair gains about 6 dB in practice.
 *
 * @param distances m, each > 0
 * @param openMicrophones NOM ≥ 1
 * @param margin FSM, dB
 * @returns PAG, dB. Source: common practice, no standard
 * @throws RangeError when a distance is not above 0, NOM under 1 or the margin negative
 */
export function potentialGain(distances: GainDistances, openMicrophones = 1, margin = STABILITY_MARGIN): number {
  requirePositive("distance from talker to listener", distances.talkerToListener);
  requirePositive("distance from microphone to loudspeaker", distances.microphoneToLoudspeaker);
  requirePositive("distance from loudspeaker to listener", distances.loudspeakerToListener);
  requirePositive("distance from talker to microphone", distances.talkerToMicrophone);
  requireNonNegative("stability margin", margin);
  const ratio = (distances.talkerToListener / distances.talkerToMicrophone)
    * (distances.microphoneToLoudspeaker / distances.loudspeakerToListener);
  return 20 * Math.log10(ratio) - openMicrophoneRise(openMicrophones) - margin;
}

/**
 * Needed acoustic gain, NAG = 20·lg(D₀/EAD): what brings the farthest listener as near as the equivalent acoustic distance.
 *
 * @param talkerToListener D₀, m, > 0
 * @param equivalentDistance EAD, m, > 0: 8 ft (2.4 m) in quiet rooms
 * @returns NAG, dB; negative where nothing is needed. Source: common practice, no standard
 * @throws RangeError when a distance is not above 0
 */
export function neededGain(talkerToListener: number, equivalentDistance: number): number {
  requirePositive("distance from talker to listener", talkerToListener);
  requirePositive("equivalent acoustic distance", equivalentDistance);
  return 20 * Math.log10(talkerToListener / equivalentDistance);
}
