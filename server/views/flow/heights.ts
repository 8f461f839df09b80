/** How high everything lies: lanes below each other, with as much room between them as words and posts need. */
import type { Flag, LineWords } from "./labels";
import { echoWords } from "./labels";
import type { Lane } from "./lanes";
import type { DrawnPost, Line } from "./network";
import type { Slots } from "./slots";
import { ABOVE, BELOW, FLAG_GAP, LEADING, PITCH, POST, TYPE, type Measures } from "./sizes";

export interface Heights {
  /** Height of each lane. */
  readonly lanes: readonly number[];
  readonly strips: readonly { readonly top: number; readonly bottom: number }[];
  readonly bottom: number;
}

/** How far a post reaches above its topmost line, words left out. */
export function reachAbove(post: DrawnPost): number {
  return POST.beyond + (isPeople(post) ? 2 * POST.headRadius + 1 : 0);
}

export function isPeople(post: DrawnPost): boolean {
  return post.role === "room-people" || post.role === "online-people";
}

/**
 * Places lanes from the top, starting at 0. A strip is at least as high as the words at its side; its lanes then stand in the middle.
 */
export function heightsOf(
  lanes: readonly Lane[],
  stripCount: number,
  sides: readonly number[],
  slots: Slots,
  posts: ReadonlyMap<string, DrawnPost>,
  flags: ReadonlyMap<string, Flag>,
  words: ReadonlyMap<Line, LineWords>,
  { padding, stripGap }: Pick<Measures, "padding" | "stripGap">,
): Heights {
  const typeHeight = TYPE.port * LEADING;
  const above = lanes.map(() => PITCH / 2);
  const below = lanes.map(() => PITCH / 2);
  const raise = (list: number[], index: number, value: number): void => {
    list[index] = Math.max(list[index] ?? 0, value);
  };
  for (const [index, lane] of lanes.entries()) {
    for (const line of lane.lines) {
      const at = words.get(line);
      if (at === undefined) continue;
      if (at.leftPort !== "" || at.rightPort !== "") raise(above, index, ABOVE + typeHeight);
      if (at.remark !== "") raise(below, index, BELOW + typeHeight);
      const half = (at.gap.lines.length * TYPE.gap * LEADING) / 2 + 4;
      raise(above, index, half);
      raise(below, index, half);
    }
    if (lane.echo?.leg === "out") {
      raise(above, index, ABOVE + echoWords(lane.echo.echo.run).lines.length * TYPE.echo * LEADING + 2);
    }
    if (lane.echo?.leg === "back") raise(above, index, ABOVE + TYPE.echo * LEADING + 2);
  }
  for (const [id, hull] of slots.hullOf) {
    const post = posts.get(id);
    if (post === undefined) continue;
    raise(above, hull.top, reachAbove(post) + FLAG_GAP + (flags.get(id)?.height ?? 0) + 2);
    raise(below, hull.bottom, POST.beyond + POST.foot + 3);
  }

  const at = lanes.map(() => 0);
  const strips: { top: number; bottom: number }[] = [];
  let y = 0;
  for (let strip = 0; strip < stripCount; strip += 1) {
    const top = y;
    y += padding;
    const own = lanes.flatMap((lane, index) => (lane.strip === strip ? [index] : []));
    let previous: number | undefined;
    for (const index of own) {
      y += previous === undefined ? above[index] ?? 0 : Math.max(PITCH, (below[previous] ?? 0) + (above[index] ?? 0) + 4);
      at[index] = y;
      previous = index;
    }
    if (previous !== undefined) y += below[previous] ?? 0;
    y += padding;
    const short = (sides[strip] ?? 0) + 2 * padding - (y - top);
    if (short > 0) {
      for (const index of own) at[index] = (at[index] ?? 0) + short / 2;
      y += short;
    }
    strips.push({ top, bottom: y });
    y += stripGap;
  }
  return { lanes: at, strips, bottom: y - (stripCount > 0 ? stripGap : 0) };
}
