import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CONTRAST, displayContrast, fluxForContrast, liftOf, projectedContrast } from "../../server/physics/contrast";
import { upright } from "../../server/physics/hidden";
import { capitalOnSlide, frontRowWidth } from "../../server/physics/imageSize";
import { FOOT_LAMBERT, keystone, luminanceOf, skewOf, thrownLight, thrownWidth, throwRatio } from "../../server/physics/projection";

const FOOT = 0.3048;

describe("throw", () => {
  test("a lens maker's note: 3 m for a picture of 2 m are 1.5; 1.25 × 2.03 m are 2.54 m; 4.5 m at 1.5 throw 3 m", () => {
    expect(throwRatio(3, 2)).toBeCloseTo(1.5, 9);
    expect(throwRatio(2.54, 2.03)).toBeCloseTo(1.25, 2);
    expect(thrownWidth(4.5, 1.5)).toBeCloseTo(3, 9);
  });
  test("a lens maker's note: at 4 m, 1.5 throws 2.67 m, some 121 inches from corner to corner at 16:9", () => {
    // The note rounds up; exact is 120.5.
    const width = thrownWidth(4, 1.5);
    expect(width).toBeCloseTo(2.67, 2);
    expect(Math.abs((width * Math.hypot(16, 9)) / 16 / 0.0254 - 121)).toBeLessThan(1);
  });
  test("elementary geometry: square on nothing is out of square; the more tilted and the wider, the more it is", () => {
    expect(keystone(0, 0.3)).toBe(1);
    // Two rays that leave 15° above and below an axis tilted by 20° meet the surface at distances cos 5° to cos 35°.
    expect(keystone(20 * (Math.PI / 180), 15 * (Math.PI / 180))).toBeCloseTo(Math.cos(5 * (Math.PI / 180)) / Math.cos(35 * (Math.PI / 180)), 9);
    expect(keystone(Math.PI / 2, 0.1)).toBe(Infinity);
  });
});

describe("brightness", () => {
  test("a screen maker's worked example: 1000 lm on a picture six feet wide at 16:9 are 49.4 fL at gain 1", () => {
    const area = 6 * FOOT * ((6 * FOOT * 9) / 16);
    expect(luminanceOf(thrownLight(1000, area), 1) / FOOT_LAMBERT).toBeCloseTo(49.4, 1);
  });
  test("a cinema's worked example: 40 000 lm over 23 m at 2.35:1 are 16.5 fL", () => {
    expect(luminanceOf(thrownLight(40_000, (23 * 23) / 2.35), 1) / FOOT_LAMBERT).toBeCloseTo(16.5, 1);
  });
  test("a foot-lambert is 3.426 cd/m²", () => expect(FOOT_LAMBERT).toBeCloseTo(3.426, 3));
});

describe("contrast", () => {
  test("ANSI/InfoComm 3M-2011, in a secondary source: the four classes", () => {
    expect(CONTRAST).toEqual({ passive: 7, basicDecisions: 15, analyticalDecisions: 50, motion: 80 });
  });
  test("computed: 756 lx over 80 lx are 10.45, as the planning form has it 9.45", () => {
    expect(projectedContrast(756, 80)).toBeCloseTo(10.45, 2);
    expect(fluxForContrast(9.45, 80, 1, {}, "planning")).toBeCloseTo(756, 9);
    expect(fluxForContrast(10.45, 80, 1)).toBeCloseTo(756, 9);
  });
  test("the flux that a contrast needs gives that contrast, whatever the room", () => {
    const positive = fc.double({ min: 0.1, max: 1000, noNaN: true });
    fc.assert(fc.property(fc.double({ min: 1, max: 200, noNaN: true }), positive, positive, (wanted, ambient, area) => {
      const life = 0.75;
      expect(projectedContrast(thrownLight(fluxForContrast(wanted, ambient, area, { life }) * life, area), ambient) / wanted).toBeCloseTo(1, 6);
      expect(fluxForContrast(wanted, ambient, area, {}, "planning")).toBeGreaterThan(fluxForContrast(wanted, ambient, area));
    }));
  });
  test("an encyclopaedia's example: a panel of 1 000 000:1 has about 350 at 100 lx and 120 at 300 lx", () => {
    // The example states neither white nor reflectance; one pair of both gives either figure.
    const [white, reflectance] = [350, 0.0314];
    expect(displayContrast(white, white / 1e6, 100, reflectance) / 350).toBeCloseTo(1, 1);
    expect(displayContrast(white, white / 1e6, 300, reflectance) / 120).toBeCloseTo(1, 1);
  });
  test("brighter light in the room never gives more contrast", () => {
    const lux = fc.double({ min: 0, max: 5000, noNaN: true });
    fc.assert(fc.property(lux, lux, (a, b) => {
      const [dim, bright] = a < b ? [a, b] : [b, a];
      expect(projectedContrast(800, bright, 2000)).toBeLessThanOrEqual(projectedContrast(800, dim, 2000));
      expect(displayContrast(300, 0.3, bright, 0.02)).toBeLessThanOrEqual(displayContrast(300, 0.3, dim, 0.02));
    }));
  });
  test("what cannot be is refused", () => {
    expect(() => projectedContrast(1, 1, 1)).toThrow(/native/);
    expect(() => fluxForContrast(0.5, 1, 1)).toThrow(/contrast/);
    expect(() => thrownLight(1, 0)).toThrow(/area/);
  });
});

describe("letters and rows", () => {
  test("computed: capitals of 18 points on a slide of 540 are 2.3 %", () => expect(capitalOnSlide(18)).toBeCloseTo(0.0233, 4));
  test("ANSI/AVIXA V202.01:2016, in a secondary source: at the end of the front row one looks 60° off at the far edge", () => {
    const [height, offset, width] = [1.5, 0.3, 2.67];
    const half = frontRowWidth(height, offset, width) / 2;
    // From there to the farther edge of the picture, at the closest viewer's distance.
    expect((Math.atan((half + width / 2) / (1.732 * (height + offset))) * 180) / Math.PI).toBeCloseTo(60, 1);
    expect(frontRowWidth(1, -1, 2)).toBe(0);
  });
});

describe("from where a projector throws", () => {
  const wall = upright([0, 3, 2], [1, 0, 0], 2.4, 1.35);
  const degrees = (rad: number): number => (rad * 180) / Math.PI;
  test("elementary geometry: level between the edges of the picture; below and above them by the angle to the nearer edge", () => {
    for (const z of [1.325, 2, 2.675]) expect(skewOf([3, 3, z], wall)).toMatchObject({ tilt: 0, turn: 0 });
    // Three metres away and three below the lower edge: 45°.
    expect(degrees(skewOf([3, 3, 1.325 - 3], wall).tilt)).toBeCloseTo(45, 9);
    expect(degrees(skewOf([3, 3, 2.675 + 3], wall).tilt)).toBeCloseTo(-45, 9);
    expect(degrees(skewOf([3, 3 + 3, 2], wall).turn)).toBeCloseTo(45, 9);
  });
  test("mirrored, it has to be turned as much; farther away less", () => {
    const metre = fc.double({ min: 0.3, max: 9, noNaN: true });
    fc.assert(fc.property(metre, metre, metre, (x, side, z) => {
      expect(skewOf([x, 3 + side, z], wall).turn).toBeCloseTo(skewOf([x, 3 - side, z], wall).turn, 9);
      const [near, far] = [skewOf([x, 3 + side, z], wall), skewOf([x * 2, 3 + side, z], wall)];
      expect(far.turn).toBeLessThan(near.turn);
      expect(Math.abs(far.tilt)).toBeLessThanOrEqual(Math.abs(near.tilt));
    }));
  });
  test("a screen of gain 1.3 lifts the picture above the light of the room by as much, a grey one not at all", () => {
    // The planning form, AETM design guidelines after ANSI/InfoComm 3M-2011, divides the flux by the gain.
    expect(fluxForContrast(15, 80, 3, { gain: 1.3 })).toBeCloseTo(fluxForContrast(15, 80, 3) / liftOf(1.3), 9);
    expect(liftOf(0.8)).toBe(1);
  });
});
