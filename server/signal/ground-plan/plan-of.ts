/** The floor plan of a setup in one item of its programme. */
import type { Device } from "../../model/device";
import type { PlaceValue } from "../../model/bound";
import type { Vec3 } from "../../model/geometry";
import { canonical } from "../../model/names";
import { isOpen } from "../../model/ranged";
import type { Outlet } from "../../model/room";
import { roomShape, type RoomShape } from "../../model/room-shape";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { rectangle } from "../../physics/polygon";
import { loadWords } from "../circuits";
import type { Ending, Graph } from "../graph";
import { pictureOf } from "../pictures/picture";
import { axisLimit } from "../pictures/seats";
import { cameraOf, liveShots, shotsOf } from "../pictures/shots";
import { isLit, showings, type Showing } from "../pictures/showing";
import { usualAim } from "../sight";
import { aimOf, audienceCentre, facing, pointOf, positionOf, standOf } from "../stands";
import { portOwnersOf } from "../wiring";
import { answerOf, resultOf } from "./answers";
import { cameraField, displayField, loudspeakerField } from "./fields";
import { windowSays } from "./lit";
import type { Area, Ask, Field, GroundPlan, Point, Route, SeatRow, Thing } from "./plan";
import { routeOf, type CableEnd } from "./routes";
import { nearestWall } from "./walls";

/** Types that point somewhere. */
const POINTING: ReadonlySet<string> = new Set(["camera", "loudspeaker", "projector", "display"]);
/** A seat is drawn so large, m; less where seats stand closer. */
const SEAT = 0.46;

export interface PlanAsked {
  readonly ask?: Ask | undefined;
}

export function groundPlanOf(graph: Graph, trial: Trial, { ask }: PlanAsked = {}): GroundPlan {
  const { setup } = graph;
  const { room } = setup;
  const length = trial.value(room.length);
  const width = trial.value(room.width);
  const shape = roomShape(setup.floor, trial);
  const { outline } = shape;
  const rows = rowsOf(shape);
  const used = inUse(graph);
  const placed = used.filter((device) => device.placed !== undefined || device.place !== undefined);
  const answer = ask === undefined ? undefined : answerOf(graph, trial, ask);
  const routes = routesOf(graph, trial, shape);
  const worn = new Map<string, string[]>();
  for (const device of placed) {
    const by = positionOf(setup, device).held?.by;
    if (by !== undefined) worn.set(canonical(by), [...(worn.get(canonical(by)) ?? []), device.name]);
  }
  return {
    title: setup.title, item: graph.item, room: room.name, where: room.where, outline, length, width, height: trial.value(room.height),
    assumedSize: room.where === undefined || (isOpen(room.length) && room.length.from.how === "assumed"), outdoors: room.outdoors, north: room.north === undefined ? undefined : trial.value(room.north),
    areas: areasOf(graph, trial, shape, ask), rows, seatSize: seatSizeOf(rows), people: peopleOf(graph, trial, worn, shape),
    devices: placed.filter((device) => positionOf(setup, device).held === undefined).map((device) => thingOf(graph, trial, device, shape)),
    unplaced: used.filter((device) => !placed.includes(device)).map((device) => device.name),
    outlets: [...room.outlets.values()].map((outlet): Thing => ({
      name: outlet.name, type: "outlet", kind: outletWords(setup, outlet), aim: undefined, aimWords: "", heldBy: undefined, wears: [],
      ...standing(outletAt(setup, outlet.name, trial) ?? { x: 0, y: 0, z: OUTLET }, shape), rough: false, alike: false, width: undefined, where: outlet.where,
    })),
    fields: fieldsOf(graph, trial, shape, ask), routes, answer,
    asked: answer !== undefined ? { ask: answer.ask, question: answer.question, result: resultOf(graph, trial, answer) }
      : ask === undefined ? undefined : { ask, question: "How do cables run, and how long have they to be?", result: `${totalOf(routes)}${circuitWords(setup)}` },
  };
}

/** What hangs on the circuits that the text names. */
function circuitWords(setup: Setup): string {
  const said = [...setup.room.circuits.values()].flatMap(({ name }) => loadWords(setup, "circuit", name).map((words) => `${name} ${words}`));
  return said.length === 0 ? "" : ` Circuits: ${said.slice(0, 4).join("; ")}${said.length > 4 ? `; ${said.length - 4} more` : ""}.`;
}

/** What has to be laid, and what is too short. */
function totalOf(routes: readonly Route[]): string {
  const laid = routes.filter((route) => route.kind !== "radio");
  if (laid.length === 0) return "The text states no cable between things that have a place.";
  const short = laid.filter((route) => route.stated !== undefined && route.stated < route.length);
  const metres = laid.reduce((sum, route) => sum + route.length, 0);
  return `${laid.length} ${laid.length === 1 ? "run" : "runs"}, ${metres.toFixed(0)} m in all, along the walls and down to the floor${short.length === 0 ? "" : `; too short: ${short.map((route) => `${route.from} to ${route.to}`).join(", ")}`}. Keep cables off the ways that people walk, or cover and tape them.`;
}

/** How many sockets, for how much the venue says they are, what hangs on them, and on which circuit. */
const outletWords = (setup: Setup, { name, sockets, rated, fedBy }: Outlet): string => [
  sockets === undefined ? "outlet" : `${sockets.best} ${sockets.best === 1 ? "socket" : "sockets"}`, ...(rated === undefined ? [] : [`rated ${Number(rated.best.toFixed(1))} A`]),
  ...(rated === undefined && fedBy === undefined ? [] : loadWords(setup, "outlet", name)), ...(fedBy === undefined ? [] : [`circuit ${fedBy}`]),
].join(", ");

const flat = (p: Point): Point => ({ x: p.x, y: p.y });

/** What is placed, joins or is plugged in. */
function inUse(graph: Graph): Device[] {
  const { setup } = graph;
  const owners = portOwnersOf(setup);
  const named = new Set<string>();
  for (const link of [...setup.links, ...setup.mains]) for (const end of [link.from, link.to]) named.add(canonical(owners.get(canonical(end))?.name ?? end));
  for (const join of setup.joins) named.add(canonical(join.device));
  return [...setup.devices.values()].filter((device) => device.placed !== undefined || named.has(canonical(device.name)));
}

/** Seats row by row, in the order of `listeners`. */
function rowsOf(shape: RoomShape): SeatRow[] {
  const out: SeatRow[] = [];
  let index = 0;
  for (const { group, seats, where } of shape.seats) {
    const ring = group.single || group.place?.relations.some((relation) => relation.relation === "around") === true;
    const rows = new Map<number, SeatRow["seats"][number][]>();
    for (const seat of seats) {
      const one = { index, number: seat.inRow, ...flat(seat.at), facing: seat.faces, wheelchair: seat.wheelchair, offCamera: seat.offCamera };
      const row = rows.get(seat.row);
      if (row === undefined) rows.set(seat.row, [one]);
      else row.push(one);
      index += 1;
    }
    for (const [row, its] of rows) out.push({ group: group.name, row, ring, seats: its, where });
  }
  return out;
}

/** A seat is never drawn over its neighbour. */
function seatSizeOf(rows: readonly SeatRow[]): number {
  let least = Infinity;
  for (const { seats } of rows) {
    for (let i = 1; i < seats.length; i += 1) {
      const [a, b] = [seats[i - 1], seats[i]];
      if (a !== undefined && b !== undefined) least = Math.min(least, Math.max(Math.abs(a.x - b.x), Math.abs(a.y - b.y)));
    }
  }
  return Math.max(0.12, Math.min(SEAT, least * 0.86));
}

function areasOf(graph: Graph, trial: Trial, shape: RoomShape, ask: Ask | undefined): Area[] {
  const { setup } = graph;
  const { room, floor } = setup;
  const out: Area[] = [];
  for (const area of [...shape.stages, ...shape.walkways]) {
    const detail = area.kind === "stage" ? `${metres(area.height)} high` : "keep free";
    area.outlines.forEach((corners, i) => out.push({ kind: area.kind, name: area.name, says: i > 0 ? "" : area.named ? area.name : area.kind, corners, detail, where: area.where }));
  }
  for (const aisle of shape.aisles) out.push({ kind: "walkway", name: `gangway of ${aisle.of}`, says: "", corners: aisle.outline, detail: `${metres(aisle.width)} wide`, where: aisle.where });
  for (const { name, at: { x, y }, width, where } of shape.columns) {
    const half = width / 2;
    out.push({
      kind: "column", name, says: "", where, detail: `${metres(width)} thick`,
      corners: [{ x: x - half, y: y - half }, { x: x - half, y: y + half }, { x: x + half, y: y + half }, { x: x + half, y: y - half }],
    });
  }
  for (const opening of [...shape.doors, ...shape.windows]) {
    const { kind, name, from, to, where } = opening;
    const wide = Math.hypot(from.x - to.x, from.y - to.y);
    out.push({ kind, name, says: kind === "door" ? name.replace(/^door-\d+$/u, "door") : ask === "light" ? windowSays(setup, opening) : "", corners: [from, to], detail: `${metres(wide)} wide`, where });
  }
  for (const table of shape.tables) {
    const [l, w] = [table.length / 2, table.width / 2];
    // Placed in words, a table is pushed against the wall, not into it.
    const at = { x: within(table.at.x, l, trial.value(room.length)), y: within(table.at.y, w, trial.value(room.width)) };
    out.push({
      kind: "table", name: table.name, says: table.name, where: table.where, detail: `${metres(2 * l)} by ${metres(2 * w)}`,
      corners: [{ x: at.x - l, y: at.y - w }, { x: at.x - l, y: at.y + w }, { x: at.x + l, y: at.y + w }, { x: at.x + l, y: at.y - w }],
    });
  }
  for (const surface of room.surfaces.values()) {
    const at = floor.spot(surface.name, trial);
    if (at === undefined) continue;
    const wide = trial.value(surface.width);
    const wall = nearestWall(shape.outline, at);
    const off = { x: at.x - wall.at.x, y: at.y - wall.at.y };
    const far = Math.hypot(off.x, off.y);
    const along = far < 1e-6 ? { x: 0, y: 1 } : { x: -off.y / far, y: off.x / far };
    out.push({ kind: "screen", name: surface.name, says: surface.name, where: surface.where, detail: `${metres(wide)} wide`, corners: ends(at, along, wide) });
  }
  return out;
}

/** The middle of something that reaches `half` to both sides, kept between 0 and `most`. */
const within = (middle: number, half: number, most: number): number => (2 * half >= most ? most / 2 : Math.min(Math.max(middle, half), most - half));

const ends = (at: Point, along: Point, wide: number): Point[] =>
  [-0.5, 0.5].map((half) => ({ x: at.x + along.x * wide * half, y: at.y + along.y * wide * half }));
const metres = (n: number): string => `${n.toFixed(1)} m`;

/** So high above the floor outlets are, m. Common practice, no source. */
const OUTLET = 0.3;

function outletAt(setup: Setup, name: string, trial: Trial): Vec3 | undefined {
  const at = setup.floor.spot(name, trial);
  return at === undefined ? undefined : { ...at, z: setup.floor.floorAt(at, trial) + OUTLET };
}

const standing = ({ x, y, z }: Vec3, shape: RoomShape): Pick<Thing, "x" | "y" | "z" | "floor"> => ({ x, y, z, floor: shape.floorAt({ x, y }) });

function peopleOf(graph: Graph, trial: Trial, worn: ReadonlyMap<string, readonly string[]>, shape: RoomShape): Thing[] {
  const { setup } = graph;
  const spoken = graph.voices.filter((voice) => voice.seats === undefined);
  return spoken.map((voice) => {
    const at = voice.position.at(trial);
    const [fx, fy] = facing(setup, voice, at, trial);
    return {
      name: voice.stated ? voice.name : "who speaks", type: "talker", kind: "talker", ...standing(at, shape), aim: { x: at.x + fx, y: at.y + fy }, aimWords: "", heldBy: undefined,
      wears: worn.get(canonical(voice.name)) ?? [], rough: false, alike: spoken.filter((other) => other.where !== undefined && other.where === voice.where).length > 2, width: undefined, where: voice.where,
    };
  });
}

function thingOf(graph: Graph, trial: Trial, device: Device, shape: RoomShape): Thing {
  const { setup } = graph;
  const at = standOf(setup, device, trial);
  const position = positionOf(setup, device);
  const display = device.parts.find((part) => part.type === "display");
  return {
    name: device.name, type: device.type, kind: device.kind.replaceAll("-", " "), ...standing(at, shape), aim: aimPoint(graph, trial, device),
    aimWords: device.aim === undefined ? (device.type === "projector" && device.fills !== undefined ? device.fills : "") : wordsOf(device.aim),
    heldBy: position.held?.by, wears: [], alike: (device.ring?.count ?? 1) > 2, rough: device.place === undefined || !exact(device.place),
    width: device.type === "display" && display !== undefined ? pictureOf(setup, trial, device, display).rectangle.width : undefined, where: device.where,
  };
}

const wordsOf = (aim: PlaceValue): string => aim.words.replace(/^at\s+/u, "");
const exact = (place: PlaceValue): boolean => place.relations.some((relation) => relation.anchor.kind === "point" || relation.offset !== undefined);

function aimPoint(graph: Graph, trial: Trial, device: Device): Point | undefined {
  const { setup } = graph;
  const part = device.parts.find((one) => one.type === "display");
  if (device.type === "projector" && part !== undefined) {
    const [x, y] = pictureOf(setup, trial, device, part).rectangle.centre;
    return { x, y };
  }
  if (device.aim !== undefined) return flat(pointOf(setup, `${device.name} aim`, device.aim, trial));
  if (!POINTING.has(device.type)) return undefined;
  const at = standOf(setup, device, trial);
  const aim = aimOf(setup, device, trial, (t) => (device.type === "camera" ? usualAim(setup, t, device, graph.voices) : audienceCentre(setup, t)));
  return Math.hypot(aim.x - at.x, aim.y - at.y) < 0.05 ? undefined : flat(aim);
}

/** What is shown that a question is about. */
const ABOUT: Readonly<Partial<Record<Ask, (showing: Showing) => boolean>>> = {
  reads: (s) => s.shown.letters !== undefined, faces: (s) => s.shown.what === "call", heads: () => true, aside: () => true,
};

function fieldsOf(graph: Graph, trial: Trial, shape: RoomShape, ask: Ask | undefined): Field[] {
  const { setup } = graph;
  const { outline } = shape;
  const columns = shape.columns.map(({ at, width }) => rectangle(at, width, width));
  const once = <T extends { readonly ending: Ending }>(all: readonly T[]): T[] => [...new Map(all.map((one) => [one.ending.part.id, one])).values()];
  if (ask === "frame") {
    return once(liveShots(shotsOf(graph), trial)).map(({ ending }) => cameraField(outline, ending.device, cameraOf(setup, trial, ending, graph.voices), columns));
  }
  if (ask === "hears" || ask === "understands") {
    const players = [...graph.endings.values()].filter(({ device, part }) => part.type === "loudspeaker" && device.type !== "computer" && (device.placed !== undefined));
    return players.map(({ device, part }) => loudspeakerField(setup, outline, device, part, trial));
  }
  const about = ask === undefined ? undefined : ABOUT[ask];
  if (about === undefined) return [];
  return once(showings(graph).filter((s) => about(s) && isLit(s, trial))).flatMap((showing) => {
    const { device, part } = showing.ending;
    return displayField(outline, device, pictureOf(setup, trial, device, part), axisLimit(setup, trial, showing), columns);
  });
}

function routesOf(graph: Graph, trial: Trial, shape: RoomShape): Route[] {
  const { setup } = graph;
  const owners = portOwnersOf(setup);
  const endOf = (name: string): CableEnd | undefined => {
    const device = owners.get(canonical(name)) ?? setup.devices.get(canonical(name));
    if (device !== undefined) {
      if (device.placed === undefined) return undefined;
      const at = standing(standOf(setup, device, trial), shape);
      return device.type === "lead" ? { ...at, z: at.floor } : at;
    }
    const at = setup.room.outlets.has(canonical(name)) ? outletAt(setup, name, trial) : undefined;
    return at === undefined ? undefined : standing(at, shape);
  };
  const runs = [
    ...setup.links.map((link) => ({ kind: link.how, from: link.from, to: link.to, stated: link.length, where: link.where })),
    ...setup.mains.map((link) => ({ kind: "mains" as const, from: link.from, to: link.to, stated: undefined, where: link.where })),
  ];
  return runs.flatMap((run): Route[] => {
    const [from, to] = [endOf(run.from), endOf(run.to)];
    if (from === undefined || to === undefined) return [];
    const { points, length } = run.kind === "radio" ? { points: [flat(from), flat(to)], length: Math.hypot(from.x - to.x, from.y - to.y) } : routeOf(shape.outline, from, to);
    return [{ kind: run.kind, from: run.from, to: run.to, points, length, stated: run.stated === undefined ? undefined : trial.value(run.stated), where: run.where }];
  });
}
