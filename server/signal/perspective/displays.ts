/** Displays and screens with what is on them, and devices as small boxes. */
import type { Device, Part } from "../../model/device";
import { canonical } from "../../model/names";
import type { Trial } from "../../model/trial";
import { between, dot, type Vec3 } from "../../physics/geometry";
import { upright, type Rectangle } from "../../physics/hidden";
import { FACE_SHARE } from "../../physics/imageSize";
import type { Ending, Graph } from "../graph";
import { nearestWall } from "../ground-plan/walls";
import { facingEye } from "../pictures/people";
import { pictureOf } from "../pictures/picture";
import { isLit, showings, type Showing } from "../pictures/showing";
import type { Vec3 as Spot3 } from "../../model/geometry";
import { facing, positionOf, standOf, triple } from "../stands";
import { lettering, type OnPicture } from "./lettering";
import { TABLE_HEIGHT, type RoomSeen } from "./room";
import type { Face, Standing } from "./standing";

/** So many faces are drawn on a display. */
const MOST_FACES = 100;

/** A capital that is seen smaller than this is no letter any more but a stroke, as a share of the frame's width. */
const LEAST_LETTER = 0.0025;

/** What is shown on a part in this item: of several the one stated last, as what is stated for an item alone stands below. */
export function shownOn(graph: Graph, trial: Trial, part: Part): Showing | undefined {
  return showings(graph).filter((showing) => showing.ending.part.id === part.id && isLit(showing, trial)).reduce<Showing | undefined>((a, b) => (a === undefined || b.shown.where.start >= a.shown.where.start ? b : a), undefined);
}

const pointOn = ({ centre, right, up, width, height }: Rectangle, across: number, high: number): Vec3 => [
  centre[0] + right[0] * across * width + up[0] * high * height, centre[1] + right[1] * across * width + up[1] * high * height, centre[2] + right[2] * across * width + up[2] * high * height,
];
const cornersOf = (r: Rectangle, left = -0.5, bottom = -0.5, right = 0.5, top = 0.5): Vec3[] => [pointOn(r, left, bottom), pointOn(r, right, bottom), pointOn(r, right, top), pointOn(r, left, top)];

/** The picture of a display as it is turned to an eye. */
export function rectangleOf(graph: Graph, trial: Trial, { device, part }: Ending, eye: Vec3): Rectangle {
  const { rectangle, normal } = pictureOf(graph.setup, trial, device, part);
  return normal === undefined ? facingEye(rectangle, eye) : rectangle;
}

/** Displays that are placed. */
export function displays(graph: Graph, trial: Trial, eye: Vec3, wide: number): readonly Standing[] {
  return [...graph.endings.values()].filter(({ device, part }) => part.type === "display" && device.placed !== undefined && (device.type === "display" || device.type === "projector")).map((ending) => {
    const { device, part } = ending;
    const r = rectangleOf(graph, trial, ending, eye);
    return { kind: "display" as const, name: part.id, says: device.type === "projector" ? `picture of ${device.name}` : part.id, where: device.where, at: { x: r.centre[0], y: r.centre[1] }, outline: feet(r), faces: facesOf(r, eye, shownOn(graph, trial, part), trial, wide, device.type === "projector") };
  });
}

const feet = (r: Rectangle): { x: number; y: number }[] => [-0.5, 0.5].map((half) => ({ x: r.centre[0] + r.right[0] * half * r.width, y: r.centre[1] + r.right[1] * half * r.width }));

/** Whether the eye is on the side to which a picture looks. */
export const isBefore = (r: Rectangle, eye: Vec3): boolean => dot([r.right[1], -r.right[0], 0], between(r.centre, eye)) > 0;

function facesOf(r: Rectangle, eye: Vec3, showing: Showing | undefined, trial: Trial, wide: number, thrown: boolean): Face[] {
  if (!isBefore(r, eye)) return [{ look: "back", ring: cornersOf(r) }];
  const frame: Face = { look: "picture", ring: cornersOf(r) };
  if (showing === undefined) return [thrown ? { ...frame, look: "screen" } : frame];
  const { shown } = showing;
  if (shown.what === "call") return [frame, ...callFaces(r, Math.round(trial.value(shown.faces)))];
  if (shown.what === "video") return [frame, { look: "sign", ring: [pointOn(r, -0.06, -0.12), pointOn(r, 0.1, 0), pointOn(r, -0.06, 0.12)] }];
  const share = shown.letters === undefined ? 0.05 : trial.value(shown.letters);
  const far = Math.max(0.2, Math.hypot(...between(eye, r.centre)));
  const fine = (share * r.height) / (far * 2 * Math.tan(wide / 2)) > LEAST_LETTER;
  return [frame, { look: "sign", ring: [], lines: lettering(share, r.width / r.height, fine).map((stroke: OnPicture) => stroke.map(([across, up]) => pointOn(r, across, up))) }];
}

/** Tiles in as many rows as columns, a face a third of its tile high. */
function callFaces(r: Rectangle, faces: number): Face[] {
  const many = Math.max(1, Math.min(MOST_FACES, faces));
  const side = Math.ceil(Math.sqrt(many));
  const out: Face[] = [];
  for (let i = 0; i < many; i += 1) {
    const [column, row] = [i % side, Math.floor(i / side)];
    const [x, y] = [-0.5 + (column + 0.5) / side, 0.5 - (row + 0.5) / side];
    const high = FACE_SHARE / side;
    // A head is 0.71 as broad as it is high; what is across is measured in widths of the picture.
    const broad = (high * 0.71 * r.height) / r.width;
    const inset = 0.47 / side;
    const head = Array.from({ length: 14 }, (_, n) => pointOn(r, x + (Math.sin((n * Math.PI) / 7) * broad) / 2, y + 0.06 / side + (Math.cos((n * Math.PI) / 7) * high) / 2));
    const low = y - inset;
    const chin = y + 0.06 / side - high * 0.5;
    out.push({ look: "tile", ring: cornersOf(r, x - inset, y - inset, x + inset, y + inset) });
    out.push({ look: "face", ring: [pointOn(r, x - broad * 1.25, low), pointOn(r, x - broad * 1.1, chin - high * 0.24), pointOn(r, x - broad * 0.3, chin), pointOn(r, x + broad * 0.3, chin), pointOn(r, x + broad * 1.1, chin - high * 0.24), pointOn(r, x + broad * 1.25, low)] }, { look: "face", ring: head });
  }
  return out;
}

/** Screens and boards that no projector fills. */
export function surfaces(graph: Graph, trial: Trial, seen: RoomSeen, eye: Vec3): readonly Standing[] {
  const filled = new Set([...graph.setup.devices.values()].flatMap((device) => (device.fills === undefined || device.placed === undefined ? [] : [canonical(device.fills)])));
  return [...graph.setup.room.surfaces.values()].flatMap((surface): Standing[] => {
    const at = graph.setup.floor.spot(surface.name, trial);
    if (at === undefined || filled.has(canonical(surface.name))) return [];
    const wall = nearestWall(seen.shape.outline, at);
    const normal: Vec3 = wall.distance > 1e-6 ? [at.x - wall.at.x, at.y - wall.at.y, 0] : [eye[0] - at.x, eye[1] - at.y, 0];
    const width = trial.value(surface.width);
    const height = width / (surface.aspect ?? 16 / 9);
    const r = upright([at.x, at.y, trial.value(surface.lowerEdge) + height / 2], normal, width, height);
    return [{ kind: "screen", name: surface.name, says: surface.name, where: surface.where, at: { x: at.x, y: at.y }, outline: feet(r), faces: [{ look: isBefore(r, eye) ? "screen" : "back", ring: cornersOf(r) }] }];
  });
}

/** Width and height of a device where its kind says no more, m. Common practice, no source. */
const SIZES: Readonly<Record<string, readonly [width: number, height: number]>> = {
  camera: [0.14, 0.1], microphone: [0.05, 0.2], loudspeaker: [0.3, 0.5], speakerphone: [0.22, 0.06], projector: [0.36, 0.14], computer: [0.34, 0.24], phone: [0.08, 0.16], mixer: [0.4, 0.1],
};
const OTHER = [0.22, 0.1] as const;
/** What hangs or stands higher than this hangs from above, m. Common practice, no source. */
const HANGS = 2.3;
/** Nearer than this a device is in the hands of whoever looks, m. */
const AT_HAND = 0.3;

/** What stands at somebody's very place stands before them, so far away, m. Common practice, no source. */
const WITHIN_REACH = 0.3;

function beforeWhom(graph: Graph, trial: Trial, at: Spot3): Spot3 {
  for (const voice of graph.voices) {
    if (voice.seats !== undefined) continue;
    const mouth = voice.position.at(trial);
    if (Math.hypot(mouth.x - at.x, mouth.y - at.y) >= WITHIN_REACH / 2) continue;
    const [x, y] = facing(graph.setup, voice, mouth, trial);
    const far = Math.hypot(x, y);
    return far < 1e-9 ? at : { ...at, x: mouth.x + (x / far) * WITHIN_REACH, y: mouth.y + (y / far) * WITHIN_REACH };
  }
  return at;
}

/** Devices that stand in the room: their outline, and what carries them. */
export function devices(graph: Graph, trial: Trial, seen: RoomSeen, eye: Vec3, own: Device | undefined, wide: number): readonly Standing[] {
  const { setup } = graph;
  return [...setup.devices.values()].flatMap((device): Standing[] => {
    if (device.placed === undefined || device === own || device.type === "display" || positionOf(setup, device).held !== undefined) return [];
    const at = beforeWhom(graph, trial, standOf(setup, device, trial));
    if (Math.hypot(...between(eye, triple(at))) < AT_HAND) return [];
    const [width, height] = SIZES[device.type] ?? OTHER;
    const box = upright(triple(at), [eye[0] - at.x, eye[1] - at.y, 0], width, height);
    const floor = seen.shape.floorAt(at);
    const bottom = at.z - height / 2;
    const onTable = seen.shape.tables.some((table) => Math.abs(table.at.x - at.x) <= table.length / 2 && Math.abs(table.at.y - at.y) <= table.width / 2 && bottom < floor + TABLE_HEIGHT + 0.35);
    const carried: Vec3[] = at.z - floor > HANGS && !seen.outdoors ? [[at.x, at.y, at.z + height / 2], [at.x, at.y, seen.shape.height]] : onTable || bottom - floor < 0.05 ? [] : [[at.x, at.y, bottom], [at.x, at.y, floor]];
    const screen = screenOf(graph, trial, device, eye, wide);
    const ring = screen === undefined ? cornersOf(box) : screen.rim;
    const lines = [carried, ...(screen === undefined ? detailOf(device.type, box) : [])].filter((line) => line.length > 1);
    return [{ kind: "device", name: device.name, says: device.name, where: device.where, at: { x: at.x, y: at.y }, faces: [{ look: "device", ring, lines }, ...(screen?.faces ?? [])] }];
  });
}

/** Round the picture of a computer so much of it is seen, m. Common practice, no source. */
const RIM = 0.012;

/** A computer's own screen as large as it is, with what is shown on it. */
function screenOf(graph: Graph, trial: Trial, device: Device, eye: Vec3, wide: number): { readonly rim: readonly Vec3[]; readonly faces: readonly Face[] } | undefined {
  const part = device.type === "computer" ? device.parts.find((one) => one.type === "display") : undefined;
  if (part === undefined) return undefined;
  const r = rectangleOf(graph, trial, { device, part }, eye);
  return { rim: cornersOf({ ...r, width: r.width + 2 * RIM, height: r.height + 2 * RIM }), faces: facesOf(r, eye, shownOn(graph, trial, part), trial, wide, true) };
}

/** A few lines by which one tells a camera from a loudspeaker. */
function detailOf(type: string, box: Rectangle): Vec3[][] {
  const circle = (across: number, up: number, radius: number): Vec3[] => Array.from({ length: 13 }, (_, n) => pointOn(box, across + (Math.sin((n * Math.PI) / 6) * radius) / box.width, up + (Math.cos((n * Math.PI) / 6) * radius) / box.height));
  switch (type) {
    case "camera": return [circle(0, 0, 0.035)];
    case "projector": return [circle(0.22, 0, 0.045)];
    case "loudspeaker": return [circle(0, -0.18, 0.1), circle(0, 0.3, 0.04)];
    default: return [];
  }
}
