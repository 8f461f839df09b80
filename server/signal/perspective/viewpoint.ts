/** From where one looks, and which way: a camera by its own aim and lens, a seat or a talker toward what there is to see. */
import type { Seat } from "../../model/placing/seats";
import { seatOf } from "../../model/placing/seats";
import type { Device } from "../../model/device";
import { canonical } from "../../model/names";
import type { Voice } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { headOf } from "../../model/voices";
import type { Where } from "../../model/where";
import { convertView, type Camera } from "../../physics/framing";
import type { Vec3 } from "../../physics/geometry";
import type { Ending, Graph } from "../graph";
import { cameraOf } from "../pictures/shots";
import { isLit, showings } from "../pictures/showing";
import { ASPECT } from "../sight";
import { facing, triple } from "../stands";
import { isBefore, rectangleOf } from "./displays";
import type { ViewIn } from "./perspective";

export interface Viewpoint {
  readonly of: string;
  readonly camera: Camera;
  readonly where: Where | undefined;
  /** Of a camera. */
  readonly ending: Ending | undefined;
  readonly device: Device | undefined;
  /** Of a seat: its place among all that listen. */
  readonly seat: number | undefined;
  /** Of a talker's place. */
  readonly voice: Voice | undefined;
}

/** From the seat or the camera of that name; where there is none, the names that there are, in words. */
export function viewpointOf(graph: Graph, trial: Trial, view: ViewIn, name: string | undefined): Viewpoint | { readonly known: string } {
  return (view === "camera" ? fromCamera : fromSeat)(graph, trial, name);
}

function fromCamera(graph: Graph, trial: Trial, name: string | undefined): Viewpoint | { readonly known: string } {
  const cameras = [...graph.endings.values()].filter(({ part }) => part.type === "camera");
  const wanted = name === undefined ? undefined : canonical(name);
  const [only] = cameras;
  const ending = wanted === undefined ? (cameras.length === 1 ? only : undefined)
    : cameras.find(({ part }) => canonical(part.id) === wanted) ?? cameras.find(({ device }) => canonical(device.name) === wanted);
  if (ending === undefined) return { known: cameras.length === 0 ? "this setup has no camera" : `its cameras are ${some(cameras.map(({ part }) => part.id))}` };
  return { of: ending.part.id, camera: cameraOf(graph.setup, trial, ending, graph.voices), where: ending.device.placed?.where ?? ending.device.where, ending, device: ending.device, seat: undefined, voice: undefined };
}

function fromSeat(graph: Graph, trial: Trial, name: string | undefined): Viewpoint | { readonly known: string } {
  const { setup } = graph;
  const wanted = name === undefined ? undefined : canonical(name);
  const voices = [...setup.voices.values()].filter((voice) => voice.seats === undefined && voice.stated);
  const voice = wanted === undefined ? undefined : voices.find((one) => canonical(one.name) === wanted);
  if (voice !== undefined) {
    const head = headOf(voice, trial);
    return { of: voice.name, camera: toward(graph, trial, triple(head.eyes), facing(setup, voice, voice.position.at(trial), trial), voice), where: voice.where, ending: undefined, device: undefined, seat: undefined, voice };
  }
  const groups = setup.room.seats.map((group) => ({ group, seats: setup.floor.seats(group, trial) }));
  let before = 0;
  for (const { group, seats } of groups) {
    const index = wanted === undefined ? -1 : indexOf(group.name, seats, wanted);
    const seat = seats[index];
    if (seat !== undefined) {
      return { of: seat.name, camera: toward(graph, trial, triple(seat.at), [seat.faces.x, seat.faces.y, 0], undefined), where: group.where, ending: undefined, device: undefined, seat: before + index, voice: undefined };
    }
    before += seats.length;
  }
  const ends = groups.flatMap(({ seats }) => (seats.length < 2 ? seats.map((seat) => seat.name) : [`${seats[0]?.name ?? ""} to ${seats.at(-1)?.name ?? ""}`]));
  const both = [...(ends.length === 0 ? [] : [`its seats are ${some(ends)}`]), ...(voices.length === 0 ? [] : [`its talkers ${some(voices.map((one) => one.name))}`])];
  return { known: both.length === 0 ? "this setup states no seats and no talkers" : both.join(", ") };
}

/** A seat by its name; of a row, and of the last row of a whole group, the one in the middle. */
function indexOf(group: string, seats: readonly Seat[], wanted: string): number {
  const exact = seats.findIndex((seat) => canonical(seat.name) === wanted);
  if (exact >= 0) return exact;
  const whole = canonical(group) === wanted;
  const part = whole ? undefined : seatOf(wanted);
  if (!whole && (part === undefined || part.seat !== undefined || canonical(part.group) !== canonical(group))) return -1;
  const row = whole ? Math.max(...seats.map((seat) => seat.row)) : part?.row;
  const indices = seats.flatMap((seat, i) => (seat.row === row ? [i] : []));
  return indices[Math.floor((indices.length - 1) / 2)] ?? -1;
}

/** So many names are told, and the others counted. */
const MOST_TOLD = 12;
const some = (names: readonly string[]): string => (names.length <= MOST_TOLD ? names.join(", ") : `${names.slice(0, MOST_TOLD).join(", ")} and ${names.length - MOST_TOLD} more`);

/** Angles across in which one looks at something without turning the head, degrees. Common practice, no source. */
const LEAST_WIDE = 50;
const MOST_WIDE = 100;
/** Round what is looked at so much is drawn, degrees. */
const ROUND = 9;
/** Farther aside than this one turns round to look, degrees. */
const ASIDE = 75;

const degrees = (rad: number): number => (rad * 180) / Math.PI;
const radians = (deg: number): number => (deg * Math.PI) / 180;
const around = (turn: number): number => Math.atan2(Math.sin(turn), Math.cos(turn));

/** Eyes turned so that displays that show something and whoever speaks are in view, as far as one sees them without turning round. */
function toward(graph: Graph, trial: Trial, eye: Vec3, faces: Vec3, self: Voice | undefined): Camera {
  const ahead = Math.atan2(faces[1], faces[0]);
  const directions = (points: readonly Vec3[]): { readonly turn: number; readonly up: number }[] => points.flatMap((p) => {
    const flat = Math.hypot(p[0] - eye[0], p[1] - eye[1]);
    return flat < 0.3 ? [] : [{ turn: around(Math.atan2(p[1] - eye[1], p[0] - eye[0]) - ahead), up: Math.atan2(p[2] - eye[2], flat) }];
  });
  const pictures = showings(graph).filter((showing) => isLit(showing, trial) && showing.ending.device.type !== "computer").flatMap(({ ending }) => {
    const r = rectangleOf(graph, trial, ending, eye);
    if (!isBefore(r, eye)) return [];
    return [directions([-0.5, 0.5].flatMap((across) => [-0.5, 0.5].map((up): Vec3 => [r.centre[0] + r.right[0] * across * r.width, r.centre[1] + r.right[1] * across * r.width, r.centre[2] + up * r.height])))];
  });
  const people = graph.voices.filter((voice) => voice !== self && voice.seats === undefined).map((voice) => directions([triple(headOf(voice, trial).eyes)]));
  const seen = [...pictures, ...people].filter((one) => one.length > 0 && one.every(({ turn }) => Math.abs(degrees(turn)) < ASIDE)).flat();
  if (self !== undefined && people.length === 0) seen.push({ turn: 0, up: radians(-8) });
  const [left, right] = seen.length === 0 ? [0, 0] : [Math.min(...seen.map((one) => one.turn)), Math.max(...seen.map((one) => one.turn))];
  const [low, high] = [Math.min(radians(-4), ...seen.map((one) => one.up)), Math.max(radians(4), ...seen.map((one) => one.up))];
  const high2 = convertView(Math.min(radians(120), high - low + radians(2 * ROUND)), "vertical", "horizontal", ASPECT);
  const horizontal = radians(Math.min(MOST_WIDE, Math.max(LEAST_WIDE, degrees(right - left) + 2 * ROUND, degrees(high2))));
  const turn = ahead + (left + right) / 2;
  const tilt = (low + high) / 2;
  return { position: eye, aim: [eye[0] + Math.cos(turn), eye[1] + Math.sin(turn), eye[2] + Math.tan(tilt)], horizontal, vertical: convertView(horizontal, "horizontal", "vertical", ASPECT) };
}
