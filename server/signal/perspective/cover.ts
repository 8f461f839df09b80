/**
 * What hides what: the frame as a sheet of small cells, filled from the nearest thing to the farthest. A thing none of whose cells is
 * free is hidden. Cells are coarse: a sliver narrower than one counts as nothing.
 */
import type { Spot, Surface } from "./perspective";

const WIDE = 240;

export class Cover {
  readonly #high: number;
  readonly #taken: Uint8Array;

  constructor(aspect: number) {
    this.#high = Math.round(WIDE / aspect);
    this.#taken = new Uint8Array(WIDE * this.#high);
  }

  /** How many cells surfaces cover together, and how many of these were taken; then they are. */
  put(surfaces: readonly Surface[]): { readonly cells: number; readonly taken: number } {
    const own = new Set<number>();
    let taken = 0;
    for (const { ring } of surfaces) {
      this.fill(ring, (cell) => {
        if (own.has(cell)) return;
        own.add(cell);
        if (this.#taken[cell] === 1) taken += 1;
      });
    }
    for (const cell of own) this.#taken[cell] = 1;
    return { cells: own.size, taken };
  }

  /** Whether the cell at a spot is taken. */
  isTaken([across, up]: Spot): boolean {
    const x = Math.min(WIDE - 1, Math.max(0, Math.floor(((across + 1) / 2) * WIDE)));
    const y = Math.min(this.#high - 1, Math.max(0, Math.floor(((1 - up) / 2) * this.#high)));
    return this.#taken[y * WIDE + x] === 1;
  }

  /** Cells whose middle lies in a ring, by the crossings of each line of cells (even–odd rule). */
  private fill(ring: readonly Spot[], act: (cell: number) => void): void {
    if (ring.length < 3) return;
    const points = ring.map(([across, up]) => [((across + 1) / 2) * WIDE - 0.5, ((1 - up) / 2) * this.#high - 0.5] as const);
    const ys = points.map((p) => p[1]);
    for (let y = Math.max(0, Math.ceil(Math.min(...ys))); y <= Math.min(this.#high - 1, Math.floor(Math.max(...ys))); y += 1) {
      const crossings: number[] = [];
      points.forEach(([ax, ay], i) => {
        const [bx, by] = points[(i + 1) % points.length] ?? [ax, ay];
        if (ay > y !== by > y) crossings.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
      });
      crossings.sort((a, b) => a - b);
      for (let i = 0; i + 1 < crossings.length; i += 2) {
        for (let x = Math.max(0, Math.ceil(crossings[i] ?? 0)); x <= Math.min(WIDE - 1, Math.floor(crossings[i + 1] ?? 0)); x += 1) act(y * WIDE + x);
      }
    }
  }
}
