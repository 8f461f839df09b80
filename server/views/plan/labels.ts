/** Finds for each label a place where it covers nothing: beside its mark, else some way off with a thin line, else beside the room. */
import { widthOf } from "../svg/glyphs";
import type { Box, Text } from "../svg/text";
import { wrap } from "../svg/wrap";
import type { Spot } from "./frame";
import type { Label } from "./scene";
import { LABEL_GAP, LABEL_WIDTH, LEADING, TYPE } from "./sizes";
import { crosses, type Taken } from "../svg/taken";

/** What a label says: its name, and what else is worth knowing. */
export interface Words {
  readonly of: string;
  readonly name: string;
  readonly details: readonly string[];
}

/** Where labels may go that find no place near their mark: columns beside the room, and from `below` downwards. */
export interface Room {
  readonly left: readonly [number, number];
  readonly right: readonly [number, number];
  readonly top: number;
  readonly bottom: number;
}

/** From the mark outwards, in pixels. */
const RINGS = [0, 12, 26, 42, 60, 80, 104, 132, 165, 200];
const DIRECTIONS = 16;
/** What a drawn line under a label costs, as pixels of distance. */
const ON_LINE = 34;
/** Farther out no label lies on a line: it is as well off beside the room. */
const FAR = 132;
/** What it costs where a thin line crosses a seat or words. */
const ON_SEAT = 30;

export class Labels {
  readonly #leaders: (readonly [Spot, Spot])[] = [];
  readonly #boxes: Box[] = [];
  #overflow: number;

  /**
   * `taken`: what labels must not cover. `soft`: lines that they had better not cover. `marks`: what no thin line may cross, but for
   * the mark that it leads to; it crosses one where a name would else have no line. `words`: what none crosses.
   */
  constructor(readonly taken: Taken, readonly soft: readonly (readonly [Spot, Spot])[], readonly marks: readonly Box[], readonly words: readonly Box[], readonly room: Room, below: number) {
    this.#overflow = below;
  }

  /** How far down the labels go that found no place at all. */
  get bottom(): number {
    return this.#overflow;
  }

  /** The label of a mark at `at` that is `radius` large. */
  place(words: Words, at: Spot, radius: number): Label {
    const rows = rowsOf(words);
    const width = rows.reduce((widest, row) => Math.max(widest, widthOf(row.text, row.size, row.bold)), 0);
    const height = rows.reduce((sum, row) => sum + row.size * LEADING, 0);
    // Rather a line over another line than words that nobody can tell whose they are.
    const found = this.near(at, radius, width, height) ?? this.aside(at, width, height) ?? this.aside(at, width, height, false);
    const box = found?.box ?? { x: this.room.left[0], y: this.#overflow, width, height };
    if (found === undefined) this.#overflow += height + 4;
    this.taken.add(box);
    this.#boxes.push(box);
    if (found?.leader !== undefined) {
      this.taken.addLine(...found.leader);
      this.#leaders.push(found.leader);
    }
    return { of: words.of, texts: textsIn(box, rows, at, words.of), box, leader: found?.leader };
  }

  private near(at: Spot, radius: number, width: number, height: number): { box: Box; leader: Label["leader"] } | undefined {
    let best: { box: Box; leader: Label["leader"]; cost: number } | undefined;
    for (const ring of RINGS) {
      if (best !== undefined && best.cost <= ring) break;
      for (let i = 0; i < DIRECTIONS; i += 1) {
        // To the right first, then turn by turn to both sides.
        const angle = ((i % 2 === 0 ? i : -(i + 1)) * Math.PI) / DIRECTIONS;
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const far = radius + LABEL_GAP + ring;
        const box = { x: at.x + cos * far + (snap(cos) - 1) * (width / 2), y: at.y + sin * far + (snap(sin) - 1) * (height / 2), width, height };
        const cost = ring + Math.abs(sin) * 6 + i * 0.05 + (best === undefined || ring < best.cost ? this.soft.filter(([from, to]) => crosses(from, to, grown(box))).length * ON_LINE : 0);
        if ((best !== undefined && cost >= best.cost) || (ring > FAR && cost >= ring + ON_LINE)) continue;
        const leader = ring < 12 ? undefined : leaderOf(at, radius, box);
        const seats = leader === undefined ? 0 : ON_SEAT * this.taken.crossed(...leader);
        if (best !== undefined && cost + seats >= best.cost) continue;
        if (this.fits(box, leader, at)) best = { box, leader, cost: cost + seats };
      }
    }
    return best;
  }

  /** `strict`: its thin line crosses neither marks nor other thin lines. */
  private aside(at: Spot, width: number, height: number, strict = true): { box: Box; leader: Label["leader"] } | undefined {
    const { left, right, top, bottom } = this.room;
    let best: { box: Box; leader: readonly [Spot, Spot]; cost: number } | undefined;
    for (const side of [left, right]) {
      const x = side === left ? side[1] - width : side[0];
      const most = Math.max(at.y - top, bottom - at.y);
      for (let off = 0; off <= most; off += 7) {
        for (const y of off === 0 ? [at.y - height / 2] : [at.y - height / 2 - off, at.y - height / 2 + off]) {
          if (y < top || y + height > bottom) continue;
          const box = { x, y, width, height };
          const leader = leaderOf(at, 9, box);
          const long = Math.hypot(leader[1].x - leader[0].x, leader[1].y - leader[0].y);
          if (best !== undefined && long >= best.cost) continue;
          const cost = long + ON_SEAT * this.taken.crossed(...leader);
          if ((best === undefined || cost < best.cost) && this.fits(box, leader, at, strict)) best = { box, leader, cost };
        }
      }
    }
    return best;
  }

  private fits(box: Box, leader: Label["leader"], at: Spot, strict = true): boolean {
    const { left, right, top, bottom } = this.room;
    const padded = { x: box.x - 2, y: box.y - 1, width: box.width + 4, height: box.height + 2 };
    if (box.x < left[0] || box.x + box.width > right[1] || box.y < top || box.y + box.height > bottom || !this.taken.isFree(padded)) return false;
    if (leader === undefined) return true;
    if ([...this.words, ...this.#boxes].some((other) => crosses(leader[0], leader[1], other))) return false;
    if (!strict) return true;
    if (this.marks.some((mark) => !holds(mark, at) && crosses(leader[0], leader[1], mark))) return false;
    return this.#leaders.every((other) => !meetLines(leader, other));
  }
}

/** Words that nearly touch a line look as if they lay on it. */
const grown = (box: Box): Box => ({ x: box.x - 3, y: box.y - 1, width: box.width + 6, height: box.height + 2 });

const holds = (box: Box, at: Spot): boolean => at.x >= box.x && at.x <= box.x + box.width && at.y >= box.y && at.y <= box.y + box.height;

/** −1, 0 or 1: at which side of its anchor a label stands. */
const snap = (n: number): number => (n > 0.35 ? 1 : n < -0.35 ? -1 : 0);

interface Row {
  readonly text: string;
  readonly size: number;
  readonly bold: boolean;
}

function rowsOf({ name, details }: Words): Row[] {
  const lines = (text: string, size: number, most: number, bold: boolean): Row[] => wrap(text, size, LABEL_WIDTH, most, bold).lines.map((line) => ({ text: line, size, bold }));
  return [...lines(name, TYPE.name, 2, true), ...details.flatMap((detail) => lines(detail, TYPE.detail, 2, false))];
}

/** Lines of type in their box, set toward the mark. */
function textsIn(box: Box, rows: readonly Row[], at: Spot, owner: string): Text[] {
  const anchor = box.x > at.x ? "start" : box.x + box.width < at.x ? "end" : "middle";
  const x = anchor === "start" ? box.x : anchor === "end" ? box.x + box.width : box.x + box.width / 2;
  let y = box.y;
  return rows.map((row) => {
    const base = y + row.size * 0.95;
    y += row.size * LEADING;
    return { x, y: base, text: row.text, size: row.size, bold: row.bold, anchor, rank: row.bold ? "ink" : "ink2", owner };
  });
}

function leaderOf(at: Spot, radius: number, box: Box): readonly [Spot, Spot] {
  const end = { x: Math.min(Math.max(at.x, box.x - 3), box.x + box.width + 3), y: Math.min(Math.max(at.y, box.y - 2), box.y + box.height + 2) };
  const far = Math.hypot(end.x - at.x, end.y - at.y);
  const start = far < 1e-6 ? at : { x: at.x + ((end.x - at.x) * radius) / far, y: at.y + ((end.y - at.y) * radius) / far };
  return [start, end];
}

function meetLines([a, b]: readonly [Spot, Spot], [c, d]: readonly [Spot, Spot]): boolean {
  const side = (p: Spot, q: Spot, r: Spot): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
