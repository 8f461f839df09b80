import type { Scene } from "../checks/check";
import { each } from "../checks/too-near";
import type { Figure } from "../finding";
import { canonical } from "../model/names";
import type { Trial } from "../model/trial";
import { skewOf } from "../physics/projection";
import { contrastOf } from "../signal/pictures/daylight";
import { pictureOf } from "../signal/pictures/picture";
import { isLit } from "../signal/pictures/showing";
import { standOf, triple } from "../signal/stands";
import { input, round } from "./record";

const DEGREES = 180 / Math.PI;

/** Contrast of each picture in the light of the room, and how far projectors have to look up, down and aside. */
export function pictureFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, item } = scene;
  return each(scene).filter((showing) => isLit(showing, trial)).flatMap(({ ending: { device, part } }): Figure[] => {
    const { value, thrown } = contrastOf(setup, trial, device, part, item);
    const surface = setup.room.surfaces.get(canonical(device.fills ?? ""));
    const contrast: Figure = {
      name: "contrast of the picture", of: [part.id], value: round(value), unit: ":1",
      ...(thrown === undefined
        ? { formula: "(W + r)/(B + r), r = ρ·E/π", inputs: part.optics.brightness === undefined ? [] : [input(part.optics.brightness, trial, "cd/m²")], source: "diffuse reflection: recalled" }
        : { formula: "(max(1, g)·E + a)/a", inputs: [...(part.light === undefined ? [] : [input(part.light, trial, "lm")]), ...(surface === undefined ? [] : [input(surface.gain, trial, "")])], source: "AETM design guidelines after ANSI/InfoComm 3M-2011, in its exact form" }),
    };
    if (device.type !== "projector") return [contrast];
    const { tilt, turn } = skewOf(triple(standOf(setup, device, trial)), pictureOf(setup, trial, device, part).rectangle);
    const keystone = part.optics.keystone;
    return [contrast,
      { name: "how far it looks up", of: [part.id], value: round(tilt * DEGREES), unit: "°", formula: "arctan(from the lens to the nearer edge of the picture, up or down / distance)", inputs: keystone === undefined ? [] : [input(keystone.up, trial, "°")], source: "geometry; how far lenses reach: common practice, no source" },
      { name: "how far it looks aside", of: [part.id], value: round(turn * DEGREES), unit: "°", formula: "arctan(aside of the middle of the picture / distance)", inputs: keystone?.sideways === undefined ? [] : [input(keystone.sideways, trial, "°")], source: "geometry" },
    ];
  });
}
