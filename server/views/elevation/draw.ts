/** The side elevation: the room cut open along its length, in true scale: floor, people with their eyes, sight lines, pictures, beams, cameras. */
import type { SideView } from "../../signal/elevation/side";
import { nameOf } from "../svg/document";
import { write } from "../svg/element";
import type { Theme } from "../svg/palette";
import { shorten } from "../svg/wrap";
import { placeSide, type SideForm } from "./place";
import { renderSide } from "./render";

export interface SideOptions {
  /** Without one, the drawing follows what the reader's system prefers. */
  readonly theme?: Theme;
  /** Width in pixels at which it is shown; without one, its natural width. */
  readonly width?: number;
  /** `false`: nothing in it can be reached by the keyboard, as is right on paper. */
  readonly stops?: boolean;
  readonly form?: SideForm;
}

/** Draws a side elevation as a complete SVG document. */
export const drawSide = (view: SideView, options: SideOptions = {}): string => drawnSide(view, options).svg;

/** The same with its words beside it. */
export function drawnSide(view: SideView, options: SideOptions = {}): { readonly svg: string; readonly description: string } {
  const description = wordsOf(view);
  const drawing = renderSide(placeSide(view, options.form), {
    id: nameOf("side", `${view.title}\n${view.item ?? ""}\n${view.result}\n${options.theme ?? ""}`), theme: options.theme, width: options.width, stops: options.stops ?? true,
    title: `From the side: ${view.title}${view.item === undefined ? "" : `, during ${view.item}`}`, description,
  });
  return { svg: `${write(drawing)}\n`, description };
}

const MOST = 60;
const brief = (name: string): string => shorten(name, 1, 80);

/** The same in words, for those who cannot see it. */
function wordsOf(view: SideView): string {
  return [
    `${brief(view.room)} from its left side, the front at the left: ${view.length.toFixed(1)} m long, ${view.height.toFixed(1)} m high${view.assumedSize ? ", assumed" : ""}.`, view.result,
    ...view.pictures.slice(0, MOST).map(({ of, bottom, top }) => `Picture of ${brief(of)}: from ${bottom.toFixed(2)} m to ${top.toFixed(2)} m up.`),
    ...view.rows.slice(0, MOST).map(({ name, group, row, ring, x, eye, floor }) => `${ring ? brief(name) : `Row ${row} of ${brief(group)}`}: ${x.toFixed(1)} m from the front, eyes ${eye.toFixed(2)} m up${floor > 0.02 ? `, on a floor ${floor.toFixed(2)} m up` : ""}.`),
    ...view.people.slice(0, MOST).map(({ name, x, eye }) => `${brief(name)}: ${x.toFixed(1)} m from the front, eyes ${eye.toFixed(2)} m up.`),
    ...view.things.slice(0, MOST).map(({ name, x, y }) => `${brief(name)}: ${x.toFixed(1)} m from the front, ${y.toFixed(2)} m up.`),
  ].join(" ");
}
