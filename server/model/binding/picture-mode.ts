/** Sizes and rates of pictures as a text writes them. */
import type { Token } from "../../../grammar/tree";

/** `720p30` is 1280 by 720 at 30 a second; `720p` leaves the rate at 30; `1920x1080` likewise. */
export function modeOf(token: Token): { width: number; height: number; rate: number } | undefined {
  const lines = /^(\d+)[pi](\d*)$/.exec(token.text);
  if (lines !== null) {
    const height = Number(lines[1]);
    return { width: Math.round((height * 16) / 9), height, rate: lines[2] === "" || lines[2] === undefined ? 30 : Number(lines[2]) };
  }
  const size = /^(\d+)x(\d+)$/.exec(token.text);
  return size === null ? undefined : { width: Number(size[1]), height: Number(size[2]), rate: 30 };
}

/** Whether a camera or a display could have the mode: from a postage stamp to the largest that is sold, at up to 240 pictures a second. */
export const isPicture = ({ width, height, rate }: { width: number; height: number; rate: number }): boolean =>
  width >= 64 && width <= 16384 && height >= 64 && height <= 16384 && rate >= 1 && rate <= 240;
