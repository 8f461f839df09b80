import { describe, expect, test } from "vitest";
import { neededGain, potentialGain, STABILITY_MARGIN } from "../../server/physics/acousticGain";
import { lateArrival, lipSync, sumOfLevels } from "../../server/physics/arrivals";
import { articulationLimit, articulationLoss, stiFromArticulationLoss } from "../../server/physics/articulation";
import { flat } from "../../server/physics/bands";
import { dose, permittedLevel, permittedTime } from "../../server/physics/exposure";
import { directFieldDistance, microphoneSeparation, openMicrophoneRise, wellSpaced } from "../../server/physics/openMicrophones";

const HANDBOOK = "common practice, no source (handbook of sound system design)";
const LECTURE = "common practice, no source (course on feedback, as transcribed)";
const HOUR = 3600;
const gain = (talkerToListener: number, talkerToMicrophone: number, microphoneToLoudspeaker: number, loudspeakerToListener: number, margin: number): number =>
  potentialGain({ talkerToListener, talkerToMicrophone, microphoneToLoudspeaker, loudspeakerToListener }, 1, margin);

describe("acoustic gain", () => {
  test(`${HANDBOOK}: D₀ 7, Dₛ 1, D₁ 4, D₂ 6 m, margin 6 dB: potential gain 7.5 dB, printed from rounded steps`, () => {
    expect(Math.abs(gain(7, 1, 4, 6, STABILITY_MARGIN) - 7.5)).toBeLessThan(0.15);
  });
  test(`${HANDBOOK}: D₀ 7 m, equivalent distance 3 m: needed gain 7.5 dB, printed from rounded steps`, () => {
    expect(Math.abs(neededGain(7, 3) - 7.5)).toBeLessThan(0.15);
  });
  test.each([[9, 20, 0, 20], [11, 19, 0, 22], [11, 19, 6, 16]])(
    `${LECTURE}: D₀ 22, Dₛ 1, D₁ %d, D₂ %d ft, margin %d dB: potential gain %d dB`, (d1, d2, margin, printed) => {
      expect(Math.round(gain(22, 1, d1, d2, margin))).toBe(printed);
    },
  );
  test(`${LECTURE}: 70 dB at 2 ft are 49 dB at 22 ft: needed gain 21 dB`, () => {
    expect(Math.round(neededGain(22, 2))).toBe(21);
    expect(Math.round(70 - neededGain(22, 2))).toBe(49);
  });
  test("computed: D₀ 128 ft, equivalent distance 4 ft: needed gain 30.1 dB", () => {
    expect(neededGain(128, 4)).toBeCloseTo(30.1, 1);
  });
  test("common practice, no source (handbook for sound engineers): each doubling of open microphones costs 3 dB", () => {
    expect(openMicrophoneRise(1)).toBe(0);
    expect(openMicrophoneRise(2)).toBeCloseTo(3, 1);
    expect(openMicrophoneRise(4)).toBeCloseTo(6, 1);
    expect(() => openMicrophoneRise(0.5)).toThrow(/open microphones/);
  });
  test("computed: microphones spaced 3:1 are 9.5 dB apart", () => {
    expect(microphoneSeparation(0.5, 1.5)).toBeCloseTo(9.54, 2);
    expect(wellSpaced(0.5, 1.5)).toBe(true);
    expect(wellSpaced(0.5, 1.4)).toBe(false);
  });
  test(`${HANDBOOK}: up to a third of the critical distance counts as the direct field`, () => {
    expect(directFieldDistance(1.5)).toBeCloseTo(0.5, 12);
    expect(directFieldDistance(1.5, Math.sqrt(3))).toBeCloseTo(0.866, 3);
  });
  test("a distance of nothing is refused by name", () => {
    expect(() => gain(7, 0, 4, 6, 6)).toThrow(/talker to microphone/);
    expect(() => neededGain(7, 0)).toThrow(/equivalent acoustic distance/);
  });
});

describe("articulation loss", () => {
  test("Peutz 1971 (as transcribed): r 5 m, V 1000 m³, T 1 s, Q 1: 5 %, the limit 5.70 m", () => {
    expect(articulationLoss(5, 1, 1000, 1)).toBeCloseTo(5, 9);
    expect(articulationLimit(1, 1000, 1)).toBeCloseTo(5.7, 2);
  });
  test("Peutz 1971 (as transcribed): beyond the limit 9·T", () => {
    expect(articulationLoss(6, 1.2, 1000, 1)).toBeCloseTo(10.8, 9);
  });
  test("common practice, no source: STI = 0.9482 − 0.1845·ln ALcons", () => {
    expect(stiFromArticulationLoss(1)).toBeCloseTo(0.9482, 9);
    expect(stiFromArticulationLoss(10)).toBeCloseTo(0.5234, 4);
    expect(() => stiFromArticulationLoss(0)).toThrow(/articulation/);
  });
});

describe("arrivals", () => {
  const at = (time: number, level: number): { time: number; level: number } => ({ time, level });
  test("common practice, no source: 50 ms apart and within 10 dB are heard as two", () => {
    expect(lateArrival([at(0, 60), at(0.05, 50)])).toEqual({ first: 0, later: 1, gap: 0.05, below: 10 });
    expect(lateArrival([at(0, 60), at(0.049, 60)])).toBeUndefined();
    expect(lateArrival([at(0, 60), at(0.2, 49.9)])).toBeUndefined();
  });
  test("computed: the widest gap is told, in any order; a faint early one is not heard apart", () => {
    expect(lateArrival([at(0.2, 58), at(0.01, 60), at(0.08, 61)])).toMatchObject({ first: 1, later: 0, below: 2 });
    expect(lateArrival([at(0, 30), at(0.2, 60)])).toBeUndefined();
    expect(lateArrival([at(0, 60)])).toBeUndefined();
  });
  test("computed: two equal loudspeakers are 3 dB louder in every band", () => {
    for (const level of sumOfLevels([flat(60), flat(60)])) expect(level).toBeCloseTo(63.0103, 4);
    expect(sumOfLevels([])).toEqual(flat(-Infinity));
  });
  test.each([
    [0, 0.045, "together"], [0, 0.046, "noticed"], [0.125, 0, "together"], [0.126, 0, "noticed"],
    [0, 0.09, "noticed"], [0, 0.091, "unacceptable"], [0.185, 0, "noticed"], [0.186, 0, "unacceptable"],
  ] as const)("ITU-R BT.1359 (by two secondary sources): sound after %f s, picture after %f s: %s", (sound, picture, taken) => {
    expect(lipSync(sound, picture)).toBe(taken);
  });
});

describe("exposure", () => {
  test("NIOSH 1998: 85 dBA for 8 h is a whole dose, 3 dB more for half of that", () => {
    expect(dose([{ level: 85, time: 8 * HOUR }])).toBeCloseTo(1, 12);
    expect(dose([{ level: 88, time: 4 * HOUR }])).toBeCloseTo(1, 12);
  });
  test.each([[88, 4], [91, 2], [94, 1], [97, 0.5], [100, 0.25]])("NIOSH 1998, table of times, recalled: %d dBA for %f h", (level, hours) => {
    expect(permittedTime(level) / HOUR).toBeCloseTo(hours, 9);
    expect(permittedLevel(hours * HOUR)).toBeCloseTo(level, 9);
  });
  test("computed: doses of one evening add up; silence adds nothing", () => {
    expect(dose([{ level: 85, time: 2 * HOUR }, { level: 94, time: HOUR / 2 }, { level: -Infinity, time: HOUR }])).toBeCloseTo(0.75, 12);
    expect(() => dose([{ level: 85, time: -1 }])).toThrow(/exposure/);
  });
});
