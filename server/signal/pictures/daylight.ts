/** How much light there is: in the room, on a screen, on faces. */
import { assumed } from "../../model/make-ranged";
import type { Device, Part } from "../../model/device";
import type { Ranged } from "../../model/ranged";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { displayContrast, projectedContrast } from "../../physics/contrast";
import { thrownLight } from "../../physics/projection";
import { pictureOf } from "./picture";

const CP = "common practice, no source";

/** Light in the room, lx on the level of tables. */
export function roomLight({ room }: Setup): Ranged {
  const by = room.outdoors ? { best: 10_000, low: 2000, high: 50_000 } : { best: 300, low: 150, high: 500 };
  return { ...assumed("room.light", `the light in ${room.name}`, "illuminance", { ...by, source: CP }), ask: `How much light is there in ${room.name} at tables, in lux?` };
}

/** The share of the room's light that falls on an upright surface. */
const share = (id: string, label: string, by: { best: number; low: number; high: number }): Ranged => assumed(id, label, "share", { ...by, source: CP });

/** Light of the room on a screen, lx. */
export const lightOnScreen = (setup: Setup, trial: Trial, device: Device): number =>
  setup.room.lightOnScreens !== undefined ? trial.value(setup.room.lightOnScreens) : trial.value(roomLight(setup)) * trial.value(share(`${device.name}.lit`, `the share of the room's light that falls on the picture of ${device.name}`, { best: 0.35, low: 0.15, high: 0.5 }));

/** Light on faces, lx on an upright surface turned to the camera. */
export const lightOnFaces = (setup: Setup, trial: Trial): number =>
  setup.room.lightOnFaces !== undefined ? trial.value(setup.room.lightOnFaces) : trial.value(roomLight(setup)) * trial.value(share("people.lit", "the share of the room's light that falls on faces", { best: 0.4, low: 0.3, high: 0.6 }));

/** Light that a projector has kept of what is printed on it. */
const KEPT = { best: 0.75, low: 0.6, high: 1 } as const;

export interface Contrast {
  readonly value: number;
  /** Light of the room on the picture, lx. */
  readonly ambient: number;
  /** Light of the projector on white, lx; nothing for a display that shines by itself. */
  readonly thrown: number | undefined;
}

/** Contrast of a picture under the light of the room. */
export function contrastOf(setup: Setup, trial: Trial, device: Device, part: Part): Contrast {
  const ambient = lightOnScreen(setup, trial, device);
  if (device.type === "projector") {
    const { rectangle } = pictureOf(setup, trial, device, part);
    const flux = trial.value(part.light ?? assumed(`${device.name}.light`, `the light of ${device.name}`, "luminous-flux", { best: 3000, low: 2000, high: 4500, source: CP })) * trial.value(share(`${device.name}.kept`, `what ${device.name} has kept of its light`, KEPT));
    const thrown = thrownLight(flux, rectangle.width * rectangle.height);
    return { value: projectedContrast(thrown, ambient), ambient, thrown };
  }
  const white = trial.value(assumed(`${part.id}.white`, `the brightness of ${part.id}`, "ratio", { best: 300, low: 200, high: 450, source: CP }));
  return { value: displayContrast(white, white / 1000, ambient, 0.03), ambient, thrown: undefined };
}
