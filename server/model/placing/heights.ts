import { assumed } from "../make-ranged";
import type { Ranged } from "../ranged";

/** Heights above the floor, in metres. Seated eyes 1.2: planning practice; the others: common practice, no source. */
export const HEIGHTS = { seatedMouth: 1.15, seatedEye: 1.2, standingMouth: 1.55, standingEye: 1.7, table: 0.75, lens: 1.3, wall: 1.6, floor: 0.1 } as const;

/** From the eyes to the top of the head, m. Recalled from tables of people's bodies. */
export const CROWN = 0.12;

/**
 * How high eyes are above the floor on which somebody sits or stands, with the spread between people, where the text does not say.
 * Best guesses: planning practice for sizing pictures. Standing spread: from the 5th percentile of British women to the 95th of men, 1.405 and
 * 1.745 m without shoes (a university's tables of anthropometry), and 30 mm of shoes, recalled. Seated spread: common practice, no source.
 */
export const usualEyes = (of: string, standing: boolean): Ranged => assumed(`eyes of ${of}`, `how high the eyes of ${of} are`, "length", standing
  ? { best: HEIGHTS.standingEye, low: 1.43, high: 1.78, source: "planning practice; tables of people's bodies" }
  : { best: HEIGHTS.seatedEye, low: 1.1, high: 1.3, source: "planning practice" });
