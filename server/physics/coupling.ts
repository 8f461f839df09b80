/** Coupling from a loudspeaker to a microphone, and the echo loss that it leaves. */
import type { BandIndex, Bands } from "./bands";
import { bands, weightedSum } from "./bands";
import { toDb, toPower } from "./decibel";

/** Sending loudness rating SLR, dB: the default of ITU-T G.107. */
export const SENDING_LOUDNESS_RATING = 8;

/** Receiving loudness rating RLR, dB: the default of ITU-T G.107. */
export const RECEIVING_LOUDNESS_RATING = 2;

/** Echo loss that a canceller reaches, dB. Source: ITU-T P.1110, terminal coupling loss of hands-free sets. */
export const CANCELLER_LOSS = 46;

/** Uncancelled echo loss under which a canceller is overdriven and works half-duplex, dB (model choice). */
export const CANCELLER_STRAINED_BELOW = -15;

/** Ends of the telephone band over which echo loss is weighed, Hz (ITU-T G.122, recalled). */
const ECHO_BAND = [300, 3400] as const;

/**
 * Weight wₖ of each band in the echo loss: its part of the interval 300 … 3400 Hz on a logarithmic axis. They sum to 1:
 * 0.068 0.285 0.285 0.285 0.076 from 250 Hz to 4 kHz, nothing outside. Source: ITU-T G.122, flat over lg f (recalled).
 */
export const ECHO_WEIGHTS: Bands = bands((_, frequency) => {
  const [low, high] = ECHO_BAND;
  const from = Math.max(low, frequency / Math.SQRT2);
  const to = Math.min(high, frequency * Math.SQRT2);
  return to > from ? Math.log(to / from) / Math.log(high / low) : 0;
});

/** What the coupling of one loudspeaker into one microphone follows from. */
export interface CouplingInput {
  /** L_S1, level of the loudspeaker at 1 m when it plays nominal speech, dBA. */
  readonly loudspeakerLevel: number;
  /** L_N1, level of the near talker at 1 m, dBA. */
  readonly talkerLevel: number;
  /** H_S,k from the loudspeaker to the microphone, dB. */
  readonly loudspeakerTransfer: Bands;
  /** H_N from the near talker to the same microphone, A-weighted, dB: it sets the nominal gain. */
  readonly talkerTransfer: number;
  /** Gain beyond the nominal on the way (a stated fader, an automatic gain), dB; 0 when left out. */
  readonly extraGain?: number;
}

/**
 * Coupling of a loudspeaker into a microphone relative to the near talker, G_k = L_S1 − L_N1 + H_S,k − H_N + gain.
 *
 * Speech is 0 dB at every electrical point (model choice): the microphone is set so that its own talker comes out nominal, and
 * a far talker raises that gain and the echo with it.
 *
 * @param input levels and transfers
 * @returns G_k, dB
 */
export function coupling(input: CouplingInput): Bands {
  const level = input.loudspeakerLevel - input.talkerLevel - input.talkerTransfer + (input.extraGain ?? 0);
  return bands((k: BandIndex) => level + input.loudspeakerTransfer[k]);
}

/**
 * Terminal coupling loss, TCL = −10·lg Σ wₖ·10^(G_k/10).
 *
 * @param couplingBands G_k, dB
 * @returns TCL, dB; negative where the echo comes back louder than it was sent; Infinity where nothing couples
 */
export function echoLoss(couplingBands: Bands): number {
  return -toDb(weightedSum(ECHO_WEIGHTS, bands((k) => toPower(couplingBands[k]))));
}

/** Echo loss behind a canceller, and whether it is overdriven. */
export interface CancelledLoss {
  /** TCL with the canceller at work, dB. */
  readonly loss: number;
  /** The canceller is overdriven: it works half-duplex, one side at a time. */
  readonly strained: boolean;
}

/**
 * Echo loss behind a canceller that holds the loudspeaker (model choice).
 *
 * max(46, TCL) in all: the 46 dB are a requirement on the whole set, so adding them to the coupling would count it twice. Under
 * an uncancelled TCL of −15 dB the loss falls dB for dB. Only for the sound that the canceller's own device or unit plays;
 * another device's loudspeaker is not held at all.
 *
 * @param uncancelled TCL without the canceller, dB
 * @returns loss and whether the canceller is strained
 */
export function cancelledLoss(uncancelled: number): CancelledLoss {
  const strained = uncancelled < CANCELLER_STRAINED_BELOW;
  return {
    loss: strained ? CANCELLER_LOSS + uncancelled - CANCELLER_STRAINED_BELOW : Math.max(CANCELLER_LOSS, uncancelled),
    strained,
  };
}

/**
 * Talker echo loudness rating, TELR = SLR + RLR + TCL, with SLR 8 and RLR 2 dB.
 *
 * @param loss TCL at the far end, dB
 * @returns TELR, dB. Source: ITU-T G.107 defaults; the sum recalled
 */
export function talkerEchoLoudnessRating(loss: number): number {
  return SENDING_LOUDNESS_RATING + RECEIVING_LOUDNESS_RATING + loss;
}
