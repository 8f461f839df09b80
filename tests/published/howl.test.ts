import { describe, expect, test } from "vitest";
import { DECISION_BANDS, OCTAVES, type BandIndex, type Bands } from "../../server/physics/bands";
import { strongComponents } from "../../server/physics/components";
import { coupling } from "../../server/physics/coupling";
import { microphonePattern, PATTERNS, randomEnergyEfficiency, sourcePattern } from "../../server/physics/directivity";
import { between, cosineOffAxis, distance, type Vec3 } from "../../server/physics/geometry";
import { loopGain, loopMatrix, mostPeakAllowance, peakAllowance, RINGS_ABOVE } from "../../server/physics/howl";
import { absorptionFromTime } from "../../server/physics/reverberation";
import { roomConstant, speechTransfer, transferBands, transferLevels } from "../../server/physics/soundField";
import { mostSpectralRadius, spectralRadius } from "../../server/physics/spectralRadius";
import { worstCycle } from "../../server/physics/worstCycle";

const square = (rows: readonly (readonly number[])[]): Float64Array => Float64Array.from(rows.flat());
const radius = (rows: readonly (readonly number[])[]): number => spectralRadius(square(rows), rows.length).value;

describe("spectral radius against closed forms", () => {
  test.each([1, 2, 5, 12, 40])("computed: %d equal microphones have exactly 10·lg N more gain than one", (n) => {
    const gain = loopMatrix(n, 1, () => 1, () => -7);
    expect(loopGain(gain, n).gain).toBeCloseTo(-7 + 10 * Math.log10(n), 9);
  });
  test("computed: 2 × 2 by the quadratic formula", () => {
    for (const [a, b, c, d] of [[0.3, 0.2, 0.7, 0.1], [2, 1e-6, 1e-6, 1.999], [0, 4, 9, 0], [1e-9, 1, 1e-9, 1e-9]] as const) {
      expect(radius([[a, b], [c, d]]) / ((a + d + Math.sqrt((a - d) ** 2 + 4 * b * c)) / 2)).toBeCloseTo(1, 8);
    }
  });
  test("computed: a circulant's radius is the sum of its row", () => {
    const row = [0.2, 0, 0.5, 0.05, 0, 1.25];
    expect(radius(row.map((_, i) => row.map((__, j) => row[(j - i + 6) % 6] ?? 0)))).toBeCloseTo(2, 9);
  });
  test("computed: a matrix of rank 1, u·vᵀ, has radius v·u", () => {
    const u = [1e-3, 4, 0.5, 20, 1e-5];
    const v = [3, 0.2, 7, 1e-4, 90];
    expect(radius(u.map((a) => v.map((b) => a * b)))).toBeCloseTo(u.reduce((sum, a, i) => sum + a * (v[i] ?? 0), 0), 8);
  });
  test("computed: a ring that goes strictly by turns has the geometric mean of its links", () => {
    const links = [2, 1e-6, 30, 0.5, 1e-3, 7, 0.02];
    const ring = links.map((_, i) => links.map((gain, j) => (i === (j + 1) % links.length ? gain : 0)));
    const mean = links.reduce((product, gain) => product * gain, 1) ** (1 / links.length);
    expect(radius(ring) / mean).toBeCloseTo(1, 8);
    expect(worstCycle(square(ring), 7)?.mean).toBeCloseTo(mean, 12);
  });
  test("computed: a ring with one link of −250 dB still has a mean, and no number is lost on the way", () => {
    const ring = [[0, 0, 0, 1e-25], [1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0]];
    expect(Math.log10(radius(ring))).toBeCloseTo(-25 / 4, 8);
  });
  test("computed: parts that only feed others count by themselves; nothing that goes round is 0", () => {
    expect(radius([[0.5, 100, 100], [0, 0.2, 100], [0, 0, 0.4]])).toBeCloseTo(0.5, 12);
    expect(radius([[0, 5, 5], [0, 0, 5], [0, 0, 0]])).toBe(0);
    expect(worstCycle(square([[0, 5, 5], [0, 0, 5], [0, 0, 0]]), 3)).toBeUndefined();
    expect(spectralRadius(new Float64Array(0), 0).value).toBe(0);
    expect(loopGain(new Float64Array(4), 2)).toEqual({ gain: -Infinity, bounds: [-Infinity, -Infinity], loop: [] });
  });
  test.each([10, 40, 200])("computed: a path of %d places to and fro, whose eigenvalues crowd, has 2·cos(π/(n + 1))", (n) => {
    const path = Float64Array.from({ length: n * n }, (_, at) => (Math.abs(Math.floor(at / n) - (at % n)) === 1 ? 1 : 0));
    const found = spectralRadius(path, n);
    expect(found.value).toBeCloseTo(2 * Math.cos(Math.PI / (n + 1)), 8);
    expect(found.upper / found.lower - 1).toBeLessThan(1e-8);
  });
  test("computed: no radius exceeds the bound by row and column sums (recalled: Ostrowski 1951), which a circulant and a rank 1 of equals reach", () => {
    let state = 7;
    const next = (): number => (state = (state * 48271) % 2147483647) / 2147483647;
    let nearest = 0;
    for (let n = 1; n <= 12; n += 1) {
      for (let i = 0; i < 20; i += 1) {
        // Gains over 60 dB, a third of them none.
        const m = Float64Array.from({ length: n * n }, () => (next() < 0.33 ? 0 : 10 ** (-6 * next())));
        const [found, most] = [spectralRadius(m, n).value, mostSpectralRadius(m, n)];
        expect(found).toBeLessThanOrEqual(most * (1 + 1e-9));
        if (n > 2 && most > 0) nearest = Math.max(nearest, found / most);
      }
    }
    expect(nearest).toBeGreaterThan(0.8);
    const row = [0.2, 0, 0.5, 0.05, 0, 1.25];
    expect(mostSpectralRadius(square(row.map((_, i) => row.map((__, j) => row[(j - i + 6) % 6] ?? 0))), 6)).toBeCloseTo(2, 12);
    expect(mostSpectralRadius(new Float64Array(25).fill(0.3), 5)).toBeCloseTo(1.5, 12);
    expect(mostSpectralRadius(new Float64Array(0), 0)).toBe(0);
  });
  test("a matrix of the wrong size, a negative or an endless gain is refused by name", () => {
    expect(() => spectralRadius(new Float64Array(3), 2)).toThrow(/2 × 2/);
    expect(() => spectralRadius(Float64Array.of(-1), 1)).toThrow(/gain/);
    expect(() => worstCycle(Float64Array.of(Infinity), 1)).toThrow(/finite/);
  });
  test("strong components are those that reach each other and come back", () => {
    // 0 → 1 → 2 → 0, 2 → 3, 3 ⇄ 4, 5 alone with a loop of its own
    const m = new Float64Array(36);
    for (const [from, to] of [[0, 1], [1, 2], [2, 0], [2, 3], [3, 4], [4, 3], [5, 5]] as const) m[to * 6 + from] = 1;
    expect(strongComponents(m, 6).sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0))).toEqual([[0, 1, 2], [3, 4], [5]]);
  });
});

describe("the worst loop", () => {
  test("computed: it is told in the order in which sound runs, with the gain of each link", () => {
    // 0 → 2 at −3 dB, 2 → 1 at −5 dB, 1 → 0 at −1 dB: mean −3 dB; and a loop 1 → 1 at −4 dB.
    const m = new Float64Array(9);
    m[2 * 3 + 0] = 10 ** -0.3;
    m[1 * 3 + 2] = 10 ** -0.5;
    m[0 * 3 + 1] = 10 ** -0.1;
    m[1 * 3 + 1] = 10 ** -0.4;
    const { loop } = loopGain(m, 3);
    expect(loop.map(({ from, to }) => [from, to])).toEqual([[0, 2], [2, 1], [1, 0]]);
    expect(loop.map(({ gain }) => Math.round(gain * 1e6) / 1e6)).toEqual([-3, -5, -1]);
  });
  test("computed: of loops of equal mean the shorter is told", () => {
    expect(worstCycle(square([[0.5, 0.5], [0.5, 0.5]]), 2)?.places).toHaveLength(1);
  });
});

const VOLUME = 9.2 * 6.4 * 3.1;
const ROOM = roomConstant(absorptionFromTime(VOLUME, 0.8), 2 * (9.2 * 6.4 + 9.2 * 3.1 + 6.4 * 3.1));
const TALKER_Q: Bands = [1.2, 1.4, 1.8, 2, 2.5, 3.2, 4];

/** Gain with peak allowance of one loudspeaker and one microphone, in the bands that decide. */
function worst(loudspeaker: {
  at: Vec3; aim: Vec3; q: Bands; level: number;
}, microphone: { at: Vec3; aim: Vec3; pattern: number }, talkerTransfer: number): { peaks: Bands; sums: number[] } {
  const ree = randomEnergyEfficiency(microphone.pattern);
  const arrival = transferBands((k) => ({
    distance: distance(loudspeaker.at, microphone.at), q: loudspeaker.q[k], roomConstant: ROOM, ree,
    sourceGain: sourcePattern(cosineOffAxis(loudspeaker.at, loudspeaker.aim, microphone.at), loudspeaker.q[k]),
    receiverGain: microphonePattern(cosineOffAxis(microphone.at, microphone.aim, loudspeaker.at), microphone.pattern),
  }));
  const g = coupling({
    loudspeakerLevel: loudspeaker.level, talkerLevel: 66, talkerTransfer, loudspeakerTransfer: transferLevels(arrival),
  });
  const peak = (k: BandIndex): number => peakAllowance(arrival.direct[k], arrival.reverberant[k], OCTAVES[k], 0.8);
  const peaks: Bands = [peak(0), peak(1), peak(2), peak(3), peak(4), peak(5), peak(6)];
  return { peaks, sums: DECISION_BANDS.map((k) => loopGain(Float64Array.of(10 ** (g[k] / 10)), 1).gain + peaks[k]) };
}

describe("computed: worked case of howl in a 9.2 × 6.4 × 3.1 m room", () => {
  const twoWay = {
    at: [1.6, 0.6, 1.8] as Vec3, aim: between([1.6, 0.6, 1.8], [6, 3.2, 1.2]), q: [1.5, 2, 3.2, 5, 8, 10, 12] as Bands, level: 75,
  };
  const cardioid = (mouth: number): number => speechTransfer(transferBands((k) => ({
    distance: mouth, q: TALKER_Q[k], roomConstant: ROOM, ree: randomEnergyEfficiency(PATTERNS.cardioid),
  })));
  const microphone = { at: [1.3, 3.2, 1.5] as Vec3, aim: [-1, 0, 0] as Vec3, pattern: PATTERNS.cardioid };
  test("computed: worked case, cardioid at 0.30 m: allowance 6.45 dB at 250 Hz, worst −1.91 dB: rings", () => {
    const { peaks, sums } = worst(twoWay, microphone, cardioid(0.3));
    expect(Math.abs(peaks[1] - 6.45)).toBeLessThan(0.006);
    expect(Math.abs(Math.max(...sums) + 1.91)).toBeLessThan(0.02);
    expect(Math.max(...sums)).toBeGreaterThan(RINGS_ABOVE);
  });
  test("computed: worked case, cardioid at 0.10 m: −11.4 dB, clear", () => {
    // Direct sound alone would take the 9.54 dB of 0.30 to 0.10 m off −1.91: −11.45. The reverberant share of the talker at 0.30 m,
    // 0.08 dB, is gone at 0.10 m.
    const most = Math.max(...worst(twoWay, microphone, cardioid(0.1)).sums);
    expect(Math.abs(most + 11.45)).toBeLessThan(0.1);
    expect(most).toBeLessThan(RINGS_ABOVE);
  });
  test("computed: worked case, phone as second device in a loop through the call: +11.5 dB at 250 Hz: howls", () => {
    const phone: Vec3 = [0.5, 1, 1.3];
    const mouth: Vec3 = [1, 3.2, 1.6];
    const talker = speechTransfer(transferBands((k) => ({
      distance: distance(mouth, phone), q: TALKER_Q[k], roomConstant: ROOM,
      sourceGain: sourcePattern(cosineOffAxis(mouth, [1, 0, 0], phone), TALKER_Q[k]),
    })));
    const { sums } = worst(
      { at: [0.6, 4.8, 1.4], aim: [1, 0, 0], q: [1, 1.3, 1.8, 2.5, 4, 6, 9], level: 70 }, { at: phone, aim: [1, 0, 0], pattern: 1 }, talker,
    );
    expect(sums[0]).toBeCloseTo(11.5, 1);
    expect(Math.max(...sums)).toBe(sums[0]);
  });
});

describe("peak allowance", () => {
  test("computed: a purely diffuse field has 10·lg ln(B·T/4)", () => {
    expect(peakAllowance(0, 1, 1000, 1)).toBeCloseTo(10 * Math.log10(Math.log((1000 * Math.SQRT1_2) / 4)), 9);
  });
  test("computed: no reverberation, no peaks; too little to have any, none", () => {
    expect(peakAllowance(1, 0, 1000, 1)).toBe(0);
    expect(peakAllowance(0, 1, 125, 0.04)).toBe(0);
    expect(peakAllowance(0, Infinity, 1000, 1)).toBe(peakAllowance(0, 1, 1000, 1));
    expect(() => peakAllowance(-1, 1, 1000, 1)).toThrow(/direct/);
    expect(() => peakAllowance(1, 1, 0, 1)).toThrow(/frequency/);
  });
  test("computed: never more than 10·lg(1 + ln(B·T/4)), and as much where direct and reverberant sound stand so", () => {
    const most = mostPeakAllowance(500, 1.2);
    const among = Math.log((500 * Math.SQRT1_2 * 1.2) / 4);
    for (const d of [0, 0.01, 0.1, 0.3, 1, 3, 10]) expect(peakAllowance(d, 1, 500, 1.2)).toBeLessThanOrEqual(most + 1e-9);
    expect(peakAllowance(1, among, 500, 1.2)).toBeCloseTo(most, 9);
    expect(mostPeakAllowance(125, 0.04)).toBe(0);
    expect(() => mostPeakAllowance(0, 1)).toThrow(/frequency/);
  });
  test("computed: the matrix adds up what several loudspeakers bring back, by their reach", () => {
    const m = loopMatrix(2, 3, (i, l) => (i === 0 ? 1 : l === 2 ? 0.5 : 0), (l, j) => -10 * (l + 1) - j);
    expect(m[0]).toBeCloseTo(10 ** -1 + 10 ** -2 + 10 ** -3, 12);
    expect(m[1 * 2 + 0]).toBeCloseTo(10 ** -1.1 + 10 ** -2.1 + 10 ** -3.1, 12);
    expect(m[0 * 2 + 1]).toBeCloseTo(0.5 * 10 ** -3, 12);
  });
});
