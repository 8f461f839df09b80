/** Who is in the room: people in seats, and whoever speaks. */
import type { SeatsAt } from "../../model/room-shape";
import { canonical } from "../../model/names";
import type { Trial } from "../../model/trial";
import { headOf } from "../../model/voices";
import type { Camera } from "../../physics/framing";
import { axes } from "../../physics/framing";
import type { Vec3 } from "../../physics/geometry";
import type { Graph } from "../graph";
import { AT_ITS_PLACE } from "../sight";
import { positionOf } from "../stands";
import { FRAME_WIDTH } from "./perspective";
import { silhouette, type Detail, type Person } from "./silhouette";
import type { Standing } from "./standing";
import type { Viewpoint } from "./viewpoint";

/** Nearer than this to an eye nobody else's head is, m. Common practice, no source. */
const NEAR = 0.3;
/** Nearer than this to a talker a seat is the talker's own, m. Common practice, no source. */
const OWN_SEAT = 0.4;
/** Shoulders that are drawn narrower than the first need few corners, those broader than the second many, pixels. */
const COARSE = 14;
const LARGE = 110;

/** Whoever is at the very place of a camera sits before it: so far away, and with the mouth on its axis. */
const beforeCamera = (camera: Camera, floor: number): Person => {
  const { forward } = axes(camera);
  const at: Vec3 = [camera.position[0] + forward[0] * AT_ITS_PLACE, camera.position[1] + forward[1] * AT_ITS_PLACE, camera.position[2] + forward[2] * AT_ITS_PLACE];
  return { x: at[0], y: at[1], top: at[2] + 0.16, floor, standing: false };
};

export interface Present {
  readonly standing: readonly Standing[];
  /** Whoever sits at the camera itself, by name. */
  readonly atCamera: readonly string[];
}

export function present(graph: Graph, trial: Trial, seats: readonly SeatsAt[], from: Viewpoint): Present {
  const { camera } = from;
  const eye = camera.position;
  const detail = (person: Person): Detail => {
    const broad = (0.42 * FRAME_WIDTH) / (2 * Math.tan(camera.horizontal / 2) * Math.max(0.1, Math.hypot(person.x - eye[0], person.y - eye[1])));
    return broad > LARGE ? "large" : broad > COARSE ? "fine" : "coarse";
  };
  const atCamera: string[] = [];
  const talkers = graph.voices.filter((voice) => voice.seats === undefined && voice !== from.voice).flatMap((voice) => {
    const mouth = voice.position.at(trial);
    const floor = graph.setup.floor.floorAt(mouth, trial);
    const flat = Math.hypot(mouth.x - eye[0], mouth.y - eye[1]);
    const isAt = from.ending !== undefined && flat < AT_ITS_PLACE;
    if (isAt) atCamera.push(voice.name);
    else if (flat < NEAR) return [];
    const person: Person = isAt ? beforeCamera(camera, floor) : { x: mouth.x, y: mouth.y, top: headOf(voice, trial).top, floor, standing: voice.body.standing };
    return [{ voice, person, sits: mouth }];
  });
  const worn = new Map<string, string[]>();
  for (const device of graph.setup.devices.values()) {
    const by = device.placed === undefined ? undefined : positionOf(graph.setup, device).held?.by;
    if (by !== undefined) worn.set(canonical(by), [...(worn.get(canonical(by)) ?? []), device.name]);
  }
  const own = [...talkers.map(({ sits }) => sits), ...(from.voice === undefined ? [] : [from.voice.position.at(trial)])];
  let index = -1;
  const seated = seats.flatMap(({ group, seats: all, where }) => all.flatMap((seat): Standing[] => {
    index += 1;
    if (index === from.seat || Math.hypot(seat.at.x - eye[0], seat.at.y - eye[1]) < NEAR) return [];
    if (own.some((p) => Math.hypot(p.x - seat.at.x, p.y - seat.at.y) < OWN_SEAT)) return [];
    const person: Person = { x: seat.at.x, y: seat.at.y, top: seat.top, floor: seat.floor, standing: false };
    return [{ kind: "person", name: group.name, says: "", where, at: person, faces: silhouette(person, eye, seat.offCamera ? ["shy", "shy-head"] : ["person", "head"], detail(person)) }];
  }));
  return {
    atCamera,
    standing: [...seated, ...talkers.map(({ voice, person }): Standing => {
      const with_ = worn.get(canonical(voice.name)) ?? [];
      const name = voice.stated ? voice.name : "who speaks";
      return { kind: "talker", name, says: with_.length === 0 ? name : `${name}, with ${with_.slice(0, 3).join(", ")}`, where: voice.where, at: person, faces: silhouette(person, eye, ["talker", "talker-head"], detail(person)) };
    })],
  };
}
