/**
 * Spectral radius of a non-negative matrix: by how much sound that goes round a net of loops grows or dies with each round.
 *
 * Any net, without listing its cycles: each strongly connected part by itself, so that parts that only feed others (a reducible
 * matrix) and nets that go strictly by turns (a periodic one) do no harm.
 */
import { requireGains, strongComponents, submatrix, type Matrix } from "./components";

/** A spectral radius ρ between the bounds that were reached. */
export interface SpectralRadius {
  /** ρ, the geometric mean of its bounds; 0 where nothing goes round. */
  readonly value: number;
  /** Collatz–Wielandt lower bound. */
  readonly lower: number;
  /** Collatz–Wielandt upper bound. */
  readonly upper: number;
}

/** Bounds nearer to each other than this share end the search: 4·10⁻⁹ dB. */
const CLOSE = 1e-9;

/** Steps of power iteration, each O(n²), before a slow part is handed to Noda's iteration, O(n³) each. */
const POWER_STEPS = 100;

/** Steps of Noda's iteration; it doubles the digits with each and needs a handful. */
const NODA_STEPS = 40;

/** Sweeps of balancing. */
const BALANCE_SWEEPS = 20;

/** Gains below this share of the greatest, −300 dB, are none: carried along, they would only lose digits. */
const NOTHING = 1e-30;

const NONE: SpectralRadius = { value: 0, lower: 0, upper: 0 };

/**
 * Scales rows and columns against each other, D⁻¹·A·D, until each row weighs what its column weighs (Osborne 1960): ρ stays, the
 * spread of the eigenvector shrinks, and gains of −300 dB in a ring leave numbers that a computer can hold.
 */
function balance(a: Float64Array, n: number): void {
  for (let sweep = 0; sweep < BALANCE_SWEEPS; sweep += 1) {
    let most = 0;
    for (let i = 0; i < n; i += 1) {
      let row = 0;
      let column = 0;
      for (let j = 0; j < n; j += 1) {
        if (j === i) continue;
        row += a[i * n + j] ?? 0;
        column += a[j * n + i] ?? 0;
      }
      // A gain so small that its square is no number counts as it is: the part stays connected, the bounds stay bounds.
      const scale = Math.sqrt(row) / Math.sqrt(column);
      if (!(scale > 0 && scale < Infinity)) continue;
      most = Math.max(most, Math.abs(Math.log(scale)));
      for (let j = 0; j < n; j += 1) {
        if (j === i) continue;
        a[i * n + j] = (a[i * n + j] ?? 0) / scale;
        a[j * n + i] = (a[j * n + i] ?? 0) * scale;
      }
    }
    if (most < 0.05) return;
  }
}

/** Collatz–Wielandt bounds of A for a positive vector: least and greatest (A·x)ᵢ/xᵢ. Leaves A·x in `product`. */
function bounds(a: Float64Array, n: number, x: Float64Array, product: Float64Array): { lower: number; upper: number } {
  let lower = Infinity;
  let upper = 0;
  for (let i = 0; i < n; i += 1) {
    let sum = 0;
    for (let j = 0; j < n; j += 1) sum += (a[i * n + j] ?? 0) * (x[j] ?? 0);
    product[i] = sum;
    const ratio = sum / (x[i] ?? 1);
    if (ratio < lower) lower = ratio;
    if (ratio > upper) upper = ratio;
  }
  return { lower, upper };
}

/** Solves (λ·1 − A)·y = x into x, for λ > ρ(A): an M-matrix, which needs no pivots. False where rounding spoilt it. */
function solveShifted(a: Float64Array, n: number, lambda: number, x: Float64Array): boolean {
  const m = new Float64Array(n * n);
  for (let i = 0; i < m.length; i += 1) m[i] = -(a[i] ?? 0);
  for (let i = 0; i < n; i += 1) m[i * n + i] = lambda + (m[i * n + i] ?? 0);
  for (let p = 0; p < n; p += 1) {
    const pivot = m[p * n + p] ?? 0;
    if (!(pivot > 0)) return false;
    for (let i = p + 1; i < n; i += 1) {
      const factor = (m[i * n + p] ?? 0) / pivot;
      if (factor === 0) continue;
      for (let j = p + 1; j < n; j += 1) m[i * n + j] = (m[i * n + j] ?? 0) - factor * (m[p * n + j] ?? 0);
      x[i] = (x[i] ?? 0) - factor * (x[p] ?? 0);
    }
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = x[i] ?? 0;
    for (let j = i + 1; j < n; j += 1) sum -= (m[i * n + j] ?? 0) * (x[j] ?? 0);
    x[i] = sum / (m[i * n + i] ?? 1);
    if (!((x[i] ?? 0) > 0 && (x[i] ?? 0) < Infinity)) return false;
  }
  return true;
}

/** Divides a vector by its greatest entry. */
function normalise(x: Float64Array): void {
  const most = x.reduce((greatest, entry) => Math.max(greatest, entry), 0);
  for (let i = 0; i < x.length; i += 1) x[i] = (x[i] ?? 0) / most;
}

/** ρ of an irreducible block of two or more places. */
function irreducible(a: Float64Array, n: number): SpectralRadius {
  balance(a, n);
  const x = new Float64Array(n).fill(1);
  const product = new Float64Array(n);
  let { lower, upper } = bounds(a, n, x, product);
  const tighten = (found: { lower: number; upper: number }): boolean => {
    lower = Math.max(lower, found.lower);
    upper = Math.min(upper, found.upper);
    return upper - lower <= CLOSE * upper;
  };
  let close = upper - lower <= CLOSE * upper;
  for (let step = 0; step < POWER_STEPS && !close; step += 1) {
    // The shift makes a net that goes by turns settle; half of ρ is near the best for one that does not.
    const shift = 0.5 * Math.sqrt(upper * Math.max(lower, 1e-12 * upper));
    for (let i = 0; i < n; i += 1) x[i] = (product[i] ?? 0) + shift * (x[i] ?? 0);
    normalise(x);
    if (x.some((entry) => !(entry > 0))) break;
    close = tighten(bounds(a, n, x, product));
  }
  // Just above the upper bound: at the bound itself the matrix may be singular to the last digit. Where even so rounding spoils the
  // solution, a little farther above.
  let above = 1e-15;
  for (let step = 0; step < NODA_STEPS && !close && above < 1e-3; step += 1) {
    const from = x.slice();
    if (solveShifted(a, n, upper * (1 + above), x)) {
      normalise(x);
      if (x.every((entry) => entry > 0)) {
        const before = upper - lower;
        close = tighten(bounds(a, n, x, product));
        if (upper - lower < 0.9 * before) continue;
      } else x.set(from);
    } else x.set(from);
    above *= 10;
  }
  return { value: lower > 0 ? Math.sqrt(lower) * Math.sqrt(upper) : upper, lower, upper };
}

/**
 * Spectral radius ρ of a non-negative matrix of power gains.
 *
 * Per strongly connected part: balancing, shifted power iteration from a positive vector, and, where two eigenvalues lie so close
 * that this is slow, Noda's inverse iteration (1971). Both are bounded; the bounds hold whenever they stop (Collatz 1942,
 * Wielandt 1950). N equal microphones give exactly N times the gain of one.
 *
 * @param matrix n × n, row by row, entries ≥ 0 and finite
 * @param n size; 0 gives 0
 * @returns ρ and its bounds, within 10⁻⁹ of each other gains more than 300 dB under the greatest left out
 * @throws RangeError when an entry is negative, infinite or NaN, or the size does not fit
 */
export function spectralRadius(matrix: Matrix, n: number): SpectralRadius {
  requireGains(matrix, n);
  const least = NOTHING * matrix.reduce((greatest, gain) => Math.max(greatest, gain), 0);
  const heard = matrix.map((gain) => (gain < least ? 0 : gain));
  let best = NONE;
  for (const component of strongComponents(heard, n)) {
    const block = submatrix(heard, n, component);
    const alone = block[0] ?? 0;
    const found = component.length === 1 ? { value: alone, lower: alone, upper: alone } : irreducible(block, component.length);
    best = {
      value: Math.max(best.value, found.value), lower: Math.max(best.lower, found.lower), upper: Math.max(best.upper, found.upper),
    };
  }
  return best;
}

/**
 * What the spectral radius of a non-negative matrix cannot exceed, max √(rᵢ·cᵢ) of its row sums r and column sums c.
 *
 * A look at each entry, where ρ itself takes many: tells what need not be worked out.
 *
 * @param matrix n × n, row by row, entries ≥ 0
 * @param n size; 0 gives 0
 * @returns bound ≥ ρ, in the unit of the entries. Source: Ostrowski 1951, with equal weights (recalled)
 */
export function mostSpectralRadius(matrix: Matrix, n: number): number {
  let most = 0;
  for (let i = 0; i < n; i += 1) {
    let row = 0;
    let column = 0;
    for (let j = 0; j < n; j += 1) {
      row += matrix[i * n + j] ?? 0;
      column += matrix[j * n + i] ?? 0;
    }
    most = Math.max(most, Math.sqrt(row) * Math.sqrt(column));
  }
  return most;
}
