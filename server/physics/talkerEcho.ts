/** How much echo a talker bears, by how late it comes. */
import { requireNonNegative } from "./domain";

/** How far under the acceptable rating an echo alone spoils a call, dB (see `failingTelr`). */
export const FAILING_BELOW_ACCEPTABLE = 10.5;

/** Mean one-way delay up to which G.131 asks for no echo control, s. */
export const ECHO_CONTROL_FROM = 0.025;

/**
 * Delay T of ITU-T G.131 and G.107 for an echo: half of its whole round trip.
 *
 * @param roundTrip from the talker's mouth out, through the far room, and back to the talker's ear, s
 * @returns T, s
 * @throws RangeError when the round trip is negative
 */
export function meanOneWayDelay(roundTrip: number): number {
  requireNonNegative("round trip", roundTrip);
  return roundTrip / 2;
}

/**
 * Talker echo loudness rating at which 1 % of talkers complain: TELR = 14 + 40·lg[(1 + T/10)/(1 + T/150)] − 6·e^(−0.3·T²),
 * T in ms.
 *
 * It is the value at which the perceived echo rating TERV of ITU-T G.107 equals 14, G.131's criterion. That reading of the
 * criterion is inferred: it passes through both values published in G.131, 33 dB at 25 ms and 47 dB at 100 ms. It rises with
 * the delay toward 61 dB.
 *
 * @param delay T, mean one-way delay of the echo path, s, ≥ 0
 * @returns acceptable TELR, dB
 * @throws RangeError when the delay is negative
 */
export function acceptableTelr(delay: number): number {
  requireNonNegative("delay", delay);
  const t = delay * 1000;
  return 14 + 40 * Math.log10((1 + t / 10) / (1 + t / 150)) - 6 * Math.exp(-0.3 * t * t);
}

/**
 * Talker echo loudness rating under which echo alone spoils a call: 10.5 dB under the acceptable one.
 *
 * Model choice: there talker echo alone brings the rating factor R of ITU-T G.107, all else at its defaults, down to 51 at any
 * delay above 10 ms, and to 50 with the listener echo of the same path: the floor of the categories of G.109. The limiting curve
 * of G.131 (10 % complaints) was not available.
 *
 * @param delay T, s, ≥ 0
 * @returns TELR, dB
 * @throws RangeError when the delay is negative
 */
export function failingTelr(delay: number): number {
  return acceptableTelr(delay) - FAILING_BELOW_ACCEPTABLE;
}
