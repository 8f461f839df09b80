import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { averageDaylightFactor, configurationFactor, daylightOnTables, declination, equationOfTime, passesThrough, skylight, sunAt, sunlight, thrownAbout } from "../../server/physics/daylight";
import { upright } from "../../server/physics/hidden";

const rad = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (r: number): number => (r * 180) / Math.PI;

describe("where the sun stands", () => {
  test("a textbook's worked example (Kalogirou 2009, solar angles): 15 June, 40° north, two hours after noon: δ 23.35°, altitude 59.75°, azimuth by its sine 0.911", () => {
    const day = 167;
    expect(degrees(declination(day))).toBeCloseTo(23.35, 1);
    const sun = sunAt(rad(40), day, 14);
    expect(degrees(sun.altitude)).toBeCloseTo(59.75, 0);
    // West of south.
    expect(Math.abs(Math.sin(sun.bearing - Math.PI) - 0.911)).toBeLessThan(0.005);
    // The same example: it sets at 7:24 solar time.
    expect(Math.abs(degrees(sunAt(rad(40), day, 12 + 7.4).altitude))).toBeLessThan(0.5);
  });
  test("ASHRAE Fundamentals, solar position at 40° north (recalled): 21 December 9 h 14.0° and 41.9° east of south, 12 h 26.6°; 21 June 8 h 37.4°, 12 h 73.5°", () => {
    const december = (hour: number) => sunAt(rad(40), 355, hour);
    expect(degrees(december(9).altitude)).toBeCloseTo(14, 0);
    expect(180 - degrees(december(9).bearing)).toBeCloseTo(41.9, 0);
    expect(degrees(december(12).altitude)).toBeCloseTo(26.6, 0);
    expect(degrees(sunAt(rad(40), 172, 8).altitude)).toBeCloseTo(37.4, 0);
    expect(degrees(sunAt(rad(40), 172, 12).altitude)).toBeCloseTo(73.5, 0);
  });
  test("recalled: a sundial is some 16 minutes fast at the beginning of November and some 14 slow in the middle of February", () => {
    expect(equationOfTime(307) * 60).toBeGreaterThan(15);
    expect(equationOfTime(307) * 60).toBeLessThan(17.5);
    expect(equationOfTime(43) * 60).toBeLessThan(-13);
    expect(equationOfTime(43) * 60).toBeGreaterThan(-15.5);
  });
  test("south of the equator half a year on everything is mirrored", () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 65, noNaN: true }), fc.double({ min: 0, max: 24, noNaN: true }), (latitude, hour) => {
      // At equal and opposite declinations.
      const [north, south] = [sunAt(rad(latitude), 172, hour), sunAt(rad(-latitude), 355, hour)];
      expect(Math.abs(degrees(north.altitude - south.altitude))).toBeLessThan(0.3);
    }));
  });
});

describe("light of sun and sky", () => {
  test("a lighting engineer's published sum with the IESNA equations: clear noon of the summer solstice at 40° north, 8821 foot-candles from the sun on level ground", () => {
    const { altitude } = sunAt(rad(40), 172, 12);
    const footCandles = (sunlight(altitude, 172, "clear") * Math.sin(altitude)) / 10.764;
    expect(Math.abs(footCandles / 8821 - 1)).toBeLessThan(0.005);
  });
  test("IESNA (recalled): the sky alone at 30° gives 10.8 klx overcast, 22.8 partly cloudy, 11.8 clear; after twilight nothing", () => {
    expect(skylight(rad(30), "cloudy")).toBeCloseTo(10_800, 0);
    expect(skylight(rad(30), "partly")).toBeCloseTo(22_800, 0);
    expect(Math.abs(skylight(rad(30), "clear") - 11_760)).toBeLessThan(10);
    for (const sky of ["cloudy", "partly", "clear"] as const) {
      expect(skylight(rad(-7), sky)).toBe(0);
      expect(sunlight(rad(-1), 100, sky)).toBe(0);
      // No step at sunset.
      expect(Math.abs(skylight(rad(-0.001), sky) - skylight(0, sky))).toBeLessThan(1);
    }
    expect(sunlight(rad(50), 100, "cloudy")).toBe(0);
  });
});

describe("daylight indoors", () => {
  test("Crisp and Littlefair 1984: T·W·θ·M/(A(1 − R²)), worked by hand: 0.65, 6 m², 65°, 200 m², R 0.5 are 1.69 %", () => {
    expect(averageDaylightFactor(0.65, 6, 65, 200, 0.5)).toBeCloseTo(1.69, 2);
    // With θ/200 of the ground's light on the wall the other form says the same.
    expect(daylightOnTables(0.65 * 6, 10_000 * (65 / 200), 200, 0.5)).toBeCloseTo(169, 9);
  });
  test("handbooks of heat transfer: a small surface before a rectangle in parallel; one that fills all it sees is 1", () => {
    // Handbooks of heat transfer: a small element before the corner of a rectangle a by b at distance c, X = a/c, Y = b/c:
    // F = (1/2π)·(X/√(1 + X²)·atan(Y/√(1 + X²)) + Y/√(1 + Y²)·atan(X/√(1 + Y²))). Before the middle, four of them.
    const [x, y] = [0.6 / 2, 0.4 / 2];
    const corner = (1 / (2 * Math.PI)) * ((x / Math.hypot(1, x)) * Math.atan(y / Math.hypot(1, x)) + (y / Math.hypot(1, y)) * Math.atan(x / Math.hypot(1, y)));
    expect(configurationFactor([2, 0, 1], [-1, 0, 0], upright([0, 0, 1], [1, 0, 0], 1.2, 0.8), 24, 24)).toBeCloseTo(4 * corner, 4);
    expect(configurationFactor([1, 0, 0], [-1, 0, 0], upright([0, 0, 0], [1, 0, 0], 40, 40), 400, 400)).toBeCloseTo(1, 2);
    // Behind the surface nothing is seen.
    expect(configurationFactor([2, 0, 1], [1, 0, 0], upright([0, 0, 1], [1, 0, 0], 1.2, 0.8))).toBe(0);
  });
  test("a ray through the middle passes, one past the edge does not, nor one that leads away", () => {
    const pane = upright([0, 0, 1], [1, 0, 0], 1, 1);
    expect(passesThrough([3, 0, 1], [-1, 0, 0], pane)).toBe(true);
    expect(passesThrough([3, 0.6, 1], [-1, 0, 0], pane)).toBe(false);
    expect(passesThrough([3, 0, 1], [1, 0, 0], pane)).toBe(false);
  });
  test("what is thrown about grows without end as walls grow white, and is nothing in a black room", () => {
    expect(thrownAbout(1000, 200, 0)).toBe(0);
    expect(thrownAbout(1000, 200, 0.5)).toBeCloseTo(5, 9);
    expect(() => thrownAbout(1000, 200, 1)).toThrow(/reflectance/);
  });
});
