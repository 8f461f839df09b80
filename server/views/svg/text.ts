/** Lines of type in a drawing, and the boxes that they fill. */
import { element, type Element } from "./element";
import { widthOf } from "./glyphs";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One line of type. `owner`: the thing whose name it is, where it is one. */
export interface Text {
  readonly x: number;
  /** Base line. */
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly bold: boolean;
  readonly anchor: "start" | "middle" | "end";
  readonly rank: "ink" | "ink2";
  readonly owner?: string | undefined;
}

/** The box of a line of type: capitals reach 0.72 of the size above the base line, tails 0.21 below it. */
export function boxOf(text: Text): Box {
  const width = widthOf(text.text, text.size, text.bold);
  const x = text.anchor === "start" ? text.x : text.anchor === "middle" ? text.x - width / 2 : text.x - width;
  return { x, y: text.y - 0.74 * text.size, width, height: 0.95 * text.size };
}

/** Whether two boxes have more in common than an edge. */
export function meet(a: Box, b: Box): boolean {
  return a.x < b.x + b.width - 0.01 && b.x < a.x + a.width - 0.01 && a.y < b.y + b.height - 0.01 && b.y < a.y + a.height - 0.01;
}

export function writeText(t: Text): Element {
  return element("text", {
    x: t.x, y: t.y, "font-size": t.size, "text-anchor": t.anchor === "start" ? undefined : t.anchor,
    class: `${t.bold ? "b " : ""}${t.rank}`,
  }, t.text);
}
