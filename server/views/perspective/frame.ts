/** From the picture to pixels. */
import { FRAME_WIDTH, type Perspective, type Spot } from "../../signal/perspective/perspective";

export const LEFT = 20;
export const TOP = 78;

/** A drawing of its own, or one beside a text in half a window, where words must stay readable. */
export type ViewForm = "whole" | "panel";
const WIDTHS: Readonly<Record<ViewForm, number>> = { whole: FRAME_WIDTH, panel: 640 };

export interface Frame {
  readonly width: number;
  readonly height: number;
}

export const frameOf = ({ aspect }: Perspective, form: ViewForm = "whole"): Frame => ({ width: WIDTHS[form], height: WIDTHS[form] / aspect });

export const placeOf = ({ width, height }: Frame, [across, up]: Spot): { readonly x: number; readonly y: number } => ({ x: LEFT + ((across + 1) / 2) * width, y: TOP + ((1 - up) / 2) * height });
