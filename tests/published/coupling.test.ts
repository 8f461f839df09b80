import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Bands } from "../../server/physics/bands";
import { BAND_INDICES, bands, DECISION_BANDS, flat, OCTAVES, travelTime } from "../../server/physics/bands";
import {
  cancelledLoss, coupling, CANCELLER_LOSS, echoLoss, ECHO_WEIGHTS, talkerEchoLoudnessRating,
} from "../../server/physics/coupling";
import {
  cosineOffAxis, distance, between, type Vec3,
} from "../../server/physics/geometry";
import { microphonePattern, PATTERNS, randomEnergyEfficiency, sourcePattern } from "../../server/physics/directivity";
import { absorptionFromTime } from "../../server/physics/reverberation";
import { roomConstant, speechTransfer, transferBands, transferLevels } from "../../server/physics/soundField";
import { acceptableTelr, failingTelr, meanOneWayDelay } from "../../server/physics/talkerEcho";

// A club room, 9.2 × 6.4 × 3.1 m, reverberation 0.8 s in all bands; a talker at the front and a loudspeaker beside.
const VOLUME = 9.2 * 6.4 * 3.1;
const SURFACE = 2 * (9.2 * 6.4 + 9.2 * 3.1 + 6.4 * 3.1);
const ROOM = roomConstant(absorptionFromTime(VOLUME, 0.8), SURFACE);
const TALKER_Q: Bands = [1.2, 1.4, 1.8, 2, 2.5, 3.2, 4];
const BATTERY_LOUDSPEAKER_Q: Bands = [1, 1.3, 1.8, 2.5, 4, 6, 9];
const TWO_WAY_Q: Bands = [1.5, 2, 3.2, 5, 8, 10, 12];
const MOUTH: Vec3 = [1, 3.2, 1.6];
const ALONG_X: Vec3 = [1, 0, 0];
const DEGREE = Math.PI / 180;

/** Transfer from an aimed source to an omnidirectional microphone. */
function toOmni(source: Vec3, aim: Vec3, q: Bands, microphone: Vec3) {
  const cosine = cosineOffAxis(source, aim, microphone);
  return transferBands((k) => ({
    distance: distance(source, microphone), q: q[k], roomConstant: ROOM, sourceGain: sourcePattern(cosine, q[k]),
  }));
}

function toDegrees(cosine: number): number {
  return Math.acos(cosine) / DEGREE;
}

function expectBands(values: Bands, decision: readonly number[]): void {
  const inOrder = values.slice(1, 6);
  decision.forEach((wanted, index) => { expect(Math.abs((inOrder[index] ?? NaN) - wanted)).toBeLessThan(0.02); });
  expect(decision).toHaveLength(5);
}

describe("computed: worked case of a phone as second device in a 9.2 × 6.4 × 3.1 m room", () => {
  const source: Vec3 = [0.6, 4.8, 1.4];
  const phone: Vec3 = [0.5, 1, 1.3];
  const talkerTransfer = speechTransfer(toOmni(MOUTH, ALONG_X, TALKER_Q, phone));
  const g = coupling({
    loudspeakerLevel: 70, talkerLevel: 66, talkerTransfer,
    loudspeakerTransfer: transferLevels(toOmni(source, ALONG_X, BATTERY_LOUDSPEAKER_Q, phone)),
  });
  const round = 0.18 + 0.2 + travelTime(distance(source, phone)) + 0.18;

  test("computed: worked case, room constant 44.33 m²", () => {
    expect(Math.abs(ROOM - 44.33)).toBeLessThan(0.05);
  });
  test("computed: worked case, distances and angles of the phone", () => {
    expect(distance(source, phone)).toBeCloseTo(3.803, 3);
    expect(toDegrees(cosineOffAxis(source, ALONG_X, phone))).toBeCloseTo(91.5, 1);
    expect(distance(MOUTH, phone)).toBeCloseTo(2.276, 3);
    expect(toDegrees(cosineOffAxis(MOUTH, ALONG_X, phone))).toBeCloseTo(102.7, 1);
  });
  test("computed: worked case, talker at the phone −1.49 dB", () => {
    expect(talkerTransfer).toBeCloseTo(-1.49, 2);
  });
  test("computed: worked case, coupling into the phone 250 Hz … 4 kHz", () => {
    expectBands(g, [5.15, 3.72, 2.27, 0.13, -1.7]);
  });
  test("computed: worked case, echo loss of the phone −2.36 dB, TELR 7.6 dB", () => {
    expect(echoLoss(g)).toBeCloseTo(-2.36, 2);
    expect(talkerEchoLoudnessRating(echoLoss(g))).toBeCloseTo(7.6, 1);
  });
  test("computed: worked case, delay T with Bluetooth 285.5 ms", () => {
    expect(meanOneWayDelay(round) * 1000).toBeCloseTo(285.5, 1);
  });
  test("computed: worked case, 54.3 dB needed: short by 46.7 dB, so it fails", () => {
    const needed = acceptableTelr(meanOneWayDelay(round));
    expect(needed).toBeCloseTo(54.3, 1);
    expect(needed - talkerEchoLoudnessRating(echoLoss(g))).toBeCloseTo(46.7, 1);
    expect(talkerEchoLoudnessRating(echoLoss(g))).toBeLessThan(failingTelr(meanOneWayDelay(round)));
  });
});

describe("computed: worked case of a worn microphone wired to the computer that plays", () => {
  const source: Vec3 = [0.6, 4.8, 1.4];
  const lapel: Vec3 = [1, 3.2, 1.4];
  const talkerTransfer = speechTransfer(transferBands((k) => ({ distance: 0.2, q: TALKER_Q[k], roomConstant: ROOM })));
  const g = coupling({
    loudspeakerLevel: 70, talkerLevel: 66, talkerTransfer,
    loudspeakerTransfer: transferLevels(toOmni(source, ALONG_X, BATTERY_LOUDSPEAKER_Q, lapel)),
  });
  const round = 0.36 + travelTime(distance(source, lapel));

  test("computed: worked case, distance and angle of the lapel microphone", () => {
    expect(distance(source, lapel)).toBeCloseTo(1.649, 3);
    expect(toDegrees(cosineOffAxis(source, ALONG_X, lapel))).toBeCloseTo(76.0, 1);
  });
  test("computed: worked case, talker at the lapel microphone 14.09 dB", () => {
    expect(talkerTransfer).toBeCloseTo(14.09, 2);
  });
  test("computed: worked case, coupling into the lapel microphone 250 Hz … 4 kHz", () => {
    expectBands(g, [-9.39, -10.73, -12.12, -14.39, -16.6]);
  });
  test("computed: worked case, echo loss of the lapel microphone 12.11 dB, TELR 22.1 dB", () => {
    expect(echoLoss(g)).toBeCloseTo(12.11, 2);
    expect(talkerEchoLoudnessRating(echoLoss(g))).toBeCloseTo(22.1, 1);
  });
  test("computed: worked case, delay T 182.4 ms, 51.5 dB needed: fails uncancelled, passes behind the computer's canceller", () => {
    const delay = meanOneWayDelay(round);
    expect(delay * 1000).toBeCloseTo(182.4, 1);
    expect(acceptableTelr(delay)).toBeCloseTo(51.5, 1);
    expect(talkerEchoLoudnessRating(echoLoss(g))).toBeLessThan(failingTelr(delay));
    const cancelled = talkerEchoLoudnessRating(cancelledLoss(echoLoss(g)).loss);
    expect(cancelled).toBeCloseTo(56, 1);
    expect(cancelled).toBeGreaterThan(acceptableTelr(delay));
  });
});

describe("computed: worked case of a two-way loudspeaker and a cardioid at 0.30 m", () => {
  const source: Vec3 = [1.6, 0.6, 1.8];
  const microphone: Vec3 = [1.3, 3.2, 1.5];
  const towardTalker: Vec3 = [-1, 0, 0];
  const ree = randomEnergyEfficiency(PATTERNS.cardioid);
  const sourceCosine = cosineOffAxis(source, between(source, [6, 3.2, 1.2]), microphone);
  const microphoneCosine = cosineOffAxis(microphone, towardTalker, source);
  const talkerTransfer = speechTransfer(transferBands((k) => ({ distance: 0.3, q: TALKER_Q[k], roomConstant: ROOM, ree })));
  const g = coupling({
    loudspeakerLevel: 75, talkerLevel: 66, talkerTransfer,
    loudspeakerTransfer: transferLevels(transferBands((k) => ({
      distance: distance(source, microphone), q: TWO_WAY_Q[k], roomConstant: ROOM, ree,
      sourceGain: sourcePattern(sourceCosine, TWO_WAY_Q[k]),
      receiverGain: microphonePattern(microphoneCosine, PATTERNS.cardioid),
    }))),
  });

  test("computed: worked case, distance 2.634 m, angles 65.5° and 96.5°", () => {
    expect(distance(source, microphone)).toBeCloseTo(2.634, 3);
    expect(toDegrees(sourceCosine)).toBeCloseTo(65.5, 1);
    expect(toDegrees(microphoneCosine)).toBeCloseTo(96.5, 1);
  });
  test("computed: worked case, talker 10.54 dB, coupling −8.36 dB at 250 Hz and −12.36 dB at 1 kHz", () => {
    expect(Math.abs(talkerTransfer - 10.54)).toBeLessThan(0.02);
    expect(Math.abs(g[1] + 8.36)).toBeLessThan(0.02);
    expect(Math.abs(g[3] + 12.36)).toBeLessThan(0.02);
  });
});

describe("echo loss", () => {
  test("ITU-T G.122, recalled: the weights are flat over lg f from 300 to 3400 Hz and sum to 1", () => {
    expectBands(ECHO_WEIGHTS, [0.068, 0.285, 0.285, 0.285, 0.076]);
    expect(ECHO_WEIGHTS.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(DECISION_BANDS.map((k) => OCTAVES[k])).toEqual([250, 500, 1000, 2000, 4000]);
    expect([ECHO_WEIGHTS[0], ECHO_WEIGHTS[6]]).toEqual([0, 0]);
  });
  test("ITU-T P.1110 and G.107 defaults: echo loss 46 dB is a TELR of 56 dB", () => {
    expect(talkerEchoLoudnessRating(CANCELLER_LOSS)).toBe(56);
  });
  test("a coupling of the same level in all bands is the echo loss itself", () => {
    expect(echoLoss(flat(-12))).toBeCloseTo(12, 9);
    expect(echoLoss(flat(-Infinity))).toBe(Infinity);
  });
  test("model choice: a canceller holds 46 dB, no less than the coupling, and gives way under −15 dB", () => {
    expect(cancelledLoss(12)).toEqual({ loss: 46, strained: false });
    expect(cancelledLoss(60)).toEqual({ loss: 60, strained: false });
    expect(cancelledLoss(-15)).toEqual({ loss: 46, strained: false });
    expect(cancelledLoss(-25)).toEqual({ loss: 36, strained: true });
  });
});

describe("properties", () => {
  const level = fc.double({ min: -80, max: 80, noNaN: true });
  const bandLevels = fc.array(level, { minLength: 7, maxLength: 7 });
  const asBands = (values: readonly number[]): Bands => bands((k) => values[k] ?? 0);
  test("more coupling in any band never gives more echo loss", () => {
    fc.assert(fc.property(bandLevels, fc.integer({ min: 0, max: 6 }), fc.double({ min: 0, max: 60, noNaN: true }), (g, at, more) => {
      const raised = bands((k) => (g[k] ?? 0) + (k === at ? more : 0));
      expect(echoLoss(raised)).toBeLessThanOrEqual(echoLoss(asBands(g)) + 1e-9);
    }));
  });
  test("echo loss lies within the range of its bands", () => {
    fc.assert(fc.property(bandLevels, (g) => {
      const decided = BAND_INDICES.slice(1, 6).map((k) => -(g[k] ?? 0));
      expect(echoLoss(asBands(g))).toBeGreaterThanOrEqual(Math.min(...decided) - 1e-9);
      expect(echoLoss(asBands(g))).toBeLessThanOrEqual(Math.max(...decided) + 1e-9);
    }));
  });
  test("a decibel more of loudspeaker is a decibel more of coupling; a decibel more of talker one less", () => {
    fc.assert(fc.property(level, level, level, level, (loudspeakerLevel, talkerLevel, talkerTransfer, more) => {
      const at = (s: number, n: number): number =>
        coupling({ loudspeakerLevel: s, talkerLevel: n, talkerTransfer, loudspeakerTransfer: flat(-3) })[2];
      const here = at(loudspeakerLevel, talkerLevel);
      expect(at(loudspeakerLevel + more, talkerLevel)).toBeCloseTo(here + more, 6);
      expect(at(loudspeakerLevel, talkerLevel + more)).toBeCloseTo(here - more, 6);
    }));
  });
  test("a canceller never lowers the echo loss and its loss is monotone", () => {
    fc.assert(fc.property(level, fc.double({ min: 0, max: 60, noNaN: true }), (loss, more) => {
      expect(cancelledLoss(loss).loss).toBeGreaterThanOrEqual(loss - 1e-9);
      expect(cancelledLoss(loss + more).loss).toBeGreaterThanOrEqual(cancelledLoss(loss).loss - 1e-9);
    }));
  });
});
