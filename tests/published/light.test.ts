import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cylindricalIlluminance, exposureValue, flickerLeft, illuminance, speedNeeded } from "../../server/physics/light";
import { heightOverHeads, riseFor, sightClearance } from "../../server/physics/sightLines";

describe("light", () => {
  test("inverse square and cosine: 1000 cd from 2 m give 250 lx square on, half of that at 60°, nothing from behind", () => {
    expect(illuminance(1000, [0, 0, 2], [0, 0, 0], [0, 0, 1])).toBeCloseTo(250, 9);
    expect(illuminance(1000, [0, 0, 2], [0, 0, 0], [Math.sin(Math.PI / 3), 0, Math.cos(Math.PI / 3)])).toBeCloseTo(125, 9);
    expect(illuminance(1000, [0, 0, 2], [0, 0, 0], [0, 0, -1])).toBe(0);
  });
  test("a cylinder gets the mean of what upright faces get that turn all the way round", () => {
    fc.assert(fc.property(fc.double({ min: 0.5, max: 5, noNaN: true }), fc.double({ min: 0.2, max: 3, noNaN: true }), (away, above) => {
      const turns = 720;
      let sum = 0;
      for (let i = 0; i < turns; i += 1) sum += illuminance(500, [away, 0, above], [0, 0, 0], [Math.cos((2 * Math.PI * i) / turns), Math.sin((2 * Math.PI * i) / turns), 0]);
      expect(sum / turns / cylindricalIlluminance(500, [away, 0, above], [0, 0, 0])).toBeCloseTo(1, 3);
    }));
  });
});

describe("exposure", () => {
  test("documentation of a colour library, after ISO 2720: 2.5 lx at speed 100 are EV 0", () => expect(exposureValue(2.5, 100)).toBeCloseTo(0, 9));
  test.each([[500, 2.8, 1 / 50, 196], [300, 2, 1 / 60, 200]])("computed: %f lx, f/%f, %f s need speed %d", (lux, aperture, time, speed) => {
    expect(speedNeeded(lux, aperture, time)).toBeCloseTo(speed, 0);
  });
  test("recalled: exposures of whole half-periods of the mains take the flicker out, others do not", () => {
    for (const [time, mains] of [[1 / 100, 50], [1 / 50, 50], [1 / 25, 50], [1 / 120, 60], [1 / 60, 60], [1 / 30, 60]] as const) expect(flickerLeft(time, mains)).toBeLessThan(1e-9);
    expect(flickerLeft(1 / 60, 50)).toBeGreaterThan(0.1);
    expect(flickerLeft(1 / 1000, 50)).toBeGreaterThan(0.9);
    expect(flickerLeft(0, 50)).toBe(1);
  });
});

describe("sight lines", () => {
  test("Shepherd 2012: N = (R + C)·(D + T)/D − R, the inverse of C = D·(N + R)/(D + T) − R", () => {
    // The worksheet's question: 30 m away, 10 m up, rows of 1 m, 15 cm of clearance.
    expect(riseFor(30, 1, 0.15, 10)).toBeCloseTo((10.15 * 31) / 30 - 10, 9);
    const metre = fc.double({ min: 0.3, max: 60, noNaN: true });
    fc.assert(fc.property(metre, metre, fc.double({ min: -2, max: 12, noNaN: true }), fc.double({ min: 0, max: 0.3, noNaN: true }), (d, t, r, c) => {
      expect(sightClearance(d, t, riseFor(d, t, c, r), r)).toBeCloseTo(c, 6);
    }));
  });
  test("computed: level floor, D 4 m, T 0.9 m, the picture 0.2 m above the eyes: 37 mm; 120 mm need 0.65 m", () => {
    expect(sightClearance(4, 0.9, 0, -0.2) * 1000).toBeCloseTo(37, 0);
    expect(heightOverHeads(4, 0.9, 0.12)).toBeCloseTo(0.65, 2);
    expect(sightClearance(4, 0.9, 0, -heightOverHeads(4, 0.9, 0.12))).toBeCloseTo(0.12, 9);
  });
});
