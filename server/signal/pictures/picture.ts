/** Where a picture is in the room, how large, and which way it looks. */
import type { Device, Part } from "../../model/device";
import { assumed } from "../../model/make-ranged";
import { canonical } from "../../model/names";
import type { Ranged } from "../../model/ranged";
import { defaultOf } from "../../model/defaults";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import type { Vec3 } from "../../physics/geometry";
import { upright, type Rectangle } from "../../physics/hidden";
import { pictureAt, pictureHeight, shapeOf } from "../sight";
import { aimOf, audienceCentre, triple } from "../stands";

const ASSUMED_CP = "common practice, no source";

export interface Picture {
  readonly rectangle: Rectangle;
  /** Lower edge above the floor, m. */
  readonly bottom: number;
  /** The way it looks, on the floor plan; nothing where nothing tells. */
  readonly normal: Vec3 | undefined;
}

/** The picture of a display, or of a projector on its surface. */
export function pictureOf(setup: Setup, trial: Trial, device: Device, part: Part): Picture {
  return trial.keep(`picture of ${part.id}`, () => {
    const height = pictureHeight(setup, device, part, trial);
    const at = pictureAt(setup, device, trial);
    const normal = lookingWay(setup, trial, device, triple(at));
    const middle = middleOf(setup, trial, device, at.z, height);
    return { rectangle: upright([at.x, at.y, middle], normal ?? [1, 0, 0], height * shapeOf(part), height), bottom: middle - height / 2, normal };
  });
}

/** Whether the text says how high a device stands: by a height, or by the third figure of its place. */
const heightSaid = (device: Device): boolean => device.height !== undefined || device.place?.relations.some((r) => r.anchor.kind === "point" && r.anchor.coordinates.length > 2) === true;

/** How high the middle of a picture is. Where nothing says, a range that a tape measure would settle. */
function middleOf(setup: Setup, trial: Trial, device: Device, z: number, height: number): number {
  const room = trial.value(setup.room.height);
  const under = (middle: number): number => Math.max(height / 2, Math.min(middle, room - 0.05 - height / 2));
  if (device.type === "projector") {
    const surface = device.fills === undefined ? undefined : setup.room.surfaces.get(canonical(device.fills));
    const said = surface?.place?.relations.some((r) => r.anchor.kind === "point" && r.anchor.coordinates.length > 2) === true;
    if (said) return z;
    return under(trial.value(surface?.lowerEdge ?? bottomOf(device)) + height / 2);
  }
  // A computer stands on whatever table there is.
  if (heightSaid(device) || device.type === "computer") return z;
  return under(trial.value({
    ...assumed(`${device.name}.height`, `how high the middle of the picture of ${device.name} is`, "length", { best: z, low: z - 0.3, high: z + 0.5, source: ASSUMED_CP }),
    ask: `How high above the floor is the middle of the picture of ${device.name}?`,
  }));
}

/** How high the lower edge of a picture is that is thrown on no surface of the text. */
const bottomOf = (device: Device): Ranged => ({
  ...assumed(`${device.name}.lower-edge`, `how high above the floor the lower edge of the picture of ${device.name} is`, "length", defaultOf("lower-edge", "surface", "height")),
  ask: `How high above the floor is the lower edge of the picture of ${device.name}?`,
});

/** Nearer to a wall than this a surface hangs on it, m. Common practice, no source. */
const ON_WALL = 0.6;

function lookingWay(setup: Setup, trial: Trial, device: Device, at: Vec3): Vec3 | undefined {
  // The lid of a computer is turned as whoever uses it likes; its aim is that of its camera.
  if (device.type === "computer") return undefined;
  if (device.aim !== undefined && device.type !== "projector") {
    const aim = triple(aimOf(setup, device, trial, (t) => audienceCentre(setup, t)));
    return [aim[0] - at[0], aim[1] - at[1], 0];
  }
  const centre = triple(audienceCentre(setup, trial));
  if (device.type === "projector") {
    const length = trial.value(setup.room.length);
    const width = trial.value(setup.room.width);
    const walls: readonly (readonly [apart: number, normal: Vec3])[] = [[at[0], [1, 0, 0]], [length - at[0], [-1, 0, 0]], [at[1], [0, 1, 0]], [width - at[1], [0, -1, 0]]];
    const nearest = walls.reduce((a, b) => (b[0] < a[0] ? b : a));
    if (nearest[0] < ON_WALL) return nearest[1];
  }
  return [centre[0] - at[0], centre[1] - at[1], 0];
}
