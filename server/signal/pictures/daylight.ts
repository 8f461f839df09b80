/** How much light there is, of lamps and of the day: in the room, on a screen, on faces. */
import { assumed } from "../../model/make-ranged";
import type { Device, Part } from "../../model/device";
import { lampsAt, lightOn } from "../../model/lights";
import { canonical } from "../../model/names";
import type { Ranged } from "../../model/ranged";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import type { Vec3 } from "../../physics/geometry";
import { displayContrast, liftOf, projectedContrast } from "../../physics/contrast";
import { luminanceOf, thrownLight } from "../../physics/projection";
import { pictureOf } from "./picture";
import { hourKey } from "./sun";
import { daylightLevel, daylightOn, type Daylight } from "./windows";

const CP = "common practice, no source";

/** Light in the room, lx on the level of tables, where the text does not say: by what is said of the lamps. Common practice, no source. */
const BY_LAMPS = {
  on: { best: 300, low: 150, high: 500 }, dimmed: { best: 60, low: 20, high: 150 }, off: { best: 10, low: 1, high: 50 },
} as const;
const OUTDOORS = { best: 10_000, low: 2000, high: 50_000 } as const;

/** Light of the lamps in the room, or all of it where that is stated, lx on the level of tables. */
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

/** Whether what is stated of the light in the room has the daylight in it. */
export const daylightStated = ({ room }: Setup, item: string | undefined): boolean => (lightOn(room, "tables", item) ?? lightOn(room, "room", item)) !== undefined;

/** Light on tables, lx: as stated, else of lamps and windows. */
export const tablesLight = (setup: Setup, trial: Trial, item: string | undefined): number =>
  trial.value(roomLight(setup, item)) + (daylightStated(setup, item) ? 0 : daylightLevel(setup, trial, item));

/** Light of the room on a picture, lx, and the daylight in it where that is worked out. */
export function lightOnScreen(setup: Setup, trial: Trial, device: Device, part: Part, item: string | undefined): { readonly level: number; readonly daylight: Daylight | undefined } {
  const stated = lightOn(setup.room, "screen", item);
  if (stated !== undefined) return { level: trial.value(stated.level), daylight: undefined };
  const lamps = lampsOnScreen(setup, trial, device, item);
  if (daylightStated(setup, item)) return { level: lamps, daylight: undefined };
  const daylight = trial.keep(`daylight on ${part.id} ${hourKey(setup, item)}`, () => {
    const { rectangle: { centre, right, up, width, height }, normal } = pictureOf(setup, trial, device, part);
    // Its middle and points half way to its corners, a hand's breadth before it.
    const face = normal ?? [right[1] * up[2] - right[2] * up[1], right[2] * up[0] - right[0] * up[2], 0];
    const far = Math.hypot(face[0], face[1]) || 1;
    const spots = [[0, 0], [-1, -1], [-1, 1], [1, -1], [1, 1]].map(([a = 0, b = 0]): Vec3 => [
      centre[0] + (right[0] * a * width) / 4 + (0.05 * face[0]) / far, centre[1] + (right[1] * a * width) / 4 + (0.05 * face[1]) / far, centre[2] + (b * height) / 4,
    ]);
    return daylightOn(setup, trial, item, spots, face);
  });
  return { level: lamps + daylight.level, daylight };
}

function lampsOnScreen(setup: Setup, trial: Trial, device: Device, item: string | undefined): number {
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
  return tablesLight(setup, trial, item) * trial.value(share("people.lit", "the share of the room's light that falls on faces", { best: 0.4, low: 0.3, high: 0.6 }));
}

/** Light on a face that is turned to a camera, lx: what comes from behind it does not count. */
export function lightOnFace(setup: Setup, trial: Trial, item: string | undefined, face: Vec3, toward: Vec3): number {
  if (lightOn(setup.room, "faces", item) !== undefined || daylightStated(setup, item)) return lightOnFaces(setup, trial, item);
  return trial.value(roomLight(setup, item)) * trial.value(share("people.lit", "the share of the room's light that falls on faces", { best: 0.4, low: 0.3, high: 0.6 })) + daylightOn(setup, trial, item, [face], toward).level;
}

/** What the light of an item follows from, besides the trial. */
export const lightKey = (setup: Setup, item: string | undefined): string => [
  ...lightsOf(setup, item), hourKey(setup, item),
].join(",");

const lightsOf = ({ room }: Setup, item: string | undefined): string[] => [
  ...(["room", "tables", "screen", "faces"] as const).map((on) => lightOn(room, on, item)?.level.id ?? ""), ...(["front", "back"] as const).map((which) => lampsAt(room, which, item)?.how ?? ""),
];

/** Light that a projector has kept of what is printed on it. */
const KEPT = { best: 0.75, low: 0.6, high: 1 } as const;

export interface Contrast {
  readonly value: number;
  /** Light of the room on the picture, lx. */
  readonly ambient: number;
  /** The daylight in it, where it is worked out. */
  readonly daylight: Daylight | undefined;
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
  const { level: ambient, daylight } = lightOnScreen(setup, trial, device, part, item);
  if (device.type === "projector") {
    const { rectangle } = pictureOf(setup, trial, device, part);
    const flux = trial.value(part.light ?? assumed(`${device.name}.light`, `the light of ${device.name}`, "luminous-flux", { best: 3000, low: 2000, high: 4500, source: CP })) * trial.value(share(`${device.name}.kept`, `what ${device.name} has kept of its light`, KEPT));
    const thrown = thrownLight(flux, rectangle.width * rectangle.height);
    const gain = gainOf(setup, trial, device);
    const lift = liftOf(gain);
    return { value: projectedContrast(thrown * lift, ambient), ambient, daylight, thrown, lift, luminance: luminanceOf(thrown * WHITE * lift + ambient, Math.min(1, gain)) };
  }
  const white = trial.value(part.optics.brightness ?? assumed(`${part.id}.white`, `the brightness of ${part.id}`, "ratio", { best: 300, low: 200, high: 450, source: CP }));
  return { value: displayContrast(white, white / 1000, ambient, 0.03), ambient, daylight, thrown: undefined, lift: 1, luminance: white * WHITE };
}
