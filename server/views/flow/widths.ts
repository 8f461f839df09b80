/**
 * How far apart the posts stand. Everything that needs room between two slots is written down as "at least so far from a to b"; the
 * narrowest drawing that grants all of it is found in one sweep from the left (longest paths in a graph without cycles).
 */
import { backWords, echoWords, kindOf, type Flag, type LineWords } from "./labels";
import { endsOf, nestsOf, type Lane, type Strip } from "./lanes";
import { reachAbove, type Heights } from "./heights";
import type { DrawnEcho, DrawnPost, Line } from "./network";
import type { Slots } from "./slots";
import { FLAG_GAP, GAP_AIR, POST, STUB, TURN_RADIUS, TYPE } from "./sizes";
import { widthOf } from "../svg/glyphs";

/** A stretch between two slots in which nothing stands in the way of a lane. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** The slots strictly between two at which some post stands in the way of a lane, and so the free stretches. */
export function stretchesOf(lane: number, from: number, to: number, slots: Slots): Stretch[] {
  const inTheWay = new Set<number>();
  for (const [id, hull] of slots.hullOf) {
    const slot = slots.slotOf.get(id) ?? 0;
    if (slot > from && slot < to && hull.top <= lane && lane <= hull.bottom) inTheWay.add(slot);
  }
  const stops = [from, ...[...inTheWay].sort((a, b) => a - b), to];
  return stops.slice(1).map((stop, index) => ({ from: stops[index] ?? from, to: stop }));
}

/** The stretch that crosses most slots: it has the most room to spare. The earlier one in the direction of the line wins a tie. */
export function roomiest(stretches: readonly Stretch[], forwards: boolean): Stretch | undefined {
  const ordered = forwards ? stretches : [...stretches].reverse();
  let best: Stretch | undefined;
  for (const stretch of ordered) {
    if (best === undefined || stretch.to - stretch.from > best.to - best.from) best = stretch;
  }
  return best;
}

/** A line with the stretches it has, and the one that its remark or its gap is in. */
export interface Course {
  readonly line: Line;
  readonly lane: number;
  readonly left: string;
  readonly right: string;
  readonly leftIsFrom: boolean;
  readonly stretches: readonly Stretch[];
  readonly main: Stretch;
}

export function courseOf(line: Line, lane: number, strip: Strip, columns: ReadonlyMap<string, number>, slots: Slots): Course | undefined {
  if (strip.kind !== "band") return undefined;
  let { left, right } = endsOf(line, strip.drawn.direction, columns);
  if ((slots.slotOf.get(left) ?? 0) > (slots.slotOf.get(right) ?? 0)) [left, right] = [right, left];
  const stretches = stretchesOf(lane, slots.slotOf.get(left) ?? 0, slots.slotOf.get(right) ?? 0, slots);
  const leftIsFrom = left === line.from;
  const main = roomiest(stretches, leftIsFrom);
  return main === undefined ? undefined : { line, lane, left, right, leftIsFrom, stretches, main };
}

/** Room that the words at one end of a line take, with the stub of a gap where there is one. */
export function stubs(course: Course, words: LineWords): { left: number; right: number } {
  const first = course.main === course.stretches[0];
  const last = course.main === course.stretches.at(-1);
  return {
    left: Math.max(STUB, first && words.leftWidth > 0 ? words.leftWidth + 16 : 0),
    right: Math.max(STUB, last && words.rightWidth > 0 ? words.rightWidth + 16 : 0),
  };
}

interface Constraint {
  readonly from: number;
  readonly to: number;
  readonly distance: number;
}

/** On which side an echo turns, how far from the outermost of its two posts, and beside which slot. */
export interface Turn {
  readonly atLeft: boolean;
  readonly slot: number;
  readonly offset: number;
  /** Where a closed loop turns once more, on the other side. */
  readonly closing: { readonly slot: number; readonly offset: number } | undefined;
}

/** The turns of all echoes. An outer one reaches farther out than all within it. */
export function turnsOf(
  lanes: readonly Lane[],
  echoes: readonly DrawnEcho[],
  columns: ReadonlyMap<string, number>,
  slots: Slots,
  flags: ReadonlyMap<string, Flag>,
): Map<DrawnEcho, Turn> {
  const turns = new Map<DrawnEcho, Turn>();
  for (const { atLeft, echoes: nest } of nestsOf(echoes, columns)) {
    let inner: Turn | undefined;
    for (const echo of [...nest].reverse()) {
      const visited = [...echo.out, ...echo.back];
      const own = [...visited.map((id) => slots.slotOf.get(id) ?? 0), ...(inner === undefined ? [] : [inner.slot])];
      const slot = atLeft ? Math.min(...own) : Math.max(...own);
      const outermost = visited.filter((id) => slots.slotOf.get(id) === slot);
      let offset = Math.max(POST.half, ...outermost.map((id) => (flags.get(id)?.width ?? 0) / 2)) + 16;
      // A leg that passes one slot only has its words between there and the turn.
      for (const leg of ["out", "back"] as const) {
        const lane = laneOfLeg(lanes, echo, leg);
        const width = leg === "out" ? echoWords(echo.run).width : widthOf(backWords(echo.run), TYPE.echo, true);
        if (legStretch(echo[leg], lane, slots) === undefined) offset = Math.max(offset, clearance(slot, lane, slots, flags) + width + 24);
      }
      if (inner?.slot === slot) offset = Math.max(offset, inner.offset + 24);
      const closing = closingOf(echo, atLeft, slots, flags);
      inner = { atLeft, slot, offset, closing };
      turns.set(echo, inner);
    }
  }
  return turns;
}

/** Where a closed loop turns a second time: beyond the outermost of its posts on the other side. */
function closingOf(echo: DrawnEcho, atLeft: boolean, slots: Slots, flags: ReadonlyMap<string, Flag>): Turn["closing"] {
  if (kindOf(echo.run) !== "howl") return undefined;
  const visited = [...echo.out, ...echo.back];
  const own = visited.map((id) => slots.slotOf.get(id) ?? 0);
  const slot = atLeft ? Math.max(...own) : Math.min(...own);
  const outermost = visited.filter((id) => slots.slotOf.get(id) === slot);
  return { slot, offset: Math.max(POST.half, ...outermost.map((id) => (flags.get(id)?.width ?? 0) / 2)) + 16 };
}

export function laneOfLeg(lanes: readonly Lane[], echo: DrawnEcho, leg: "out" | "back"): number {
  return lanes.findIndex((lane) => lane.echo?.echo === echo && lane.echo.leg === leg);
}

/** Least distance of the middles of two posts that have a line without words between them. */
const LEAST = 72;

/** The middle of each slot, from 0; at least `atLeast` from the first to the last. */
export function placesOf(
  lanes: readonly Lane[],
  courses: readonly Course[],
  slots: Slots,
  heights: Heights,
  posts: ReadonlyMap<string, DrawnPost>,
  flags: ReadonlyMap<string, Flag>,
  words: ReadonlyMap<Line, LineWords>,
  turns: ReadonlyMap<DrawnEcho, Turn>,
  atLeast: number,
): number[] {
  const constraints: Constraint[] = [];
  const need = (from: number, to: number, distance: number): void => {
    constraints.push({ from, to, distance });
  };
  for (let slot = 1; slot < slots.count; slot += 1) need(slot - 1, slot, LEAST);

  for (const course of courses) {
    const at = words.get(course.line);
    if (at === undefined) continue;
    for (const stretch of course.stretches) {
      const left = stretch === course.stretches[0] && at.leftWidth > 0 ? at.leftWidth + 10 : 0;
      const right = stretch === course.stretches.at(-1) && at.rightWidth > 0 ? at.rightWidth + 10 : 0;
      let distance = left + right + (left > 0 && right > 0 ? 12 : 0) + 2 * POST.half;
      if (stretch === course.main) {
        if (course.line.gap !== "") {
          const both = stubs(course, at);
          distance = Math.max(distance, both.left + at.gap.width + 2 * GAP_AIR + both.right + 2 * POST.half);
        } else distance = Math.max(distance, at.remarkWidth + 24 + 2 * POST.half);
      }
      need(stretch.from, stretch.to, distance);
    }
  }

  needOfFlags(slots, heights, posts, flags, need);
  needOfEchoes(lanes, slots, flags, turns, need);

  const x = Array.from({ length: slots.count }, () => 0);
  constraints.sort((a, b) => a.to - b.to);
  for (const { from, to, distance } of constraints) x[to] = Math.max(x[to] ?? 0, (x[from] ?? 0) + distance);
  // What is left over is shared out evenly: calm, and nothing gets closer.
  const spare = atLeast - (x.at(-1) ?? 0);
  if (spare > 0 && slots.count > 1) return x.map((value, slot) => value + (spare * slot) / (slots.count - 1));
  return x;
}

/** Words above posts must not run into each other, nor into posts beside them. */
function needOfFlags(
  slots: Slots,
  heights: Heights,
  posts: ReadonlyMap<string, DrawnPost>,
  flags: ReadonlyMap<string, Flag>,
  need: (from: number, to: number, distance: number) => void,
): void {
  const standing = [...slots.hullOf].flatMap(([id, hull]) => {
    const post = posts.get(id);
    const flag = flags.get(id);
    if (post === undefined || flag === undefined) return [];
    const shaft = (heights.lanes[hull.top] ?? 0) - reachAbove(post);
    const foot = (heights.lanes[hull.bottom] ?? 0) + POST.beyond + POST.foot;
    const flagBottom = shaft - FLAG_GAP;
    return [{ slot: slots.slotOf.get(id) ?? 0, shaft, foot, flagTop: flagBottom - flag.height, flagBottom, width: flag.width }];
  });
  for (const a of standing) {
    for (const b of standing) {
      if (a.slot >= b.slot) continue;
      if (a.flagTop < b.flagBottom && b.flagTop < a.flagBottom) need(a.slot, b.slot, (a.width + b.width) / 2 + 16);
      if (a.flagTop < b.foot && b.shaft < a.flagBottom) need(a.slot, b.slot, a.width / 2 + POST.half + 10);
      if (b.flagTop < a.foot && a.shaft < b.flagBottom) need(a.slot, b.slot, b.width / 2 + POST.half + 10);
    }
  }
}

/** Echoes want room for their turn, and for their words beside it. */
function needOfEchoes(
  lanes: readonly Lane[],
  slots: Slots,
  flags: ReadonlyMap<string, Flag>,
  turns: ReadonlyMap<DrawnEcho, Turn>,
  need: (from: number, to: number, distance: number) => void,
): void {
  for (const [echo, turn] of turns) {
    const { closing } = turn;
    if (closing !== undefined) {
      const beyond = closing.offset + TURN_RADIUS / 2 + POST.half + 10;
      if (turn.atLeft && closing.slot < slots.count - 1) need(closing.slot, closing.slot + 1, beyond);
      if (!turn.atLeft && closing.slot > 0) need(closing.slot - 1, closing.slot, beyond);
    }
    const away = turn.offset + TURN_RADIUS / 2 + POST.half + 10;
    if (turn.atLeft && turn.slot > 0) need(turn.slot - 1, turn.slot, away);
    if (!turn.atLeft && turn.slot < slots.count - 1) need(turn.slot, turn.slot + 1, away);
    for (const leg of ["out", "back"] as const) {
      const lane = laneOfLeg(lanes, echo, leg);
      const stretch = legStretch(echo[leg], lane, slots);
      const width = leg === "out" ? echoWords(echo.run).width : widthOf(backWords(echo.run), TYPE.echo, true);
      if (stretch !== undefined) need(stretch.from, stretch.to, roomBeside(stretch, lane, slots, flags, width));
    }
  }
}

function roomBeside(stretch: Stretch, lane: number, slots: Slots, flags: ReadonlyMap<string, Flag>, width: number): number {
  return clearance(stretch.from, lane, slots, flags) + width + clearance(stretch.to, lane, slots, flags);
}

/** How far words above a lane must keep from the middle of a slot: a post that begins at this lane has its own words there. */
export function clearance(slot: number, lane: number, slots: Slots, flags: ReadonlyMap<string, Flag>): number {
  let least: number = POST.half;
  for (const [id, hull] of slots.hullOf) {
    if (slots.slotOf.get(id) === slot && hull.top === lane) least = Math.max(least, (flags.get(id)?.width ?? 0) / 2);
  }
  return least + 12;
}

/** The stretch of a leg of an echo that has most room. */
export function legStretch(leg: readonly string[], lane: number, slots: Slots): Stretch | undefined {
  const visited = leg.map((id) => slots.slotOf.get(id) ?? 0);
  const from = Math.min(...visited);
  const to = Math.max(...visited);
  if (from >= to) return undefined;
  return roomiest(stretchesOf(lane, from, to, slots), true);
}
