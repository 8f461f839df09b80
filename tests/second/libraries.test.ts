/** Our own mathematics beside general-purpose implementations: a matrix library, and integrals taken step by step. */
import fc from "fast-check";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { strongComponents } from "../../server/physics/components";
import { flat } from "../../server/physics/bands";
import { MODULATION_FREQUENCIES, MODULATIONS, modulationOf } from "../../server/physics/modulation";
import { spectralRadius } from "../../server/physics/spectralRadius";
import { worstCycle } from "../../server/physics/worstCycle";

/** Gains between −40 and +6 dB, or none at all. */
const gain = fc.oneof({ weight: 2, arbitrary: fc.constant(0) }, { weight: 3, arbitrary: fc.double({ min: -40, max: 6, noNaN: true }).map((db) => 10 ** (db / 10)) });
const net = fc.integer({ min: 1, max: 12 }).chain((n) => fc.tuple(fc.constant(n), fc.array(gain, { minLength: n * n, maxLength: n * n })));
const rows = (n: number, values: readonly number[]): Matrix => Matrix.from1DArray(n, n, [...values]);

/**
 * The greatest modulus of the eigenvalues, by the QR algorithm of the library, part by part: within a part that hangs together it is a
 * simple root (Perron, 1907; Frobenius, 1912). Over all at once QR finds a root of multiplicity m to the m-th root of its rounding.
 */
function greatest(n: number, values: readonly number[]): number {
  const whole = rows(n, values);
  return Math.max(...strongComponents(Float64Array.from(values), n).map((part) => {
    const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(whole.selection(part, part));
    return Math.max(...realEigenvalues.map((re, i) => Math.hypot(re, imaginaryEigenvalues[i] ?? 0)));
  }));
}

describe("a net of loops", () => {
  test("has the greatest eigenvalue that the library finds", () => {
    fc.assert(fc.property(net, ([n, values]) => {
      const ours = spectralRadius(Float64Array.from(values), n).value;
      expect(Math.abs(ours - greatest(n, values))).toBeLessThan(1e-6 * Math.max(...values, 1));
    }), { numRuns: 300 });
  });

  test("of forty microphones and loudspeakers has it, too", () => {
    const n = 80;
    const values = fc.sample(fc.array(gain, { minLength: n * n, maxLength: n * n }), { numRuns: 1, seed: 7 })[0] ?? [];
    expect(spectralRadius(Float64Array.from(values), n).value / greatest(n, values)).toBeCloseTo(1, 6);
  });

  test("falls into the parts that powers of the matrix show: there and back", () => {
    fc.assert(fc.property(net, ([n, values]) => {
      let reach = Matrix.eye(n).add(rows(n, values.map((x) => (x > 0 ? 1 : 0))));
      for (let steps = 1; steps < n; steps *= 2) reach = new Matrix(reach.mmul(reach).to2DArray().map((row) => row.map((x) => (x > 0 ? 1 : 0))));
      const parts = strongComponents(Float64Array.from(values), n);
      const of = Array.from({ length: n }, (_, i) => parts.findIndex((part) => part.includes(i)));
      for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) expect(of[i] === of[j]).toBe(reach.get(i, j) > 0 && reach.get(j, i) > 0);
    }), { numRuns: 200 });
  });

  test("has the loop of greatest mean that Karp's way of finding it shows (Karp 1978)", () => {
    fc.assert(fc.property(net, ([n, values]) => {
      const ours = worstCycle(Float64Array.from(values), n)?.mean;
      // Greatest sum of logarithms over walks of k links that end at v, from anywhere.
      const walks: number[][] = [Array<number>(n).fill(0)];
      for (let k = 1; k <= n; k += 1) walks.push(Array.from({ length: n }, (_, v) => Math.max(...Array.from({ length: n }, (_, u) => (walks[k - 1]?.[u] ?? -Infinity) + Math.log(values[v * n + u] ?? 0)))));
      const last = walks[n] ?? [];
      const means = last.flatMap((all, v) => (all === -Infinity ? [] : [Math.min(...walks.slice(0, n).map((row, k) => (all - (row[v] ?? NaN)) / (n - k)))]));
      if (ours === undefined) expect(means).toEqual([]);
      else expect(Math.log(ours)).toBeCloseTo(Math.max(...means), 9);
    }), { numRuns: 300 });
  });
});

describe("modulation that a room leaves", () => {
  /** |Σ h²·e^(−j2πFt)|/Σ h², Schroeder 1981, for a pulse, an exponential decay of 60 dB in `time`, and the same again `delay` later. */
  function byIntegral(d: number, v: number, time: number, f: number, again = 0, delay = 0): number {
    const step = 1e-4;
    const rate = (6 * Math.LN10) / time;
    let [re, im, sum] = [d, 0, d];
    for (let t = step / 2; t < 3 * time; t += step) {
      const energy = v * rate * Math.exp(-rate * t) * step;
      re += energy * Math.cos(2 * Math.PI * f * t);
      im -= energy * Math.sin(2 * Math.PI * f * t);
      sum += energy;
    }
    const [c, s] = [Math.cos(2 * Math.PI * f * delay), -Math.sin(2 * Math.PI * f * delay)];
    return Math.hypot(re + again * (re * c - im * s), im + again * (re * s + im * c)) / (sum * (1 + again));
  }

  test.each([[1, 0.5, 0.8], [0.1, 1, 1.5], [0, 1, 2.2], [1, 0, 1]])("Schroeder 1981: direct %d, reverberant %d, T %d s", (d, v, time) => {
    const ours = modulationOf(flat(d), flat(v), flat(time), flat(200), flat(0));
    for (const [i, f] of MODULATION_FREQUENCIES.entries()) expect(Math.abs((ours[3 * MODULATIONS + i] ?? NaN) - byIntegral(d, v, time, f)), `${f} Hz`).toBeLessThan(0.003);
  });

  test("Schroeder 1981: a second arrival 80 ms later, 3 dB softer", () => {
    const again = 10 ** -0.3;
    const ours = modulationOf(flat(1), flat(0.4), flat(1.2), flat(200), flat(0), [{ delay: 0.08, direct: flat(again), reverberant: flat(0.4 * again) }]);
    for (const [i, f] of MODULATION_FREQUENCIES.entries()) expect(Math.abs((ours[3 * MODULATIONS + i] ?? NaN) - byIntegral(1, 0.4, 1.2, f, again, 0.08)), `${f} Hz`).toBeLessThan(0.003);
  });
});
