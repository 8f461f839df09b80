/** Measures of the drawing, in pixels at its natural size. */

/** Sizes of type. */
export const TYPE = { title: 26, way: 17, verdict: 19, sentence: 15, name: 16, detail: 14, port: 14, gap: 16, echo: 16, note: 14 } as const;
/** Distance of lines of type, as a multiple of their size. */
export const LEADING = 1.26;

export const MARGIN = 28;
/** Width of the words at the side of a band. */
export const SIDE = 288;
/** From the words to the first post. */
export const SIDE_GAP = 36;
/** Padding inside the ground of a band. */
export const PADDING = 14;
export const STRIP_GAP = 14;

/** A post: half its width, how far it reaches beyond its outermost line, and the head of one that stands for people. */
export const POST = { half: 10, beyond: 15, spineHalf: 1.5, headRadius: 9, foot: 3 } as const;
export const BEAD = 5.5;
/** From a post, or its head, to the words above it. */
export const FLAG_GAP = 10;
export const FLAG_WIDTH = 132;
/** Base line of the words above a line; top of the words below it. */
export const ABOVE = 11;
export const BELOW = 10;
/** Least distance of two lines. */
export const PITCH = 42;
/** Words at a line are not wider than this. */
export const LABEL_WIDTH = 140;
/** Words in a gap. */
export const GAP_WIDTH = 136;
/** The air around the words in a gap. */
export const GAP_AIR = 14;
/** What is left of a line on both sides of a gap, at least: so much that high words in the gap stay clear of the words above a post. */
export const STUB = FLAG_WIDTH / 2 - POST.half - GAP_AIR + 6;
/** Radius of the turn of an echo is half the distance of its legs, but at most this. */
export const TURN_RADIUS = 26;
/** For what a drawing is made: how much of it stands elsewhere already, and how dear width and height are. */
export interface Measures {
  /** Whether the title, the sentences of the ways and what each thing is are part of the drawing. */
  readonly words: boolean;
  /** Whether it says which side is the room. */
  readonly zones: boolean;
  readonly side: number;
  /** Drawings that are narrower are stretched to it. */
  readonly leastWidth: number;
  readonly margin: number;
  readonly padding: number;
  readonly stripGap: number;
  /** Height of the words that say which side is the room. */
  readonly zone: number;
  readonly aboveLegend: number;
  readonly belowLegend: number;
}

export const FORMS = {
  /** A drawing of its own. */
  whole: { words: true, zones: true, side: SIDE, leastWidth: 1200, margin: MARGIN, padding: PADDING, stripGap: STRIP_GAP, zone: 42, aboveLegend: 16, belowLegend: 20 },
  /** Across a printed page, where height is dear and words have to be large enough for paper. */
  paper: { words: false, zones: false, side: 168, leastWidth: 1230, margin: 2, padding: 4, stripGap: 5, zone: 4, aboveLegend: 6, belowLegend: 2 },
  /** Beside a text, in half a window, where width is dear. */
  panel: { words: false, zones: true, side: 184, leastWidth: 760, margin: 12, padding: 10, stripGap: 10, zone: 36, aboveLegend: 10, belowLegend: 10 },
} as const satisfies Record<string, Measures>;
export type Form = keyof typeof FORMS;
