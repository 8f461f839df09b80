import type { Scene } from "../checks/check";
import { each } from "../checks/too-near";
import type { Figure } from "../finding";
import { canonical } from "../model/names";
import type { Trial } from "../model/trial";
import { skewOf } from "../physics/projection";
import { contrastOf, daylightStated } from "../signal/pictures/daylight";
import { pictureOf } from "../signal/pictures/picture";
import { outdoors } from "../signal/pictures/sun";
import { daylightLevel, panesOf } from "../signal/pictures/windows";
import { isLit } from "../signal/pictures/showing";
import { standOf, triple } from "../signal/stands";
import { given, input, round } from "./record";

const DEGREES = 180 / Math.PI;

/** Contrast of each picture in the light of the room, and how far projectors have to look up, down and aside. */
export function pictureFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, item } = scene;
  return [...daylight(scene, trial), ...each(scene).filter((showing) => isLit(showing, trial)).flatMap(({ ending: { device, part } }): Figure[] => {
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
  })];
}

/** How high the sun stands and what of sun and sky comes in, in an item of the programme. */
function daylight({ setup, item }: Scene, trial: Trial): Figure[] {
  if (panesOf(setup, trial, item).length === 0 || daylightStated(setup, item)) return [];
  const { sun, sky, beam } = outdoors(setup, trial, item);
  const of = [setup.room.name];
  const latitude = setup.room.latitude === undefined ? [] : [input(setup.room.latitude, trial, "°")];
  const source = "IESNA daylight availability model; Crisp and Littlefair 1984, BS 8206-2";
  return [
    ...(sun === undefined ? [] : [{ name: "how high the sun stands", of, value: round(sun.altitude * DEGREES), unit: "°", formula: "arcsin(sin φ·sin δ + cos φ·cos δ·cos h)", inputs: latitude, source: "spherical trigonometry" }]),
    { name: "daylight on tables", of, value: round(daylightLevel(setup, trial, item)), unit: "lx", formula: "2·T·W·E/(A·(1 − R²)), E on the windows from sky, ground and sun", inputs: [given("the sky on level ground", sky, "lx"), given("the sun on a surface turned to it", beam, "lx")], source },
  ];
}
