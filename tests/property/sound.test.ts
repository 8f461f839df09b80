import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lateArrival } from "../../server/physics/arrivals";
import { bands, flat, type Bands } from "../../server/physics/bands";
import { strongComponents } from "../../server/physics/components";
import { microphonePattern, sourcePattern } from "../../server/physics/directivity";
import { dose, permittedTime } from "../../server/physics/exposure";
import { loopGain, peakAllowance } from "../../server/physics/howl";
import { modulationOf } from "../../server/physics/modulation";
import { roomConstant, speechTransfer, transfer, transferBands } from "../../server/physics/soundField";
import { speechBands } from "../../server/physics/speech";
import { speechTransmission, stiFromBands, stiOf } from "../../server/physics/speechTransmission";
import { spectralRadius } from "../../server/physics/spectralRadius";
import { reverberationTime, treatedTime, treatmentArea } from "../../server/physics/treatment";
import { worstCycle } from "../../server/physics/worstCycle";

/** Chance is the same each time; more runs are asked for with PROPERTY_RUNS, times the usual number. */
const runs = (count: number): { numRuns: number; seed?: number } => {
  const times = Number(process.env["PROPERTY_RUNS"] ?? "1");
  return times === 1 ? { numRuns: count, seed: 20261125 } : { numRuns: count * times };
};

const double = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const inBands = (min: number, max: number): fc.Arbitrary<Bands> =>
  fc.array(double(min, max), { minLength: 7, maxLength: 7 }).map((values) => bands((k) => values[k] ?? 0));
const ROUNDING = 1 + 1e-9;

/** A net of loops: gains from −120 to +20 dB, now and then next to nothing, some links missing. */
const net = fc.integer({ min: 1, max: 6 }).chain((n) =>
  fc.record({ n: fc.constant(n), gains: fc.array(fc.oneof({ arbitrary: double(-12, 2).map((b) => 10 ** b), weight: 3 }, { arbitrary: double(-27, 2).map((b) => 10 ** b), weight: 1 }, { arbitrary: fc.constant(0), weight: 3 }), { minLength: n * n, maxLength: n * n }) }));

/** Every simple cycle of a small net, by trying. */
function bestCycle(m: readonly number[], n: number): number {
  let best = 0;
  const walk = (start: number, at: number, seen: number, product: number, length: number): void => {
    for (let to = start; to < n; to += 1) {
      const gain = m[to * n + at] ?? 0;
      if (gain === 0) continue;
      if (to === start) best = Math.max(best, (product * gain) ** (1 / (length + 1)));
      else if ((seen & (1 << to)) === 0) walk(start, to, seen | (1 << to), product * gain, length + 1);
    }
  };
  for (let start = 0; start < n; start += 1) walk(start, start, 1 << start, 1, 0);
  return best;
}

/** ρ as the limit of the growth of a matrix that is squared again and again: slow, but without any of the cleverness. */
function growth(m: readonly number[], n: number): number {
  let power = [...m];
  let log = 0; // lg of what was divided out, per first power
  for (let step = 0; step < 40; step += 1) {
    const most = Math.max(...power);
    if (most === 0) return 0;
    power = power.map((entry) => entry / most);
    log += Math.log(most) / 2 ** step;
    power = power.map((_, at) => {
      let sum = 0;
      for (let k = 0; k < n; k += 1) sum += (power[Math.floor(at / n) * n + k] ?? 0) * (power[k * n + (at % n)] ?? 0);
      return sum;
    });
  }
  return Math.exp(log);
}

describe("a net of loops", () => {
  it("has the radius that its growth shows, between bounds that meet", () => {
    fc.assert(fc.property(net, ({ n, gains }) => {
      const { value, lower, upper } = spectralRadius(Float64Array.from(gains), n);
      expect(lower).toBeLessThanOrEqual(value * ROUNDING);
      expect(value).toBeLessThanOrEqual(upper * ROUNDING);
      expect(upper - lower).toBeLessThanOrEqual(1e-8 * upper);
      const wanted = growth(gains, n);
      if (wanted > 1e-300) expect(Math.abs(Math.log10(value / wanted))).toBeLessThan(1e-6);
      else expect(value).toBe(0);
    }), runs(500));
  });
  it("never has less gain for one loop more", () => {
    fc.assert(fc.property(net, fc.nat(35), double(0, 10), ({ n, gains }, at, more) => {
      const added = gains.map((gain, i) => (i === at % (n * n) ? gain + more : gain));
      const before = spectralRadius(Float64Array.from(gains), n).value;
      expect(spectralRadius(Float64Array.from(added), n).value * ROUNDING).toBeGreaterThanOrEqual(before);
    }), runs(500));
  });
  it("never has more margin for one open microphone more", () => {
    fc.assert(fc.property(net, fc.array(double(0, 3), { minLength: 13, maxLength: 13 }), ({ n, gains }, fresh) => {
      const larger = Float64Array.from({ length: (n + 1) ** 2 }, (_, at) => {
        const [row, column] = [Math.floor(at / (n + 1)), at % (n + 1)];
        return row < n && column < n ? gains[row * n + column] ?? 0 : fresh[row + column] ?? 0;
      });
      expect(loopGain(larger, n + 1).gain + 1e-8).toBeGreaterThanOrEqual(loopGain(Float64Array.from(gains), n).gain);
    }), runs(500));
  });
  it("has the same radius the other way round, and when its places are named in another order", () => {
    fc.assert(fc.property(net, ({ n, gains }) => {
      const turned = Float64Array.from(gains, (_, at) => gains[(at % n) * n + Math.floor(at / n)] ?? 0);
      const renamed = Float64Array.from(gains, (_, at) => gains[(n - 1 - Math.floor(at / n)) * n + (n - 1 - (at % n))] ?? 0);
      const { value } = spectralRadius(Float64Array.from(gains), n);
      for (const other of [turned, renamed]) expect(Math.abs(spectralRadius(other, n).value - value)).toBeLessThanOrEqual(1e-8 * value);
    }), runs(300));
  });
  it("has the worst loop that trying all of them finds, a loop indeed, no louder than all together and no less than a share", () => {
    fc.assert(fc.property(net, ({ n, gains }) => {
      const m = Float64Array.from(gains);
      const cycle = worstCycle(m, n);
      const wanted = bestCycle(gains, n);
      const { value } = spectralRadius(m, n);
      if (cycle === undefined) {
        expect(wanted).toBe(0);
        expect(value).toBe(0);
        return;
      }
      expect(cycle.mean / wanted).toBeCloseTo(1, 8);
      expect(new Set(cycle.places).size).toBe(cycle.places.length);
      cycle.places.forEach((from, i) => {
        expect(cycle.links[i]).toBe(m[(cycle.places[(i + 1) % cycle.places.length] ?? 0) * n + from]);
        expect(cycle.links[i]).toBeGreaterThan(0);
      });
      expect(value * ROUNDING).toBeGreaterThanOrEqual(cycle.mean);
      expect(value).toBeLessThanOrEqual(n * cycle.mean * ROUNDING);
      expect(strongComponents(m, n).some((part) => cycle.places.every((place) => part.includes(place)))).toBe(true);
    }), runs(500));
  });
  it("has peaks of no less than nothing, and no fewer in a room that rings longer", () => {
    fc.assert(fc.property(double(0, 10), double(0, 10), double(100, 8000), double(0, 5), double(0, 5), (d, v, f, one, other) => {
      const short = peakAllowance(d, v, f, Math.min(one, other));
      expect(short).toBeGreaterThanOrEqual(0);
      expect(peakAllowance(d, v, f, Math.max(one, other))).toBeGreaterThanOrEqual(short - 1e-9);
    }), runs(500));
  });
});

describe("what a listener understands", () => {
  const arrival = fc.record({ direct: inBands(0.001, 4), reverberant: inBands(0, 2) });
  const time = inBands(0, 4);
  it("lies between 0 and 1, and so does each band", () => {
    fc.assert(fc.property(arrival, time, inBands(-20, 90), inBands(-20, 90), double(0, 0.4), arrival, (a, t, speech, noise, delay, late) => {
      const found = speechTransmission(a.direct, a.reverberant, t, speech, noise, { later: [{ delay, ...late }] });
      for (const value of [found.sti, ...found.mti]) {
        expect(value).toBeGreaterThanOrEqual(0);
        expect(value).toBeLessThanOrEqual(1 + 1e-12);
      }
    }), runs(500));
  });
  // The redundancy of neighbouring bands lets the index itself give way a little where a lost band begins to be heard; so the
  // bands are held strictly, and the index where all bands are alike.
  it("is in no band less for less noise, nor for a shorter reverberation", () => {
    fc.assert(fc.property(arrival, time, double(40, 80), inBands(0, 80), double(0, 30), double(0, 3), (a, t, level, noise, more, longer) => {
      const at = (times: Bands, noises: Bands): Bands => speechTransmission(a.direct, a.reverberant, times, speechBands(level), noises).mti;
      const here = at(t, noise);
      at(t, bands((k) => noise[k] + more)).forEach((mti, k) => { expect(mti).toBeLessThanOrEqual((here[k] ?? 0) + 1e-12); });
      at(bands((k) => t[k] + longer), noise).forEach((mti, k) => { expect(mti).toBeLessThanOrEqual((here[k] ?? 0) + 1e-12); });
    }), runs(500));
  });
  it("rises with speech over noise and falls with reverberation where all bands are alike", () => {
    fc.assert(fc.property(double(0.01, 4), double(0, 2), double(0, 4), double(-20, 20), double(0, 20), double(0, 3), (d, v, t, ratio, more, longer) => {
      const at = (seconds: number, over: number): number => stiOf(flat(d), flat(v), flat(seconds), flat(over), flat(0), { ear: false });
      const here = at(t, ratio);
      expect(at(t, ratio + more)).toBeGreaterThanOrEqual(here - 1e-12);
      expect(at(t + longer, ratio)).toBeLessThanOrEqual(here + 1e-12);
      const nearer = stiOf(flat(d * (1 + more)), flat(v), flat(t), flat(ratio), flat(0), { ear: false });
      expect(nearer).toBeGreaterThanOrEqual(here - 1e-12);
    }), runs(500));
  });
  it("gives way by less than 0.06 at most where a band that was lost begins to be heard", () => {
    fc.assert(fc.property(inBands(0, 1), inBands(0, 0.2), (mti, more) => {
      const raised = bands((k) => Math.min(1, mti[k] + more[k]));
      expect(stiFromBands(raised)).toBeGreaterThanOrEqual(stiFromBands(mti) - 0.06);
    }), runs(3000));
  });
  it("is the same for stages in either order, and never better for one stage more", () => {
    fc.assert(fc.property(arrival, arrival, time, time, (a, b, t, u) => {
      const silence = flat(-Infinity);
      const one = modulationOf(a.direct, a.reverberant, t, flat(60), silence);
      const two = modulationOf(b.direct, b.reverberant, u, flat(60), silence);
      const first = stiOf(b.direct, b.reverberant, u, flat(60), silence, { before: one, ear: false });
      expect(stiOf(a.direct, a.reverberant, t, flat(60), silence, { before: two, ear: false })).toBeCloseTo(first, 12);
      const alone = speechTransmission(b.direct, b.reverberant, u, flat(60), silence, { ear: false }).mti;
      const chained = speechTransmission(b.direct, b.reverberant, u, flat(60), silence, { before: one, ear: false }).mti;
      chained.forEach((mti, k) => { expect(mti).toBeLessThanOrEqual((alone[k] ?? 0) + 1e-12); });
    }), runs(300));
  });
  it("does not depend on the order of later arrivals, nor on what was worked out before", () => {
    fc.assert(fc.property(arrival, time, fc.array(fc.record({ delay: double(0, 0.5), direct: inBands(0, 1), reverberant: inBands(0, 1) }), { maxLength: 12 }), (a, t, later) => {
      const at = (list: typeof later): number => stiOf(a.direct, a.reverberant, t, flat(60), flat(30), { later: list });
      const here = at(later);
      expect(at([...later].reverse())).toBeCloseTo(here, 9);
      expect(at(later)).toBe(here);
    }), runs(200));
  });
});

describe("a room", () => {
  const share = double(0.01, 0.95);
  it("carries sound alike in both directions: source and receiver may change places", () => {
    fc.assert(fc.property(double(0.1, 40), double(1, 3), share, double(-1, 1), double(-1, 1), double(1, 3), (r, q, alpha, there, back, p) => {
      // A microphone whose pattern is that of a source of directivity P takes up 1/P of a diffuse field.
      const constant = roomConstant(alpha * 300, 300);
      const path = (source: number, receiver: number, from: number, to: number): ReturnType<typeof transfer> => transfer({
        distance: r, q: source, roomConstant: constant, sourceGain: sourcePattern(from, source), receiverGain: sourcePattern(to, receiver), ree: 1 / receiver,
      });
      const forth = path(q, p, there, back);
      const home = path(p, q, back, there);
      expect(home.direct).toBeCloseTo(forth.direct, 9);
      expect(home.reverberant / forth.reverberant).toBeCloseTo(1, 9);
    }), runs(500));
  });
  it("never makes a farther talker louder at any microphone", () => {
    fc.assert(fc.property(double(0, 40), double(0, 40), inBands(1, 10), share, double(-1, 1), double(0, 1), (r, farther, q, alpha, cosine, a) => {
      const at = (metres: number): number => speechTransfer(transferBands((k) => ({
        distance: metres, q: q[k], roomConstant: roomConstant(alpha * 300, 300), receiverGain: microphonePattern(cosine, a), ree: a * a + (1 - a) ** 2 / 3,
      })));
      expect(at(r + farther)).toBeLessThanOrEqual(at(r) + 1e-9);
    }), runs(500));
  });
  it("never rings longer for more absorption, nor for more curtains, where the formula changes included", () => {
    fc.assert(fc.property(double(20, 5000), share, share, double(0, 20), double(0.2, 6), double(0, 200), double(0, 200), (v, one, other, air, t, area, more) => {
      const s = 6 * v ** (2 / 3);
      expect(reverberationTime(v, s, Math.max(one, other) * s, air)).toBeLessThanOrEqual(reverberationTime(v, s, Math.min(one, other) * s, air) * ROUNDING);
      const room = { volume: v, surface: s, time: t, alpha: Math.max(one, other), covered: Math.min(one, other) };
      expect(treatedTime(room, area + more)).toBeLessThanOrEqual(treatedTime(room, area) * ROUNDING);
    }), runs(500));
  });
  it("gets the time that the needed area promises", () => {
    fc.assert(fc.property(double(20, 5000), double(0.3, 6), double(0.1, 6), double(0.1, 1), (v, t, wanted, alpha) => {
      const room = { volume: v, surface: 6 * v ** (2 / 3), time: t, alpha, covered: 0.02 };
      expect(treatedTime(room, treatmentArea(room, wanted))).toBeLessThanOrEqual(Math.max(wanted, 0) * ROUNDING);
    }), runs(500));
  });
});

describe("ears and arrivals", () => {
  it("bear a louder sound for no longer, and no dose shrinks", () => {
    fc.assert(fc.property(double(40, 120), double(0, 30), double(0, 40_000), (level, more, time) => {
      expect(permittedTime(level + more)).toBeLessThanOrEqual(permittedTime(level) * ROUNDING);
      expect(dose([{ level: level + more, time }])).toBeGreaterThanOrEqual(dose([{ level, time }]) / ROUNDING);
    }), runs(300));
  });
  it("hear two where they did, whenever another arrival is added", () => {
    const timed = fc.record({ time: double(0, 0.5), level: double(30, 90) });
    fc.assert(fc.property(fc.array(timed, { maxLength: 8 }), timed, (arrivals, another) => {
      const before = lateArrival(arrivals)?.gap ?? 0;
      expect(lateArrival([...arrivals, another])?.gap ?? 0).toBeGreaterThanOrEqual(before);
    }), runs(300));
  });
});
