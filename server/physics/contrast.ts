/** Contrast of a picture in a room that is not dark. */
import { requireNonNegative, requirePositive } from "./domain";

/** Least contrast of what is shown. Source: ANSI/InfoComm 3M-2011, as design guidelines quote it. */
export const CONTRAST = { passive: 7, basicDecisions: 15, analyticalDecisions: 50, motion: 80 } as const;

/**
 * Contrast of a projected picture, white over black: (E + a)/(E/n + a), where the room's light lies on both.
 *
 * @param thrown E, light of the projector on white, lx, ≥ 0
 * @param ambient a, light of the room on the surface, lx, ≥ 0
 * @param native n, contrast of the projector itself in the dark, > 1
 * @returns the contrast, ≥ 1; 1 where there is no light at all
 * @throws RangeError when light is negative or the native contrast not greater than 1
 */
export function projectedContrast(thrown: number, ambient: number, native = Infinity): number {
  requireNonNegative("light thrown", thrown);
  requireNonNegative("ambient light", ambient);
  if (!(native > 1)) throw new RangeError(`A native contrast must be greater than 1, not ${native}.`);
  const black = thrown / native + ambient;
  return black === 0 ? (thrown === 0 ? 1 : Infinity) : (thrown + ambient) / black;
}

/**
 * Luminous flux that a contrast needs, a·(CR − 1)·A/(g·l·m).
 *
 * Planning guides write a·CR·A/(g·l·m): they leave out that the room's light falls on white, too, and so ask for a little more.
 * `form` chooses; findings use the exact one.
 *
 * @param contrast CR, ≥ 1
 * @param ambient a, lx, ≥ 0
 * @param area A, m², > 0
 * @param losses g gain of the surface, l of the lens (1 standard, 0.8 short or long), m what the lamp keeps over its life (0.75)
 * @param form exact, or that of planning guides
 * @returns lm. Source of the planning form: AETM design guidelines after ANSI/InfoComm 3M-2011
 * @throws RangeError when CR < 1, the ambient light is negative, or another quantity ≤ 0
 */
export function fluxForContrast(contrast: number, ambient: number, area: number, losses: { readonly gain?: number; readonly lens?: number; readonly life?: number } = {}, form: "exact" | "planning" = "exact"): number {
  if (!(contrast >= 1)) throw new RangeError(`A contrast must be at least 1, not ${contrast}.`);
  requireNonNegative("ambient light", ambient);
  requirePositive("picture area", area);
  const { gain = 1, lens = 1, life = 1 } = losses;
  for (const [name, share] of [["gain", gain], ["lens factor", lens], ["life factor", life]] as const) requirePositive(name, share);
  return (ambient * (form === "exact" ? contrast - 1 : contrast) * area) / (gain * lens * life);
}

/**
 * Contrast of a display that shines by itself, (W + r)/(B + r), r = ρ·E/π.
 *
 * @param white W, luminance of white, cd/m², > 0
 * @param black B, luminance of black in the dark, cd/m², ≥ 0
 * @param ambient E, light of the room on the display, lx, ≥ 0
 * @param reflectance ρ, share that the face of the display throws back on all sides, ≥ 0; about .01 to .04 (common practice)
 * @returns the contrast. Diffuse reflection ρE/π is recalled
 * @throws RangeError when the white ≤ 0 or another quantity is negative
 */
export function displayContrast(white: number, black: number, ambient: number, reflectance: number): number {
  requirePositive("luminance of white", white);
  requireNonNegative("luminance of black", black);
  requireNonNegative("ambient light", ambient);
  requireNonNegative("reflectance", reflectance);
  const back = (reflectance * ambient) / Math.PI;
  return black + back === 0 ? Infinity : (white + back) / (black + back);
}

/**
 * How much a screen lifts the picture of a projector above the light of the room, max(1, g).
 *
 * What a screen gives back more than a surface that scatters all light evenly, it gives straight ahead, of the light that comes from
 * there; the room's comes from all sides. A screen that gives back less is grey: it takes as much off the room's light as off the picture.
 *
 * @param gain g, ≥ 0
 * @returns factor on the light thrown beside the light of the room. Source of g above 1: AETM design guidelines after ANSI/InfoComm 3M-2011, which divide the flux by it; of grey screens: common practice
 * @throws RangeError when the gain is negative
 */
export function liftOf(gain: number): number {
  requireNonNegative("gain", gain);
  return Math.max(1, gain);
}
