/** Cameras and what heads hide, beside a library of matrices and one of polygons; and what must hold of any room. */
import fc from "fast-check";
import { mat4, vec4 } from "gl-matrix";
import { intersection, union, type Pair, type Polygon } from "polygon-clipping";
import { describe, expect, test } from "vitest";
import { bustInFrame } from "../../server/physics/bust";
import { convertView, pixelsAcrossFace, project, type Camera } from "../../server/physics/framing";
import type { Vec3 } from "../../server/physics/geometry";
import { covered, pointsOf, shadowOn, shareHidden, upright, type Shadow, type Upright } from "../../server/physics/hidden";

const metre = fc.double({ min: -12, max: 12, noNaN: true });
const point = fc.tuple(metre, metre, fc.double({ min: 0.2, max: 4, noNaN: true }));
const view = fc.double({ min: 0.2, max: 2.4, noNaN: true });
const camera = fc.tuple(point, point, view).filter(([a, b]) => Math.hypot(a[0] - b[0], a[1] - b[1]) > 0.3).map(([position, aim, horizontal]): Camera => ({ position, aim, horizontal, vertical: convertView(horizontal, "horizontal", "vertical", 16 / 9) }));

describe("the camera beside a matrix library", () => {
  test("a point falls where the library's perspective and look-at matrices put it", () => {
    fc.assert(fc.property(camera, point, (of, at) => {
      const hand = (p: Vec3): [number, number, number] => [...p];
      const matrix = mat4.multiply(mat4.create(), mat4.perspective(mat4.create(), of.vertical, 16 / 9, 0.01, 100), mat4.lookAt(mat4.create(), hand(of.position), hand(of.aim), [0, 0, 1]));
      const clip = vec4.transformMat4(vec4.create(), [...at, 1], matrix);
      const ours = project(of, at);
      fc.pre(Math.abs(ours.depth) > 0.05);
      expect(clip[3]).toBeCloseTo(ours.depth, 3);
      if (ours.depth < 0.05) return;
      expect(Math.abs((clip[0] / clip[3] - ours.across) / Math.max(1, Math.abs(ours.across)))).toBeLessThan(1e-3);
      expect(Math.abs((clip[1] / clip[3] - ours.up) / Math.max(1, Math.abs(ours.up)))).toBeLessThan(1e-3);
    }), { numRuns: 300 });
  });
});

describe("head and shoulders in the picture", () => {
  const mirrored = (p: Vec3): Vec3 => [p[0], -p[1], p[2]];
  test("a mirrored room gives a mirrored picture", () => {
    fc.assert(fc.property(camera, point, (of, mouth) => {
      const here = bustInFrame(of, mouth);
      const there = bustInFrame({ ...of, position: mirrored(of.position), aim: mirrored(of.aim) }, mirrored(mouth));
      fc.pre(here.depth > 0.3 && Number.isFinite(here.left));
      expect(there.left).toBeCloseTo(-here.right, 6);
      expect(there.top).toBeCloseTo(here.top, 6);
      expect(there.whole).toBe(here.whole);
    }));
  });
  test("a wider lens loses nobody", () => {
    fc.assert(fc.property(camera, point, fc.double({ min: 1, max: 1.25, noNaN: true }), (of, mouth, wider) => {
      const horizontal = of.horizontal * wider;
      if (!bustInFrame(of, mouth).whole) return;
      expect(bustInFrame({ ...of, horizontal, vertical: convertView(horizontal, "horizontal", "vertical", 16 / 9) }, mouth).whole).toBe(true);
    }));
  });
  test("nearer is never smaller", () => {
    fc.assert(fc.property(view, fc.double({ min: 0.3, max: 20, noNaN: true }), fc.double({ min: 1, max: 3, noNaN: true }), (angle, near, times) => {
      expect(pixelsAcrossFace(1280, angle, near)).toBeGreaterThanOrEqual(pixelsAcrossFace(1280, angle, near * times));
    }));
    const level: Camera = { position: [0, 0, 1.5], aim: [5, 0, 1.5], horizontal: 1.2, vertical: 0.7 };
    const tall = (x: number): number => { const b = bustInFrame(level, [x, 0, 1.5]); return b.top - b.bottom; };
    for (let x = 1; x < 10; x += 1) expect(tall(x)).toBeGreaterThan(tall(x + 1));
  });
});

/** Area of what outlines cover of the square from −1 to 1, by the library. */
function byLibrary(shadows: readonly Shadow[]): number {
  const rings = shadows.map((shadow): Polygon => [pointsOf(shadow).map(([x, y]): Pair => [x, y])]);
  const [first, ...rest] = rings;
  if (first === undefined) return 0;
  const area = (ring: readonly Pair[]): number => Math.abs(ring.reduce((sum, [x, y], i) => { const [nx, ny] = ring[(i + 1) % ring.length] as Pair; return sum + x * ny - nx * y; }, 0)) / 2;
  const parts = intersection([[[-1, -1], [1, -1], [1, 1], [-1, 1]]], union(first, ...rest));
  return parts.reduce((sum, [outer, ...holes]) => sum + area(outer ?? []) - holes.reduce((h, hole) => h + area(hole), 0), 0) / 4;
}

describe("what heads hide of a picture", () => {
  const head = fc.tuple(fc.double({ min: 1.5, max: 7, noNaN: true }), fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: 1.2, max: 1.6, noNaN: true }))
    .map(([x, y, top]): Upright => ({ x, y, top, bottom: top - 0.24, width: 0.16, round: true }));
  const picture = upright([0, 0, 1.6], [1, 0, 0], 2, 1.125);

  test("is what a library of polygons finds, to a hundredth of the picture", () => {
    fc.assert(fc.property(fc.array(head, { minLength: 1, maxLength: 12 }), fc.double({ min: -3, max: 3, noNaN: true }), (heads, y) => {
      const eye: Vec3 = [8, y, 1.2];
      const all = heads.map((h) => shadowOn(eye, picture, h)).filter((s): s is Shadow => s !== undefined);
      for (const shadow of all) expect(pointsOf(shadow).length).toBe(12);
      expect(Math.abs(shareHidden(eye, picture, heads) - byLibrary(all))).toBeLessThan(0.01);
      expect(covered(all)).toBeCloseTo(shareHidden(eye, picture, heads), 9);
    }), { numRuns: 150 });
  });
  test("grows with every head, is mirrored in a mirrored room, and is nothing without heads", () => {
    fc.assert(fc.property(fc.array(head, { maxLength: 8 }), head, fc.double({ min: -3, max: 3, noNaN: true }), (heads, more, y) => {
      const hidden = shareHidden([8, y, 1.2], picture, heads);
      expect(shareHidden([8, y, 1.2], picture, [...heads, more])).toBeGreaterThanOrEqual(hidden - 1e-9);
      expect(shareHidden([8, -y, 1.2], picture, heads.map((h) => ({ ...h, y: -h.y })))).toBeCloseTo(hidden, 6);
    }));
    expect(shareHidden([8, 0, 1.2], picture, [])).toBe(0);
  });
  test("worked by hand: a board half way, half the height of the picture and as wide, from straight before it hides it wholly", () => {
    const eye: Vec3 = [8, 0, 1.6];
    const board: Upright = { x: 4, y: 0, bottom: 1.6 - 0.28125, top: 1.6 + 0.28125, width: 1, round: false };
    expect(shareHidden(eye, picture, [board])).toBeCloseTo(1, 9);
    expect(shareHidden(eye, picture, [{ ...board, top: 1.6 }])).toBeCloseTo(0.5, 9);
    expect(shareHidden(eye, picture, [{ ...board, x: 9 }])).toBe(0);
    expect(shareHidden(eye, picture, [{ ...board, x: -1 }])).toBe(0);
  });
});
