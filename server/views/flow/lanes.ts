/**
 * On which height each line runs. Every line keeps one height from end to end and goes on at the same height through the posts that
 * pass it along, so that a complete way is one straight line from side to side. What remains to be chosen is the order of the lanes
 * of a band: the one in which posts stand shortest and the fewest lines pass posts that they have nothing to do with.
 */
import { kindOf } from "./labels";
import type { DrawnBand, DrawnEcho, Line, Network } from "./network";

/** One height of the drawing: lines that continue each other, or one leg of an echo. */
export interface Lane {
  /** Index into the strips. */
  readonly strip: number;
  /** Left to right; empty for a leg of an echo. */
  readonly lines: readonly Line[];
  readonly echo: { readonly echo: DrawnEcho; readonly leg: "out" | "back" } | undefined;
  /** The posts that it touches. */
  readonly posts: ReadonlySet<string>;
}

/** A horizontal part of the drawing: one way, or the place between the two ways of sound where echoes turn. */
export type Strip = { readonly kind: "band"; readonly drawn: DrawnBand } | { readonly kind: "echoes"; readonly echoes: readonly DrawnEcho[] };

/** The bands from top to bottom, with the echoes between the two ways of sound. */
export function stripsOf(network: Network): Strip[] {
  const strips: Strip[] = network.bands.map((drawn) => ({ kind: "band", drawn }));
  if (network.echoes.length === 0) return strips;
  const after = network.bands.findIndex((drawn) => drawn.band.way === "room-hears-online");
  const before = network.bands.findIndex((drawn) => drawn.band.way === "online-hears-room");
  const at = after >= 0 ? after + 1 : before >= 0 ? before : strips.length;
  strips.splice(at, 0, { kind: "echoes", echoes: network.echoes });
  return strips;
}

/** Whether an echo turns at the side of the room, as one does that the people online hear of themselves. */
export function turnsAtLeft(echo: DrawnEcho, columns: ReadonlyMap<string, number>): boolean {
  return columnOf(echo.out[0], columns) >= columnOf(echo.out.at(-1), columns);
}

function columnOf(id: string | undefined, columns: ReadonlyMap<string, number>): number {
  return columns.get(id ?? "") ?? 0;
}

/** Echoes that lie in each other, and the side at which they turn. */
export interface Nest {
  readonly atLeft: boolean;
  readonly echoes: readonly DrawnEcho[];
}

/**
 * Echoes that turn at the same side, the one that turns farthest out first: so they can lie in each other without crossing. A closed
 * loop lies by itself, since its second bend would cross what lies within.
 */
export function nestsOf(all: readonly DrawnEcho[], columns: ReadonlyMap<string, number>): Nest[] {
  const closed = all.filter((echo) => kindOf(echo.run) === "howl");
  const echoes = all.filter((echo) => !closed.includes(echo));
  const farthest = (echo: DrawnEcho, atLeft: boolean): number => {
    const visited = [...echo.out, ...echo.back].map((id) => columnOf(id, columns));
    return atLeft ? Math.min(...visited) : -Math.max(...visited);
  };
  const nested = [true, false].map((atLeft): Nest => ({
    atLeft, echoes: echoes.filter((echo) => turnsAtLeft(echo, columns) === atLeft).sort((a, b) => farthest(a, atLeft) - farthest(b, atLeft)),
  }));
  return [...nested, ...closed.map((echo): Nest => ({ atLeft: turnsAtLeft(echo, columns), echoes: [echo] }))];
}

/** The end of a line that lies towards the room, and the one that lies towards the people online. */
export function endsOf(line: Line, direction: DrawnBand["direction"], columns: ReadonlyMap<string, number>): { left: string; right: string } {
  const from = columns.get(line.from) ?? 0;
  const to = columns.get(line.to) ?? 0;
  const forwards = from < to || (from === to && direction === "out");
  return forwards ? { left: line.from, right: line.to } : { left: line.to, right: line.from };
}

/** Lines of a band joined to chains: at every post each line goes on as the one that most runs go on by. */
function chainsOf(band: DrawnBand, columns: ReadonlyMap<string, number>, alone: ReadonlySet<Line>): Line[][] {
  const ends = new Map(band.lines.map((line) => [line, endsOf(line, band.direction, columns)]));
  const weights = new Map<Line, Map<Line, number>>();
  for (const { lines } of band.runs) {
    for (let index = 1; index < lines.length; index += 1) {
      const [a, b] = [lines[index - 1], lines[index]];
      if (a === undefined || b === undefined || alone.has(a) || alone.has(b)) continue;
      const [first, second] = ends.get(a)?.right === ends.get(b)?.left ? [a, b] : [b, a];
      if (ends.get(first)?.right !== ends.get(second)?.left) continue;
      const row = weights.get(first) ?? new Map<Line, number>();
      row.set(second, (row.get(second) ?? 0) + 1);
      weights.set(first, row);
    }
  }
  const pairs = [...weights].flatMap(([first, row]) => [...row].map(([second, weight]) => ({ first, second, weight })));
  pairs.sort((a, b) => b.weight - a.weight);
  const next = new Map<Line, Line>();
  const previous = new Map<Line, Line>();
  for (const { first, second } of pairs) {
    if (next.has(first) || previous.has(second)) continue;
    next.set(first, second);
    previous.set(second, first);
  }
  const chains: Line[][] = [];
  const seen = new Set<Line>();
  const follow = (start: Line): void => {
    const chain: Line[] = [];
    for (let line: Line | undefined = start; line !== undefined && !seen.has(line); line = next.get(line)) {
      seen.add(line);
      chain.push(line);
    }
    if (chain.length > 0) chains.push(chain);
  };
  for (const line of band.lines) if (!previous.has(line)) follow(line);
  for (const line of band.lines) follow(line);
  return chains;
}

/** How far a lane reaches, in columns. */
interface Reach {
  readonly lane: Lane;
  readonly from: number;
  readonly to: number;
}

/**
 * What an order of lanes costs: for every post the lanes that pass it without touching it, more inside one band than between bands,
 * and a little for its length.
 */
function costOf(order: readonly Reach[], columns: ReadonlyMap<string, number>): number {
  const touched = new Map<string, number[]>();
  for (const [index, { lane }] of order.entries()) {
    for (const id of lane.posts) {
      const list = touched.get(id);
      if (list === undefined) touched.set(id, [index]);
      else list.push(index);
    }
  }
  let cost = 0;
  for (const [id, own] of touched) {
    const column = columns.get(id) ?? 0;
    for (let step = 1; step < own.length; step += 1) {
      const above = own[step - 1] ?? 0;
      const below = own[step] ?? 0;
      cost += 0.05 * (below - above);
      const sameStrip = order[above]?.lane.strip === order[below]?.lane.strip;
      for (let index = above + 1; index < below; index += 1) {
        const reach = order[index];
        if (reach === undefined) continue;
        if (reach.from < column && column < reach.to) cost += sameStrip ? 3 : 1;
        else if (reach.from === column || reach.to === column) cost += sameStrip ? 2 : 0.6;
      }
    }
  }
  return cost;
}

/** Tries changes of place within each strip for as long as they help. */
function improve(order: Reach[], columns: ReadonlyMap<string, number>): Reach[] {
  let best = order;
  let cost = costOf(best, columns);
  for (let round = 0; round < 8; round += 1) {
    let better = false;
    for (let index = 0; index < best.length; index += 1) {
      const farthest = best.length <= 24 ? best.length : index + 2;
      for (let other = index + 1; other < Math.min(best.length, farthest); other += 1) {
        const [a, b] = [best[index], best[other]];
        if (a === undefined || b === undefined || a.lane.strip !== b.lane.strip || a.lane.echo !== undefined) continue;
        const trial = [...best];
        trial.splice(index, 1);
        trial.splice(other, 0, a);
        const trialCost = costOf(trial, columns);
        if (trialCost < cost - 1e-9) {
          best = trial;
          cost = trialCost;
          better = true;
        }
      }
    }
    if (!better) break;
  }
  return best;
}

/** Lanes sorted by where the posts that they touch stand on average: a good start where the author's order is not. */
function byBarycentre(order: readonly Reach[]): Reach[] {
  let current = [...order];
  for (let round = 0; round < 6; round += 1) {
    const sums = new Map<string, { sum: number; count: number }>();
    for (const [index, { lane }] of current.entries()) {
      for (const id of lane.posts) {
        const entry = sums.get(id) ?? { sum: 0, count: 0 };
        entry.sum += index;
        entry.count += 1;
        sums.set(id, entry);
      }
    }
    const middle = new Map<Reach, number>();
    for (const reach of current) {
      const means = [...reach.lane.posts].map((id) => (sums.get(id)?.sum ?? 0) / (sums.get(id)?.count ?? 1));
      middle.set(reach, means.reduce((sum, mean) => sum + mean, 0) / Math.max(1, means.length));
    }
    current = [...current].sort((a, b) => a.lane.strip - b.lane.strip
      || (a.lane.echo !== undefined ? 0 : (middle.get(a) ?? 0) - (middle.get(b) ?? 0)));
  }
  return current;
}

/** All lanes, from top to bottom; lines that are `alone` do not go on as others. */
export function lanesOf(strips: readonly Strip[], columns: ReadonlyMap<string, number>, alone: ReadonlySet<Line> = new Set()): Lane[] {
  const lanes: Lane[] = [];
  for (const [strip, content] of strips.entries()) {
    if (content.kind === "band") {
      for (const lines of chainsOf(content.drawn, columns, alone)) {
        lanes.push({ strip, lines, echo: undefined, posts: new Set(lines.flatMap((line) => [line.from, line.to])) });
      }
    } else {
      for (const nest of nestsOf(content.echoes, columns)) {
        for (const echo of nest.echoes) lanes.push({ strip, lines: [], echo: { echo, leg: "out" }, posts: new Set(echo.out) });
        for (const echo of [...nest.echoes].reverse()) lanes.push({ strip, lines: [], echo: { echo, leg: "back" }, posts: new Set(echo.back) });
      }
    }
  }
  const reaches = lanes.map((lane): Reach => {
    const touched = [...lane.posts].map((id) => columns.get(id) ?? 0);
    return { lane, from: Math.min(...touched), to: Math.max(...touched) };
  });
  const given = improve(reaches, columns);
  const sorted = improve(byBarycentre(reaches), columns);
  const best = costOf(sorted, columns) < costOf(given, columns) - 1e-9 ? sorted : given;
  return best.map(({ lane }) => lane);
}
