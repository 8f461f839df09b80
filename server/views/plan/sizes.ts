/** Measures of a floor plan, in pixels at its natural size. */

/** Sizes of type. */
export const TYPE = { title: 26, question: 18, result: 15, name: 14, detail: 12.5, wall: 13, row: 11.5, note: 13.5, seat: 12 } as const;
/** Distance of lines of type, as a multiple of their size. */
export const LEADING = 1.24;
/** Labels are not wider than this. */
export const LABEL_WIDTH = 170;
/** Radius of a mark that stands for a device, a person, an outlet. */
export const RADIUS = { device: 9, talker: 10, outlet: 6 } as const;
/** Half the thickness of a wall. */
export const WALL = 3;
/** From a mark to its label. */
export const LABEL_GAP = 5;
/** A seat with a number in it is at least so large; one that is smaller than the second has no number. */
export const SEAT = { least: 17, numbered: 9.5 } as const;
/** No drawing is larger, whatever the size of the room. */
export const LARGEST = 4400;
/** A small room is not drawn larger than so many pixels to the metre. */
export const MOST_SCALE = 120;

export interface Measures {
  /** Whether the title is part of the drawing. */
  readonly words: boolean;
  readonly margin: number;
  /** What the room may take where its seats need no more. */
  readonly room: { readonly width: number; readonly height: number };
  /** Width at both sides of the room for labels that find no place in it. */
  readonly gutter: number;
}

export const FORMS = {
  /** A drawing of its own. */
  whole: { words: true, margin: 28, room: { width: 820, height: 1000 }, gutter: LABEL_WIDTH + 26 },
  /** Across a printed page. */
  paper: { words: false, margin: 4, room: { width: 700, height: 900 }, gutter: LABEL_WIDTH + 18 },
  /** On a page of its own, to a scale that can be named. */
  sheet: { words: false, margin: 4, room: { width: 460, height: 640 }, gutter: LABEL_WIDTH + 14 },
  /** Beside a text, in half a window. */
  panel: { words: false, margin: 12, room: { width: 560, height: 800 }, gutter: LABEL_WIDTH + 14 },
} as const satisfies Record<string, Measures>;
export type Form = keyof typeof FORMS;
