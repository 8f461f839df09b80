import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ARC_MINUTE, closestViewer, distanceForAngle, faceHeightOnGrid, farthestAnalyticalViewer, farthestViewer, heightForAngle,
  leastElementShare, leastImageHeight, visualAngle,
} from "../../server/physics/imageSize";

describe("display size", () => {
  test("ANSI/AVIXA V202.01:2016, basic decision: image 1.5 m, viewer at 10.5 m: element 3.5 %", () => {
    expect(leastElementShare(10.5, 1.5)).toBeCloseTo(0.035, 9);
    expect(farthestViewer(1.5, 0.035)).toBeCloseTo(10.5, 9);
    expect(leastImageHeight(10.5, 0.035)).toBeCloseTo(1.5, 9);
  });
  test("ANSI/AVIXA V202.01:2016, analytical decision: image 1.5 m, 1080 lines: farthest viewer 4.775 m", () => {
    expect(farthestAnalyticalViewer(1.5, 1080)).toBeCloseTo(4.775, 3);
  });
  test.each([[2, 4], [2.5, 5], [3, 6], [3.5, 7], [4, 8]])("computed: elements of %f per cent reach %d image heights", (percent, heights) => {
    expect(farthestViewer(1, percent / 100)).toBeCloseTo(heights, 9);
  });
  test("computed: the basic decision is 17.19′, the analytical one 1′", () => {
    expect(visualAngle(farthestViewer(1.5, 0.035) / 200, 10.5) / ARC_MINUTE).toBeCloseTo(17.19, 2);
    expect(visualAngle(1.5 / 1080, farthestAnalyticalViewer(1.5, 1080)) / ARC_MINUTE).toBeCloseTo(1, 3);
  });
  test("ANSI/AVIXA V202.01:2016: from the closest viewer the top of the image is 30° up", () => {
    const viewer = closestViewer(1.5, 0.4);
    expect((Math.atan((1.5 + 0.4) / viewer) * 180) / Math.PI).toBeCloseTo(30, 1);
    expect(closestViewer(1.5, -2)).toBe(0);
  });
});

describe("visual angle", () => {
  test("NUREG-0700 §1.3.1-4: height = 6.283·D·MA/21600", () => {
    for (const [metres, minutes] of [[6, 16], [12, 24], [3, 60]] as const) {
      const published = (6.283 * metres * minutes) / 21_600;
      // 2π rounded to 6.283 and the small angle each leave less than 3 parts in 100 000.
      expect(Math.abs(heightForAngle(minutes * ARC_MINUTE, metres) / published - 1)).toBeLessThan(1e-4);
    }
  });
  test.each([[16, 27.9], [20, 34.9], [22, 38.4]])("computed: at 6 m, %d′ are %f mm", (minutes, millimetres) => {
    expect(heightForAngle(minutes * ARC_MINUTE, 6) * 1000).toBeCloseTo(millimetres, 1);
  });
  test("angle, height and distance undo each other", () => {
    const metres = fc.double({ min: 0.1, max: 50, noNaN: true });
    fc.assert(fc.property(metres, metres, (height, far) => {
      const angle = visualAngle(height, far);
      expect(heightForAngle(angle, far)).toBeCloseTo(height, 9);
      expect(distanceForAngle(height, angle)).toBeCloseTo(far, 9);
    }));
  });
  test("farther never looks larger", () => {
    const metres = fc.double({ min: 0.1, max: 50, noNaN: true });
    fc.assert(fc.property(metres, metres, metres, (height, one, other) => {
      expect(visualAngle(height, Math.max(one, other))).toBeLessThanOrEqual(visualAngle(height, Math.min(one, other)) + 1e-12);
    }));
  });
  test("impossible quantities are refused by name", () => {
    expect(() => visualAngle(1, 0)).toThrow(/viewing distance/);
    expect(() => farthestViewer(0, 0.03)).toThrow(/image height/);
    expect(() => farthestViewer(1, 0)).toThrow(/element height/);
  });
});

describe("faces on a grid", () => {
  test("model choice: one face fills a third of the height, nine a ninth", () => {
    expect(faceHeightOnGrid(1.5, 1)).toBeCloseTo(0.5, 9);
    expect(faceHeightOnGrid(1.5, 2)).toBeCloseTo(0.25, 9);
    expect(faceHeightOnGrid(1.5, 4)).toBeCloseTo(0.25, 9);
    expect(faceHeightOnGrid(1.5, 9)).toBeCloseTo(1.5 / 9, 9);
    expect(faceHeightOnGrid(1.5, 10)).toBeCloseTo(0.125, 9);
  });
  test("more faces are never larger", () => {
    const faces = fc.integer({ min: 0, max: 100 });
    fc.assert(fc.property(faces, faces, (one, other) => {
      expect(faceHeightOnGrid(1, Math.max(one, other))).toBeLessThanOrEqual(faceHeightOnGrid(1, Math.min(one, other)));
    }));
  });
});
