/** What a floor plan consists of, once everything has its place: from which it is written and by which it is checked. */
import type { Area, Field, GroundPlan, Route, SeatRow, Thing } from "../../signal/ground-plan/plan";
import type { Box, Text } from "../svg/text";
import type { Frame, Spot } from "./frame";

/** Words at a mark; `leader`: the thin line between the two, where they are not side by side. */
export interface Label {
  readonly of: string;
  readonly texts: readonly Text[];
  readonly box: Box;
  readonly leader: readonly [Spot, Spot] | undefined;
}

export interface PlacedThing {
  readonly thing: Thing;
  readonly kind: "device" | "talker" | "outlet";
  /** Where it is drawn. */
  readonly at: Spot;
  /** Where it is, where the drawing had to move it off something else. */
  readonly truly: Spot | undefined;
  /** The thin line between the two; of what is on a seat it begins at the edge of the seat, off its number. */
  readonly moved: readonly [Spot, Spot] | undefined;
  readonly radius: number;
  readonly label: Label | undefined;
}

export interface PlacedSeat {
  readonly at: Spot;
  /** Where whoever sits there looks, in the drawing. */
  readonly facing: Spot;
  /** From 1; 0 where nothing is asked or there is no value. */
  readonly step: number;
  readonly short: boolean;
  readonly offCamera: boolean;
  readonly number: string;
}

export interface PlacedRow {
  readonly row: SeatRow;
  readonly seats: readonly PlacedSeat[];
  readonly label: Text | undefined;
  /** In words, with what was asked. */
  readonly says: string;
}

export interface PlacedArea {
  readonly area: Area;
  readonly corners: readonly Spot[];
  readonly label: Label | undefined;
}

export interface PlacedField {
  readonly field: Field;
  readonly outline: readonly Spot[];
}

export interface PlacedRoute {
  readonly route: Route;
  readonly points: readonly Spot[];
  readonly label: Label | undefined;
}

export interface KeyEntry {
  readonly kind: "step1" | "step2" | "step3" | "step4" | "step5" | "short" | "wheelchair" | "off-camera" | "camera" | "loudspeaker" | "display" | "cable" | "mains" | "radio" | "aim";
  readonly x: number;
  readonly y: number;
  readonly text: Text;
}

export interface Scene {
  readonly plan: GroundPlan;
  readonly width: number;
  readonly height: number;
  readonly frame: Frame;
  /** Side of a seat. */
  readonly seat: number;
  readonly outline: readonly Spot[];
  readonly texts: readonly Text[];
  readonly areas: readonly PlacedArea[];
  readonly fields: readonly PlacedField[];
  readonly routes: readonly PlacedRoute[];
  readonly rows: readonly PlacedRow[];
  readonly things: readonly PlacedThing[];
  readonly key: readonly KeyEntry[];
  /** Ends of the pieces of the scale bar, and its words. */
  readonly bar: { readonly y: number; readonly stops: readonly number[]; readonly texts: readonly Text[] };
  readonly north: { readonly at: Spot; readonly way: Spot; readonly text: Text } | undefined;
}
