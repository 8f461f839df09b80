/** What the windows of a room do to the light in it: how bright they are to look at, and what they throw on pictures, faces and tables. */
import { assumed } from "../../model/make-ranged";
import { canonical } from "../../model/names";
import { roomShape, sizeOf, type OpeningAt } from "../../model/room-shape";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { configurationFactor, daylightOnTables, GROUND, ON_WALL, passesThrough, thrownAbout } from "../../physics/daylight";
import { dot, type Vec3 } from "../../physics/geometry";
import { upright, type Rectangle } from "../../physics/hidden";
import { hourKey, outdoors } from "./sun";

const CP = "common practice, no source";

export interface Pane {
  readonly opening: OpeningAt;
  readonly rectangle: Rectangle;
  /** As it looks from within, cd/m². */
  readonly luminance: number;
  /** Light that comes in by it, lm. */
  readonly flux: number;
  /** Of what falls on it this share comes in: glass, dirt, frames, what stands outside, curtains. */
  readonly through: number;
  /** Along which the sun's light comes in, where it does, and how much of it falls on a surface turned to it, lx. */
  readonly beam: { readonly way: Vec3; readonly light: number } | undefined;
}

/** What a curtain lets through. Common practice, no source. */
const CURTAINS: Readonly<Record<string, { readonly best: number; readonly low: number; readonly high: number }>> = {
  light: { best: 0.35, low: 0.15, high: 0.6 }, medium: { best: 0.08, low: 0.02, high: 0.25 }, heavy: { best: 0.005, low: 0, high: 0.03 },
};

/** The windows that the text places, with the light of an item of the programme. */
export function panesOf(setup: Setup, trial: Trial, item: string | undefined): readonly Pane[] {
  if (setup.room.outdoors || !setup.room.openings.some((one) => one.kind === "window")) return [];
  return trial.keep(`panes ${hourKey(setup, item)}`, () => {
    const out = outdoors(setup, trial, item);
    if (out.sky <= 0 && out.beam <= 0) return [];
    const reaches = trial.value(assumed("daylight.through", "the share of the daylight that comes in: glass, frames, what stands outside", "share", { best: 0.45, low: 0.15, high: 0.7, source: CP }));
    const { windows } = roomShape(setup.floor, trial);
    return windows.map((opening): Pane => {
      const [width, height] = [Math.hypot(opening.to.x - opening.from.x, opening.to.y - opening.from.y), Math.max(0.01, opening.top - opening.bottom)];
      const rectangle = upright([opening.at.x, opening.at.y, (opening.bottom + opening.top) / 2], [opening.inward.x, opening.inward.y, 0], Math.max(0.01, width), height);
      const through = reaches * curtained(setup, trial, opening, width * height);
      const diffuse = out.sky * (ON_WALL.overcast + (ON_WALL.even - ON_WALL.overcast) * out.clear);
      const fromSun = sunOn(opening, out);
      const ground = (GROUND * (out.sky + out.beam * Math.max(0, Math.sin(out.sun?.altitude ?? 0)))) / 2;
      const outside = diffuse + ground + (fromSun?.onPane ?? 0);
      // A drawn curtain glows with all that falls on it; through bare glass one looks at the sky.
      const scattered = curtained(setup, trial, opening, width * height) < 0.99 ? outside : diffuse + ground;
      return { opening, rectangle, luminance: (through * scattered) / Math.PI, flux: through * outside * width * height, through, beam: fromSun === undefined || fromSun.light <= 0 ? undefined : { way: fromSun.way, light: fromSun.light * through } };
    });
  });
}

/** What curtains leave of the light of a window. */
function curtained({ room }: Setup, trial: Trial, opening: OpeningAt, area: number): number {
  const lets = (weight: string): number => {
    const by = CURTAINS[weight];
    return by === undefined ? 1 : trial.value(assumed(`curtain.${weight}.lets`, `what a ${weight} curtain lets through of the light`, "share", { ...by, source: CP }));
  };
  const over = room.overWindows.find((one) => canonical(one.over) === canonical(opening.name));
  const [weight, drawn] = over !== undefined ? [over.weight, over.area === undefined ? 1 : trial.value(over.area) / area]
    : room.curtains === undefined ? ["", 0] : [room.curtains.weight, trial.value(room.curtains.area) / Math.max(area, glassOf(room, trial))];
  const share = Math.min(1, Math.max(0, drawn));
  return share === 0 ? 1 : 1 - share * (1 - lets(weight));
}

/** Glass without a curtain of its own, m². */
const glassOf = (room: Setup["room"], trial: Trial): number => room.openings.filter((one) => one.kind === "window" && !room.overWindows.some(({ over }) => canonical(over) === canonical(one.name)))
  .reduce((sum, one) => sum + trial.value(one.width) * trial.value(one.height), 0);

/** The sun on a window of which the text tells which way it looks: toward it, how much on a surface turned to it, how much on the pane. */
function sunOn(opening: OpeningAt, { sun, beam }: ReturnType<typeof outdoors>): { readonly way: Vec3; readonly light: number; readonly onPane: number } | undefined {
  if (sun === undefined || beam <= 0 || opening.bearing === undefined) return undefined;
  // By how much the sun stands to the right of straight out, whichever way north is; out of the window is away from `inward`.
  const turn = sun.bearing - (opening.bearing * Math.PI) / 180;
  const out = { x: -opening.inward.x, y: -opening.inward.y };
  // With the clock, seen from above: from the front wall (−x) to the right wall (+y).
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const flat = { x: out.x * c + out.y * s, y: out.y * c - out.x * s };
  const up = Math.cos(sun.altitude);
  const way: Vec3 = [flat.x * up, flat.y * up, Math.sin(sun.altitude)];
  const onPane = beam * Math.max(0, way[0] * out.x + way[1] * out.y);
  return onPane <= 0 ? undefined : { way, light: beam, onPane };
}

/** Mean reflectance of floor, walls and ceiling with what stands there. */
const reflectance = (trial: Trial): number => trial.value(assumed("room.reflectance", "the share of light that floor, walls and ceiling throw back", "share", { best: 0.45, low: 0.3, high: 0.6, source: CP }));

/** Daylight on tables, lx. */
export function daylightLevel(setup: Setup, trial: Trial, item: string | undefined): number {
  const panes = panesOf(setup, trial, item);
  if (panes.length === 0) return 0;
  const flux = panes.reduce((sum, pane) => sum + pane.flux, 0);
  return daylightOnTables(flux, 1, sizeOf(setup.room, trial).surface, reflectance(trial));
}

/** What daylight a small surface gets. */
export interface Daylight {
  /** All of it, lx. */
  readonly level: number;
  /** Of it the sun's own, lx. */
  readonly sun: number;
  /** The window that gives most, and how much of all it gives. */
  readonly by: OpeningAt | undefined;
}

/** Daylight on a small surface that looks along a normal, or the mean over several spots of it. */
export function daylightOn(setup: Setup, trial: Trial, item: string | undefined, spots: readonly Vec3[], normal: Vec3): Daylight {
  const panes = panesOf(setup, trial, item);
  if (panes.length === 0 || spots.length === 0) return { level: 0, sun: 0, by: undefined };
  const size = Math.hypot(normal[0], normal[1], normal[2]) || 1;
  const parts = panes.map((pane) => {
    const sky = spots.reduce((sum, spot) => sum + Math.PI * pane.luminance * configurationFactor(spot, normal, pane.rectangle), 0) / spots.length;
    const { beam } = pane;
    const cosine = beam === undefined ? 0 : Math.max(0, dot(beam.way, normal) / size);
    const sun = beam === undefined || cosine === 0 ? 0 : (spots.filter((spot) => passesThrough(spot, beam.way, pane.rectangle)).length / spots.length) * beam.light * cosine;
    return { pane, sky, sun };
  });
  const about = thrownAbout(panes.reduce((sum, pane) => sum + pane.flux, 0), sizeOf(setup.room, trial).surface, reflectance(trial));
  const most = parts.reduce((a, b) => (b.sky + b.sun + b.pane.flux * 1e-6 > a.sky + a.sun + a.pane.flux * 1e-6 ? b : a));
  return { level: about + parts.reduce((sum, part) => sum + part.sky + part.sun, 0), sun: parts.reduce((sum, part) => sum + part.sun, 0), by: most.pane.opening };
}
