/** How much light there is: in the room, on a screen, on faces. */
import { assumed } from "../../model/make-ranged";
import type { Device, Part } from "../../model/device";
import { lampsAt, lightOn } from "../../model/lights";
import { canonical } from "../../model/names";
import type { Ranged } from "../../model/ranged";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { displayContrast, liftOf, projectedContrast } from "../../physics/contrast";
import { luminanceOf, thrownLight } from "../../physics/projection";
import { pictureOf } from "./picture";

const CP = "common practice, no source";

/** Light in the room, lx on the level of tables, where the text does not say: by what is said of the lamps. Common practice, no source. */
const BY_LAMPS = {
  on: { best: 300, low: 150, high: 500 }, dimmed: { best: 60, low: 20, high: 150 }, off: { best: 10, low: 1, high: 50 },
} as const;
const OUTDOORS = { best: 10_000, low: 2000, high: 50_000 } as const;

/** Light in the room, lx on the level of tables. */
export function roomLight({ room }: Setup, item: string | undefined): Ranged {
  const stated = lightOn(room, "tables", item) ?? lightOn(room, "room", item);
  if (stated !== undefined) return stated.level;
  const lamps = lampsAt(room, "back", item)?.how ?? "on";
  const by = room.outdoors ? OUTDOORS : BY_LAMPS[lamps];
  return { ...assumed(`room.light${lamps === "on" ? "" : `.${lamps}`}`, `the light in ${room.name}`, "illuminance", { ...by, source: CP }), ask: `How much light is there in ${room.name} at tables, in lux?` };
}

/** The share of the room's light that falls on an upright surface. */
const share = (id: string, label: string, by: { best: number; low: number; high: number }): Ranged => assumed(id, label, "share", { ...by, source: CP });

/** Of that on a picture, with the lamps at the front on, or off while those behind are on. Common practice, no source. */
const ON_PICTURE = { on: { best: 0.35, low: 0.15, high: 0.5 }, off: { best: 0.12, low: 0.04, high: 0.25 } } as const;

/** Light of the room on a screen, lx. */
export function lightOnScreen(setup: Setup, trial: Trial, device: Device, item: string | undefined): number {
  const stated = lightOn(setup.room, "screen", item);
  if (stated !== undefined) return trial.value(stated.level);
  const front = lampsAt(setup.room, "front", item)?.how ?? "on";
  const off = front === "off" && lampsAt(setup.room, "back", item)?.how !== "off";
  return trial.value(roomLight(setup, item)) * trial.value(share(`${device.name}.lit${off ? ".from-behind" : ""}`, `the share of the room's light that falls on the picture of ${device.name}`, off ? ON_PICTURE.off : ON_PICTURE.on));
}

/** Light on faces, lx. Source of 150: EN 12464-1:2021, cylindrical illuminance for conference rooms; 100: common practice. */
export const FACE_LIGHT = { hint: 150, warning: 100 } as const;

/** Light on faces, lx on an upright surface turned to the camera. */
export function lightOnFaces(setup: Setup, trial: Trial, item: string | undefined): number {
  const stated = lightOn(setup.room, "faces", item);
  if (stated !== undefined) return trial.value(stated.level);
  return trial.value(roomLight(setup, item)) * trial.value(share("people.lit", "the share of the room's light that falls on faces", { best: 0.4, low: 0.3, high: 0.6 }));
}

/** What the light of an item follows from, besides the trial. */
export const lightKey = ({ room }: Setup, item: string | undefined): string => [
  ...(["room", "tables", "screen", "faces"] as const).map((on) => lightOn(room, on, item)?.level.id ?? ""), ...(["front", "back"] as const).map((which) => lampsAt(room, which, item)?.how ?? ""),
].join(",");

/** Light that a projector has kept of what is printed on it. */
const KEPT = { best: 0.75, low: 0.6, high: 1 } as const;

export interface Contrast {
  readonly value: number;
  /** Light of the room on the picture, lx. */
  readonly ambient: number;
  /** Light of the projector on white, lx; nothing for a display that shines by itself. */
  readonly thrown: number | undefined;
  /** What the screen lifts the picture above the light of the room; 1 for a display that shines by itself. */
  readonly lift: number;
  /** How bright a picture that is white in half of its area is to whoever looks at it straight, cd/m². */
  readonly luminance: number;
}

/** The share of a picture that is white. Common practice, no source. */
const WHITE = 0.5;

/** The gain of the surface that a projector fills; of a bare wall of which nothing is said, none. */
function gainOf(setup: Setup, trial: Trial, device: Device): number {
  const surface = device.fills === undefined ? undefined : setup.room.surfaces.get(canonical(device.fills));
  return surface === undefined ? 1 : trial.value(surface.gain);
}

/** Contrast of a picture under the light of the room. */
export function contrastOf(setup: Setup, trial: Trial, device: Device, part: Part, item: string | undefined): Contrast {
  const ambient = lightOnScreen(setup, trial, device, item);
  if (device.type === "projector") {
    const { rectangle } = pictureOf(setup, trial, device, part);
    const flux = trial.value(part.light ?? assumed(`${device.name}.light`, `the light of ${device.name}`, "luminous-flux", { best: 3000, low: 2000, high: 4500, source: CP })) * trial.value(share(`${device.name}.kept`, `what ${device.name} has kept of its light`, KEPT));
    const thrown = thrownLight(flux, rectangle.width * rectangle.height);
    const gain = gainOf(setup, trial, device);
    const lift = liftOf(gain);
    return { value: projectedContrast(thrown * lift, ambient), ambient, thrown, lift, luminance: luminanceOf(thrown * WHITE * lift + ambient, Math.min(1, gain)) };
  }
  const white = trial.value(part.optics.brightness ?? assumed(`${part.id}.white`, `the brightness of ${part.id}`, "ratio", { best: 300, low: 200, high: 450, source: CP }));
  return { value: displayContrast(white, white / 1000, ambient, 0.03), ambient, thrown: undefined, lift: 1, luminance: white * WHITE };
}
