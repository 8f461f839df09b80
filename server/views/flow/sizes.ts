/** Measures of the drawing, in pixels at its natural size. */

/** Sizes of type. */
export const TYPE = { title: 24, way: 16, verdict: 18, sentence: 14, name: 15, detail: 13, port: 13, gap: 15, echo: 15, note: 13 } as const;
/** Distance of lines of type, as a multiple of their size. */
export const LEADING = 1.26;

export const MARGIN = 28;
/** Width of the words at the side of a band. */
export const SIDE = 272;
/** From the words to the first post. */
export const SIDE_GAP = 36;
/** Padding inside the ground of a band. */
export const PADDING = 14;
export const STRIP_GAP = 14;

/** A post: half its width, how far it reaches beyond its outermost line, and the head of one that stands for people. */
export const POST = { half: 10, beyond: 15, spineHalf: 1.5, headRadius: 9, foot: 3 } as const;
export const BEAD = 5.5;
/** From a post, or its head, to the words above it. */
export const FLAG_GAP = 9;
export const FLAG_WIDTH = 124;
/** Base line of the words above a line; top of the words below it. */
export const ABOVE = 10;
export const BELOW = 9;
/** Least distance of two lines. */
export const PITCH = 42;
/** Words at a line are not wider than this. */
export const LABEL_WIDTH = 132;
/** Words in a gap. */
export const GAP_WIDTH = 128;
/** What is left of a line on both sides of a gap, at least; and the air around the words. */
export const STUB = 40;
export const GAP_AIR = 14;
/** Radius of the turn of an echo is half the distance of its legs, but at most this. */
export const TURN_RADIUS = 26;
/** A drawing is stretched to this width where it would be narrower. */
export const LEAST_WIDTH = 1180;
