/** The arithmetic of zooming: how large, and how far scrolled. */
export const LEAST = 0.2;
export const MOST = 4;
const STEP = 1.25;
/** A drawing that has room is not blown up beyond this by itself. */
const MOST_FITTED = 1.25;

export const within = (zoom: number): number => Math.min(MOST, Math.max(LEAST, zoom));

/** The next zoom up or down, through exactly 100 %. */
export function stepped(zoom: number, up: boolean): number {
  const next = within(up ? zoom * STEP : zoom / STEP);
  return (zoom < 1 && next > 1) || (zoom > 1 && next < 1) ? 1 : Math.round(next * 1000) / 1000;
}

/** The zoom at which a drawing is as wide as the page. */
export const fitted = (natural: number, room: number): number => (natural <= 0 || room <= 0 ? 1 : Math.min(MOST_FITTED, Math.max(LEAST, room / natural)));

/**
 * Where to scroll so that the point at `anchor` (pixels from the edge of what is visible) stays where it is:
 * s' = (s + a) · z' / z − a, at least 0.
 */
export const scrolled = (scroll: number, anchor: number, before: number, after: number): number =>
  Math.max(0, ((scroll + anchor) * after) / before - anchor);
