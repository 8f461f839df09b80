/** Bit rates of pictures and sound in a call. */
import { requireNonNegative, requirePositive } from "./domain";

/** Least, intended and greatest rate of a stream, bit/s, without packet overhead. */
export interface RateRange {
  readonly minimum: number;
  readonly target: number;
  readonly maximum: number;
}

/** Picture coding standards that calls use. */
export type VideoCodec = "vp8" | "h264" | "vp9" | "av1" | "h265";

type Row = readonly [pixels: number, maximum: number, target: number, minimum: number];

/** Rows for VP8 and H.264: pixels; maximum, target, minimum in kbit/s; largest picture first. */
const OLDER_CODECS: readonly [Row, ...Row[]] = [
  [1920 * 1080, 5000, 4000, 800],
  [1280 * 720, 2500, 2500, 600],
  [960 * 540, 1200, 1200, 350],
  [640 * 360, 700, 500, 150],
  [480 * 270, 450, 350, 150],
  [320 * 180, 200, 150, 30],
];

/** Rows for VP9, AV1 and H.265. */
const NEWER_CODECS: readonly [Row, ...Row[]] = [
  [1920 * 1080, 3367, 3367, 769],
  [1280 * 720, 1524, 1524, 481],
  [960 * 540, 879, 879, 337],
  [640 * 360, 420, 420, 193],
  [480 * 270, 257, 257, 121],
  [320 * 180, 142, 142, 30],
  [240 * 135, 101, 101, 30],
];

function rows(codec: VideoCodec): readonly [Row, ...Row[]] {
  switch (codec) {
    case "vp8":
    case "h264":
      return OLDER_CODECS;
    case "vp9":
    case "av1":
    case "h265":
      return NEWER_CODECS;
  }
}

function rangeOf(row: Row): RateRange {
  return { maximum: row[1] * 1000, target: row[2] * 1000, minimum: row[3] * 1000 };
}

/** Linear in the number of pixels between two rows. */
function between(below: Row, above: Row, pixels: number): RateRange {
  const share = (pixels - below[0]) / (above[0] - below[0]);
  const at = (index: 1 | 2 | 3): number => 1000 * (below[index] + share * (above[index] - below[index]));
  return { maximum: at(1), target: at(2), minimum: at(3) };
}

/** Frame rate for which the table holds, 1/s (model choice: the table names none, and calls run at 30). */
export const TABLE_FRAME_RATE = 30;

/** Power with which the rate follows the frame rate at equal picture quality. */
const FRAME_RATE_EXPONENT = 0.6;

/**
 * Share of the table's rate that a slower stream needs for the same picture quality, min(1, (f/30)^0.6).
 *
 * Model choice after Ma, Xu, Ou and Wang 2012, who find the rate a power of the frame rate; the exponent 0.6 is recalled. The
 * published table itself names no frame rate: a sender left alone may spend the table's rate on a slow stream all the same, and
 * spends no more than that on a fast one.
 *
 * @param frameRate f, 1/s, > 0
 * @returns share, 0 … 1
 * @throws RangeError when the frame rate ≤ 0
 */
export function frameRateShare(frameRate: number): number {
  requirePositive("frame rate", frameRate);
  return Math.min(1, (frameRate / TABLE_FRAME_RATE) ** FRAME_RATE_EXPONENT);
}

/**
 * Rate of one picture stream in a call, from its number of pixels.
 *
 * Rows of the published table, linear in the number of pixels between two rows, constant above the largest and below the
 * smallest row, times `frameRateShare`.
 *
 * @param codec coding standard
 * @param pixels width × height, > 0
 * @param frameRate f, 1/s
 * @returns minimum, target and maximum, bit/s, without packet overhead
 * @throws RangeError when pixels or frame rate ≤ 0
 */
export function videoRate(codec: VideoCodec, pixels: number, frameRate = TABLE_FRAME_RATE): RateRange {
  requirePositive("number of pixels", pixels);
  const share = frameRateShare(frameRate);
  const range = tableRate(rows(codec), pixels);
  return { minimum: range.minimum * share, target: range.target * share, maximum: range.maximum * share };
}

function tableRate([largest, ...smaller]: readonly [Row, ...Row[]], pixels: number): RateRange {
  if (pixels >= largest[0]) return rangeOf(largest);
  let above = largest;
  for (const row of smaller) {
    if (pixels >= row[0]) return between(row, above, pixels);
    above = row;
  }
  return rangeOf(above);
}

/** Rates of the Opus sound codec at 20 ms, bit/s, by what it carries. */
export const OPUS_RATES = {
  /** Speech of telephone bandwidth. */
  "narrow-band-speech": { minimum: 8_000, target: 12_000, maximum: 12_000 },
  /** Speech of 8 kHz bandwidth. */
  "wide-band-speech": { minimum: 16_000, target: 20_000, maximum: 20_000 },
  /** Speech of full bandwidth: what calls use by default. */
  "full-band-speech": { minimum: 28_000, target: 32_000, maximum: 40_000 },
  /** Music in one channel. */
  "music": { minimum: 48_000, target: 64_000, maximum: 64_000 },
  /** Music in two channels. */
  "music-stereo": { minimum: 64_000, target: 96_000, maximum: 128_000 },
} as const satisfies Record<string, RateRange>;

/** What an Opus stream carries. */
export type OpusContent = keyof typeof OPUS_RATES;

/**
 * Rate of an Opus stream.
 *
 * Minimum and maximum are the ends of the published sweet spots; the target of speech is the default of the open-source WebRTC
 * implementation (12, 20, 32 kbit/s), of stereo music the middle (model choice). Discontinuous transmission can send less and
 * error correction more; a plan counts on neither.
 *
 * @param content what it carries
 * @returns minimum, target and maximum, bit/s, without packet overhead. Source: RFC 7587 §3.1.1
 */
export function opusRate(content: OpusContent): RateRange {
  return OPUS_RATES[content];
}

/**
 * Rate of a raw picture over a cable, R = w·h·b·f.
 *
 * @param pixels w·h, > 0
 * @param frameRate f, 1/s, ≥ 0
 * @param bitsPerPixel b; 16 for the YUY2 layout that cameras on USB use
 * @returns bit/s
 * @throws RangeError when pixels ≤ 0 or the frame rate is negative
 */
export function rawVideoRate(pixels: number, frameRate: number, bitsPerPixel = 16): number {
  requirePositive("number of pixels", pixels);
  requireNonNegative("frame rate", frameRate);
  return pixels * bitsPerPixel * frameRate;
}
