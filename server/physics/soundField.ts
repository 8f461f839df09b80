/** Direct and reverberant sound: what arrives at a point of a room from a source in it. */
import type { BandIndex, Bands } from "./bands";
import { bands, weightedSum } from "./bands";
import { toDb } from "./decibel";
import { requireNonNegative, requirePositive } from "./domain";
import { SPEECH_SHARES } from "./speech";

/** Nearest distance that counts, m (model choice): nearer than the size of a mouth or a driver, 1/r² has no meaning. */
export const NEAREST = 0.05;

/**
 * Room constant, R = A/(1 − A/S).
 *
 * @param absorption A, m², air and people included
 * @param surface S of the room, m²
 * @returns R, m²; Infinity where A ≥ S: no reverberant field, as outdoors
 * @throws RangeError when A < 0 or S ≤ 0
 */
export function roomConstant(absorption: number, surface: number): number {
  requireNonNegative("absorption area", absorption);
  requirePositive("surface", surface);
  return absorption >= surface ? Infinity : absorption / (1 - absorption / surface);
}

/**
 * Critical distance, where direct and reverberant sound are equal on the axis of a source, Dc = √(Q·R/16π) ≈ 0.141·√(QR).
 *
 * @param q directivity factor Q, > 0
 * @param constant room constant R, m², ≥ 0
 * @returns Dc, m; Infinity outdoors
 * @throws RangeError when Q ≤ 0 or R < 0
 */
export function criticalDistance(q: number, constant: number): number {
  requirePositive("directivity factor", q);
  requireNonNegative("room constant", constant);
  return Math.sqrt((q * constant) / (16 * Math.PI));
}

/** Power that arrives in one band, as a ratio to the direct sound on the source's axis at 1 m. */
export interface Arrival {
  /** d, the direct sound. */
  readonly direct: number;
  /** v, the reverberant sound. */
  readonly reverberant: number;
}

/** What lies between one source and one receiver in one band. */
export interface Path {
  /** r, m. Under `NEAREST` it counts as `NEAREST`. */
  readonly distance: number;
  /** Q of the source. */
  readonly q: number;
  /** R of the room, m²; Infinity outdoors. */
  readonly roomConstant: number;
  /** γ²(θ) of the source toward the receiver; 1 when left out. A worn microphone leaves it out: d = 1/r². */
  readonly sourceGain?: number;
  /** M²(φ) of the microphone toward the source; 1 for an ear. */
  readonly receiverGain?: number;
  /** REE of the microphone; 1 for an ear. */
  readonly ree?: number;
}

/**
 * Direct and reverberant sound at a receiver, d = γ²·M²/r², v = REE/Dc².
 *
 * Valid in a diffuse field and at more than about a source's own size from it; near walls v is up to 3 dB higher.
 *
 * @param path distance, directivity and room
 * @returns power ratios to the direct sound on the axis at 1 m; v is Infinity where R = 0
 * @throws RangeError when a distance or factor is negative
 */
export function transfer(path: Path): Arrival {
  requireNonNegative("distance", path.distance);
  const r = Math.max(NEAREST, path.distance);
  const critical = criticalDistance(path.q, path.roomConstant);
  return {
    direct: ((path.sourceGain ?? 1) * (path.receiverGain ?? 1)) / (r * r),
    reverberant: (path.ree ?? 1) / (critical * critical),
  };
}

/** Direct and reverberant sound in all bands. */
export interface ArrivalBands {
  readonly direct: Bands;
  readonly reverberant: Bands;
}

/**
 * `transfer` in all bands.
 *
 * @param path gives the path of band k; only Q, R and the gains differ from band to band
 * @returns d and v in all bands
 */
export function transferBands(path: (index: BandIndex) => Path): ArrivalBands {
  return { direct: bands((k) => transfer(path(k)).direct), reverberant: bands((k) => transfer(path(k)).reverberant) };
}

/**
 * Transfer H in one band, H = 10·lg(d + v).
 *
 * @param arrival d and v
 * @returns H, dB relative to the direct sound on the axis at 1 m
 */
export function transferLevel(arrival: Arrival): number {
  return toDb(arrival.direct + arrival.reverberant);
}

/**
 * Transfer H in all bands.
 *
 * @param arrival d and v in all bands
 * @returns Hₖ, dB
 */
export function transferLevels(arrival: ArrivalBands): Bands {
  return bands((k) => transferLevel({ direct: arrival.direct[k], reverberant: arrival.reverberant[k] }));
}

/**
 * Transfer of speech, A-weighted, H = 10·lg Σ aₖ·(dₖ + vₖ), aₖ the shares of the bands in A-weighted speech.
 *
 * @param arrival d and v in all bands
 * @returns H, dB relative to the A-weighted direct sound on the axis at 1 m
 */
export function speechTransfer(arrival: ArrivalBands): number {
  return toDb(weightedSum(SPEECH_SHARES, bands((k) => arrival.direct[k] + arrival.reverberant[k])));
}

/**
 * Level of speech at a receiver, L = L₁ + H.
 *
 * @param levelAtOneMetre L₁ of the source, on its axis, dBA
 * @param arrival d and v in all bands
 * @returns L, dBA
 */
export function speechLevel(levelAtOneMetre: number, arrival: ArrivalBands): number {
  return levelAtOneMetre + speechTransfer(arrival);
}

/**
 * Direct-to-reverberant ratio of speech, A-weighted, 10·lg(Σ aₖ·dₖ/Σ aₖ·vₖ).
 *
 * @param arrival d and v in all bands
 * @returns ratio, dB; Infinity where nothing reverberates
 */
export function directToReverberant(arrival: ArrivalBands): number {
  return toDb(weightedSum(SPEECH_SHARES, arrival.direct) / weightedSum(SPEECH_SHARES, arrival.reverberant));
}
