/** What decides how a display shows, a projector throws and a camera takes a picture, as the text states it. SI units, angles in degrees. */
import { angleOfView } from "../physics/framing";
import { valueOf, type Bound } from "./bound";
import type { Ranged } from "./ranged";

/** A lens that zooms has two ends; one that does not has the same at both. */
export interface Reach {
  readonly least: Ranged;
  readonly most: Ranged;
}

export interface Optics {
  /** Width to height, where stated. */
  readonly aspect: number | undefined;
  readonly pixels: { readonly width: number; readonly height: number } | undefined;
  /** Luminance of white, cd/m². */
  readonly brightness: Ranged | undefined;
  /** Distance to width of the picture. */
  readonly throws: Reach | undefined;
  /** How far it may be tilted, and turned aside, and its picture still be made square, degrees. */
  readonly keystone: { readonly up: Ranged; readonly sideways: Ranged | undefined } | undefined;
  /** Whole angles, degrees. */
  readonly viewingAngle: { readonly horizontal: Ranged; readonly vertical: Ranged | undefined } | undefined;
  readonly sensor: { readonly width: Ranged; readonly height: Ranged } | undefined;
  readonly focal: Reach | undefined;
  /** Times from the widest view to the narrowest. */
  readonly zoom: Ranged | undefined;
  /** Times that it is zoomed in from its widest view, where stated. */
  readonly zoomed: Ranged | undefined;
  /** Degrees above level. */
  readonly tilt: Ranged | undefined;
  /** Seconds for each picture. */
  readonly exposure: Ranged | undefined;
  readonly output: "clean" | "overlaid" | undefined;
  /** Switches itself off after so many seconds: altogether, or what it records, or what it gives out. */
  readonly stops: { readonly after: Ranged; readonly what: "recording" | "output" | undefined } | undefined;
}

/** The statements about one thing, the most special ones winning. */
export interface Stated {
  one(head: string): Bound | undefined;
  ranged(head: string, slot: string, before: string, after?: string): Ranged | undefined;
}

export function readOptics(facts: Stated): Optics {
  const reach = (head: string, slot: string, label: string): Reach | undefined => {
    const least = facts.ranged(head, slot, label);
    const most = facts.one(head)?.values.has("to") === true ? facts.ranged(head, "to", `the most of ${label}`) : undefined;
    return least === undefined ? undefined : most !== undefined && most.best < least.best ? { least: most, most: least } : { least, most: most ?? least };
  };
  const word = (head: string, slot: string): string | undefined => {
    const stated = facts.one(head);
    return stated && valueOf(stated, slot, "word")?.word;
  };
  const aspect = facts.one("aspect");
  const mode = facts.one("pixels");
  const pixels = mode && valueOf(mode, "mode", "mode");
  const horizontal = facts.ranged("viewing-angle", "horizontal", "the viewing angle of");
  const width = facts.ranged("sensor", "width", "the width of the sensor of");
  const height = facts.ranged("sensor", "height", "the height of the sensor of");
  const tilt = facts.ranged("tilt", "angle", "the tilt of");
  const upright = facts.ranged("keystone", "angle", "the tilt that is squared by");
  const after = facts.ranged("stops", "after", "after how long", "stops by itself");
  return {
    aspect: aspect && valueOf(aspect, "ratio", "ratio")?.ratio, pixels: pixels && { width: pixels.width, height: pixels.height },
    brightness: facts.ranged("brightness", "luminance", "the brightness of"),
    throws: reach("throw", "ratio", "the throw ratio of"), keystone: upright && { up: upright, sideways: facts.ranged("keystone", "sideways", "the turn aside that is squared by") },
    viewingAngle: horizontal && { horizontal, vertical: facts.ranged("viewing-angle", "vertical", "the viewing angle from top to bottom of") },
    sensor: width && height && { width, height }, focal: reach("focal-length", "length", "the focal length of"),
    zoom: facts.ranged("zoom", "factor", "the zoom of"), zoomed: facts.ranged("zoomed", "factor", "how far", "is zoomed in"),
    tilt: tilt === undefined || word("tilt", "way") !== "down" ? tilt : { ...tilt, low: -tilt.high, best: -tilt.best, high: -tilt.low },
    exposure: facts.ranged("exposure", "time", "the exposure of"), output: word("output", "how") as Optics["output"],
    stops: after && { after, what: word("stops", "what") as "recording" | "output" | undefined },
  };
}

/**
 * The horizontal view that follows from sensor and focal length: of a lens that zooms anything from its longest to its shortest, the best
 * guess at their geometric mean, or, where the text says how far it is zoomed in, its widest. Nothing where one of the two is not stated.
 */
export function viewFrom(id: string, { sensor, focal, zoomed }: Optics): Ranged | undefined {
  if (sensor === undefined || focal === undefined) return undefined;
  const degrees = (width: number, length: number): number => (angleOfView(width, length) * 180) / Math.PI;
  const { least, most } = zoomed === undefined ? focal : { least: focal.least, most: focal.least };
  return {
    id: `${id}.view`, label: `the angle of view of ${id}, from its sensor and lens`, dimension: "angle", from: least.from,
    low: degrees(sensor.width.low, most.high), best: degrees(sensor.width.best, Math.sqrt(least.best * most.best)), high: degrees(sensor.width.high, least.low),
  };
}

/** How many times a camera can be zoomed in from its widest view, as far as the text says. */
export function mostZoom({ zoom, focal }: Optics): number | undefined {
  if (zoom !== undefined) return zoom.best;
  return focal === undefined || focal.least === focal.most ? undefined : focal.most.best / focal.least.best;
}

/** Pictures are taken to be 16:9 where nothing is said; common practice, no source. */
export const ASPECT = 16 / 9;

/** Width to height of what a display or a projector shows: as stated, else by its pixels. */
export const shapeOf = ({ optics }: { readonly optics: Optics }): number => optics.aspect ?? (optics.pixels === undefined ? ASPECT : optics.pixels.width / optics.pixels.height);
