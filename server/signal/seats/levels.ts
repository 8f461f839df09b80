/** How loud speech is at each seat, all its sources together, and which of them is the strongest there. */
import { toDb, toPower } from "../../physics/decibel";
import type { Source } from "./sources";

/** Level at every listener, dBA; `-Infinity` where nothing plays. `how`: as it is turned up, or as loud as it can be. */
export function levelsAt(sources: readonly Source[], how: "level" | "most"): Float64Array {
  const n = sources[0]?.field.transfer.length ?? 0;
  const out = new Float64Array(n).fill(-Infinity);
  const [only] = sources;
  if (only === undefined) return out;
  if (sources.length === 1) {
    for (let i = 0; i < n; i += 1) out[i] = only[how] + (only.field.transfer[i] ?? -Infinity);
    return out;
  }
  const sums = new Float64Array(n);
  for (const source of sources) {
    const gain = toPower(source[how]);
    const { power } = source.field;
    for (let i = 0; i < n; i += 1) sums[i] = (sums[i] ?? 0) + gain * (power[i] ?? 0);
  }
  for (let i = 0; i < n; i += 1) out[i] = toDb(sums[i] ?? 0);
  return out;
}

/** The source that is strongest at a listener as it is turned up. */
export function strongestAt(sources: readonly Source[], i: number, how: "level" | "most" = "level"): Source | undefined {
  let best: Source | undefined;
  let most = -Infinity;
  for (const source of sources) {
    const level = source[how] + (source.field.transfer[i] ?? -Infinity);
    if (level > most) {
      most = level;
      best = source;
    }
  }
  return best;
}
