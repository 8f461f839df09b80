/**
 * What a side elevation is drawn from: the room cut open along its length and seen from its left side. x runs from the front wall to the
 * back, y here is the height above the floor at the front wall; all in metres.
 */
import type { Where } from "../../model/where";
import type { Point } from "../ground-plan/plan";

/** Somebody who sits in the middle of a row, or who stands and speaks. */
export interface SidePerson {
  readonly name: string;
  readonly x: number;
  /** Heights of eyes, of the top of the head, of the floor under the feet. */
  readonly eye: number;
  readonly top: number;
  readonly floor: number;
  /** Which way they look: −1 to the front wall, 1 to the back, 0 across. */
  readonly faces: -1 | 0 | 1;
  readonly seated: boolean;
  readonly where: Where | undefined;
}

export interface SideRow extends SidePerson {
  readonly group: string;
  readonly row: number;
  /** Around a table, or alone: no row of many. */
  readonly ring: boolean;
  /** Its sight lines are drawn. */
  readonly chosen: boolean;
}

/** A picture as it stands in the room, seen from the side: as good as a line where it looks along the room. */
export interface SidePicture {
  readonly of: string;
  readonly corners: readonly Point[];
  readonly bottom: number;
  readonly top: number;
  readonly thrown: boolean;
  readonly where: Where | undefined;
}

export interface SideThing extends Point {
  readonly name: string;
  readonly type: string;
  readonly kind: string;
  /** Height of the floor under it. */
  readonly floor: number;
  readonly aim: Point | undefined;
  /** So many more of the same stand there. */
  readonly more: number;
  readonly rough: boolean;
  readonly where: Where | undefined;
}

/** An outline: what a camera has in its picture from top to bottom, or the beam of a projector. */
export interface SideField {
  readonly kind: "camera" | "beam";
  readonly of: string;
  readonly outline: readonly Point[];
}

export interface SideView {
  readonly title: string;
  readonly item: string | undefined;
  readonly room: string;
  readonly where: Where | undefined;
  readonly length: number;
  readonly height: number;
  readonly assumedSize: boolean;
  readonly outdoors: boolean;
  /** The floor from the front wall to the back, with slope, stage and steps. */
  readonly floor: readonly Point[];
  readonly rows: readonly SideRow[];
  readonly people: readonly SidePerson[];
  readonly pictures: readonly SidePicture[];
  readonly fields: readonly SideField[];
  readonly things: readonly SideThing[];
  /** From the eyes of the chosen row to the lower and the upper edge of the picture. */
  readonly lines: readonly (readonly [Point, Point])[];
  /** Share of the picture that heads hide from the middle of the chosen row; nothing where there is no such picture. */
  readonly hidden: number | undefined;
  /** What came out, in sentences. */
  readonly result: string;
}
