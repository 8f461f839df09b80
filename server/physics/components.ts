/** Which places of a network can reach each other and come back: the parts in which a loop can run. */

/**
 * A non-negative matrix, row by row: the gain from j to i stands at i·n + j. 0 where nothing leads from j to i.
 */
export type Matrix = Float64Array;

/**
 * Strongly connected components of a non-negative matrix, by Tarjan's algorithm (1972), without recursion.
 *
 * Two places lie in one component when each reaches the other along entries greater than 0. Every loop lies within one.
 *
 * @param matrix n × n, row by row
 * @param n size
 * @returns the components, each in ascending order of its places; a place alone is one, with or without a loop of its own
 */
export function strongComponents(matrix: Matrix, n: number): number[][] {
  const order = new Int32Array(n).fill(-1);
  const low = new Int32Array(n);
  const next = new Int32Array(n);
  const open = new Uint8Array(n);
  const waiting: number[] = [];
  const components: number[][] = [];
  let counted = 0;
  for (let root = 0; root < n; root += 1) {
    if (order[root] !== -1) continue;
    const way = [root];
    while (way.length > 0) {
      const here = way[way.length - 1] ?? 0;
      if (order[here] === -1) {
        order[here] = low[here] = counted;
        counted += 1;
        open[here] = 1;
        waiting.push(here);
      }
      let descended = false;
      for (let to = next[here] ?? n; to < n; to += 1) {
        if (!((matrix[to * n + here] ?? 0) > 0)) continue;
        if (order[to] === -1) {
          next[here] = to; // looked at again on the way back, to take over its lowest
          way.push(to);
          descended = true;
          break;
        }
        if (open[to] === 1) low[here] = Math.min(low[here] ?? 0, low[to] ?? 0);
      }
      if (descended) continue;
      way.pop();
      if (low[here] !== order[here]) continue;
      const component: number[] = [];
      for (let out = -1; out !== here;) {
        out = waiting.pop() ?? here;
        open[out] = 0;
        component.push(out);
      }
      components.push(component.sort((a, b) => a - b));
    }
  }
  return components;
}

/**
 * The part of a matrix between some of its places.
 *
 * @param matrix n × n, row by row
 * @param n size
 * @param places which rows and columns, in this order
 * @returns places.length × places.length, row by row
 */
export function submatrix(matrix: Matrix, n: number, places: readonly number[]): Matrix {
  const size = places.length;
  const out = new Float64Array(size * size);
  places.forEach((row, i) => { places.forEach((column, j) => { out[i * size + j] = matrix[row * n + column] ?? 0; }); });
  return out;
}

/**
 * Refuses a matrix that has not n × n entries, or one that is negative, infinite or no number.
 *
 * @throws RangeError
 */
export function requireGains(matrix: Matrix, n: number): void {
  if (matrix.length !== n * n) throw new RangeError(`A matrix of ${n} × ${n} has ${n * n} entries, not ${matrix.length}.`);
  for (const entry of matrix) {
    if (!(entry >= 0 && entry < Infinity)) throw new RangeError(`A gain must be at least 0 and finite, not ${entry}.`);
  }
}
