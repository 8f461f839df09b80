/** What of the sheet is taken: boxes and lines in a grid, so that a hall of thousands of seats is searched quickly. */
import { meet, type Box } from "./text";

/** A point of the sheet. */
interface Spot {
  readonly x: number;
  readonly y: number;
}

const CELL = 48;

export class Taken {
  readonly #boxes = new Map<string, Box[]>();
  readonly #lines: (readonly [Spot, Spot])[] = [];

  add(box: Box): void {
    this.cells(box, (key) => {
      const list = this.#boxes.get(key);
      if (list === undefined) this.#boxes.set(key, [box]);
      else list.push(box);
    });
  }

  /** A line that no words may stand on. */
  addLine(from: Spot, to: Spot): void {
    this.#lines.push([from, to]);
  }

  isFree(box: Box): boolean {
    return !this.meets(box) && this.#lines.every(([from, to]) => !crosses(from, to, box));
  }

  /** Whether a box meets another, lines left aside. */
  meets(box: Box): boolean {
    let found = false;
    this.cells(box, (key) => {
      if (!found && this.#boxes.get(key)?.some((other) => meet(other, box)) === true) found = true;
    });
    return found;
  }

  /** How many steps of a line lie on something. */
  crossed(from: Spot, to: Spot): number {
    const steps = Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 14);
    let count = 0;
    for (let i = 1; i < steps; i += 1) {
      const share = i / steps;
      if (this.meets({ x: from.x + (to.x - from.x) * share - 1, y: from.y + (to.y - from.y) * share - 1, width: 2, height: 2 })) count += 1;
    }
    return count;
  }

  private cells(box: Box, act: (key: string) => void): void {
    for (let x = Math.floor(box.x / CELL); x <= Math.floor((box.x + box.width) / CELL); x += 1) {
      for (let y = Math.floor(box.y / CELL); y <= Math.floor((box.y + box.height) / CELL); y += 1) act(`${x} ${y}`);
    }
  }
}

/** Whether a line touches a box (Liang and Barsky 1984). */
export function crosses(from: Spot, to: Spot, box: Box): boolean {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  let enter = 0;
  let leave = 1;
  for (const [p, q] of [[-dx, from.x - box.x], [dx, box.x + box.width - from.x], [-dy, from.y - box.y], [dy, box.y + box.height - from.y]] as const) {
    if (p === 0) {
      if (q < 0) return false;
      continue;
    }
    const at = q / p;
    if (p < 0) enter = Math.max(enter, at);
    else leave = Math.min(leave, at);
    if (enter > leave) return false;
  }
  return true;
}
