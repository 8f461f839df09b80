import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BAND_INDICES, flat } from "../../server/physics/bands";
import { toDb } from "../../server/physics/decibel";
import {
  criticalDistance, directToReverberant, NEAREST, roomConstant, speechLevel, speechTransfer, transfer, transferBands, transferLevel,
} from "../../server/physics/soundField";

const HANDBOOK = "common practice, no source (handbook of sound system design)";

/** Direct, reverberant and total level at so many critical distances, dB re the direct level at 1 m. */
function levelsAt(criticalDistances: number): { direct: number; reverberant: number; total: number } {
  const distance = criticalDistances * criticalDistance(2, 50);
  const arrival = transfer({ distance, q: 2, roomConstant: 50 });
  return { direct: toDb(arrival.direct), reverberant: toDb(arrival.reverberant), total: transferLevel(arrival) };
}

describe("room constant and critical distance", () => {
  test(`${HANDBOOK}: S 100 m², mean α 0.2: R 25 m²`, () => {
    expect(roomConstant(20, 100)).toBeCloseTo(25, 9);
  });
  test(`${HANDBOOK}: R 200 m², Q 1: critical distance 2 m`, () => {
    expect(criticalDistance(1, 200)).toBeCloseTo(2, 1);
  });
  test(`${HANDBOOK}: S 630 m², mean α 0.15: R about 110 m²`, () => {
    expect(Math.abs(roomConstant(0.15 * 630, 630) - 110)).toBeLessThan(2);
  });
  test.each([[3, 2], [9, 4.2], [-3, 1]])(`${HANDBOOK}: R 110 m², directivity index %f dB: critical distance %f m`, (di, metres) => {
    expect(Math.abs(criticalDistance(10 ** (di / 10), 110) - metres)).toBeLessThan(0.1);
  });
  test("common practice, no source: Dc = 0.141·√(QR) and 0.057·√(QV/T) agree with the exact formula", () => {
    expect(criticalDistance(5, 80) / Math.sqrt(5 * 80)).toBeCloseTo(0.141, 3);
    // For little absorption R is A = 0.161·V/T; with V 200 m³, T 1 s.
    expect(Math.abs(criticalDistance(5, (0.161 * 200) / 1) / Math.sqrt((5 * 200) / 1) - 0.057)).toBeLessThan(0.0005);
  });
  test("a room that absorbs all of its surface has no reverberant field", () => {
    expect(roomConstant(100, 100)).toBe(Infinity);
    expect(transfer({ distance: 2, q: 1, roomConstant: Infinity })).toEqual({ direct: 0.25, reverberant: 0 });
    expect(directToReverberant({ direct: flat(1), reverberant: flat(0) })).toBe(Infinity);
  });
});

describe("levels around the critical distance", () => {
  test(`${HANDBOOK}: at the critical distance the total is 3 dB above either field`, () => {
    const { direct, reverberant, total } = levelsAt(1);
    expect(direct).toBeCloseTo(reverberant, 9);
    expect(total - direct).toBeCloseTo(3, 1);
  });
  test(`${HANDBOOK}: at half of it the total is 1 dB above the direct sound, which is 6 dB above the reverberant`, () => {
    const { direct, reverberant, total } = levelsAt(0.5);
    expect(Math.round(total - direct)).toBe(1);
    expect(Math.round(direct - reverberant)).toBe(6);
  });
  test(`${HANDBOOK}: at twice it the total is 1 dB above the reverberant sound`, () => {
    const { reverberant, total } = levelsAt(2);
    expect(Math.round(total - reverberant)).toBe(1);
  });
  test(`${HANDBOOK}: at four times it the direct sound is 12 dB below the reverberant`, () => {
    const { direct, reverberant } = levelsAt(4);
    expect(Math.round(reverberant - direct)).toBe(12);
  });
  test(`${HANDBOOK}: critical distance 1 m, 70 dB direct at 0.6 m: 71 dB in all there, 65.4 dB reverberant at 4.2 m`, () => {
    const constant = (16 * Math.PI) / 2; // Q 2 with a critical distance of 1 m
    const near = transfer({ distance: 0.6, q: 2, roomConstant: constant });
    const far = transfer({ distance: 4.2, q: 2, roomConstant: constant });
    const atOneMetre = 70 - toDb(near.direct);
    expect(Math.abs(atOneMetre + transferLevel(near) - 71)).toBeLessThan(0.5);
    expect(Math.abs(atOneMetre + toDb(far.reverberant) - 65.4)).toBeLessThan(0.2);
  });
});

describe("speech", () => {
  test("computed: in the free field speech falls 6.02 dB for each doubling of the distance", () => {
    const at = (distance: number): number => speechLevel(66, transferBands(() => ({ distance, q: 2, roomConstant: Infinity })));
    expect(at(1)).toBeCloseTo(66, 9);
    expect(at(2)).toBeCloseTo(66 - 6.0206, 3);
  });
  test("computed: direct-to-reverberant ratio is 0 dB at the critical distance and falls 6.02 dB for each doubling", () => {
    const ratio = (factor: number): number =>
      directToReverberant(transferBands(() => ({ distance: factor * criticalDistance(2, 50), q: 2, roomConstant: 50 })));
    expect(ratio(1)).toBeCloseTo(0, 9);
    expect(ratio(2)).toBeCloseTo(-6.0206, 3);
  });
  test("a receiver inside the source counts as at the nearest distance", () => {
    expect(transfer({ distance: 0, q: 1, roomConstant: 50 })).toEqual(transfer({ distance: NEAREST, q: 1, roomConstant: 50 }));
    expect(() => transfer({ distance: -1, q: 1, roomConstant: 50 })).toThrow(/distance/);
  });
});

describe("properties", () => {
  const distance = fc.double({ min: 0, max: 100, noNaN: true });
  const constant = fc.double({ min: 1, max: 5000, noNaN: true });
  const q = fc.double({ min: 1, max: 30, noNaN: true });
  test("farther is never louder", () => {
    fc.assert(fc.property(distance, distance, q, constant, (r, more, factor, room) => {
      const at = (metres: number): number => transferLevel(transfer({ distance: metres, q: factor, roomConstant: room }));
      expect(at(r + more)).toBeLessThanOrEqual(at(r) + 1e-9);
    }));
  });
  test("more absorption is never louder", () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(fc.property(distance, q, share, share, (r, factor, one, other) => {
      const at = (alpha: number): number =>
        transferLevel(transfer({ distance: r, q: factor, roomConstant: roomConstant(alpha * 200, 200) }));
      expect(at(Math.max(one, other))).toBeLessThanOrEqual(at(Math.min(one, other)) + 1e-9);
    }));
  });
  test("the A-weighted transfer lies between the weakest and the strongest band", () => {
    fc.assert(fc.property(fc.array(q, { minLength: 7, maxLength: 7 }), distance, constant, (qs, r, room) => {
      const arrival = transferBands((k) => ({ distance: r, q: qs[k] ?? 1, roomConstant: room }));
      const levels = BAND_INDICES.map((k) => toDb(arrival.direct[k] + arrival.reverberant[k]));
      expect(speechTransfer(arrival)).toBeGreaterThanOrEqual(Math.min(...levels) - 1e-9);
      expect(speechTransfer(arrival)).toBeLessThanOrEqual(Math.max(...levels) + 1e-9);
    }));
  });
});
