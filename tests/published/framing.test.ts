import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Camera, Direction } from "../../server/physics/framing";
import {
  angleOfView, convertView, FACE_WIDTH, pixelsAcrossFace, pixelsPerMetre, project, widthAt, zoomedAngle,
} from "../../server/physics/framing";
import type { Vec3 } from "../../server/physics/geometry";
import { angleBetween, between, cosineOffAxis, distance } from "../../server/physics/geometry";

const DEGREE = Math.PI / 180;
const WIDE = 16 / 9;

describe("angle of view", () => {
  test("common practice, no source: 22.5 mm behind a 30 mm lens see 41.1°", () => {
    expect(angleOfView(0.0225, 0.03) / DEGREE).toBeCloseTo(41.1, 1);
  });
  test("common practice, no source: 36 mm behind a 50 mm lens see 39.6°", () => {
    expect(angleOfView(0.036, 0.05) / DEGREE).toBeCloseTo(39.6, 1);
  });
  test("computed: 17.3 mm behind a 45 mm lens see 21.76°", () => {
    expect(angleOfView(0.0173, 0.045) / DEGREE).toBeCloseTo(21.76, 2);
  });
  test("computed: 78° across the diagonal of 16:9 are 70.4° across", () => {
    expect(convertView(78 * DEGREE, "diagonal", "horizontal", WIDE) / DEGREE).toBeCloseTo(70.4, 1);
  });
  test.each([[60, 3.46], [90, 6]])("computed: %d° frame %f m at 3 m", (degrees, metres) => {
    expect(widthAt(degrees * DEGREE, 3)).toBeCloseTo(metres, 2);
  });
  test("zooming in is a longer lens: 50 mm zoomed in twice see what 100 mm see; never wider, and in every direction alike", () => {
    expect(zoomedAngle(angleOfView(0.036, 0.05), 2)).toBeCloseTo(angleOfView(0.036, 0.1), 12);
    fc.assert(fc.property(fc.double({ min: 1, max: 170, noNaN: true }), fc.double({ min: 1, max: 30, noNaN: true }), (degrees, factor) => {
      const angle = degrees * DEGREE;
      expect(zoomedAngle(angle, factor)).toBeLessThanOrEqual(angle + 1e-12);
      // Zoomed on the diagonal and then turned to the horizontal, or the other way round.
      expect(convertView(zoomedAngle(angle, factor), "diagonal", "horizontal", WIDE)).toBeCloseTo(zoomedAngle(convertView(angle, "diagonal", "horizontal", WIDE), factor), 9);
    }));
  });
  test("conversion there and back changes nothing; the diagonal is the widest", () => {
    const direction = fc.constantFrom<Direction>("horizontal", "vertical", "diagonal");
    fc.assert(fc.property(fc.double({ min: 0.05, max: 3, noNaN: true }), direction, direction, (angle, from, to) => {
      expect(convertView(convertView(angle, from, to, WIDE), to, from, WIDE)).toBeCloseTo(angle, 9);
      expect(convertView(angle, from, "diagonal", WIDE)).toBeGreaterThanOrEqual(convertView(angle, from, "vertical", WIDE));
    }));
  });
  test("a view of 180° or none is refused", () => {
    expect(() => widthAt(Math.PI, 1)).toThrow(/180°/);
    expect(() => widthAt(0, 1)).toThrow(/angle of view/);
  });
});

describe("pixels across a face", () => {
  /** The angle that frames a width at 1 m. */
  const framing = (width: number): number => angleOfView(width, 1);
  test.each([[640, 1.28], [1280, 2.56]])("common practice, no source: of %d pixels, 80 lie across a 16 cm face in a scene of %f m", (pixels, metres) => {
    expect(pixelsAcrossFace(pixels, framing(metres), 1)).toBeCloseTo(80, 6);
  });
  test("EN 62676-4:2015, in a secondary source: 80 mm to the pixel are 12.5 pixels to the metre, 8 mm 125", () => {
    expect(pixelsPerMetre(100, framing(8), 1)).toBeCloseTo(12.5, 9);
    expect(pixelsPerMetre(1000, framing(8), 1)).toBeCloseTo(125, 9);
  });
  test("computed: 1920 pixels over 70° at 5 m: 7.00 m, 274 px/m, 44 across a face", () => {
    expect(widthAt(70 * DEGREE, 5)).toBeCloseTo(7.0, 2);
    expect(Math.round(pixelsPerMetre(1920, 70 * DEGREE, 5))).toBe(274);
    expect(Math.round(pixelsAcrossFace(1920, 70 * DEGREE, 5))).toBe(44);
    expect(FACE_WIDTH).toBe(0.16);
  });
});

describe("what a camera frames", () => {
  const camera: Camera = { position: [6, 3, 1.5], aim: [1, 3, 1.5], horizontal: 60 * DEGREE, vertical: 36 * DEGREE };
  test("the point aimed at is the middle of the picture", () => {
    const seen = project(camera, camera.aim);
    expect(seen.depth).toBeCloseTo(5, 12);
    expect(seen.across).toBeCloseTo(0, 12);
    expect(seen.up).toBeCloseTo(0, 12);
    expect(seen.inside).toBe(true);
  });
  test("looking toward the front wall, the right of the audience is the right of the picture and up is up", () => {
    expect(project(camera, [1, 4, 1.5]).across).toBeGreaterThan(0);
    expect(project(camera, [1, 3, 2]).up).toBeGreaterThan(0);
    const back: Camera = { ...camera, position: [1, 3, 1.5], aim: [6, 3, 1.5] };
    expect(project(back, [6, 4, 1.5]).across).toBeLessThan(0);
  });
  test("computed: half of 60° at 5 m is 2.887 m to the side", () => {
    expect(project(camera, [1, 3 + 2.88, 1.5]).inside).toBe(true);
    expect(project(camera, [1, 3 + 2.89, 1.5]).inside).toBe(false);
    expect(project(camera, [1, 3 - 2.88, 1.5]).inside).toBe(true);
    expect(project(camera, [1, 3 - 2.89, 1.5]).inside).toBe(false);
  });
  test("computed: half of 36° at 5 m is 1.625 m up and down", () => {
    expect(project(camera, [1, 3, 1.5 + 1.62]).inside).toBe(true);
    expect(project(camera, [1, 3, 1.5 + 1.63]).inside).toBe(false);
    expect(project(camera, [1, 3, 1.5 - 1.62]).inside).toBe(true);
    expect(project(camera, [1, 3, 1.5 - 1.63]).inside).toBe(false);
  });
  test("what is behind the camera is never in the picture", () => {
    expect(project(camera, [7, 3, 1.5])).toMatchObject({ inside: false, across: NaN, up: NaN, depth: -1 });
  });
  test("a camera aimed straight down at a table still has four edges", () => {
    const down: Camera = { position: [2, 2, 2], aim: [2, 2, 0], horizontal: 60 * DEGREE, vertical: 60 * DEGREE };
    expect(project(down, [2, 2, 0.8]).inside).toBe(true);
    expect(project(down, [2.6, 2.6, 0.8]).inside).toBe(true);
    expect(project(down, [2.8, 2, 0.8]).inside).toBe(false);
    expect(project(down, [2, 2.8, 0.8]).inside).toBe(false);
  });
  test("a camera aimed at its own position looks along the room", () => {
    const lost: Camera = { position: [2, 2, 1], aim: [2, 2, 1], horizontal: 60 * DEGREE, vertical: 40 * DEGREE };
    expect(project(lost, [5, 2, 1])).toMatchObject({ depth: 3, inside: true });
    expect(project(lost, [2, 5, 1]).inside).toBe(false);
    expect(project(lost, [2, 2, 4]).inside).toBe(false);
  });
  test("a wider view never loses a point, and the axes stay at right angles", () => {
    const coordinate = fc.double({ min: -10, max: 10, noNaN: true });
    const point = fc.tuple(coordinate, coordinate, coordinate);
    const view = fc.double({ min: 0.1, max: 3, noNaN: true });
    fc.assert(fc.property(point, point, point, view, view, (position, aim, seen, one, other) => {
      const at = (angle: number) => project({ position, aim, horizontal: angle, vertical: angle }, seen);
      const narrow = at(Math.min(one, other));
      if (narrow.inside) expect(at(Math.max(one, other)).inside).toBe(true);
      // Depth and the two offsets are the legs of the distance: true only of unit axes at right angles.
      const wide = at(Math.PI / 2);
      if (wide.depth > 1e-6) {
        const legs = Math.hypot(wide.depth, wide.depth * wide.across, wide.depth * wide.up);
        expect(legs).toBeCloseTo(distance(position, seen), 6);
      }
    }));
  });
});

describe("angles and distances", () => {
  test("computed: 3, 4, 12 m make 13 m", () => {
    expect(distance([1, 1, 1], [4, 5, 13])).toBeCloseTo(13, 12);
  });
  test("computed: right angle, straight and opposite", () => {
    expect(angleBetween([1, 0, 0], [0, 0, 5]) / DEGREE).toBeCloseTo(90, 9);
    expect(angleBetween([2, 2, 0], [5, 5, 0]) / DEGREE).toBeCloseTo(0, 5);
    expect(angleBetween([1, 0, 0], [-3, 0, 0]) / DEGREE).toBeCloseTo(180, 9);
  });
  test("a thing at the spot it is aimed at counts as on its axis", () => {
    expect(cosineOffAxis([1, 2, 3], [1, 0, 0], [1, 2, 3])).toBe(1);
  });
  test("distance is the same both ways, and a detour is never shorter", () => {
    const coordinate = fc.double({ min: -50, max: 50, noNaN: true });
    const point: fc.Arbitrary<Vec3> = fc.tuple(coordinate, coordinate, coordinate);
    fc.assert(fc.property(point, point, point, (a, b, c) => {
      expect(distance(a, b)).toBe(distance(b, a));
      expect(distance(a, c)).toBeLessThanOrEqual(distance(a, b) + distance(b, c) + 1e-9);
      expect(between(a, b)).toEqual([b[0] - a[0], b[1] - a[1], b[2] - a[2]]);
    }));
  });
});
