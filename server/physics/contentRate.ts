/** Bit rates of what is presented: slides, and moving pictures. */
import { videoRate, type RateRange, type VideoCodec } from "./videoRate";

/** What is presented. `still`: slides and documents; `moving`: a film, anything that moves. */
export type Content = "still" | "moving";

/**
 * Rate of a shared screen by what is on it.
 *
 * Still pictures: a low layer at 200 kbit/s and 5 frames a second is the least, 600 kbit/s the high layer's least and the target,
 * 1250 kbit/s its greatest. What moves is coded as a camera's picture of 1280 × 720 at 30 frames a second is.
 *
 * @param content what is on it
 * @param codec coding standard
 * @returns minimum, target and maximum, bit/s, without packet overhead. Source: the open-source WebRTC implementation, layers of
 *   a shared screen; that moving content is coded like a camera's picture is a model choice
 */
export function contentRate(content: Content, codec: VideoCodec = "vp8"): RateRange {
  return content === "still" ? { minimum: 200_000, target: 600_000, maximum: 1_250_000 } : videoRate(codec, 1280 * 720);
}
