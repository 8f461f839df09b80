/**
 * What delay and echo take from the rating factor R of the E-model: the terms Idte, Idle and Idd of ITU-T G.107 (06/2015, as
 * transcribed), on its defaults. Delays here are in seconds, in the recommendation in milliseconds.
 */
import { RECEIVING_LOUDNESS_RATING, SENDING_LOUDNESS_RATING } from "./coupling";
import { powerSum } from "./decibel";
import { requireNonNegative } from "./domain";

/** Weighted echo path loss of a call without listener echo, dB: the default of ITU-T G.107. */
export const NO_LISTENER_ECHO = 110;

/** Talker echo loudness rating of a call without talker echo, dB: the default of ITU-T G.107. */
export const NO_TALKER_ECHO = 65;

/** Circuit noise Nc, noise floor Nfor, dBm0p; room noise Ps = Pr, dBA; D-values and side tone of ITU-T G.107's defaults. */
const CIRCUIT_NOISE = -70;
const NOISE_FLOOR = -64;
const ROOM_NOISE = 35;
const SENDER_D = 3;
const LISTENER_SIDETONE = 18;

/**
 * Sum of all noise at the 0 dBr point, No = Nc ⊕ Nos ⊕ Nor ⊕ (Nfor + RLR), ⊕ the power sum.
 *
 * @param sendingRoom Ps, dBA
 * @param receivingRoom Pr, dBA
 * @returns No, dBm0p; −61.18 at the defaults. Source: ITU-T G.107 (as transcribed)
 */
export function lineNoise(sendingRoom = ROOM_NOISE, receivingRoom = ROOM_NOISE): number {
  const slr = SENDING_LOUDNESS_RATING;
  const rlr = RECEIVING_LOUDNESS_RATING;
  const sent = sendingRoom - slr - SENDER_D - 100 + 0.004 * (sendingRoom - slr - rlr - SENDER_D - 14) ** 2;
  const heard = receivingRoom + 10 * Math.log10(1 + 10 ** ((10 - LISTENER_SIDETONE) / 10));
  return powerSum([CIRCUIT_NOISE, sent, rlr - 121 + heard + 0.008 * (heard - 35) ** 2, NOISE_FLOOR + rlr]);
}

/**
 * Basic signal-to-noise ratio, Ro = 15 − 1.5·(SLR + No).
 *
 * @param noise No, dBm0p
 * @returns Ro, 94.77 at the defaults. Source: ITU-T G.107 (as transcribed)
 */
export function basicRatio(noise = lineNoise()): number {
  return 15 - 1.5 * (SENDING_LOUDNESS_RATING + noise);
}

/**
 * Impairment by talker echo, Idte = (δ + √(δ² + 100) − 1)·(1 − e^(−T)), δ = (Roe − Re)/2, Roe = −1.5·(No − RLR),
 * Re = 80 + 2.5·(TERV − 14), TERV = TELR − 40·lg[(1 + T/10)/(1 + T/150)] + 6·e^(−0.3·T²), T in ms; 0 under 1 ms.
 *
 * @param telr TELR, dB
 * @param delay T, mean one-way delay of the echo, s (see `meanOneWayDelay`)
 * @param noise No, dBm0p
 * @returns Idte, ≥ 0. Source: ITU-T G.107 (as transcribed)
 * @throws RangeError when the delay is negative
 */
export function talkerEchoImpairment(telr: number, delay: number, noise = lineNoise()): number {
  requireNonNegative("delay", delay);
  const t = delay * 1000;
  if (t < 1 || telr === Infinity) return 0;
  const perceived = telr - 40 * Math.log10((1 + t / 10) / (1 + t / 150)) + 6 * Math.exp(-0.3 * t * t);
  const half = (-1.5 * (noise - RECEIVING_LOUDNESS_RATING) - (80 + 2.5 * (perceived - 14))) / 2;
  return Math.max(0, (rooted(half, 100) - 1) * (1 - Math.exp(-t)));
}

/**
 * Impairment by listener echo, Idle = ε + √(ε² + 169), ε = (Ro − Rle)/2, Rle = 10.5·(WEPL + 7)·(Tr + 1)^(−¼), Tr in ms.
 *
 * @param wepl WEPL, weighted loss once round the echo path, dB
 * @param roundTrip Tr, s
 * @param ratio Ro
 * @returns Idle, > 0. Source: ITU-T G.107 (as transcribed)
 * @throws RangeError when the round trip is negative
 */
export function listenerEchoImpairment(wepl: number, roundTrip: number, ratio = basicRatio()): number {
  requireNonNegative("round trip", roundTrip);
  if (wepl === Infinity) return 0;
  const half = (ratio - 10.5 * (wepl + 7) * (roundTrip * 1000 + 1) ** -0.25) / 2;
  return rooted(half, 169);
}

/**
 * Impairment by delay without echo, Idd = 25·[(1 + x⁶)^(1/6) − 3·(1 + (x/3)⁶)^(1/6) + 2], x = log₂(Ta/100 ms); 0 up to 100 ms.
 *
 * @param delay Ta, absolute one-way delay, s
 * @returns Idd, ≥ 0. Source: ITU-T G.107 (as transcribed)
 * @throws RangeError when the delay is negative
 */
export function delayImpairment(delay: number): number {
  requireNonNegative("delay", delay);
  if (delay <= 0.1) return 0;
  const x = Math.log2(delay / 0.1);
  return 25 * ((1 + x ** 6) ** (1 / 6) - 3 * (1 + (x / 3) ** 6) ** (1 / 6) + 2);
}

/** a + √(a² + b), without losing its digits where a is far below zero. */
function rooted(a: number, b: number): number {
  const root = Math.sqrt(a * a + b);
  return a < 0 ? b / (root - a) : a + root;
}
