/** Speech: how loud people talk, and how their voice is spread over the bands. */
import type { Bands } from "./bands";
import { A_WEIGHTING, BAND_INDICES, bands } from "./bands";
import { powerSum, toPower } from "./decibel";

/** Level of speech at 1 m before the lips, dBA, by vocal effort. Source: ISO 9921 (read in a transcription). */
export const VOCAL_EFFORT = {
  "relaxed": 54,
  "normal": 60,
  "raised": 66,
  "loud": 72,
  "very-loud": 78,
} as const;

/** Name of a vocal effort. */
export type VocalEffort = keyof typeof VOCAL_EFFORT;

/** Noise above which people raise their voice, dBA (ISO 9921; Lazarus, recalled). */
export const LOMBARD_THRESHOLD = 45;

/** Rise of the voice for each dB of noise above that, dB/dB (published range 0.3–0.6). */
export const LOMBARD_SLOPE = 0.5;

/** Level to which noise alone drives a talker who addresses a meeting, dBA (model choice: loud). */
export const LOMBARD_CEILING = VOCAL_EFFORT.loud;

/** Relative octave levels of male speech, dB re 500 Hz. Source: IEC 60268-16 Ed. 5, male spectrum (read in a transcription). */
export const SPEECH_SPECTRUM: Bands = [-2.5, 0.5, 0, -6, -12, -18, -24];

/** A-weighted level of that spectrum, dB re its 500 Hz octave. */
const SPECTRUM_LEVEL_A = powerSum(BAND_INDICES.map((k) => SPEECH_SPECTRUM[k] + A_WEIGHTING[k]));

/**
 * Share aₖ of each band in the A-weighted power of speech; they sum to 1.
 *
 * Computed from the IEC 60268-16 Ed. 5 male spectrum and the A-weighting: 0.014 0.154 0.476 0.250 0.083 0.020 0.003.
 */
export const SPEECH_SHARES: Bands = bands((k) => toPower(SPEECH_SPECTRUM[k] + A_WEIGHTING[k] - SPECTRUM_LEVEL_A));

/**
 * Octave levels of speech of a given A-weighted level.
 *
 * @param level L, dBA
 * @returns Lₖ, dB, whose A-weighted sum is L. Source of the shape: IEC 60268-16 Ed. 5, male
 */
export function speechBands(level: number): Bands {
  return bands((k) => level + SPEECH_SPECTRUM[k] - SPECTRUM_LEVEL_A);
}

/**
 * Level of a talker in noise (Lombard effect), L = L₀ + 0.5·max(0, N − 45), driven no further than 72 dBA by noise alone.
 *
 * @param quiet L₀, level at 1 m in quiet, dBA; one above 72 stays as it is
 * @param noise N at the talker, dBA
 * @returns level at 1 m, dBA. Source: ISO 9921; slope within Lazarus's 0.3–0.6
 */
export function levelInNoise(quiet: number, noise: number): number {
  const raised = quiet + LOMBARD_SLOPE * Math.max(0, noise - LOMBARD_THRESHOLD);
  return Math.max(quiet, Math.min(LOMBARD_CEILING, raised));
}
