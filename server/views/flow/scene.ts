/** What the drawing consists of, once everything has its place: plain shapes and words, from which it is written and by which it is checked. */
import type { Verdict } from "../../model/ways";
import type { Where } from "../../model/where";
import type { Box, Text } from "../svg/text";
import type { DrawnEcho, DrawnPost, Direction, Line } from "./network";

export type { Box, Text };

export interface PlacedPost {
  readonly post: DrawnPost;
  readonly x: number;
  /** The body where it serves, the spine where lines pass that are none of its business. */
  readonly bodies: readonly { readonly top: number; readonly bottom: number }[];
  readonly spines: readonly { readonly top: number; readonly bottom: number }[];
  /** Middle of the head of a post that stands for people. */
  readonly head: number | undefined;
  readonly beads: readonly { readonly y: number; readonly style: LineStyle }[];
  /** Where one line goes on as another at a different height. */
  readonly bars: readonly { readonly x: number; readonly top: number; readonly bottom: number; readonly direction: Direction; readonly pale: boolean }[];
  readonly texts: readonly Text[];
  /** The mark before words that say what ails it. */
  readonly ailing: { readonly x: number; readonly y: number } | undefined;
}

export type LineStyle = Direction | "pale" | "echo";

export interface PlacedLine {
  readonly line: Line;
  readonly direction: Direction;
  readonly y: number;
  readonly pieces: readonly { readonly from: number; readonly to: number; readonly pale: boolean }[];
  /** Middles of the marks that point the way; `right`: where to. */
  readonly arrows: readonly { readonly x: number; readonly right: boolean; readonly pale: boolean }[];
  readonly gap: { readonly left: number; readonly right: number; readonly height: number } | undefined;
  readonly texts: readonly Text[];
}

export interface PlacedEcho {
  readonly echo: DrawnEcho;
  /** Where it begins, turns and ends. */
  readonly startX: number;
  readonly turnX: number;
  readonly endX: number;
  /** A closed loop turns once more on the other side. */
  readonly closeX: number | undefined;
  readonly outY: number;
  readonly backY: number;
  readonly arrows: readonly { readonly x: number; readonly y: number; readonly right: boolean }[];
  readonly texts: readonly Text[];
}

/** A verdict: mark, word, sentence. */
export interface PlacedVerdict {
  /** Without one there is no mark. */
  readonly verdict: Verdict | "echo" | undefined;
  readonly markX: number;
  readonly markY: number;
  readonly texts: readonly Text[];
  /** The whole sentence, where it is shortened. */
  readonly whole: string | undefined;
}

export interface PlacedStrip {
  readonly box: Box;
  readonly kind: "band" | "echoes" | "shelf";
  readonly label: string;
  readonly way: string | undefined;
  readonly side: PlacedVerdict | undefined;
  readonly where?: Where | undefined;
}

export interface Zone {
  readonly text: Text;
  readonly from: number;
  readonly to: number;
  readonly y: number;
}

export interface LegendEntry {
  readonly kind: Direction | "gap" | "pale" | "echo" | "post";
  readonly x: number;
  readonly y: number;
  readonly text: Text;
}

export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly Text[];
  readonly verdicts: readonly PlacedVerdict[];
  readonly zones: readonly Zone[];
  readonly strips: readonly PlacedStrip[];
  readonly posts: readonly PlacedPost[];
  readonly loose: readonly PlacedPost[];
  readonly lines: readonly PlacedLine[];
  readonly echoes: readonly PlacedEcho[];
  readonly legend: readonly LegendEntry[];
}
