/** The loop of a network whose links are loudest in the mean: the one to show, link by link. */
import { requireGains, strongComponents, type Matrix } from "./components";

/** A loop through a network. */
export interface Cycle {
  /** Its places in the order in which sound runs, beginning with the lowest number; the last leads back to the first. */
  readonly places: readonly number[];
  /** Gain of each link, a power ratio: from `places[i]` to the next. */
  readonly links: readonly number[];
  /** Geometric mean of the links' gains: what one link has on average. */
  readonly mean: number;
}

/** Rounds of improvement; far fewer are needed than this bound, which only guards against rounding that goes in circles. */
const ROUNDS = 1000;

/** A way must be better by this, in nepers of power, to be taken: less is rounding. */
const BETTER = 1e-12;

/**
 * Cycle of greatest mean gain, max over cycles of (Π gains)^(1/length), by Howard's policy iteration (Cochet-Terrasson et al. 1998).
 *
 * It is the max-plus eigenvalue of lg A and bounds the spectral radius: mean ≤ ρ ≤ n·mean, with equality on the left where no
 * other loop helps.
 *
 * @param matrix n × n, row by row; the gain from j to i at i·n + j, ≥ 0 and finite
 * @param n size
 * @returns the cycle, a shortest of those that a tie leaves within reach; undefined where nothing goes round
 * @throws RangeError as `spectralRadius`
 */
export function worstCycle(matrix: Matrix, n: number): Cycle | undefined {
  requireGains(matrix, n);
  let best: Cycle | undefined;
  for (const component of strongComponents(matrix, n)) {
    const alone = component[0] ?? 0;
    if (component.length === 1 && !((matrix[alone * n + alone] ?? 0) > 0)) continue;
    const places = component.length === 1 ? [alone] : howard(matrix, n, component);
    const links = places.map((from, i) => matrix[(places[(i + 1) % places.length] ?? 0) * n + from] ?? 0);
    const mean = Math.exp(links.reduce((sum, gain) => sum + Math.log(gain), 0) / links.length);
    const wins = best === undefined || mean > best.mean * (1 + BETTER)
      || (mean >= best.mean * (1 - BETTER) && places.length < best.places.length);
    if (wins) best = { places, links, mean };
  }
  return best;
}

/** Places of the best cycle in a strongly connected part of two or more places. */
function howard(matrix: Matrix, n: number, part: readonly number[]): number[] {
  const size = part.length;
  const gain = new Float64Array(size * size); // at from·size + to, nepers; −Infinity for none
  part.forEach((from, i) => { part.forEach((to, j) => { gain[i * size + j] = Math.log(matrix[to * n + from] ?? 0); }); });
  const policy = new Int32Array(size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) if ((gain[i * size + j] ?? -Infinity) > (gain[i * size + (policy[i] ?? 0)] ?? -Infinity)) policy[i] = j;
  }
  const rate = new Float64Array(size); // mean of the cycle that the policy leads to
  const value = new Float64Array(size); // what is gained on the way there
  for (let round = 0; round < ROUNDS; round += 1) {
    evaluate(gain, policy, size, rate, value);
    let changed = false;
    // First toward a better cycle; only where none is left, a better way to the same.
    for (const by of ["rate", "value"] as const) {
      for (let i = 0; i < size; i += 1) {
        for (let j = 0; j < size; j += 1) {
          const link = gain[i * size + j] ?? -Infinity;
          if (link === -Infinity) continue;
          const now = policy[i] ?? 0;
          if (by === "rate") {
            if ((rate[j] ?? 0) > (rate[now] ?? 0) + BETTER) {
              policy[i] = j;
              changed = true;
            }
          } else if ((rate[j] ?? 0) >= (rate[now] ?? 0) - BETTER) {
            const best = (gain[i * size + now] ?? 0) + (value[now] ?? 0);
            if (link + (value[j] ?? 0) > best + BETTER * (1 + Math.abs(best))) {
              policy[i] = j;
              changed = true;
            }
          }
        }
      }
      if (changed) break;
    }
    if (!changed) break;
  }
  evaluate(gain, policy, size, rate, value);
  let start = 0;
  for (let i = 1; i < size; i += 1) if ((rate[i] ?? 0) > (rate[start] ?? 0)) start = i;
  // Walk until on the cycle, then once round it.
  for (let i = 0; i < size; i += 1) start = policy[start] ?? 0;
  const cycle = [start];
  for (let at = policy[start] ?? 0; at !== start; at = policy[at] ?? 0) cycle.push(at);
  const first = cycle.indexOf(Math.min(...cycle));
  return [...cycle.slice(first), ...cycle.slice(0, first)].map((i) => part[i] ?? 0);
}

/** Mean of the cycle that each place runs into under a policy, and the gain on its way above that mean. */
function evaluate(gain: Float64Array, policy: Int32Array, size: number, rate: Float64Array, value: Float64Array): void {
  const seen = new Int32Array(size).fill(-1); // by which walk
  const done = new Uint8Array(size);
  for (let root = 0; root < size; root += 1) {
    const way: number[] = [];
    let at = root;
    while (seen[at] === -1) {
      seen[at] = root;
      way.push(at);
      at = policy[at] ?? 0;
    }
    if (done[at] === 0) {
      // A new cycle, closed at `at`.
      const cycle = way.slice(way.indexOf(at));
      const mean = cycle.reduce((sum, i) => sum + (gain[i * size + (policy[i] ?? 0)] ?? 0), 0) / cycle.length;
      rate[at] = mean;
      value[at] = 0;
      done[at] = 1;
    }
    for (let i = way.length - 1; i >= 0; i -= 1) {
      const here = way[i] ?? 0;
      if (done[here] === 1) continue;
      const to = policy[here] ?? 0;
      rate[here] = rate[to] ?? 0;
      value[here] = (gain[here * size + to] ?? 0) - (rate[to] ?? 0) + (value[to] ?? 0);
      done[here] = 1;
    }
  }
}
