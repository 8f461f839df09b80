/**
 * Absorption coefficients of what a room is lined with, by everyday names.
 *
 * Published tables end at 4 kHz: the value at 8 kHz is the value at 4 kHz. Tables disagree by a factor of two or more at low
 * frequencies (a half-inch plasterboard on studs is given as 0.10 and as 0.29 at 125 Hz), so a reverberation time worked out
 * from them is good to ±30 % at best.
 */
import type { Bands } from "./bands";
import { flat } from "./bands";

/** Coefficients α of one finish (per m² of its area), with where they come from. */
export interface Finish {
  readonly alpha: Bands;
  /** What exactly was measured. */
  readonly meaning: string;
  readonly source: string;
}

const COLLECTION = "Vorländer 2008, Auralization, appendix (read in a transcription)";
const HANDBOOK = "general handbook table of absorption coefficients, no single author";
const RECALLED = "recalled, general handbook table";

function finish(
  meaning: string,
  source: string,
  ...[b125, b250, b500, b1k, b2k, b4k]: [number, number, number, number, number, number]
): Finish {
  return { meaning, source, alpha: [b125, b250, b500, b1k, b2k, b4k, b4k] };
}

/** The finishes that a setup may name. */
export const FINISHES = {
  "carpet-heavy": finish("heavy carpet on concrete", HANDBOOK, 0.02, 0.06, 0.14, 0.37, 0.6, 0.65),
  "carpet-thin": finish("thin carpet cemented to concrete", COLLECTION, 0.02, 0.04, 0.08, 0.2, 0.35, 0.4),
  "plasterboard": finish("half-inch gypsum board on studs", HANDBOOK, 0.1, 0.08, 0.05, 0.03, 0.03, 0.03),
  "plasterboard-double": finish(
    "two layers of 13 mm plasterboard, wool in the cavity", COLLECTION, 0.15, 0.1, 0.06, 0.04, 0.04, 0.05,
  ),
  "plasterboard-ceiling": finish("plasterboard ceiling, large airspace", COLLECTION, 0.2, 0.15, 0.1, 0.08, 0.04, 0.02),
  "plaster": finish("smooth plaster on brick", RECALLED, 0.013, 0.015, 0.02, 0.03, 0.04, 0.05),
  "plaster-on-lath": finish("smooth plaster on lath", RECALLED, 0.14, 0.1, 0.06, 0.05, 0.04, 0.03),
  "brick": finish("unglazed brick", RECALLED, 0.03, 0.03, 0.03, 0.04, 0.05, 0.07),
  "stone": finish("marble or glazed tile", RECALLED, 0.01, 0.01, 0.01, 0.01, 0.02, 0.02),
  "glass": finish("ordinary window glass", HANDBOOK, 0.35, 0.25, 0.18, 0.12, 0.07, 0.04),
  "double-glazing": finish("double glazing, 10 mm gap", COLLECTION, 0.1, 0.07, 0.05, 0.03, 0.02, 0.02),
  "curtain-light": finish("curtain of 10 oz/yd² (340 g/m²), hung straight", HANDBOOK, 0.03, 0.04, 0.11, 0.17, 0.24, 0.35),
  "curtain-medium": finish(
    "curtain of 14 oz/yd² (475 g/m²), draped to half its area", HANDBOOK, 0.07, 0.31, 0.49, 0.75, 0.7, 0.6,
  ),
  "curtain-heavy": finish(
    "curtain of 18 oz/yd² (610 g/m²), draped to half its area", HANDBOOK, 0.14, 0.35, 0.55, 0.72, 0.7, 0.65,
  ),
  "acoustic-tile": finish("fissured ceiling tile, suspended", COLLECTION, 0.49, 0.53, 0.53, 0.75, 0.92, 0.99),
  "wood-floor": finish("wood floor on joists", HANDBOOK, 0.15, 0.11, 0.1, 0.07, 0.06, 0.07),
  "parquet": finish("wood parquet laid on concrete", RECALLED, 0.04, 0.04, 0.07, 0.06, 0.06, 0.07),
  "linoleum": finish("linoleum, rubber or vinyl on concrete", RECALLED, 0.02, 0.03, 0.03, 0.03, 0.03, 0.02),
  "wood-panelling": finish("thin plywood panelling", RECALLED, 0.28, 0.22, 0.17, 0.09, 0.1, 0.11),
  "concrete": finish("concrete or terrazzo floor", HANDBOOK, 0.01, 0.01, 0.02, 0.02, 0.02, 0.02),
  "block-painted": finish("concrete block, painted", HANDBOOK, 0.1, 0.05, 0.06, 0.07, 0.09, 0.08),
  "wooden-door": finish("solid wooden door", COLLECTION, 0.14, 0.1, 0.06, 0.08, 0.1, 0.1),
  "seats-upholstered": finish("upholstered seats, empty, per m² of floor", COLLECTION, 0.49, 0.66, 0.8, 0.88, 0.82, 0.7),
  "seats-occupied": finish("upholstered seats, occupied, per m² of floor", HANDBOOK, 0.6, 0.74, 0.88, 0.96, 0.93, 0.85),
} as const satisfies Record<string, Finish>;

/** Name of a finish. */
export type FinishName = keyof typeof FINISHES;

/** The names of all finishes, in the order of the table. */
export const FINISH_NAMES = Object.keys(FINISHES) as readonly FinishName[];

/** Absorption of one person, m², in every band (model choice, common practice: 0.5 m² whatever the chair). */
export const PERSON_ABSORPTION: Bands = flat(0.5);

/**
 * Absorption of one person on a wooden chair, m², people sitting one to the square metre; 8 kHz as 4 kHz.
 *
 * Source: Vorländer 2008, Auralization, appendix (read in a transcription): a coefficient per m² of floor, which at that
 * density is numerically m² per person.
 */
export const PERSON_ON_WOODEN_CHAIR: Bands = [0.16, 0.24, 0.56, 0.69, 0.81, 0.78, 0.78];

/** The same for two people to the square metre, per m² of floor (halve it for one person); 8 kHz as 4 kHz. */
export const TWO_PEOPLE_PER_SQUARE_METRE: Bands = [0.24, 0.4, 0.78, 0.98, 0.96, 0.87, 0.87];
