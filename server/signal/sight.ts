/** What is seen: pictures from seats, people from cameras. */
import type { Device, Part } from "../model/device";
import type { Vec3 } from "../model/geometry";
import { assumed } from "../model/make-ranged";
import { canonical } from "../model/names";
import { ASPECT, shapeOf } from "../model/optics";
import { HEIGHTS } from "../model/position";
import type { Ranged } from "../model/ranged";
import type { Setup, Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { convertView, project, zoomedAngle } from "../physics/framing";
import { distance } from "../physics/geometry";
import { faceHeightOnGrid, visualAngle } from "../physics/imageSize";
import { mouths } from "./air";
import { aimOf, audienceCentre, standOf, triple } from "./stands";

export { ASPECT, shapeOf } from "../model/optics";

/** Nearer than this, somebody and a camera are at one place, and it looks at them. Common practice, no source. */
export const AT_ITS_PLACE = 0.7;

/** The least angle under which a face is still a face, in degrees. Common practice, no source. */
export const FACE_LIMIT = 0.6;

/** Height of the picture that a display or a projector shows, in metres. */
export function pictureHeight(setup: Setup, device: Device, part: Part, trial: Trial): number {
  if (device.type === "projector") {
    const surface = device.fills === undefined ? undefined : setup.room.surfaces.get(canonical(device.fills));
    const width: Ranged = surface?.width
      ?? assumed(`${device.name}.picture`, `the width of the picture of ${device.name}`, "length", { best: 2, low: 1.5, high: 2.6, source: "common practice, no source" });
    // On a surface that is squarer than the picture its width decides, on one that is longer its height.
    return trial.value(width) / Math.max(shapeOf(part), surface?.aspect ?? 0);
  }
  if (part.width !== undefined) return trial.value(part.width) / shapeOf(part);
  const diagonal: Ranged = part.diagonal
    ?? assumed(`${part.id}.diagonal`, `the diagonal of ${part.id}`, "length", { best: 0.6, low: 0.3, high: 1.4, source: "common practice, no source" });
  return trial.value(diagonal) / Math.hypot(shapeOf(part), 1);
}

/** Where the picture is: on the surface that a projector fills, else at the device. */
export function pictureAt(setup: Setup, device: Device, trial: Trial): Vec3 {
  if (device.type !== "projector") return standOf(setup, device, trial);
  const at = setup.floor.spot(device.fills ?? "front-screen", trial) ?? { x: 0.05, y: trial.value(setup.room.width) / 2, z: 0 };
  return { ...at, z: Math.max(at.z, HEIGHTS.wall) };
}

/** The angle under which one face online is seen from eyes, in degrees. */
export function faceAngle(setup: Setup, trial: Trial, device: Device, part: Part, faces: Ranged): (eye: Vec3) => number {
  const height = faceHeightOnGrid(pictureHeight(setup, device, part, trial), Math.max(1, Math.round(trial.value(faces))));
  const at = triple(pictureAt(setup, device, trial));
  return (eye) => (visualAngle(height, Math.max(0.2, distance(at, triple(eye)))) * 180) / Math.PI;
}

/** Horizontal angle of view of a camera, as far as it is zoomed in, in degrees. */
export function viewOf(part: Part, trial: Trial): number {
  const view = part.view ?? assumed(`${part.id}.view`, `the angle of view of ${part.id}`, "angle", { best: 70, low: 60, high: 80, source: "common practice, no source" });
  const { zoomed } = part.optics;
  const degrees = zoomed === undefined ? trial.value(view) : (zoomedAngle((trial.value(view) * Math.PI) / 180, trial.value(zoomed)) * 180) / Math.PI;
  if (part.viewWay === "horizontal") return degrees;
  return (convertView((degrees * Math.PI) / 180, part.viewWay, "horizontal", ASPECT) * 180) / Math.PI;
}

/** How far inside a camera's frame, from side to side, points lie: degrees to the nearer edge; negative outside. */
export function frameOf(setup: Setup, trial: Trial, camera: { device: Device; part: Part }, voices: readonly Voice[]): (point: Vec3) => number {
  return trial.keep(`frame ${camera.part.id} ${namesOf(voices)}`, () => {
    const at = standOf(setup, camera.device, trial);
    const aim = aimOf(setup, camera.device, trial, (t) => usualAim(setup, t, camera.device, voices));
    const half = viewOf(camera.part, trial) / 2;
    // Level with the camera: whether heads are cut off is for the picture's own checks.
    const flat = (p: Vec3): Vec3 => ({ ...p, z: at.z });
    const seenBy = { position: triple(at), aim: triple(flat(aim)), horizontal: (half * 2 * Math.PI) / 180, vertical: Math.PI / 2 };
    const slope = Math.tan((half * Math.PI) / 180);
    return (point) => {
      // Whoever is at the very place of a camera sits before it.
      if (Math.hypot(point.x - at.x, point.y - at.y) < AT_ITS_PLACE) return half;
      const seen = project(seenBy, triple(flat(point)));
      if (!(seen.depth > 0)) return half - 180;
      return half - (Math.atan(Math.abs(seen.across) * slope) * 180) / Math.PI;
    };
  });
}

/** Where a camera points if nobody says so: at whoever speaks nearest to it, as one would turn it. */
export function usualAim(setup: Setup, trial: Trial, device: Device, voices: readonly Voice[]): Vec3 {
  const at = standOf(setup, device, trial);
  let best: Vec3 | undefined;
  let least = Infinity;
  for (const voice of voices) {
    const mouth = voice.seats === undefined ? voice.position.at(trial) : audienceCentre(setup, trial, voice.seats.name);
    const far = distance(triple(at), triple(mouth));
    if (far < least) {
      least = far;
      best = mouth;
    }
  }
  return best ?? audienceCentre(setup, trial);
}

/** The points that must be in the frame for something to be seen: a head, or every head of some seats. */
export function pointsOf(setup: Setup, name: string, trial: Trial): readonly Vec3[] {
  const voice = setup.voices.get(canonical(name));
  if (voice !== undefined) return mouths(setup, voice, trial);
  const group = setup.floor.group(name);
  if (group !== undefined) return setup.floor.seats(group, trial).map((seat) => seat.at);
  const spot = setup.floor.spot(name, trial);
  return spot === undefined ? [] : [{ ...spot, z: spot.z + HEIGHTS.standingMouth }];
}

