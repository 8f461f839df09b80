/** What each camera sends, and where people fall in its picture. */
import { canonical } from "../../model/names";
import { holding } from "../../model/during";
import { valueOf } from "../../model/bound";
import type { Vec3 } from "../../model/geometry";
import type { Setup, Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { namesOf } from "../../model/voices";
import { bustInFrame, type InFrame } from "../../physics/bust";
import { convertView, pixelsAcrossFace, type Camera } from "../../physics/framing";
import { angleBetween, between, type Vec3 as Triple } from "../../physics/geometry";
import type { SentPicture } from "../call-state";
import { candidates, type Candidate } from "../coverage/claim";
import { carries, type Ending, type Graph } from "../graph";
import { ASPECT, AT_ITS_PLACE, usualAim, viewOf } from "../sight";
import { aimOf, facing, pointOf, standOf, triple } from "../stands";
import { oncePair } from "../../model/watching/once";

/** A camera from which a way leads to the people online. */
export interface Shot extends Candidate {
  /** Size and rate as sent. */
  readonly sent: SentPicture | undefined;
}

export function shotsOf(graph: Graph): readonly Shot[] {
  const sent = graph.joins.flatMap((j) => j.pictures);
  return candidates(graph, "picture", "camera", "back").map((candidate) => {
    const { part, device } = candidate.ending;
    const own = sent.find((p) => [canonical(part.id), canonical(device.name)].includes(canonical(p.name)));
    // A camera that comes in by a grabber or a port is sent as that is.
    return { ...candidate, sent: own ?? sent.find((p) => !graph.endings.has(canonical(p.name))) ?? sent[0] };
  });
}

export const liveShots = (shots: readonly Shot[], trial: Trial): readonly Shot[] => shots.filter((s) => carries(s.path, trial));

/** What decides how shots come out, besides the trial. */
export const shotKey = (shots: readonly Shot[]): string =>
  shots.map((s) => `${s.ending.part.id} ${s.sent?.width ?? ""}x${s.sent?.height ?? ""}p${s.sent?.rate ?? ""} ${s.path.flatMap((e) => e.gap?.cause ?? []).join(",")}`).join("; ");

/** The camera as a pinhole. `voices`: at whom one would turn it where nothing is said. */
export function cameraOf(setup: Setup, trial: Trial, { device, part }: Ending, voices: readonly Voice[]): Camera {
  return trial.keep(`camera ${part.id} ${device.aim === undefined ? namesOf(voices) : ""}`, () => {
    const horizontal = (viewOf(part, trial) * Math.PI) / 180;
    const position = triple(standOf(setup, device, trial));
    const level = triple(aimOf(setup, device, trial, (t) => usualAim(setup, t, device, voices)));
    // A stated tilt says how high it looks, whatever it is turned to.
    const { tilt } = part.optics;
    const aim = tilt === undefined ? level : ([level[0], level[1], position[2] + Math.hypot(level[0] - position[0], level[1] - position[1]) * Math.tan((trial.value(tilt) * Math.PI) / 180)] as const);
    return {
      position, aim,
      horizontal, vertical: convertView(horizontal, "horizontal", "vertical", ASPECT),
    };
  });
}

/** How somebody falls in a picture: as measured, or, at the very place of the camera, before it. */
export interface Seen extends InFrame {
  /** Degrees to the nearest edge for the face; negative outside, where the way out is told in words. */
  readonly margin: number;
  /** Past which edge of the frame the face is; nothing where it is in it, or where the picture has no such side: behind the camera. */
  readonly side: "left" | "right" | "above" | "below" | undefined;
  readonly words: string;
}

/** Somebody's mouth as a camera sees them: worked out once for each pair, since several checks ask the same. */
export const seenBy: (camera: Camera, mouth: Vec3) => Seen = oncePair(lookAt);

function lookAt(camera: Camera, mouth: Vec3): Seen {
  const at = triple(mouth);
  const flat = Math.hypot(at[0] - camera.position[0], at[1] - camera.position[1]);
  if (flat < AT_ITS_PLACE) {
    // Whoever is at the very place of a camera sits before it.
    return { depth: AT_ITS_PLACE, left: -0.5, right: 0.5, bottom: -0.8, top: 0.6, across: 0, up: 0, whole: true, face: true, margin: (camera.horizontal * 90) / Math.PI, side: undefined, words: "in the frame" };
  }
  const frame = bustInFrame(camera, at);
  if (!(frame.depth > 0)) {
    return { ...frame, margin: (camera.horizontal * 90) / Math.PI - 180, side: undefined, words: frame.depth < -0.5 * flat ? "behind the camera" : `beside the camera, to the ${turnOf(camera, at) > 0 ? "right" : "left"}` };
  }
  const degrees = (share: number, full: number): number => (Math.atan(Math.abs(share) * Math.tan(full / 2)) * 180) / Math.PI;
  const across = (camera.horizontal * 90) / Math.PI - degrees(frame.across, camera.horizontal);
  const up = (camera.vertical * 90) / Math.PI - degrees(frame.up, camera.vertical);
  const margin = Math.min(across, up);
  const side = across <= up ? (frame.across > 0 ? "right" : "left") : frame.up > 0 ? "above" : "below";
  const way = side === "left" || side === "right" ? `${side} of` : side;
  return { ...frame, margin, side: margin >= 0 ? undefined : side, words: margin >= 0 ? "in the frame" : `${way} the frame by ${Math.max(1, Math.round(-margin))}°` };
}

/** Which way a point behind a camera lies, positive to its right. */
function turnOf(camera: Camera, point: Triple): number {
  const aim = between(camera.position, camera.aim);
  const way = between(camera.position, point);
  return -(aim[0] * way[1] - aim[1] * way[0]);
}

/** Pixels across a face in the stream as sent. */
export const facePixels = (camera: Camera, shot: Shot, seen: Seen): number =>
  seen.depth <= 0 ? 0 : pixelsAcrossFace(shot.sent?.width ?? 1280, camera.horizontal, seen.depth);

/** Pixels across a face 16 cm wide in the stream as sent. Common practice, no source. */
export const PIXELS = { warning: 12, talker: 30, audience: 12 } as const;

/** A face in the picture of one camera. */
export interface Framed {
  readonly shot: Shot;
  readonly depth: number;
  readonly pixels: number;
}

/** For each point that camera which gives most pixels to a face there; nothing where none has it in its frame. */
export function framed(setup: Setup, trial: Trial, shots: readonly Shot[], voices: readonly Voice[], points: readonly Vec3[]): readonly (Framed | undefined)[] {
  const cameras = shots.map((shot) => ({ shot, camera: cameraOf(setup, trial, shot.ending, voices) }));
  return points.map((point) => cameras.flatMap(({ shot, camera }): Framed[] => {
    const seen = seenBy(camera, point);
    return seen.face ? [{ pixels: facePixels(camera, shot, seen), shot, depth: seen.depth }] : [];
  }).sort((a, b) => b.pixels - a.pixels)[0]);
}

/** How each of some points is seen by the camera that has most of them. */
export interface BestView {
  readonly shot: Shot;
  readonly seen: readonly Seen[];
}

export function bestView(setup: Setup, trial: Trial, shots: readonly Shot[], voices: readonly Voice[], points: readonly Vec3[]): BestView | undefined {
  if (points.length === 0) return undefined;
  const score = (seen: readonly Seen[]): number => seen.reduce((sum, s) => sum + (s.face ? 1 : 0) + (s.whole ? 1 : 0) + Math.max(-180, Math.min(s.margin, 10)) / 1000, 0);
  return shots.map((shot) => {
    const camera = cameraOf(setup, trial, shot.ending, voices);
    const seen = points.map((point) => seenBy(camera, point));
    return { shot, seen, score: score(seen) };
  }).sort((a, b) => b.score - a.score)[0];
}

/** Where a voice may stand: its place, and the corners of what it walks over. */
export function standsOf(voice: Voice, trial: Trial): readonly Vec3[] {
  const at = voice.position.at(trial);
  if (voice.walks === undefined) return [at];
  const [dx, dy] = [trial.value(voice.walks.length) / 2, trial.value(voice.walks.width) / 2];
  return [at, ...[-1, 1].flatMap((x) => [-1, 1].map((y) => ({ ...at, x: at.x + x * dx, y: at.y + y * dy })))];
}

/** Between where somebody looks and the way to a camera, degrees. */
export function turnedFrom(graph: Graph, voice: Voice, mouth: Vec3, camera: Camera, trial: Trial): number {
  const stated = holding(voice.statements, "faces", graph.item).find((s) => !s.negated);
  const place = stated && valueOf(stated, "at", "place");
  const face: Triple = place === undefined ? facing(graph.setup, voice, mouth, trial) : between(triple(mouth), triple(pointOf(graph.setup, `${voice.name} faces`, place, trial)));
  const way = between(triple(mouth), camera.position);
  return (angleBetween([face[0], face[1], 0], [way[0], way[1], 0]) * 180) / Math.PI;
}
