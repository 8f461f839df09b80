/** What a camera frames and what is seen from a seat, beside a library of matrices and one of polygons; and what must hold of any room. */
import fc from "fast-check";
import { mat4, vec4 } from "gl-matrix";
import { intersection, type Pair } from "polygon-clipping";
import { describe, expect, test } from "vitest";
import { framedLine, framedPolygon, lensOf, type Spot } from "../../server/physics/clip";
import { convertView, type Camera } from "../../server/physics/framing";
import type { Vec3 } from "../../server/physics/geometry";
import { withUnit } from "../../server/model/show";
import { Cover } from "../../server/signal/perspective/cover";
import { standsTo } from "../../server/signal/perspective/order";
import type { Perspective, Thing, ViewIn } from "../../server/signal/perspective/perspective";
import { SCHOOLROOM, studyOf } from "../views/plans";

const metre = fc.double({ min: -9, max: 9, noNaN: true });
const point = fc.tuple(metre, metre, fc.double({ min: 0, max: 4, noNaN: true }));
const camera = fc.tuple(point, point, fc.double({ min: 0.3, max: 2, noNaN: true })).filter(([a, b]) => Math.hypot(a[0] - b[0], a[1] - b[1]) > 0.5)
  .map(([position, aim, horizontal]): Camera => ({ position, aim, horizontal, vertical: convertView(horizontal, "horizontal", "vertical", 16 / 9) }));

/** Where the library puts a point, and how deep. */
function byLibrary(of: Camera, at: Vec3): { readonly spot: Pair; readonly depth: number } {
  const hand = (p: Vec3): [number, number, number] => [...p];
  // Its matrices are single precision unless told otherwise, so points are put through in doubles.
  const [view, lens] = [new Array<number>(16).fill(0), new Array<number>(16).fill(0)];
  mat4.lookAt(view, hand(of.position), hand(of.aim), [0, 0, 1]);
  mat4.perspective(lens, of.vertical, 16 / 9, 0.01, 100);
  const clip = new Array<number>(4).fill(0);
  vec4.transformMat4(clip, [...at, 1], view);
  vec4.transformMat4(clip, clip, lens);
  const [x = 0, y = 0, , w = 1] = clip;
  return { spot: [x / w, y / w], depth: w };
}

const area = (ring: readonly (readonly [number, number])[]): number => Math.abs(ring.reduce((sum, [x, y], i) => { const [nx, ny] = ring[(i + 1) % ring.length] ?? [x, y]; return sum + x * ny - nx * y; }, 0)) / 2;

describe("cutting at the frame", () => {
  test("what is left of a triangle is what the libraries leave of it", () => {
    let compared = 0;
    fc.assert(fc.property(camera, point, point, point, (of, a, b, c) => {
      const corners = [a, b, c].map((p) => byLibrary(of, p));
      fc.pre(corners.every(({ depth }) => depth > 0.3));
      const whole = corners.map(({ spot }) => spot);
      fc.pre(area(whole) > 1e-3);
      const theirs = intersection([whole], [[[-1, -1], [1, -1], [1, 1], [-1, 1]]]).reduce((sum, [ring]) => sum + area(ring ?? []), 0);
      expect(area(framedPolygon(lensOf(of), [a, b, c]))).toBeCloseTo(theirs, 6);
      compared += 1;
    }), { numRuns: 400 });
    expect(compared).toBeGreaterThan(100);
  });

  test("nothing lies outside the frame, though some of it is behind the lens", () => {
    fc.assert(fc.property(camera, fc.array(point, { minLength: 3, maxLength: 3 }), (of, corners) => {
      for (const [across, up] of framedPolygon(lensOf(of), corners)) expect(Math.max(Math.abs(across), Math.abs(up))).toBeLessThanOrEqual(1 + 1e-9);
      const [a, b] = corners;
      if (a !== undefined && b !== undefined) for (const [across, up] of framedLine(lensOf(of), a, b) ?? []) expect(Math.max(Math.abs(across), Math.abs(up))).toBeLessThanOrEqual(1 + 1e-9);
    }));
  });
});

describe("who stands before whom", () => {
  const table = [{ x: 3, y: 1 }, { x: 5, y: 1 }, { x: 5, y: 2 }, { x: 3, y: 2 }];
  test("a table parts those before it, on it and behind it", () => {
    expect(standsTo(table, [8, 1.5, 1.2], { x: 6, y: 1.5 })).toBe("before");
    expect(standsTo(table, [8, 1.5, 1.2], { x: 4, y: 1.5 })).toBe("on");
    expect(standsTo(table, [8, 1.5, 1.2], { x: 2, y: 1.5 })).toBe("behind");
    expect(standsTo(table, [2, 1.5, 1.2], { x: 6, y: 1.5 })).toBe("behind");
  });
  test("what is covered twice is hidden, to a cell", () => {
    const cover = new Cover(16 / 9);
    const square = (r: number): readonly Spot[] => [[-r, -r], [r, -r], [r, r], [-r, r]];
    const first = cover.put([{ look: "person", ring: square(0.25), lines: [] }]);
    expect(first.taken).toBe(0);
    const second = cover.put([{ look: "person", ring: square(0.5), lines: [] }]);
    expect(second.taken / second.cells).toBeCloseTo(0.25, 1);
    const third = cover.put([{ look: "person", ring: square(0.4), lines: [] }]);
    expect(third.taken).toBe(third.cells);
  });
});

interface Room { readonly talker?: string; readonly camera?: string; readonly aim?: string; readonly view?: number; readonly more?: string; readonly room?: string }
const roomWith = ({ talker = "(1 m, 2.6 m)", camera: at = "(8 m, 3.6 m, 1.9 m)", aim = "(1 m, 2.6 m)", view = 60, more = "", room = "9 m by 6.4 m by 3.1 m { chairs 12 in 3 rows { first 3.2 m } }" }: Room): string =>
  `setup "Any"\nroom hall ${room}\ntalker Ines at ${talker}, standing\nkind eye is a camera { view ${view} deg }\ndevice cam is eye\nplace cam at ${at}, aim ${aim}\n${more}`;

function seen(text: string, view: ViewIn, of: string): Perspective {
  const found = studyOf(text).sees(view, of);
  if ("known" in found) throw new Error(found.known);
  return found;
}
const spotsOf = (thing: Thing | undefined): readonly Spot[] => (thing?.surfaces ?? []).flatMap(({ ring }) => ring);
const named = (all: Perspective, name: string): Thing | undefined => all.things.find((thing) => thing.name === name && thing.kind !== "display");
const bounds = (spots: readonly Spot[]): number[] => [Math.min(...spots.map((s) => s[0])), Math.max(...spots.map((s) => s[0])), Math.min(...spots.map((s) => s[1])), Math.max(...spots.map((s) => s[1]))];

describe("a camera's picture of a room", () => {
  test("the head of whoever speaks is where the library's matrices put it", () => {
    const picture = seen(roomWith({}), "camera", "cam");
    const of: Camera = { position: [8, 3.6, 1.9], aim: [1, 2.6, 1.9], horizontal: Math.PI / 3, vertical: convertView(Math.PI / 3, "horizontal", "vertical", 16 / 9) };
    const head = bounds(named(picture, "Ines")?.surfaces.find(({ look }) => look === "talker-head")?.ring ?? []);
    // The aim has no height of its own: it is that of a seated eye, 1.2 m. The top of a standing head is 1.82 m up, 1.70 m eyes and 0.12 m above them.
    const level: Camera = { ...of, aim: [1, 2.6, 1.2] };
    const top = byLibrary(level, [1, 2.6, 1.82]).spot;
    expect(((head[0] ?? 0) + (head[1] ?? 0)) / 2).toBeCloseTo(top[0], 2);
    expect(head[3]).toBeCloseTo(top[1], 4);
  });

  test("a mirrored room gives a mirrored picture", () => {
    const devices = (sign: (y: number) => number): string => `place box is battery-loudspeaker, at (0.6 m, ${sign(5)} m, 1.4 m)\nplace phone is phone, at (2 m, ${sign(1)} m)\n`;
    const here = seen(roomWith({ more: devices((y) => y) }), "camera", "cam");
    const there = seen(roomWith({ talker: "(1 m, 3.8 m)", camera: "(8 m, 2.8 m, 1.9 m)", aim: "(1 m, 3.8 m)", more: devices((y) => 6.4 - y) }), "camera", "cam");
    for (const name of ["Ines", "box", "phone"]) {
      const [left = NaN, right = NaN, low = NaN, high = NaN] = bounds(spotsOf(named(here, name)));
      const [l, r, b, t] = bounds(spotsOf(named(there, name)));
      expect([l, r, b, t].map((n) => Number(n?.toFixed(6)))).toEqual([-right, -left, low, high].map((n) => Number(n.toFixed(6))));
    }
    expect(there.things.length).toBe(here.things.length);
  });

  test("nearer is never smaller", () => {
    let last = Infinity;
    for (const x of [6, 5, 4, 3, 2, 1]) {
      const spots = spotsOf(named(seen(roomWith({ talker: `(${x} m, 3.2 m)`, camera: "(8.5 m, 3.2 m, 1.9 m)", aim: "(1 m, 3.2 m)", room: "9 m by 6.4 m by 3.1 m" }), "camera", "cam"), "Ines"));
      const [left = 0, right = 0] = bounds(spots);
      expect(right - left).toBeLessThan(last);
      expect(right - left).toBeGreaterThan(0);
      last = right - left;
    }
  });

  test("a wider lens loses nobody", () => {
    const faces = (view: number): number[] => {
      const picture = seen(roomWith({ view, talker: "(1 m, 5.4 m)" }), "camera", "cam");
      const said = picture.facts.find((fact) => fact.startsWith("audience:"))?.match(/(\d+) of (\d+) faces/u);
      const drawn = picture.things.filter(({ kind }) => kind === "person" || kind === "talker").length + picture.leftOut.hidden + picture.leftOut.small;
      return [Number(said?.[1] ?? 0), drawn, picture.cutOff.some(({ words }) => words.startsWith("Ines: out")) ? 0 : 1];
    };
    let last = [0, 0, 0];
    for (const view of [20, 35, 50, 65, 80, 95, 110]) {
      const now = faces(view);
      now.forEach((n, i) => expect(n).toBeGreaterThanOrEqual(last[i] ?? 0));
      last = now;
    }
    expect(last[0]).toBe(12);
    expect(last[2]).toBe(1);
  });

  test("says who is out of the frame, to which side and by how much", () => {
    // By hand: 3 m aside and 4 m ahead is 36.87° off the axis, and half the view is 20°. Toward the front wall, more y is farther right.
    const right = seen(roomWith({ view: 40, talker: "(4 m, 6 m)", camera: "(8 m, 3 m, 1.55 m)", aim: "(1 m, 3 m)" }), "camera", "cam");
    expect(right.cutOff.map(({ words }) => words)).toContain("Ines: out of frame to the right by 17°");
    const behind = seen(roomWith({ talker: "(8.8 m, 3.6 m)", camera: "(6 m, 3.6 m)", aim: "(1 m, 3.6 m)" }), "camera", "cam");
    expect(behind.cutOff.find(({ words }) => words.startsWith("Ines"))).toMatchObject({ side: "behind", words: "Ines: out of frame, behind the camera" });
  });

  test("a room that goes round a corner hides what is round it, and a column what is behind it", () => {
    const corner = "{ corners (0 m, 0 m) (9 m, 0 m) (9 m, 3 m) (4 m, 3 m) (4 m, 8 m) (0 m, 8 m) }";
    const view = { camera: "(8.5 m, 1.5 m, 1.6 m)", aim: "(1 m, 1.5 m)", view: 100 };
    expect(named(seen(roomWith({ ...view, room: corner, talker: "(3.5 m, 7 m)" }), "camera", "cam"), "Ines")?.hidden).toBe(1);
    expect(named(seen(roomWith({ ...view, room: corner, talker: "(2 m, 2 m)" }), "camera", "cam"), "Ines")?.hidden).toBe(0);
    const column = "9 m by 6.4 m by 3.1 m { column at (5 m, 3.2 m), width 0.9 m }";
    const line = { camera: "(8.5 m, 3.2 m, 1.6 m)", aim: "(1 m, 3.2 m)" };
    expect(named(seen(roomWith({ ...line, room: column, talker: "(1 m, 3.2 m)" }), "camera", "cam"), "Ines")?.hidden).toBe(1);
    expect(named(seen(roomWith({ ...line, room: column, talker: "(6.5 m, 3.2 m)" }), "camera", "cam"), "Ines")?.hidden).toBe(0);
  });
});

describe("the view from a seat", () => {
  test("has the number of the finding at the finding's worst seat", () => {
    const text = SCHOOLROOM.replace("text-height 3 %", "text-height 1 %");
    const finding = studyOf(text).findings.find(({ code }) => code === "text-small");
    const worst = /worst (\S+?)[.;,]?(\s|$)/u.exec(finding?.message ?? "")?.[1] ?? "";
    expect(worst).toContain("audience.row-4");
    expect(seen(text, "seat", worst).facts.find((fact) => fact.includes("smallest text"))).toContain(`smallest text is ${withUnit(finding?.measured?.value ?? NaN, "′")},`);
  });

  test("text is drawn as high as its share of the picture", () => {
    const view = seen(SCHOOLROOM, "seat", "audience.row-2.seat-3");
    const display = view.things.find(({ kind }) => kind === "display");
    const [, , low = 0, high = 0] = bounds(display?.surfaces[0]?.ring ?? []);
    const letter = display?.surfaces.find(({ look }) => look === "sign")?.lines.slice(0, 2).flat() ?? [];
    const [, , foot = 0, top = 0] = bounds(letter);
    // 3 %, the picture being seen a little from aside.
    expect((top - foot) / (high - low)).toBeCloseTo(0.03, 2);
    expect((top - foot) / (high - low)).toBeGreaterThan(0.027);
  });

  test("takes a row and a group by the seat in their middle, a talker's place, and says what names there are", () => {
    const study = studyOf(SCHOOLROOM);
    const of = (view: ViewIn, name?: string): string => { const found = study.sees(view, name); return "known" in found ? `known: ${found.known}` : found.of; };
    expect(of("seat", "audience.row-2")).toBe("audience.row-2.seat-3");
    expect(of("seat", "Audience")).toBe("audience.row-4.seat-3");
    expect(of("seat", "ines")).toBe("Ines");
    expect(of("camera", "laptop")).toBe("laptop.camera");
    expect(of("camera", "projector")).toBe("known: its cameras are laptop.camera, stage-camera");
    expect(of("seat", "audience.row-9")).toBe("known: its seats are audience.row-1.seat-1 to audience.row-4.seat-6, its talkers Ines");
    expect(of("seat")).toContain("known: ");
  });
});
