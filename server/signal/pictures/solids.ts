/** Things that stand fast between an eye, or a camera, and what is to be seen: columns, and displays on their stands. */
import type { Setup } from "../../model/setup";
import { roomShape } from "../../model/room-shape";
import type { Trial } from "../../model/trial";
import { shareHidden, type Upright } from "../../physics/hidden";
import { listeners } from "../air";
import type { Ending } from "../graph";
import { triple } from "../stands";
import { facingEye, leaning } from "./people";
import { pictureOf } from "./picture";

export interface Solid {
  readonly name: string;
  readonly shape: Upright;
  /** What is nearer to its middle than this is at it, not behind it, m. */
  readonly around: number;
}

/** All of them. Loudspeakers, lecterns and tables are taken to be too slim or too low. */
export function solidsOf(setup: Setup, trial: Trial): readonly Solid[] {
  if (setup.room.columns.length === 0 && ![...setup.devices.values()].some((d) => d.type === "display" && d.placed !== undefined)) return [];
  return trial.keep("solids", () => {
    const { columns, height } = roomShape(setup.floor, trial);
    const posts = columns.map(({ name, at, width }): Solid => ({ name, around: width / 2 + 0.15, shape: { x: at.x, y: at.y, bottom: setup.floor.floorAt(at, trial), top: height, width, round: false } }));
    const displays = [...setup.devices.values()].filter((d) => d.type === "display" && d.placed !== undefined).flatMap((device): Solid[] => {
      const part = device.parts.find((p) => p.type === "display");
      if (part === undefined) return [];
      const { rectangle, bottom } = pictureOf(setup, trial, device, part);
      return [{ name: device.name, around: 0.6, shape: { x: rectangle.centre[0], y: rectangle.centre[1], bottom, top: bottom + rectangle.height, width: rectangle.width, round: false } }];
    });
    return [...posts, ...displays];
  });
}

/** Those that may hide a picture: all but the display that shows it. */
const before = (setup: Setup, trial: Trial, { device }: Ending): readonly Solid[] => solidsOf(setup, trial).filter(({ name }) => name !== device.name);

/** The share of a display's picture that things hide, however one leans, from each of all `listeners`. */
export function hiddenByThings(setup: Setup, trial: Trial, ending: Ending): readonly number[] {
  return trial.keep(`things before ${ending.part.id}`, () => {
    const shapes = before(setup, trial, ending).map(({ shape }) => shape);
    if (shapes.length === 0) return listeners(setup, trial).map(() => 0);
    const { rectangle, normal } = pictureOf(setup, trial, ending.device, ending.part);
    return listeners(setup, trial).map((seat) => {
      const eye = triple(seat.at);
      const far = Math.max(1e-6, Math.hypot(rectangle.centre[0] - eye[0], rectangle.centre[1] - eye[1]));
      return leaning((metres) => {
        const from = [eye[0] - ((rectangle.centre[1] - eye[1]) / far) * metres, eye[1] + ((rectangle.centre[0] - eye[0]) / far) * metres, eye[2]] as const;
        return shareHidden(from, normal === undefined ? facingEye(rectangle, from) : rectangle, shapes);
      });
    });
  });
}

/** The thing that hides most of a display's picture from one of all `listeners`. */
export function thingBefore(setup: Setup, trial: Trial, ending: Ending, seat: number): string | undefined {
  const at = listeners(setup, trial)[seat]?.at;
  if (at === undefined) return undefined;
  const { rectangle, normal } = pictureOf(setup, trial, ending.device, ending.part);
  const eye = triple(at);
  const shares = before(setup, trial, ending).map(({ name, shape }) => ({ name, share: shareHidden(eye, normal === undefined ? facingEye(rectangle, eye) : rectangle, [shape]) }));
  return shares.reduce<(typeof shares)[number] | undefined>((a, b) => (a === undefined || b.share > a.share ? b : a), undefined)?.name;
}
