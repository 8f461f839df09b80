/** Several sizes of one picture sent at once, so that each of those who watch gets the one that fits. */
import { requirePositive } from "./domain";
import { TABLE_FRAME_RATE, videoRate, type RateRange, type VideoCodec } from "./videoRate";

/** One size of a picture. */
export interface Layer extends RateRange {
  readonly width: number;
  readonly height: number;
}

/** Most sizes for a picture of so many pixels. Source: the open-source WebRTC implementation, simulcast table. */
const MOST_LAYERS: readonly (readonly [pixels: number, layers: number])[] = [[960 * 540, 3], [480 * 270, 2], [0, 1]];

/**
 * The sizes in which a picture is sent at once: the whole one and up to two halvings of it, as its size allows.
 *
 * Below the largest, which may take up to its maximum, each is held at its target.
 *
 * @param codec coding standard
 * @param width pixels, > 0
 * @param height pixels, > 0
 * @param frameRate 1/s
 * @returns the largest first; rates in bit/s without packet overhead. Source: the open-source WebRTC implementation
 * @throws RangeError when a side or the frame rate is ≤ 0
 */
export function pictureLayers(codec: VideoCodec, width: number, height: number, frameRate = TABLE_FRAME_RATE): Layer[] {
  requirePositive("width", width);
  requirePositive("height", height);
  const count = MOST_LAYERS.find(([pixels]) => width * height >= pixels)?.[1] ?? 1;
  return Array.from({ length: count }, (_, i): Layer => {
    const [w, h] = [Math.max(1, Math.round(width / 2 ** i)), Math.max(1, Math.round(height / 2 ** i))];
    const rate = videoRate(codec, w * h, frameRate);
    return { width: w, height: h, ...rate, maximum: i === 0 ? rate.maximum : rate.target };
  });
}

/**
 * The size of which so many faces are received each: that of the picture's layers which a tile of the grid asks for.
 *
 * A single one is taken whole, up to nine at half of its height, more at a quarter (model choice; what a call really sends
 * is its own affair).
 *
 * @param faces how many are shown at once, ≥ 1
 * @returns width and height in pixels
 */
export function tileSize(faces: number): { readonly width: number; readonly height: number } {
  requirePositive("number of faces", faces);
  return faces <= 1 ? { width: 1280, height: 720 } : faces <= 9 ? { width: 640, height: 360 } : { width: 320, height: 180 };
}
