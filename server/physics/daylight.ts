/** Sun and sky by date and hour, and what of it comes in at a window. Angles in radians, light in lux. */
import { requireNonNegative, requirePositive, requireWithin } from "./domain";
import { between, dot, length, type Vec3 } from "./geometry";
import type { Rectangle } from "./hidden";

/** Where the sun stands. */
export interface Sun {
  /** Above the horizon, rad; negative after dark. */
  readonly altitude: number;
  /** From north with the clock, rad, 0 … 2π. */
  readonly bearing: number;
}

/**
 * Declination of the sun, δ = 23.45°·sin(360°·(284 + N)/365).
 *
 * @param day N, day of the year, 1 … 366
 * @returns rad. Source: Cooper 1969, as textbooks on solar energy give it
 * @throws RangeError when the day lies outside 1 … 366
 */
export function declination(day: number): number {
  requireWithin("day of the year", day, 1, 366);
  return ((23.45 * Math.PI) / 180) * Math.sin((2 * Math.PI * (284 + day)) / 365);
}

/**
 * By how much a sundial is ahead of a clock, 0.170·sin(4π(J − 80)/373) − 0.129·sin(2π(J − 8)/355).
 *
 * @param day J, day of the year
 * @returns h. Source: IESNA Lighting Handbook, daylight availability (recalled)
 */
export const equationOfTime = (day: number): number => 0.17 * Math.sin((4 * Math.PI * (day - 80)) / 373) - 0.129 * Math.sin((2 * Math.PI * (day - 8)) / 355);

/**
 * Where the sun stands.
 *
 * @param latitude rad, north positive, −π/2 … π/2
 * @param day day of the year
 * @param hour solar time, h: at 12 the sun is highest
 * @returns altitude and bearing. Spherical trigonometry
 * @throws RangeError when latitude or day lie outside their bounds
 */
export function sunAt(latitude: number, day: number, hour: number): Sun {
  requireWithin("latitude", latitude, -Math.PI / 2, Math.PI / 2);
  const d = declination(day);
  const h = ((hour - 12) * Math.PI) / 12;
  const up = Math.sin(latitude) * Math.sin(d) + Math.cos(latitude) * Math.cos(d) * Math.cos(h);
  // To the east and to the north, in the plane of the horizon.
  const east = -Math.cos(d) * Math.sin(h);
  const north = Math.cos(latitude) * Math.sin(d) - Math.sin(latitude) * Math.cos(d) * Math.cos(h);
  return { altitude: Math.asin(Math.max(-1, Math.min(1, up))), bearing: (Math.atan2(east, north) + 2 * Math.PI) % (2 * Math.PI) };
}

/** Skies of the IESNA daylight availability model: c of the extinction, A, B and C of the light of the sky, klx. Direct sun 2003 quoted, sky recalled. */
const SKIES = {
  cloudy: { c: Infinity, a: 0.3, b: 21, exponent: 1 }, partly: { c: 0.8, a: 0.3, b: 45, exponent: 1 }, clear: { c: 0.21, a: 0.8, b: 15.5, exponent: 0.5 },
} as const;
export type Sky = keyof typeof SKIES;

/** Below this the sky gives no light that counts, rad: the end of civil twilight. */
const DARK = (-6 * Math.PI) / 180;

/**
 * Light of the sun on a surface turned to it, E = 127.5·(1 + 0.034·cos(2π(J − 2)/365))·e^(−c/sin a), klx.
 *
 * @param altitude a, rad
 * @param day J, day of the year
 * @param sky clear, partly cloudy, or cloudy, which lets no sun through
 * @returns lx, 0 with the sun below the horizon. Source: IESNA Lighting Handbook, daylight availability
 */
export function sunlight(altitude: number, day: number, sky: Sky): number {
  if (altitude <= 0) return 0;
  return 127_500 * (1 + 0.034 * Math.cos((2 * Math.PI * (day - 2)) / 365)) * Math.exp(-SKIES[sky].c / Math.sin(altitude));
}

/**
 * Light of the sky on level ground, E = A + B·sin^C a, klx; fading to nothing through civil twilight.
 *
 * @param altitude a, of the sun, rad
 * @param sky which
 * @returns lx; a mean: at any moment it may be half or twice as much. Source: IESNA Lighting Handbook, daylight availability (recalled); twilight: common practice
 */
export function skylight(altitude: number, sky: Sky): number {
  const { a, b, exponent } = SKIES[sky];
  if (altitude <= DARK) return 0;
  if (altitude < 0) return 1000 * a * (1 - altitude / DARK);
  return 1000 * (a + b * Math.sin(altitude) ** exponent);
}

/** Of an overcast sky, so much of what falls on level ground falls on a wall. Source: Moon and Spencer 1942, CIE overcast sky (recalled); of an even sky half: geometry. */
export const ON_WALL = { overcast: 0.396, even: 0.5 } as const;

/** Share of light that the ground throws back. Common practice, no source. */
export const GROUND = 0.2;

/**
 * Average daylight factor of a room, T·W·θ·M/(A·(1 − R²)), per cent: light on tables over that on open ground under an overcast sky.
 *
 * @param pane T, share of light that the glass lets through, 0 … 1
 * @param area W, of the glass, m²
 * @param sky θ, angle of sky that the window sees, degrees, 0 … 90
 * @param inside A, of floor, ceiling and walls with the windows, m², > 0
 * @param reflectance R, mean of them, 0 … 1, less than 1
 * @param clean M, what dirt leaves
 * @returns per cent. Source: Crisp and Littlefair 1984; BS 8206-2
 * @throws RangeError when a quantity lies outside its bounds
 */
export function averageDaylightFactor(pane: number, area: number, sky: number, inside: number, reflectance: number, clean = 1): number {
  requireWithin("transmittance", pane, 0, 1);
  requireNonNegative("window area", area);
  requireWithin("angle of sky", sky, 0, 90);
  requirePositive("area of the room", inside);
  requireWithin("reflectance", reflectance, 0, 0.99);
  return (pane * area * sky * clean) / (inside * (1 - reflectance ** 2));
}

/**
 * Light on tables of what falls on the outside of a window: the average daylight factor in terms of the light on the wall, which is θ/200
 * of that on the ground, 2·T·W·E/(A·(1 − R²)).
 *
 * @param through T·W, m²
 * @param outside E, on the window, lx
 * @param inside A, m², > 0
 * @param reflectance R, less than 1
 * @returns lx. Source: as `averageDaylightFactor`
 * @throws RangeError as `averageDaylightFactor`
 */
export const daylightOnTables = (through: number, outside: number, inside: number, reflectance: number): number =>
  (averageDaylightFactor(1, through, 90, inside, reflectance) / 90) * 2 * outside;

/**
 * Light that has been thrown about in a room, the same everywhere, T·W·E·R/(A·(1 − R)): the sum of all reflections in a sphere.
 *
 * @param flux T·W·E, that came in, lm
 * @param inside A, m², > 0
 * @param reflectance R, less than 1
 * @returns lx. Source: Hopkinson, Petherbridge and Longmore 1966, split flux (recalled)
 * @throws RangeError when the area ≤ 0 or the reflectance lies outside 0 … 0.99
 */
export function thrownAbout(flux: number, inside: number, reflectance: number): number {
  requirePositive("area of the room", inside);
  requireWithin("reflectance", reflectance, 0, 0.99);
  return (flux * reflectance) / (inside * (1 - reflectance));
}

/**
 * Share of what a small surface could see that a rectangle fills, weighted by the cosine: its configuration factor, summed over patches.
 *
 * @param spot where the small surface is, m
 * @param facing its normal, any length
 * @param pane the rectangle, whose face looks along right × up, m
 * @param across, up patches to sum over
 * @returns 0 … 1; light on the surface is π·L times it
 */
export function configurationFactor(spot: Vec3, facing: Vec3, pane: Rectangle, across = 6, up = 4): number {
  const n: Vec3 = [pane.right[1] * pane.up[2] - pane.right[2] * pane.up[1], pane.right[2] * pane.up[0] - pane.right[0] * pane.up[2], pane.right[0] * pane.up[1] - pane.right[1] * pane.up[0]];
  const area = (pane.width * pane.height) / (across * up);
  const far = length(facing);
  let sum = 0;
  for (let i = 0; i < across; i += 1) {
    for (let j = 0; j < up; j += 1) {
      const u = ((i + 0.5) / across - 0.5) * pane.width;
      const v = ((j + 0.5) / up - 0.5) * pane.height;
      const at: Vec3 = [pane.centre[0] + u * pane.right[0] + v * pane.up[0], pane.centre[1] + u * pane.right[1] + v * pane.up[1], pane.centre[2] + u * pane.right[2] + v * pane.up[2]];
      const way = between(spot, at);
      const r = length(way);
      if (r < 1e-6) continue;
      const [here, there] = [dot(way, facing) / (r * far), Math.abs(dot(way, n)) / r];
      if (here > 0) sum += (here * there * area) / (Math.PI * r * r);
    }
  }
  return Math.min(1, sum);
}

/**
 * Whether the way from a spot along a direction goes through a rectangle.
 *
 * @param spot m
 * @param way direction, any length
 * @param pane the rectangle, m
 * @returns true where it does
 */
export function passesThrough(spot: Vec3, way: Vec3, pane: Rectangle): boolean {
  const { right, up, centre } = pane;
  const n: Vec3 = [right[1] * up[2] - right[2] * up[1], right[2] * up[0] - right[0] * up[2], right[0] * up[1] - right[1] * up[0]];
  const along = dot(way, n);
  if (Math.abs(along) < 1e-9) return false;
  const t = dot(between(spot, centre), n) / along;
  if (t <= 0) return false;
  const hit: Vec3 = [spot[0] + t * way[0] - centre[0], spot[1] + t * way[1] - centre[1], spot[2] + t * way[2] - centre[2]];
  return Math.abs(dot(hit, right)) <= pane.width / 2 && Math.abs(dot(hit, up)) <= pane.height / 2;
}
