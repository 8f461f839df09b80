/** From the picture to pixels. */
import { FRAME_WIDTH, type Perspective, type Spot } from "../../signal/perspective/perspective";

export const LEFT = 20;
export const TOP = 78;
export const WIDTH = FRAME_WIDTH + 2 * LEFT;

export interface Frame {
  readonly width: number;
  readonly height: number;
}

export const frameOf = ({ aspect }: Perspective): Frame => ({ width: FRAME_WIDTH, height: FRAME_WIDTH / aspect });

export const placeOf = ({ width, height }: Frame, [across, up]: Spot): { readonly x: number; readonly y: number } => ({ x: LEFT + ((across + 1) / 2) * width, y: TOP + ((1 - up) / 2) * height });
