/** What a side elevation consists of, once everything has its place: from which it is written and by which it is checked. */
import type { SidePerson, SidePicture, SideRow, SideThing, SideView } from "../../signal/elevation/side";
import type { Label } from "../plan/scene";
import type { Spot } from "../plan/frame";
import type { Text } from "../svg/text";

export interface SideKey {
  readonly kind: "sight" | "beam" | "camera" | "picture";
  readonly x: number;
  readonly y: number;
  readonly text: Text;
}

export interface SideMark {
  readonly thing: SideThing;
  readonly at: Spot;
  /** Where it is, where the drawing had to move it off something else. */
  readonly truly: Spot | undefined;
  /** Unit vector that it points along. */
  readonly way: Spot;
  readonly label: Label | undefined;
}

export interface SideScene {
  readonly view: SideView;
  readonly width: number;
  readonly height: number;
  /** Pixels to the metre; where the front wall is; where the floor at it is. */
  readonly scale: number;
  readonly left: number;
  readonly base: number;
  readonly texts: readonly Text[];
  readonly section: readonly Spot[];
  readonly floor: readonly Spot[];
  readonly rows: readonly { readonly row: SideRow; readonly label: Label | undefined }[];
  readonly people: readonly { readonly person: SidePerson; readonly label: Label | undefined }[];
  readonly pictures: readonly { readonly picture: SidePicture; readonly corners: readonly Spot[]; readonly label: Label | undefined }[];
  readonly fields: readonly { readonly kind: "camera" | "beam"; readonly of: string; readonly outline: readonly Spot[] }[];
  readonly lines: readonly (readonly [Spot, Spot])[];
  readonly things: readonly SideMark[];
  readonly key: readonly SideKey[];
  readonly bar: { readonly y: number; readonly stops: readonly number[]; readonly texts: readonly Text[] };
  /** Marks of the ruler at both walls, a metre or more apart. */
  readonly ruler: readonly (readonly [Spot, Spot])[];
}
