/** Dragging in a floor plan: what can be taken hold of, and where it is dropped, in metres. Pure: the page gives it attributes and pixels. */
import type { Moving } from "./messages";

type Attribute = (name: string) => string | null | undefined;

/** Something that can be moved, and where it is. */
export interface Grip {
  readonly what: Moving["what"];
  readonly name: string;
  readonly row?: number;
  /** Metres from the front wall and from the left one. */
  readonly x: number;
  readonly y: number;
  /** A fact of the room: it moves only where that is asked for. */
  readonly fact: boolean;
}

/** How the drawing was made from metres. */
export interface Scale {
  /** Units of the drawing to the metre. */
  readonly scale: number;
}

const number = (value: string | null | undefined): number => (value === null || value === undefined || value === "" ? NaN : Number(value));

/** What an element lets one take hold of, by its attributes; nothing where it does not move. */
export function gripOf(attribute: Attribute): Grip | undefined {
  const x = number(attribute("data-x"));
  const y = number(attribute("data-y"));
  if (!Number.isFinite(x) || !Number.isFinite(y)) return undefined;
  const aim = attribute("data-aim");
  if (aim !== null && aim !== undefined) return { what: "aim", name: aim, x, y, fact: false };
  const seats = attribute("data-seats");
  const row = number(attribute("data-row"));
  if (seats !== null && seats !== undefined && Number.isInteger(row)) return { what: "row", name: seats, row, x, y, fact: false };
  const post = attribute("data-post");
  if (post === null || post === undefined) return undefined;
  return { what: "place", name: post, x, y, fact: attribute("data-fact") === "yes" };
}

/** The scale of a drawing, by the attributes of its room; nothing where it has none. */
export function scaleOf(attribute: Attribute): Scale | undefined {
  const scale = number(attribute("data-scale"));
  return Number.isFinite(scale) && scale > 0 ? { scale } : undefined;
}

/** A drawing's x is the room's y, its y the room's x. A row of seats goes only forth and back. */
export function moved(grip: Grip, { scale }: Scale, dx: number, dy: number, facts: boolean): Moving {
  return {
    kind: "move", what: grip.what, name: grip.name, x: tenths(grip.x + dy / scale), y: grip.what === "row" ? grip.y : tenths(grip.y + dx / scale),
    ...(grip.row === undefined ? {} : { row: grip.row }), ...(facts ? { facts } : {}),
  };
}

/** Rounded as it will be written, m. */
const tenths = (metres: number): number => Math.round(metres * 10) / 10;

/** How far one stroke of an arrow key moves something, m. */
export const STEP = 0.1;
export const STRIDE = 0.5;

const WAYS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** In units of the drawing, how far a key moves something; nothing where it is no such key. */
export function strokeOf(key: string, far: boolean, { scale }: Scale): readonly [number, number] | undefined {
  const way = WAYS[key];
  return way === undefined ? undefined : [way[0] * (far ? STRIDE : STEP) * scale, way[1] * (far ? STRIDE : STEP) * scale];
}
