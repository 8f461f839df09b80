/**
 * Where in its column a post stands. Posts whose heights do not meet stand one above the other; others stand side by side, in the
 * order that lets the fewest lines pass posts that they do not touch.
 */
import { endsOf, lanesOf, type Lane, type Strip } from "./lanes";
import type { Line } from "./network";

export interface Slots {
  /** Place of each post counted from the left over all columns. */
  readonly slotOf: ReadonlyMap<string, number>;
  readonly count: number;
  /** First and last lane of each post. */
  readonly hullOf: ReadonlyMap<string, { readonly top: number; readonly bottom: number }>;
}

/** More side by side than this, and not every order is tried. */
const MOST_TO_PERMUTE = 5;

function permutations(count: number): number[][] {
  if (count === 0) return [[]];
  const all: number[][] = [];
  for (const shorter of permutations(count - 1)) {
    for (let at = 0; at <= shorter.length; at += 1) all.push([...shorter.slice(0, at), count - 1, ...shorter.slice(at)]);
  }
  return all.sort((a, b) => {
    for (let index = 0; index < a.length; index += 1) {
      const difference = (a[index] ?? 0) - (b[index] ?? 0);
      if (difference !== 0) return difference;
    }
    return 0;
  });
}

/** Puts every post that a lane touches into a slot. */
export function slotsOf(lanes: readonly Lane[], strips: readonly Strip[], columns: ReadonlyMap<string, number>): Slots {
  const hullOf = new Map<string, { top: number; bottom: number }>();
  for (const [index, lane] of lanes.entries()) {
    for (const id of lane.posts) {
      const hull = hullOf.get(id);
      if (hull === undefined) hullOf.set(id, { top: index, bottom: index });
      else hull.bottom = index;
    }
  }
  // Lines between two posts of one column want their left end at the left.
  const leftOf = new Map<string, Set<string>>();
  for (const lane of lanes) {
    const strip = strips[lane.strip];
    if (strip?.kind !== "band") continue;
    for (const line of lane.lines) {
      const { left, right } = endsOf(line, strip.drawn.direction, columns);
      if (columns.get(left) !== columns.get(right)) continue;
      const known = leftOf.get(right) ?? new Set<string>();
      known.add(left);
      leftOf.set(right, known);
    }
  }
  const byColumn = new Map<number, string[]>();
  for (const id of hullOf.keys()) {
    const column = columns.get(id) ?? 0;
    const list = byColumn.get(column);
    if (list === undefined) byColumn.set(column, [id]);
    else list.push(id);
  }
  const slotOf = new Map<string, number>();
  let next = 0;
  for (const column of [...byColumn.keys()].sort((a, b) => a - b)) {
    const groups = share(byColumn.get(column) ?? [], hullOf, leftOf);
    const order = bestOrder(groups, lanes, columns, column, hullOf, leftOf);
    for (const group of order) {
      for (const id of group) slotOf.set(id, next);
      next += 1;
    }
  }
  return { slotOf, count: next, hullOf };
}

/**
 * Lanes and slots together. Lines that go to and fro between posts of one column may turn out to lie over each other once these stand
 * side by side; such lines then get lanes of their own.
 */
export function arrange(strips: readonly Strip[], columns: ReadonlyMap<string, number>): { lanes: Lane[]; slots: Slots } {
  const alone = new Set<Line>();
  for (;;) {
    const lanes = lanesOf(strips, columns, alone);
    const slots = slotsOf(lanes, strips, columns);
    const before = alone.size;
    for (const lane of lanes) {
      const spans = lane.lines.map((line) => {
        const [a, b] = [slots.slotOf.get(line.from) ?? 0, slots.slotOf.get(line.to) ?? 0];
        return { line, from: Math.min(a, b), to: Math.max(a, b) };
      });
      for (const [index, span] of spans.entries()) {
        for (const other of spans.slice(index + 1)) if (span.from < other.to && other.from < span.to) alone.add(span.line).add(other.line);
      }
    }
    if (alone.size === before) return { lanes, slots };
  }
}

/** Posts of one column, parted into groups that can stand one above the other. */
function share(
  ids: readonly string[],
  hullOf: ReadonlyMap<string, { top: number; bottom: number }>,
  leftOf: ReadonlyMap<string, ReadonlySet<string>>,
): string[][] {
  const groups: string[][] = [];
  const groupOf = new Map<string, number>();
  const pending = new Set(ids);
  while (pending.size > 0) {
    // A post waits for those that must stand to its left, unless they wait for each other.
    const ready = [...pending].filter((id) => ![...(leftOf.get(id) ?? [])].some((left) => left !== id && pending.has(left)));
    const batch = ready.length > 0 ? ready : [...pending].slice(0, 1);
    for (const id of batch) {
      pending.delete(id);
      const hull = hullOf.get(id) ?? { top: 0, bottom: 0 };
      const least = Math.max(0, ...[...(leftOf.get(id) ?? [])].map((left) => (groupOf.get(left) ?? -1) + 1));
      let at = least;
      const meets = (other: string): boolean => {
        const theirs = hullOf.get(other) ?? { top: 0, bottom: 0 };
        return hull.top <= theirs.bottom && theirs.top <= hull.bottom;
      };
      while (groups[at]?.some(meets) === true) at += 1;
      while (groups.length <= at) groups.push([]);
      groups[at]?.push(id);
      groupOf.set(id, at);
    }
  }
  return groups.filter((group) => group.length > 0);
}

function bestOrder(
  groups: readonly string[][],
  lanes: readonly Lane[],
  columns: ReadonlyMap<string, number>,
  column: number,
  hullOf: ReadonlyMap<string, { top: number; bottom: number }>,
  leftOf: ReadonlyMap<string, ReadonlySet<string>>,
): string[][] {
  if (groups.length < 2 || groups.length > MOST_TO_PERMUTE) return [...groups];
  const rankOf = new Map(groups.flatMap((group, index) => group.map((id) => [id, index] as const)));
  let best = [...groups];
  let least = Infinity;
  for (const order of permutations(groups.length)) {
    const place = new Map(order.map((group, index) => [group, index]));
    const placeOf = (id: string): number => place.get(rankOf.get(id) ?? 0) ?? 0;
    let cost = 0;
    for (const [right, lefts] of leftOf) {
      if (!rankOf.has(right)) continue;
      for (const left of lefts) if (placeOf(left) >= placeOf(right)) cost += 100;
    }
    for (const id of rankOf.keys()) {
      const hull = hullOf.get(id) ?? { top: 0, bottom: 0 };
      for (let index = hull.top; index <= hull.bottom; index += 1) {
        const lane = lanes[index];
        if (lane === undefined || lane.posts.has(id)) continue;
        const places = [...lane.posts].map((other) => {
          const theirs = columns.get(other) ?? 0;
          return theirs < column ? -1 : theirs > column ? groups.length : placeOf(other);
        });
        const here = placeOf(id);
        if (Math.min(...places) < here && here < Math.max(...places)) cost += 1;
      }
    }
    if (cost < least) {
      least = cost;
      best = order.flatMap((group) => [groups[group] ?? []]);
    }
  }
  return best;
}
