/**
 * How good a voice connection is by the E-model of ITU-T G.107 (06/2015, as transcribed), on its defaults: the rating factor R
 * from delay, loss of packets and codec, the opinion that listeners have of it, and the classes of ITU-T G.109.
 */
import { RECEIVING_LOUDNESS_RATING, SENDING_LOUDNESS_RATING } from "./coupling";
import { requireNonNegative, requirePositive } from "./domain";
import { basicRatio, delayImpairment, lineNoise, listenerEchoImpairment, NO_LISTENER_ECHO, NO_TALKER_ECHO } from "./echoImpairment";

/** Side tone masking rating, dB, and quantising distortion units: defaults of ITU-T G.107. */
const SIDE_TONE = 15;
const QUANTISING_UNITS = 1;

/**
 * Robustness of a codec against lost packets, Bpl, where it conceals them: 25.1, that of ITU-T G.711 with concealment in
 * ITU-T G.113 (as transcribed). Taken for the codec of calls in browsers, too (model choice).
 */
export const CONCEALING = 25.1;

/** R of an unimpaired connection. Source: ITU-T G.107, defaults. */
export const BEST_RATING = 93.206208;

/**
 * Impairment that comes with the voice itself, Is = Iolr + Ist + Iq: too loud a line, the own voice in the ear, quantising.
 *
 * @returns Is on the defaults, 1.41. Source: ITU-T G.107 (as transcribed)
 */
export function simultaneousImpairment(): number {
  const noise = lineNoise();
  const x = (SENDING_LOUDNESS_RATING + RECEIVING_LOUDNESS_RATING + 0.2 * (64 + noise - RECEIVING_LOUDNESS_RATING)) / 8;
  const loud = 20 * ((1 + x ** 8) ** (1 / 8) - x);
  const s = -10 * Math.log10(10 ** (-SIDE_TONE / 10) + 10 ** (-NO_TALKER_ECHO / 10));
  const own = 12 * (1 + ((s - 13) / 6) ** 8) ** (1 / 8) - 28 * (1 + ((s + 1) / 19.4) ** 35) ** (1 / 35) - 13 * (1 + ((s - 3) / 33) ** 13) ** (1 / 13) + 29;
  const q = 37 - 15 * Math.log10(QUANTISING_UNITS);
  const g = 1.07 + 0.258 * q + 0.0602 * q * q;
  const quantised = 15 * Math.log10(1 + 10 ** ((basicRatio() - 100) / 15 + 46 / 8.4 - g / 9) + 10 ** (46 / 30 - g / 40));
  return loud + own + quantised;
}

/**
 * Impairment by the codec and by lost packets, Ie,eff = Ie + (95 − Ie)·Ppl/(Ppl/BurstR + Bpl), Ppl in %.
 *
 * @param loss share of packets lost, 0 … 1
 * @param codec Ie, impairment of the codec without loss, 0 … 95
 * @param robustness Bpl, > 0
 * @param burst BurstR, 1 where losses are independent, > 0
 * @returns Ie,eff. Source: ITU-T G.107 (as transcribed)
 * @throws RangeError when a loss is negative, or robustness or burst ratio ≤ 0
 */
export function lossImpairment(loss: number, codec = 0, robustness = CONCEALING, burst = 1): number {
  requireNonNegative("loss", loss);
  requirePositive("robustness", robustness);
  requirePositive("burst ratio", burst);
  const percent = Math.min(1, loss) * 100;
  return codec + ((95 - codec) * percent) / (percent / burst + robustness);
}

/** What a connection takes from a voice. Delays in s. */
export interface Connection {
  /** Ta, from mouth to ear. */
  readonly delay: number;
  /** Share of packets lost, 0 … 1. */
  readonly loss: number;
  /** Ie of the codec; 0 where nothing is said. */
  readonly codec?: number;
  readonly robustness?: number;
}

/** R, and what each cause takes from `BEST_RATING`. */
export interface VoiceRating {
  readonly rating: number;
  readonly byDelay: number;
  readonly byLoss: number;
}

/**
 * Rating of a connection without talker echo, which has findings of its own: R = Ro − Is − Idd − Idle − Ie,eff, T = 0.
 *
 * @param connection delay, loss, codec
 * @returns R (0 … 93.2 and below 0 for the hopeless), and its parts. Source: ITU-T G.107 (as transcribed)
 * @throws RangeError when delay or loss is negative
 */
export function voiceRating({ delay, loss, codec = 0, robustness = CONCEALING }: Connection): VoiceRating {
  const byDelay = delayImpairment(delay);
  const byLoss = lossImpairment(loss, codec, robustness);
  // The listener's echo at its default costs 0.15 and does not grow here: echo is judged by itself.
  const rest = basicRatio() - simultaneousImpairment() - listenerEchoImpairment(NO_LISTENER_ECHO, 0);
  return { rating: rest - byDelay - byLoss, byDelay, byLoss };
}

/**
 * Mean opinion score of a rating, MOS = 1 + 0.035·R + 7·10⁻⁶·R·(R − 60)·(100 − R); 1 for R ≤ 0, 4.5 for R ≥ 100.
 *
 * @param rating R
 * @returns 1 … 4.5. Source: ITU-T G.107 Annex B (as transcribed)
 */
export function opinionScore(rating: number): number {
  if (rating <= 0) return 1;
  if (rating >= 100) return 4.5;
  // The cubic dips below 1 for R under 6.5; no score is lower than 1.
  return Math.max(1, 1 + 0.035 * rating + 7e-6 * rating * (rating - 60) * (100 - rating));
}

/** Classes of speech quality with the least rating of each. Source: ITU-T G.109 (as transcribed). */
export const QUALITY_CLASSES = [
  { least: 90, users: "everybody is very satisfied" },
  { least: 80, users: "everybody is satisfied" },
  { least: 70, users: "some are dissatisfied" },
  { least: 60, users: "many are dissatisfied" },
  { least: 50, users: "nearly all are dissatisfied" },
  { least: -Infinity, users: "not to be recommended" },
] as const;

/** How content users are with a connection of that rating, in the words of ITU-T G.109. */
export const satisfaction = (rating: number): string => (QUALITY_CLASSES.find((one) => rating >= one.least) ?? QUALITY_CLASSES[5]).users;
