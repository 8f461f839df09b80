/** The side elevation of a setup in one item of its programme. */
import { HEIGHTS, type Seat } from "../../model/position";
import { isOpen } from "../../model/ranged";
import { roomShape, type RoomShape } from "../../model/room-shape";
import { withUnit } from "../../model/show";
import type { Trial } from "../../model/trial";
import { BUST } from "../../physics/bust";
import type { Camera } from "../../physics/framing";
import type { Graph } from "../graph";
import { fan } from "../ground-plan/fields";
import type { Point } from "../ground-plan/plan";
import { pictureOf } from "../pictures/picture";
import { alike, hiddenOf } from "../pictures/seats";
import { cameraOf, liveShots, shotsOf } from "../pictures/shots";
import { isLit, showings, type Showing } from "../pictures/showing";
import { facing, standOf } from "../stands";
import { floorProfile } from "./profile";
import type { SideField, SidePerson, SidePicture, SideRow, SideView } from "./side";
import { sideThings } from "./things";

/** Nobody's mouth is higher than this above their feet, m. Common practice, no source. */
const TALLEST = 1.85;

/** Who looks less along the room than this looks across it: the cosine. */
const ACROSS = 0.3;

/** A row, and the seat of it that is nearest to the middle. */
interface Row {
  readonly group: string;
  readonly row: number;
  readonly seat: Seat;
  /** Around a table, or alone: no row of many. */
  readonly ring: boolean;
  /** Of all `listeners`. */
  readonly index: number;
  readonly indices: readonly number[];
  readonly where: SideRow["where"];
}

/** `chosen`: whose sight lines are drawn; without it, those of the row from which heads hide most, else of the last. */
export function sideOf(graph: Graph, trial: Trial, chosen?: { readonly group: string | undefined; readonly row: number }): SideView {
  const { setup } = graph;
  const { room } = setup;
  const length = trial.value(room.length);
  const shape = roomShape(setup.floor, trial);
  const rows = middleRows(shape);
  const shown = showings(graph).filter((s) => isLit(s, trial) && s.ending.device.type !== "computer");
  const looked = lookedAt(graph, trial, rows.length > 0);
  const shares = rows.map(({ index }) => looked?.hidden[index]?.share ?? NaN);
  const at = chosen === undefined ? worstOf(shares) : rows.findIndex(({ group, row }) => row === chosen.row && (chosen.group === undefined || chosen.group === group));
  const row = rows[at];
  // Cut open where the middle of the chosen row sits.
  const floor = floorProfile(shape, length, row?.seat.at.y ?? trial.value(room.width) / 2);
  const picture = row === undefined || looked === undefined ? undefined : looked.list[looked.hidden[row.index]?.by ?? 0];
  const pictures = shown.map((s) => sidePicture(graph, trial, s)).filter((one, i, all) => all.findIndex(({ of }) => of === one.of) === i);
  const lines = row === undefined || picture === undefined ? [] : linesOf(graph, trial, row, picture);
  const hidden = Number.isNaN(shares[at] ?? NaN) ? undefined : shares[at];
  return {
    title: setup.title, item: graph.item, room: room.name, where: room.where, length, height: shape.height, outdoors: room.outdoors,
    assumedSize: room.where === undefined || (isOpen(room.length) && room.length.from.how === "assumed"),
    floor, pictures, lines, hidden,
    rows: rows.map(({ group, row: number, ring, seat, where }, i): SideRow => ({
      name: seat.name, group, row: number, x: seat.at.x, eye: seat.at.z, top: seat.top, floor: seat.floor, faces: wayOf(seat.faces.x), seated: true, ring, chosen: i === at, where,
    })),
    people: graph.voices.filter((voice) => voice.seats === undefined).map((voice): SidePerson => {
      const mouth = voice.position.at(trial);
      const [x] = facing(setup, voice, mouth, trial);
      const under = feetOf(shape.floorAt(mouth), mouth.z);
      return { name: voice.stated ? voice.name : "who speaks", x: mouth.x, eye: mouth.z + 0.08, top: mouth.z + BUST.above, floor: under, faces: wayOf(x), seated: mouth.z - under < 1.3, where: voice.where };
    }),
    fields: [...beamsOf(graph, trial, shown), ...camerasOf(graph, trial, floor, length, shape)],
    things: sideThings(graph, trial, shape, new Set(pictures.filter(({ thrown }) => !thrown).map(({ of }) => of))),
    result: resultOf(row, picture, hidden, row === undefined || looked === undefined ? [] : row.indices.map((i) => looked.hidden[i]?.share ?? NaN), graph, trial),
  };
}

/** In a pulpit or on a box one stands higher than the floor. */
const feetOf = (floor: number, mouth: number): number => (mouth - floor > TALLEST ? mouth - HEIGHTS.standingMouth : floor);

const wayOf = (x: number): -1 | 0 | 1 => (x < -ACROSS ? -1 : x > ACROSS ? 1 : 0);

/** Of each row the seat nearest to the middle of its group; around a table, one seat of each 30 cm of the room's length. */
function middleRows(shape: RoomShape): Row[] {
  const out = new Map<string, { group: string; row: number; ring: boolean; seats: { seat: Seat; index: number }[]; where: SideRow["where"]; middle: number }>();
  let index = 0;
  for (const { group, seats, where } of shape.seats) {
    const middle = seats.reduce((sum, seat) => sum + seat.at.y, 0) / Math.max(1, seats.length);
    const ring = group.single || group.place?.relations.some((relation) => relation.relation === "around") === true;
    for (const seat of seats) {
      const key = ring ? `${group.name} at ${Math.round(seat.at.x / 0.3)}` : `${group.name} ${seat.row}`;
      const known = out.get(key);
      if (known === undefined) out.set(key, { group: group.name, row: seat.row, ring, seats: [{ seat, index }], where, middle });
      else known.seats.push({ seat, index });
      index += 1;
    }
  }
  return [...out.values()].flatMap(({ group, row, ring, seats, where, middle }): Row[] => {
    const best = seats.reduce((a, b) => (Math.abs(b.seat.at.y - middle) < Math.abs(a.seat.at.y - middle) - 1e-6 ? b : a));
    return [{ group, row, ring, seat: best.seat, index: best.index, indices: seats.map((one) => one.index), where }];
  });
}

/** What the rows look at: what is presented, else the call; never a computer's own screen. */
function lookedAt(graph: Graph, trial: Trial, seated: boolean) {
  const lists = alike(graph).map((list) => list.filter((s) => isLit(s, trial) && s.ending.device.type !== "computer")).filter((list) => list.length > 0);
  const list = lists.at(-1);
  return list === undefined || !seated ? undefined : { list, hidden: hiddenOf(graph.setup, trial, list) };
}

/** The row from which most is hidden; the last where nothing is. */
const worstOf = (shares: readonly number[]): number => shares.reduce((worst, share, i) => (share >= (shares[worst] ?? 0) || Number.isNaN(shares[worst] ?? NaN) ? i : worst), shares.length - 1);

function sidePicture(graph: Graph, trial: Trial, { ending: { device, part }, shown }: Showing): SidePicture {
  const { rectangle: { centre, right, up, width, height }, bottom } = pictureOf(graph.setup, trial, device, part);
  const corner = (across: number, high: number): Point => ({ x: centre[0] + (right[0] * across * width) / 2 + (up[0] * high * height) / 2, y: centre[2] + (high * height) / 2 });
  return { of: device.name, corners: [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], bottom, top: bottom + height, thrown: device.type === "projector", where: shown.where };
}

function linesOf(graph: Graph, trial: Trial, { seat }: Row, { ending }: Showing): (readonly [Point, Point])[] {
  const { rectangle: { centre, height } } = pictureOf(graph.setup, trial, ending.device, ending.part);
  const eye = { x: seat.at.x, y: seat.at.z };
  return [-1, 1].map((side) => [eye, { x: centre[0], y: centre[2] + (side * height) / 2 }] as const);
}

function beamsOf(graph: Graph, trial: Trial, shown: readonly Showing[]): SideField[] {
  return shown.filter((s, i) => s.ending.device.type === "projector" && shown.findIndex((other) => other.ending.part === s.ending.part) === i).map(({ ending: { device, part } }) => {
    const lens = standOf(graph.setup, device, trial);
    const { rectangle: { centre, height } } = pictureOf(graph.setup, trial, device, part);
    return { kind: "beam", of: device.name, outline: [{ x: lens.x, y: lens.z }, { x: centre[0], y: centre[2] - height / 2 }, { x: centre[0], y: centre[2] + height / 2 }] };
  });
}

function camerasOf(graph: Graph, trial: Trial, floor: readonly Point[], length: number, shape: RoomShape): SideField[] {
  const shots = liveShots(shotsOf(graph), trial);
  const section = [...floor, { x: length, y: shape.height }, { x: 0, y: shape.height }];
  return shots.filter((shot, i) => shots.findIndex((other) => other.ending.part === shot.ending.part) === i).flatMap(({ ending }) => {
    const outline = verticalField(cameraOf(graph.setup, trial, ending, graph.voices), section);
    return outline === undefined ? [] : [{ kind: "camera", of: ending.device.name, outline } as const];
  });
}

/**
 * From top to bottom, what a camera has in the middle of its picture, seen from the side and ended by floor, ceiling and walls; nothing
 * where it looks across the room. A ray that is turned aside by h from the length of the room looks steeper from the side: tan θ / cos h.
 */
export function verticalField({ position, aim, vertical }: Camera, section: readonly Point[]): readonly Point[] | undefined {
  const [dx, dy, dz] = [aim[0] - position[0], aim[1] - position[1], aim[2] - position[2]];
  const level = Math.hypot(dx, dy);
  if (level < 1e-6 || Math.abs(dx / level) < ACROSS) return undefined;
  const pitch = Math.atan2(dz, level);
  const [low, high] = [-1, 1].map((side) => {
    const angle = Math.min(1.5, Math.max(-1.5, pitch + (side * vertical) / 2));
    return Math.atan2(Math.sin(angle), (Math.cos(angle) * Math.abs(dx)) / level);
  }) as [number, number];
  const [middle, open] = [(low + high) / 2, ((high - low) * 180) / Math.PI];
  return fan(section, { x: position[0], y: position[2] }, dx > 0 ? middle : Math.PI - middle, open);
}

function resultOf(row: Row | undefined, picture: Showing | undefined, hidden: number | undefined, all: readonly number[], graph: Graph, trial: Trial): string {
  if (row === undefined) return "No seats are stated, so no sight lines are drawn.";
  const from = !row.ring ? `row ${row.row} of ${row.group}` : row.seat.name;
  const eyes = `From ${from}, eyes are ${withUnit(Number((row.seat.at.z - row.seat.floor).toFixed(2)), "m")} above the floor there`;
  if (picture === undefined) return `${eyes}. Nothing is shown to the room but on a computer’s own screen.`;
  const { bottom } = pictureOf(graph.setup, trial, picture.ending.device, picture.ending.part);
  const known = all.filter((share) => !Number.isNaN(share));
  const worst = Math.max(0, ...known);
  const per = (share: number): string => `${Math.round(share * 100)} %`;
  const loss = hidden === undefined ? "" : worst === 0 ? "; no head is in the way" : `; heads in front hide ${per(hidden)} of it from ${row.ring ? "there" : "the middle of that row"}${Math.round(worst * 100) > Math.round(hidden * 100) ? ` and ${per(worst)} from its worst seat` : ""}`;
  return `${eyes}; the lower edge of the picture of ${picture.ending.device.name} is ${withUnit(Number(bottom.toFixed(2)), "m")} up${loss}.`;
}
