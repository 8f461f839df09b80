/** How the call sends, and what of it is kept longest when the internet is thin. */
import { valueOf, valuesOf } from "./bound";
import type { Reading } from "./reading";

/** Coding standards of pictures that a text can name. */
export type Codec = "vp8" | "h264" | "vp9" | "av1" | "h265";

export interface Traffic {
  readonly codec: Codec;
  /** Seconds of sound in one packet. */
  readonly packet: number;
  /** What is kept longest, the most important first: names of cameras and of joined devices. Empty where the text does not say. */
  readonly keeps: readonly string[];
}

/** More than anybody puts in order; bounds what a hostile file can ask for. */
const MOST_KEPT = 60;

/** What is stated in the block of the call, else VP8 in packets of 20 ms. */
export function readTraffic(reading: Reading): Traffic {
  const call = reading.by("call").flatMap((one) => one.children);
  const find = (head: string) => call.find((one) => one.row.head === head);
  const [codec, packets, keeps] = [find("codec"), find("packets"), find("keeps")];
  const every = packets && valueOf(packets, "every", "quantity")?.best;
  return {
    codec: ((codec && valueOf(codec, "name", "word")?.word) ?? "vp8") as Codec,
    packet: every !== undefined && Number.isFinite(every) && every > 0 ? every : 0.02,
    keeps: keeps === undefined ? [] : valuesOf(keeps, "what", "name").slice(0, MOST_KEPT).map((name) => reading.names.find(keeps.where.path, name.text)?.name ?? name.text),
  };
}
