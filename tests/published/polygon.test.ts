import fc from "fast-check";
import clipping from "polygon-clipping";
import { describe, expect, it } from "vitest";
import {
  areaOf, band, centroidOf, contains, crossingSides, cutAt, farOutside, meet, nearestSide, perimeterOf, rectangle, type Point2,
} from "../../server/physics/polygon";

const points = (...of: readonly (readonly [number, number])[]): Point2[] => of.map(([x, y]) => ({ x, y }));
/** A hall with a corner cut out of it: 9 × 6 less 3 × 2. */
const L = points([0, 0], [9, 0], [9, 4], [6, 4], [6, 6], [0, 6]);

describe("areas on the floor", () => {
  it("are those that anyone works out by hand", () => {
    expect(areaOf(L)).toBe(48);
    expect(areaOf([...L].reverse())).toBe(48);
    expect(perimeterOf(L)).toBe(30);
    // Two rectangles: 6 × 6 about (3, 3), and 3 × 4 about (7.5, 2).
    expect(centroidOf(L).x).toBeCloseTo((36 * 3 + 12 * 7.5) / 48, 12);
    expect(centroidOf(L).y).toBeCloseTo((36 * 3 + 12 * 2) / 48, 12);
    expect(areaOf(points([0, 0], [4, 0], [0, 3]))).toBe(6);
    expect(perimeterOf(points([0, 0], [4, 0], [0, 3]))).toBe(12);
  });

  it("know what lies in them, how far outside it is, and which side is next", () => {
    expect(contains(L, { x: 7, y: 2 })).toBe(true);
    expect(contains(L, { x: 7, y: 5 })).toBe(false);
    expect(farOutside(L, { x: 7, y: 5 })).toBe(1);
    expect(farOutside(L, { x: 12, y: 8 })).toBe(5);
    expect(farOutside(L, { x: 1, y: 1 })).toBe(0);
    expect(nearestSide(L, { x: 6.2, y: 5 })?.at).toEqual({ x: 6, y: 5 });
  });

  it("tell when their sides cross, touch or fold back", () => {
    expect(crossingSides(L)).toBeUndefined();
    expect(crossingSides(points([0, 0], [4, 0], [0, 4], [4, 4]))).toEqual([1, 3]);
    expect(crossingSides(points([0, 0], [4, 0], [2, 0], [2, 3]))).toEqual([0, 1]);
    expect(crossingSides(points([0, 0], [6, 0], [6, 4], [3, 0], [0, 4]))).toBeDefined();
    expect(crossingSides(points([0, 0], [0, 0], [4, 0], [4, 4]))).toBeDefined();
    expect(meet([{ x: 0, y: 0 }, { x: 1, y: 0 }], [{ x: 2, y: 0 }, { x: 3, y: 0 }])).toBe(false);
  });

  it("a band is as long and as wide as it is said", () => {
    expect(areaOf(band({ x: 1, y: 1 }, { x: 4, y: 5 }, 1.2))).toBeCloseTo(6, 12);
  });
});

/** An outline around a middle: any number of corners at any distances, never crossing itself. */
const star = fc.array(fc.integer({ min: 10, max: 100 }), { minLength: 3, maxLength: 12 }).map((radii) => radii.map((r, i): Point2 => {
  const angle = (2 * Math.PI * i) / radii.length;
  return { x: 12 + (r / 10) * Math.cos(angle), y: 11 + (r / 10) * Math.sin(angle) };
}));
const ring = (of: readonly Point2[]): [number, number][][] => [of.map(({ x, y }): [number, number] => [x, y])];
const areaOfMany = (many: readonly (readonly (readonly [number, number])[])[][] | [number, number][][][]): number =>
  many.reduce((sum, [outer, ...holes]) => sum + areaOf(points(...(outer ?? []).slice(1))) - holes.reduce((s, hole) => s + areaOf(points(...hole.slice(1))), 0), 0);

describe("beside a library for polygons (polygon-clipping, Martinez and others, 2013)", () => {
  it("what lies beyond a line across the room", () => {
    fc.assert(fc.property(star, fc.integer({ min: 20, max: 220 }), (of, tenth) => {
      const x = tenth / 10 + 0.0123;
      const theirs = areaOfMany(clipping.intersection(ring(of), ring(rectangle({ x: x + 50, y: 11 }, 100, 100))));
      expect(areaOf(cutAt(of, x))).toBeCloseTo(theirs, 6);
      expect(areaOf(cutAt(of, x)) + areaOf(cutAt(of, x, true))).toBeCloseTo(areaOf(of), 6);
    }), { numRuns: 200, seed: 7 });
  });

  it("what lies in an outline, as small squares do", () => {
    fc.assert(fc.property(star, fc.integer({ min: 20, max: 220 }), fc.integer({ min: 10, max: 210 }), (of, x, y) => {
      const p = { x: x / 10 + 0.0137, y: y / 10 + 0.0171 };
      fc.pre((nearestSide(of, p)?.far ?? 0) > 0.01);
      const square = rectangle(p, 0.002, 0.002);
      expect(contains(of, p)).toBe(clipping.intersection(ring(of), ring(square)).length > 0);
    }), { numRuns: 200, seed: 8 });
  });
});
