/** Posts in their places: body, spine, head, words. */
import type { Flag } from "./labels";
import { TROUBLE_MARK } from "./labels";
import type { Lane, Strip } from "./lanes";
import { isPeople, reachAbove } from "./heights";
import type { DrawnPost, Line } from "./network";
import type { LineStyle, PlacedPost, Text } from "./scene";
import type { Slots } from "./slots";
import { FLAG_GAP, LEADING, POST } from "./sizes";

/** What is needed to know where posts stand. */
export interface Ground {
  readonly lanes: readonly Lane[];
  readonly strips: readonly Strip[];
  readonly slots: Slots;
  /** Height of each lane and place of each slot, as they are drawn. */
  readonly y: readonly number[];
  readonly x: readonly number[];
  /** Slots that each lane runs over, from its first to its last post. */
  readonly reach: readonly { readonly from: number; readonly to: number }[];
}

export function styleOf(lane: Lane, strip: Strip | undefined, id: string): LineStyle {
  if (strip?.kind !== "band") return "echo";
  const live = lane.lines.some((line) => (line.from === id && line.live) || (line.to === id && line.live && line.gap === ""));
  return live ? strip.drawn.direction : "pale";
}

/** The words above a post, whose lowest base line is above `bottom`. */
export function flagTexts(flag: Flag, x: number, bottom: number, owner: string): { texts: Text[]; ailing: { x: number; y: number } | undefined } {
  const texts: Text[] = [];
  let ailing: { x: number; y: number } | undefined;
  let y = bottom - flag.height;
  const firstTrouble = flag.rows.findIndex((row) => row.trouble);
  for (const [index, row] of flag.rows.entries()) {
    y += row.size * LEADING;
    const base = y - row.size * 0.3;
    const shift = row.trouble ? TROUBLE_MARK / 2 : 0;
    texts.push({
      x: x + shift, y: base, text: row.text, size: row.size, bold: row.bold, anchor: "middle", rank: row.bold ? "ink" : "ink2", owner,
    });
    if (index === firstTrouble) ailing = { x: x - flag.width / 2 + TROUBLE_MARK / 2 - 2, y: base - row.size * 0.34 };
  }
  return { texts, ailing };
}

export function placePost(post: DrawnPost, flag: Flag, ground: Ground): PlacedPost | undefined {
  const { lanes, strips, slots, y } = ground;
  const slot = slots.slotOf.get(post.id);
  if (slot === undefined) return undefined;
  const x = ground.x[slot] ?? 0;
  const own = lanes.flatMap((lane, index) => (lane.posts.has(post.id) ? [index] : []));
  const [first] = own;
  if (first === undefined) return undefined;

  const bodies: { top: number; bottom: number }[] = [];
  const spines: { top: number; bottom: number }[] = [];
  let top = (y[first] ?? 0) - POST.beyond;
  let last = first;
  for (const next of own.slice(1)) {
    if (mustThin(last, next, slot, ground, strips)) {
      const bottom = (y[last] ?? 0) + POST.beyond;
      bodies.push({ top, bottom });
      top = (y[next] ?? 0) - POST.beyond;
      spines.push({ top: bottom, bottom: top });
    }
    last = next;
  }
  bodies.push({ top, bottom: (y[last] ?? 0) + POST.beyond });

  const headTop = (y[first] ?? 0) - reachAbove(post);
  return {
    post, x, bodies, spines,
    head: isPeople(post) ? headTop + POST.headRadius : undefined,
    beads: own.flatMap((index) => {
      const lane = lanes[index];
      return lane === undefined ? [] : [{ y: y[index] ?? 0, style: styleOf(lane, strips[lane.strip], post.id) }];
    }),
    bars: barsOf(post.id, x, ground),
    ...flagTexts(flag, x, headTop - FLAG_GAP, post.id),
  };
}

/** Between two of its lines a post is thin where others pass by, and where a whole band lies that it does not serve. */
function mustThin(above: number, below: number, slot: number, ground: Ground, strips: readonly Strip[]): boolean {
  const { lanes, reach } = ground;
  for (let index = above + 1; index < below; index += 1) {
    const passing = reach[index];
    if (passing !== undefined && passing.from < slot && slot < passing.to) return true;
  }
  const from = lanes[above]?.strip ?? 0;
  const to = lanes[below]?.strip ?? 0;
  for (let strip = from + 1; strip < to; strip += 1) if (strips[strip]?.kind === "band") return true;
  return false;
}

/** Where runs go in at one height and out at another, the post carries them on in a bar. */
function barsOf(id: string, x: number, ground: Ground): PlacedPost["bars"] {
  const bars: { x: number; top: number; bottom: number; direction: "in" | "out"; pale: boolean }[] = [];
  for (const [at, strip] of ground.strips.entries()) {
    if (strip.kind !== "band") continue;
    const laneOf = new Map<Line, number>();
    for (const [index, lane] of ground.lanes.entries()) if (lane.strip === at) for (const line of lane.lines) laneOf.set(line, index);
    // Lanes that some run joins at this post are one bar.
    const root = new Map<number, number>();
    const find = (lane: number): number => {
      let current = lane;
      while (root.get(current) !== undefined && root.get(current) !== current) current = root.get(current) ?? current;
      return current;
    };
    const live = new Set<number>();
    for (const { lines } of strip.drawn.runs) {
      for (let index = 1; index < lines.length; index += 1) {
        const [a, b] = [lines[index - 1], lines[index]];
        if (a === undefined || b === undefined || a.to !== id || b.from !== id) continue;
        const [from, to] = [laneOf.get(a), laneOf.get(b)];
        if (from === undefined || to === undefined || from === to) continue;
        const [first, second] = [find(from), find(to)];
        root.set(Math.max(first, second), Math.min(first, second));
        root.set(Math.min(first, second), Math.min(first, second));
        if (a.live && a.gap === "") for (const lane of [from, to]) live.add(lane);
      }
    }
    const groups = new Map<number, number[]>();
    for (const lane of root.keys()) {
      const key = find(lane);
      groups.set(key, [...(groups.get(key) ?? []), lane]);
    }
    const placed: { top: number; bottom: number }[] = [];
    for (const group of [...groups.values()].filter((each) => each.length > 1)) {
      const heights = group.map((lane) => ground.y[lane] ?? 0);
      const [top, bottom] = [Math.min(...heights), Math.max(...heights)];
      const beside = placed.filter((other) => other.top <= bottom && top <= other.bottom).length;
      placed.push({ top, bottom });
      bars.push({
        x: x + (beside === 0 ? 0 : beside % 2 === 1 ? 5 : -5), top, bottom, direction: strip.drawn.direction,
        pale: !group.some((lane) => live.has(lane)),
      });
    }
  }
  return bars;
}
