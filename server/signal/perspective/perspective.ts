/** What is seen from a seat or framed by a camera: everything projected, cut at the frame, the farthest first. */
import type { Where } from "../../model/where";
import type { Spot } from "../../physics/clip";

export type { Spot } from "../../physics/clip";

export const VIEWS_IN = ["camera", "seat"] as const;
export type ViewIn = (typeof VIEWS_IN)[number];

/** The frame is drawn so many pixels wide: what would be smaller than one of them is left out. */
export const FRAME_WIDTH = 960;

/** How a surface is to look. */
export type Look =
  | "floor" | "wall" | "open-wall" | "door" | "window" | "stage" | "table" | "column" | "screen" | "picture" | "back" | "tile" | "face" | "sign"
  | "person" | "head" | "shy" | "shy-head" | "talker" | "talker-head" | "device";

/** A surface, opaque, with the lines on it. */
export interface Surface {
  readonly look: Look;
  /** Going round; of none, only the lines are drawn. */
  readonly ring: readonly Spot[];
  readonly lines: readonly (readonly Spot[])[];
}

/** What the lines on a surface are. */
export type ThingKind = "room" | "opening" | "stage" | "table" | "column" | "screen" | "display" | "person" | "talker" | "device";

export interface Thing {
  readonly kind: ThingKind;
  readonly name: string;
  /** What is written at it; empty where nothing is. */
  readonly says: string;
  readonly surfaces: readonly Surface[];
  /** How far away, m. */
  readonly far: number;
  /** Share of what of it is in the frame that other things hide. */
  readonly hidden: number;
  readonly where: Where | undefined;
}

/** Somebody who should be in the picture and is not, or is cut off. */
export interface CutOff {
  readonly side: "left" | "right" | "above" | "below" | "behind";
  /** Along that edge, −1 to 1. */
  readonly along: number;
  readonly words: string;
}

export interface Perspective {
  readonly view: ViewIn;
  /** The camera, the seat or the talker, by its whole name. */
  readonly of: string;
  readonly title: string;
  readonly item: string | undefined;
  readonly where: Where | undefined;
  /** Width over height. */
  readonly aspect: number;
  /** Angles of view, degrees. */
  readonly horizontal: number;
  readonly vertical: number;
  /** The farthest first. */
  readonly things: readonly Thing[];
  readonly cutOff: readonly CutOff[];
  /** The numbers, a sentence each. */
  readonly facts: readonly string[];
  /** People in the frame who are not drawn: smaller than a pixel, or behind others. */
  readonly leftOut: { readonly small: number; readonly hidden: number };
  /** Lines on the floor are so far apart, m. */
  readonly grid: number;
}
