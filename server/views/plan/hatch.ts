/** Thin slanting lines inside an outline: a ground that prints, and through which everything can be read. */
import { path } from "../svg/element";
import type { Spot } from "./frame";

/** Path data of lines that are `apart` pixels from each other and slant at 45°, down to the right or to the left. */
export function hatch(outline: readonly Spot[], apart: number, toRight: boolean): string {
  // Turned so that the lines are level: u along them, v across.
  const sign = toRight ? 1 : -1;
  const turned = outline.map(({ x, y }) => ({ u: x + sign * y, v: y - sign * x }));
  const vs = turned.map(({ v }) => v);
  const least = Math.min(...vs);
  const most = Math.max(...vs);
  const step = Math.max(apart * Math.SQRT2, (most - least) / 400);
  const parts: string[] = [];
  for (let v = Math.ceil(least / step) * step; v < most; v += step) {
    const cuts: number[] = [];
    turned.forEach((a, i) => {
      const b = turned[(i + 1) % turned.length];
      if (b === undefined || a.v > v === b.v > v) return;
      cuts.push(a.u + ((b.u - a.u) * (v - a.v)) / (b.v - a.v));
    });
    cuts.sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [from = 0, to = 0] = [cuts[i], cuts[i + 1]];
      if (to - from < 1) continue;
      const at = (u: number): [number, number] => [(u - sign * v) / 2, (v + sign * u) / 2];
      parts.push(path("M", ...at(from), "L", ...at(to)));
    }
  }
  return parts.join(" ");
}
