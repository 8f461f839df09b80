import { describe, expect, test } from "vitest";
import { bands, flat, type Bands } from "../../server/physics/bands";
import { aWeighted, noiseBands } from "../../server/physics/noise";
import { chainModulation, decayOf, MODULATION_FREQUENCIES, MODULATIONS, modulationOf } from "../../server/physics/modulation";
import { speechBands } from "../../server/physics/speech";
import {
  clarityCauses, clarityWord, maskingLevel, NARROW_BAND_LINK, noiseAtMicrophone, speechTransmission, speechTransmissionOf,
  STI_ALPHA, STI_BETA, stiFromBands, stiOf,
} from "../../server/physics/speechTransmission";

const STANDARD = "IEC 60268-16 Ed. 5";
const SILENCE = flat(-Infinity);
const NOTHING = flat(0);
/** A voice loud in every band, so that only what is tested plays a part. */
const VOICE = flat(60);

/** Index of a purely diffuse field, without the ear. */
const diffuse = (time: number, ratio: number): number => stiOf(NOTHING, flat(1), flat(time), VOICE, flat(60 - ratio), { ear: false });

describe("the index and its bands", () => {
  test.each([[0, 0.127], [1, 0.279], [2, 0.398], [3, 0.531], [4, 0.486], [5, 0.302]])(
    `${STANDARD} A.2.2 (as transcribed): only bands %d and the next transfer everything: STI %f`, (lower, sti) => {
      expect(stiFromBands(bands((k) => (k === lower || k === lower + 1 ? 1 : 0)))).toBeCloseTo(sti, 3);
    },
  );
  test.each([
    [0.059351, 0.1], [0.11182, 0.2], [0.20076, 0.3], [0.33386, 0.4], [0.5, 0.5], [0.66614, 0.6], [0.79924, 0.7], [0.88818, 0.8],
    [0.94065, 0.9],
  ])(`${STANDARD} A.3.1.2 (as transcribed): m %f in all bands: STI %f`, (m, sti) => {
    expect(speechTransmissionOf(new Float64Array(98).fill(m)).sti).toBeCloseTo(sti, 4);
  });
  test(`${STANDARD} A.3.1.2 (as transcribed): 0 dB of speech over noise in all bands: STI 0.5`, () => {
    expect(stiOf(flat(1), NOTHING, flat(0), VOICE, VOICE, { ear: false })).toBeCloseTo(0.5, 9);
  });
  test(`${STANDARD}, by its formula: the weights less the redundancies are 1, so that all or nothing is 1 or 0`, () => {
    expect(STI_ALPHA.reduce((sum, a) => sum + a, 0) - STI_BETA.reduce((sum, b) => sum + b, 0)).toBeCloseTo(1, 9);
    expect(stiFromBands(flat(1))).toBeCloseTo(1, 9);
    expect(stiFromBands(NOTHING)).toBe(0);
  });
  test.each([[60, -35], [65, -29.9], [80, -19.8], [100, -10]])(
    `${STANDARD} (as transcribed): a band of %d dB masks the next to %f dB`, (level, masked) => {
      expect(maskingLevel(level)).toBeCloseTo(masked, 9);
    },
  );
  test.each([[0.29, "bad"], [0.3, "poor"], [0.45, "fair"], [0.6, "good"], [0.75, "excellent"], [1, "excellent"]])(
    "ISO 9921 (as transcribed): an index of %f is %s", (sti, word) => {
      expect(clarityWord(sti)).toBe(word);
    },
  );
});

describe("reverberation and noise", () => {
  const rows: [number, number[]][] = [
    [0.4, [0.778, 0.769, 0.741, 0.671, 0.57, 0.439]], [0.6, [0.7, 0.691, 0.666, 0.613, 0.528, 0.408]],
    [0.8, [0.639, 0.629, 0.61, 0.568, 0.493, 0.382]], [1, [0.588, 0.58, 0.565, 0.53, 0.463, 0.358]],
    [2, [0.437, 0.434, 0.427, 0.407, 0.36, 0.274]],
  ];
  test.each(rows)("computed: diffuse field, T %f s, speech over noise ∞ 20 15 10 5 0 dB: STI %j", (time, wanted) => {
    [Infinity, 20, 15, 10, 5, 0].forEach((ratio, at) => {
      expect(Math.abs(diffuse(time, ratio) - (wanted[at] ?? NaN)), `${ratio} dB`).toBeLessThan(0.00051);
    });
  });
  const near: [number, number[]][] = [
    [0.6, [0.939, 0.874, 0.768, 0.712, 0.7]], [1, [0.911, 0.828, 0.691, 0.611, 0.588]], [2, [0.872, 0.765, 0.597, 0.486, 0.437]],
  ];
  test.each(near)("computed: worked case, T %f s at ⅓, ½, 1, 2, ∞ critical distances: STI %j", (time, wanted) => {
    [1 / 3, 1 / 2, 1, 2, Infinity].forEach((r, at) => {
      const sti = stiOf(flat(1 / (r * r)), flat(1), flat(time), VOICE, SILENCE, { ear: false });
      expect(Math.abs(sti - (wanted[at] ?? NaN)), `${r}`).toBeLessThan(0.00051);
    });
  });
  test("Houtgast & Steeneken 1985, by their formula: a diffuse field's m is [1 + (2πFT/13.8)²]^−½", () => {
    const m = modulationOf(NOTHING, flat(1), flat(1.3), VOICE, SILENCE);
    MODULATION_FREQUENCIES.forEach((f, i) => {
      expect(m[3 * MODULATIONS + i]).toBeCloseTo(1 / Math.hypot(1, (2 * Math.PI * f * 1.3) / 13.8), 12);
    });
  });
  test("computed: m of direct and diffuse sound is the complex sum, worked out term by term", () => {
    const m = modulationOf(flat(0.3), flat(0.7), flat(1.1), VOICE, flat(54));
    MODULATION_FREQUENCIES.forEach((f, i) => {
      const x = (2 * Math.PI * f * 1.1) / 13.8;
      const re = 0.3 + 0.7 / (1 + x * x);
      const im = (-0.7 * x) / (1 + x * x);
      expect(m[5 * MODULATIONS + i]).toBeCloseTo(Math.hypot(re, im) / (1 + 10 ** -0.6), 12);
    });
  });
  test("nothing to hear is 0, a perfect path is 1, an endless echo of a reverberant field is 0", () => {
    expect(stiOf(NOTHING, NOTHING, flat(1), VOICE, SILENCE)).toBe(0);
    expect(stiOf(flat(1), NOTHING, flat(1), SILENCE, SILENCE)).toBe(0);
    expect(stiOf(flat(1), NOTHING, flat(0), VOICE, SILENCE, { ear: false })).toBeCloseTo(1, 12);
    expect(stiOf(NOTHING, flat(1), flat(Infinity), VOICE, SILENCE)).toBe(0);
    expect(stiOf(flat(1), flat(Infinity), flat(1), VOICE, SILENCE, { ear: false })).toBeCloseTo(diffuse(1, Infinity), 12);
    expect(() => stiOf(flat(1), NOTHING, flat(-1), VOICE, SILENCE)).toThrow(/reverberation time/);
  });
});

describe("later arrivals", () => {
  const later = (delay: number, level: number): { delay: number; direct: Bands; reverberant: Bands }[] =>
    [{ delay, direct: flat(10 ** (level / 10)), reverberant: NOTHING }];
  test("computed: one echo of equal level at t seconds leaves |cos πFt| of each modulation", () => {
    const m = modulationOf(flat(1), NOTHING, flat(0), VOICE, SILENCE, later(0.1, 0));
    MODULATION_FREQUENCIES.forEach((f, i) => { expect(m[i]).toBeCloseTo(Math.abs(Math.cos(Math.PI * f * 0.1)), 12); });
  });
  test("computed: an arrival without delay is the same sound, louder", () => {
    const together = stiOf(flat(0.5), flat(0.2), flat(1), VOICE, SILENCE, {
      ear: false, later: [{ delay: 0, direct: flat(0.5), reverberant: flat(0.2) }],
    });
    expect(together).toBeCloseTo(stiOf(flat(1), flat(0.4), flat(1), VOICE, SILENCE, { ear: false }), 12);
  });
  test("computed: an echo at 100 ms and −3 dB harms more than one at 10 ms, and one at −20 dB hardly", () => {
    const at = (delay: number, level: number): number =>
      stiOf(flat(1), flat(0.2), flat(0.8), speechBands(66), noiseBands(40), { later: later(delay, level) });
    const clean = stiOf(flat(1), flat(0.2), flat(0.8), speechBands(66), noiseBands(40));
    expect(at(0.1, -3)).toBeLessThan(at(0.01, -3) - 0.1);
    expect(Math.abs(at(0.1, -20) - clean)).toBeLessThan(0.03);
  });
  test("many later arrivals are taken up as well as few, and each call by itself", () => {
    const twenty = Array.from({ length: 20 }, (_, a) => ({ delay: 0.01 * a, direct: flat(0.1), reverberant: flat(0.05) }));
    const first = stiOf(flat(1), flat(0.3), flat(1), VOICE, SILENCE, { later: twenty });
    stiOf(flat(1), flat(0.3), flat(2), VOICE, SILENCE, { later: later(0.3, 0) });
    expect(stiOf(flat(1), flat(0.3), decayOf(flat(1)), VOICE, SILENCE, { later: twenty })).toBe(first);
    expect(() => stiOf(flat(1), NOTHING, flat(1), VOICE, SILENCE, { later: later(-0.1, 0) })).toThrow(/delay/);
  });
});

describe("chains, links and the ear", () => {
  test("computed: two stages multiply their modulations", () => {
    const one = modulationOf(flat(1), flat(1), flat(0.8), VOICE, flat(45));
    const two = modulationOf(flat(1), flat(2), flat(1.2), VOICE, flat(40));
    const both = chainModulation(one, two);
    both.forEach((m, i) => { expect(m).toBeCloseTo((one[i] ?? NaN) * (two[i] ?? NaN), 14); });
    expect(stiOf(flat(1), flat(2), flat(1.2), VOICE, flat(40), { before: one, ear: false })).toBeCloseTo(speechTransmissionOf(both).sti, 12);
    expect(chainModulation().every((m) => m === 1)).toBe(true);
  });
  test("computed: a narrow-band link weights the bands 0, 0.3, 1, 1, 1, 0.3, 0: an else perfect path comes to 0.63", () => {
    const sti = stiOf(flat(1), NOTHING, flat(0), VOICE, SILENCE, { link: NARROW_BAND_LINK, ear: false });
    const wanted = 0.127 * 0.3 + 0.23 + 0.233 + 0.309 + 0.224 * 0.3 - 0.078 * Math.sqrt(0.3) - 0.065 - 0.011 - 0.047 * Math.sqrt(0.3);
    expect(sti).toBeCloseTo(wanted, 9);
    expect(speechTransmission(flat(1), NOTHING, flat(0), VOICE, SILENCE, { link: NARROW_BAND_LINK, ear: false }).mti[0]).toBe(0);
  });
  test("computed: masking and threshold matter little at a meeting's levels, much for a whisper", () => {
    const at = (level: number, ear: boolean): number => stiOf(flat(1), flat(0.5), flat(0.8), speechBands(level), SILENCE, { ear });
    expect(at(65, false) - at(65, true)).toBeLessThan(0.02);
    expect(at(65, false) - at(65, true)).toBeGreaterThan(0);
    expect(at(15, false) - at(15, true)).toBeGreaterThan(0.3);
  });
  test("computed: masking as powers is masking in decibels, at every slope", () => {
    for (const level of [40, 62.9, 63.1, 65, 66.9, 67.1, 80, 99.9, 101]) {
      // 125 Hz alone is loud; 250 Hz carries a speech of 0 dB more than what is masked in it and no noise.
      const masked = level + maskingLevel(level);
      const speech = bands((k) => (k === 0 ? level : k === 1 ? masked : -Infinity));
      const { mti } = speechTransmission(flat(1), NOTHING, flat(0), speech, SILENCE);
      const share = 10 ** (masked / 10) / (2 * 10 ** (masked / 10) + 10 ** 2.7);
      expect(mti[1], `${level} dB`).toBeCloseTo((Math.min(15, Math.max(-15, 10 * Math.log10(share / (1 - share)))) + 15) / 30, 9);
    }
  });
  test("computed: played at 65 dBA, how loud the microphone was no longer matters, speech over noise does", () => {
    const at = (shift: number): number =>
      stiOf(flat(1), flat(0.5), flat(0.8), speechBands(60 + shift), noiseBands(45 + shift), { playedAt: 65 });
    expect(at(-30)).toBeCloseTo(at(0), 12);
    expect(stiOf(flat(1), NOTHING, flat(0.8), speechBands(30), noiseBands(20), { playedAt: 65 }))
      .toBeCloseTo(stiOf(flat(1), NOTHING, flat(0.8), speechBands(65), noiseBands(55)), 9);
  });
  test("computed: two open microphones add 3 dB of noise, a cardioid takes 4.8 dB away", () => {
    expect(aWeighted(noiseAtMicrophone(noiseBands(40), 1, 2))).toBeCloseTo(43.01, 2);
    expect(aWeighted(noiseAtMicrophone(noiseBands(40), 1 / 3))).toBeCloseTo(35.23, 2);
  });
  test("computed: the cause of a poor index is told by taking one away at a time", () => {
    const causes = clarityCauses(flat(0.02), flat(0.2), flat(2.2), speechBands(66), noiseBands(35));
    expect(causes.withoutReverberation - causes.sti).toBeGreaterThan(0.2);
    expect(causes.withoutNoise - causes.sti).toBeLessThan(0.05);
    expect(causes.withoutLaterArrivals).toBe(causes.sti);
  });
});
