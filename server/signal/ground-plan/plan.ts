/**
 * What a floor plan is drawn from: everything that stands in the room, in metres on the floor. x runs from the front wall to the back,
 * y from the left wall to the right as the audience sees it, as everywhere in the model.
 */
import type { Where } from "../../model/where";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Something with an extent: a stage, a table, a column, a walkway, a door, a window. */
export interface Area {
  readonly kind: "stage" | "table" | "column" | "walkway" | "door" | "window" | "screen";
  readonly name: string;
  /** The words at it; empty where it needs none. */
  readonly says: string;
  /** Going round; of two points where it is as good as a line: a screen, a door or a window in a wall. */
  readonly corners: readonly Point[];
  /** What is worth knowing of it, in a few words: `2.0 m wide`. */
  readonly detail: string;
  readonly where: Where | undefined;
}

export interface PlannedSeat extends Point {
  /** Its place among all that listen. */
  readonly index: number;
  readonly number: number;
  /** Unit vector that whoever sits there looks along. */
  readonly facing: Point;
  readonly wheelchair: boolean;
  /** Whoever sits there does not want to be in any picture. */
  readonly offCamera: boolean;
}

export interface SeatRow {
  readonly group: string;
  readonly row: number;
  /** Around a table there are no rows, and a single seat is none. */
  readonly ring: boolean;
  readonly seats: readonly PlannedSeat[];
  readonly where: Where | undefined;
}

/** A person, or a device, at a point. */
export interface Thing extends Point {
  readonly name: string;
  /** `talker`, or the type of the device: `camera`. */
  readonly type: string;
  /** What it is, in a few words. */
  readonly kind: string;
  /** Height above the floor at the front wall, m. */
  readonly z: number;
  /** Height of the floor under it: on a stage, a slope, a step, m. */
  readonly floor: number;
  /** Where it looks or points to; nothing where it has no direction. */
  readonly aim: Point | undefined;
  /** As the text has it: `audience`. */
  readonly aimWords: string;
  /** Worn or held by whom. */
  readonly heldBy: string | undefined;
  /** What stands or hangs on it or is worn by it: names. */
  readonly wears: readonly string[];
  /** What is left open of where it is: the text does not say in figures. */
  readonly rough: boolean;
  /** One of many alike: its name says enough. */
  readonly alike: boolean;
  /** For a display, how wide its picture is, m. */
  readonly width: number | undefined;
  readonly where: Where | undefined;
}

/** A closed outline on the floor: what a camera sees, where a loudspeaker is heard, from where a picture can be seen. */
export interface Field {
  readonly kind: "camera" | "loudspeaker" | "display";
  readonly of: string;
  readonly outline: readonly Point[];
  readonly where: Where | undefined;
}

export interface Route {
  readonly kind: "cable" | "mains" | "radio";
  readonly from: string;
  readonly to: string;
  readonly points: readonly Point[];
  /** Along the floor and down from what stands high, m. */
  readonly length: number;
  /** What the text says that there is, m. */
  readonly stated: number | undefined;
  readonly where: Where | undefined;
}

/** What is asked of a plan. */
export const ASKS = ["hears", "understands", "reads", "faces", "heads", "aside", "frame", "light", "cables"] as const;
export type Ask = (typeof ASKS)[number];

/** In words, as one chooses them. */
export const ASK_TITLES: Readonly<Record<Ask, string>> = {
  hears: "Who hears the people online?", understands: "Who understands them?", reads: "Who can read the slides?",
  faces: "Who sees the faces online?", heads: "From where do heads hide the picture?",
  aside: "Who looks at it from the side?", frame: "Who is in the picture?", light: "Where does light fall?", cables: "How do cables run?",
};

/** A question and its answer at every seat. */
export interface Answer {
  readonly ask: Ask;
  /** The whole question, as one sentence. */
  readonly question: string;
  /** `dB`. */
  readonly unit: string;
  /** Whether one wants much of it, or little. */
  readonly better: "more" | "less";
  /** Where the steps from the second on begin, from bad to good: rising where more is better, falling where less is; what does not get to the first is in the first step. */
  readonly bounds: readonly number[];
  /** What each step means, as many as there are steps. */
  readonly words: readonly string[];
  /** Values that do not get to it are not enough: such seats are drawn round. */
  readonly enough: number;
  /** By place among all that listen; NaN where there is none. */
  readonly values: ArrayLike<number>;
  readonly decimals: number;
  /** What NaN means. */
  readonly none: string;
  /** What has to be known besides, each a sentence. */
  readonly notes: readonly string[];
  /** What it comes to for those who speak and have no seat of their own, and for devices, by name, in a few words; `; ` parts lines. */
  readonly beside: ReadonlyMap<string, string>;
  /** The result in words, where counting seats would say nothing. */
  readonly says?: string;
}

export interface GroundPlan {
  readonly title: string;
  readonly item: string | undefined;
  readonly room: string;
  readonly where: Where | undefined;
  /** Going round. */
  readonly outline: readonly Point[];
  /** m */
  readonly length: number;
  readonly width: number;
  readonly height: number;
  /** The text does not state how large the room is. */
  readonly assumedSize: boolean;
  readonly outdoors: boolean;
  /** Where north is, in degrees with the clock from the way to the front wall; nothing where nobody says. */
  readonly north: number | undefined;
  readonly areas: readonly Area[];
  readonly rows: readonly SeatRow[];
  /** Side of a seat as it is drawn, m. */
  readonly seatSize: number;
  readonly people: readonly Thing[];
  readonly devices: readonly Thing[];
  /** In use, and placed nowhere. */
  readonly unplaced: readonly string[];
  readonly outlets: readonly Thing[];
  readonly fields: readonly Field[];
  readonly routes: readonly Route[];
  /** The question and what came out, each a sentence; nothing where nothing is asked. */
  readonly asked: { readonly ask: Ask; readonly question: string; readonly result: string } | undefined;
  /** What it comes to at every seat, where the question is one of seats. */
  readonly answer: Answer | undefined;
}
