/** Outlines on the floor: what cameras see, where loudspeakers are heard, from where pictures can be seen; all of them end at walls. */
import type { Device, Part } from "../../model/device";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { directivityOf } from "../air";
import { sourcePattern } from "../../physics/directivity";
import type { Camera } from "../../physics/framing";
import { cosineOffAxis } from "../../physics/geometry";
import { contains } from "../../physics/polygon";
import type { Picture } from "../pictures/picture";
import { aimOf, audienceCentre, standOf, triple } from "../stands";
import type { Field, Point } from "./plan";
import { reachOf } from "./walls";

/** No outline reaches farther, m. */
const FARTHEST = 300;
/** Steps of an outline, degrees. */
const STEP = 3;
/** Band of a loudspeaker's outline: 2 kHz, where speech is understood by. Model choice. */
const BAND = 4;
/** The outline of a loudspeaker: where its direct sound is this much softer than where it is aimed, dB. Common practice, no source. */
export const SOFTER = 6;
const degrees = (angle: number): number => (angle * Math.PI) / 180;
const ray = (angle: number): Point => ({ x: Math.cos(angle), y: Math.sin(angle) });

/** A fan of `angle` degrees about a direction, cut off by walls and obstacles. */
export function fan(outline: readonly Point[], at: Point, middle: number, angle: number, obstacles: readonly (readonly Point[])[] = []): Point[] {
  const steps = Math.max(2, Math.ceil(angle / STEP));
  const edge = Array.from({ length: steps + 1 }, (_, i) => {
    const way = ray(middle + degrees(angle * (i / steps - 0.5)));
    const reach = reachOf(outline, at, way, FARTHEST, obstacles);
    return { x: at.x + way.x * reach, y: at.y + way.y * reach };
  });
  // A corner of the room within the fan is a corner of the outline.
  const corners = outline.filter((corner) => {
    const off = turn(Math.atan2(corner.y - at.y, corner.x - at.x) - middle);
    if (Math.abs(off) >= degrees(angle / 2)) return false;
    const far = Math.hypot(corner.x - at.x, corner.y - at.y);
    return far > 0 && reachOf(outline, at, { x: (corner.x - at.x) / far, y: (corner.y - at.y) / far }, FARTHEST, obstacles) >= far - 1e-3;
  });
  const all = [...edge, ...corners].map((point) => ({ point, off: turn(Math.atan2(point.y - at.y, point.x - at.x) - middle) })).sort((a, b) => a.off - b.off);
  return [at, ...all.map(({ point }) => point)];
}

/** An angle brought between −π and π. */
const turn = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle));

/** What a camera sees from side to side. */
export function cameraField(outline: readonly Point[], device: Device, { position, aim, horizontal }: Camera, obstacles: readonly (readonly Point[])[]): Field {
  const [x, y] = position;
  return { kind: "camera", of: device.name, outline: fan(outline, { x, y }, Math.atan2(aim[1] - y, aim[0] - x), (horizontal * 180) / Math.PI, obstacles), where: device.where };
}

/**
 * From where a picture is looked at from at most `limit` degrees off its axis, to its farther edge: a fan that begins where the lines
 * from its two edges cross, w / (2·tan limit) before it. Nothing where nothing tells how it is turned.
 */
export function displayField(outline: readonly Point[], device: Device, { rectangle, normal }: Picture, limit: number, obstacles: readonly (readonly Point[])[]): Field[] {
  if (normal === undefined) return [];
  const far = Math.max(1e-9, Math.hypot(normal[0], normal[1]));
  const [x, y] = rectangle.centre;
  const open = Math.min(89, Math.max(1, limit));
  const before = rectangle.width / 2 / Math.tan(degrees(open)) / far;
  const apex = { x: x + normal[0] * before, y: y + normal[1] * before };
  if (!contains(outline, apex)) return [];
  return [{ kind: "display", of: device.name, outline: fan(outline, apex, Math.atan2(normal[1], normal[0]), 2 * open, obstacles), where: device.where }];
}

/**
 * Where the direct sound of a loudspeaker is at most 6 dB softer than where it is aimed: g(θ)/r² falls with the square of the
 * distance and with the pattern, at the height of ears.
 */
export function loudspeakerField(setup: Setup, outline: readonly Point[], device: Device, part: Part, trial: Trial): Field {
  const at = standOf(setup, device, trial);
  const aim = aimOf(setup, device, trial, (t) => audienceCentre(setup, t));
  const q = directivityOf(part)[BAND];
  const ear = aim.z;
  const below = at.z - ear;
  const aimed = Math.max(0.25, Math.hypot(aim.x - at.x, aim.y - at.y, below));
  const least = 10 ** (-SOFTER / 10) / aimed ** 2;
  const source = triple(at);
  const axis = triple({ x: aim.x - at.x, y: aim.y - at.y, z: ear - at.z });
  const strength = (way: Point, far: number): number => {
    const ears = triple({ x: at.x + way.x * far, y: at.y + way.y * far, z: ear });
    return sourcePattern(cosineOffAxis(source, axis, ears), q) / Math.max(0.01, far ** 2 + below ** 2);
  };
  const points = Array.from({ length: 360 / STEP }, (_, i) => {
    const way = ray(degrees(i * STEP));
    const most = reachOf(outline, at, way, FARTHEST);
    // From outside inwards: the farthest point at which it is loud enough.
    let far = most;
    let near = 0;
    if (strength(way, most) < least) {
      for (let halvings = 0; halvings < 24; halvings += 1) {
        const middle = (near + far) / 2;
        if (strength(way, middle) >= least) near = middle;
        else far = middle;
      }
      far = near;
    }
    return { x: at.x + way.x * far, y: at.y + way.y * far };
  });
  return { kind: "loudspeaker", of: device.name, outline: points, where: device.where };
}
