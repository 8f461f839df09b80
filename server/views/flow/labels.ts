/** The words at posts and lines, broken into lines before anything is placed, because they decide how much room there must be. */
import { widthOf } from "../svg/glyphs";
import { balance, shorten, wrap, type Lines } from "../svg/wrap";
import type { Run, Via } from "../../signal/drawing/flow";
import type { DrawnPost, Line } from "./network";
import { FLAG_WIDTH, GAP_WIDTH, LABEL_WIDTH, LEADING, TYPE } from "./sizes";

/** Lines of type above a post: its name, what it is, what ails it. */
export interface Flag {
  readonly rows: readonly { readonly text: string; readonly size: number; readonly bold: boolean; readonly trouble: boolean }[];
  readonly width: number;
  readonly height: number;
}

/** Place that the mark of trouble takes before the words. */
export const TROUBLE_MARK = 18;

export function flagOf(post: DrawnPost): Flag {
  const name = balance(post.name, TYPE.name, FLAG_WIDTH, 2, true);
  // "laptop, a laptop" says nothing twice.
  const told = post.detail.trim().toLowerCase() === post.name.trim().toLowerCase() ? "" : post.detail;
  const detail = wrap(told, TYPE.detail, FLAG_WIDTH, post.trouble === "" ? 2 : 1);
  const trouble = wrap(post.trouble, TYPE.detail, FLAG_WIDTH - TROUBLE_MARK, 2, true);
  const rows = [
    ...name.lines.map((text) => ({ text, size: TYPE.name, bold: true, trouble: false })),
    ...detail.lines.map((text) => ({ text, size: TYPE.detail, bold: false, trouble: false })),
    ...trouble.lines.map((text) => ({ text, size: TYPE.detail, bold: true, trouble: true })),
  ];
  return {
    rows,
    width: Math.max(name.width, detail.width, trouble.lines.length > 0 ? trouble.width + TROUBLE_MARK : 0),
    height: rows.reduce((sum, row) => sum + row.size * LEADING, 0),
  };
}

/** How a hop is made, in a word; a hop through the call needs none, the post says it. */
const VIA_WORDS: Readonly<Record<Via, string>> = {
  air: "air", cable: "cable", radio: "radio", inside: "inside", call: "", sight: "in sight", worn: "",
};

export interface LineWords {
  readonly leftPort: string;
  readonly rightPort: string;
  readonly leftWidth: number;
  readonly rightWidth: number;
  readonly remark: string;
  readonly remarkWidth: number;
  readonly gap: Lines;
}

/** The words at a line; `leftIsFrom`: whether it begins at its left end. */
export function wordsAt(line: Line, leftIsFrom: boolean): LineWords {
  const port = (name: string): string => (name === "" ? "" : shorten(name, TYPE.port, LABEL_WIDTH));
  const leftPort = port(leftIsFrom ? line.fromPort : line.toPort);
  const rightPort = port(leftIsFrom ? line.toPort : line.fromPort);
  const times = line.count > 1 ? `${line.count} × ` : "";
  const said = line.gap === "" ? `${times}${[VIA_WORDS[line.via], line.remark].filter((word) => word !== "").join(" ")}`.trim() : "";
  const remark = said === "" ? "" : shorten(said, TYPE.port, LABEL_WIDTH);
  const width = (text: string): number => (text === "" ? 0 : widthOf(text, TYPE.port));
  return {
    leftPort, rightPort, remark,
    leftWidth: width(leftPort), rightWidth: width(rightPort), remarkWidth: width(remark),
    gap: balance(line.gap, TYPE.gap, GAP_WIDTH, 3, true),
  };
}

/** What goes round is called by this. */
export const kindOf = (run: Run): "echo" | "howl" => run.kind ?? "echo";

/** The words at the outward leg of an echo or of a howl, and those at its leg back. */
export function echoWords(run: Run): Lines {
  return balance(run.title.trim() === "" ? kindOf(run) : `${kindOf(run)}: ${run.title}`, TYPE.echo, 250, 3, true);
}
export const backWords = (run: Run): string => (kindOf(run) === "howl" ? "and round again" : "echo comes back");
