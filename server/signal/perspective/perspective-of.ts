/** Puts together what a camera frames or what is seen from a seat. */
import { roomShape, slopeOf } from "../../model/room-shape";
import type { Trial } from "../../model/trial";
import { framedLine, framedPolygon, lensOf, type Lens } from "../../physics/clip";
import type { Graph } from "../graph";
import { ASPECT } from "../sight";
import { Cover } from "./cover";
import { devices, displays, surfaces } from "./displays";
import { painted } from "./order";
import { present } from "./people";
import { FRAME_WIDTH, type Perspective, type Spot, type Surface, type Thing, type ViewIn } from "./perspective";
import { columns, gridOf, ground, innerWalls, openings, stages, tables, type RoomSeen } from "./room";
import { cutOffOf, factsOf } from "./said";
import type { Face, Standing } from "./standing";
import { viewpointOf } from "./viewpoint";

/** Where a name is wrong: what names there are, in words. */
export interface NoSuchPlace {
  readonly known: string;
}

export function perspectiveOf(graph: Graph, trial: Trial, view: ViewIn, name: string | undefined): Perspective | NoSuchPlace {
  const from = viewpointOf(graph, trial, view, name);
  if ("known" in from) return from;
  const { setup } = graph;
  const { room, floor } = setup;
  const { camera } = from;
  const eye = camera.position;
  const shape = roomShape(floor, trial);
  const seen: RoomSeen = { shape, slope: slopeOf(room, trial), outdoors: room.outdoors, name: room.name, where: room.where };
  const people = present(graph, trial, shape.seats, from);
  const standing = painted([
    ...innerWalls(seen, eye), ...openings(seen), ...stages(seen, eye), ...tables(seen, eye), ...columns(seen, eye),
    ...surfaces(graph, trial, seen, eye), ...displays(graph, trial, eye, camera.horizontal), ...devices(graph, trial, seen, eye, from.device, camera.horizontal), ...people.standing,
  ], eye);
  const lens = lensOf(camera);
  const { things, leftOut } = uncovered([...ground(seen, eye).map((one) => projected(one, lens, eye)), ...standing.map((one) => projected(one, lens, eye))]);
  const degrees = (rad: number): number => (rad * 180) / Math.PI;
  return {
    view, of: from.of, title: setup.title, item: graph.item, where: from.where, aspect: ASPECT, horizontal: degrees(camera.horizontal), vertical: degrees(camera.vertical),
    things, leftOut, grid: gridOf(seen),
    cutOff: from.ending === undefined ? [] : cutOffOf(graph, trial, from), facts: factsOf(graph, trial, from, things, people.atCamera),
  };
}

function projected(one: Standing, lens: Lens, eye: readonly [number, number, number]): Thing {
  return {
    kind: one.kind, name: one.name, says: one.says, where: one.where, hidden: 0, far: Math.hypot(one.at.x - eye[0], one.at.y - eye[1]),
    surfaces: one.faces.flatMap((face) => surfaceOf(face, lens)),
  };
}

function surfaceOf({ look, ring, lines }: Face, lens: Lens): Surface[] {
  const seen = ring.length === 0 ? [] : framedPolygon(lens, ring);
  const drawn = (lines ?? []).flatMap((line) => joined(line.slice(1).flatMap((to, i) => {
    const from = line[i];
    const stretch = from === undefined ? undefined : framedLine(lens, from, to);
    return stretch === undefined ? [] : [stretch];
  })));
  return seen.length === 0 && drawn.length === 0 ? [] : [{ look, ring: seen, lines: drawn }];
}

/** Stretches one after the other as one line, where the end of one is the start of the next. */
function joined(stretches: readonly (readonly [Spot, Spot])[]): Spot[][] {
  const out: Spot[][] = [];
  for (const [from, to] of stretches) {
    const last = out.at(-1);
    const end = last?.at(-1);
    if (last !== undefined && end !== undefined && Math.abs(end[0] - from[0]) < 1e-9 && Math.abs(end[1] - from[1]) < 1e-9) last.push(to);
    else out.push([from, to]);
  }
  return out;
}

/** A person drawn lower than this is left out, as a share of half the frame's height: one pixel. */
const LEAST = 2 / (FRAME_WIDTH / ASPECT);

/** From the nearest to the farthest: how much of each is hidden; people too small to be seen or quite behind others are left out. */
function uncovered(all: readonly Thing[]): Pick<Perspective, "things" | "leftOut"> {
  const cover = new Cover(ASPECT);
  const kept: Thing[] = [];
  let [small, hidden] = [0, 0];
  for (const thing of [...all].reverse()) {
    if (thing.surfaces.length === 0) continue;
    if (thing.kind === "person" && heightOf(thing) < LEAST) {
      small += 1;
      continue;
    }
    // Walls and floor are behind everything: nothing asks how much of them is seen.
    if (thing.kind === "room") {
      if (thing.surfaces.some((one) => one.look === "wall")) cover.put(thing.surfaces);
      kept.push(thing);
      continue;
    }
    const { cells, taken } = cover.put(thing.surfaces);
    const [first] = thing.surfaces[0]?.ring ?? [];
    const share = cells > 0 ? taken / cells : first !== undefined && cover.isTaken(first) ? 1 : 0;
    if (share === 1 && thing.kind === "person") {
      hidden += 1;
      continue;
    }
    kept.push({ ...thing, hidden: share });
  }
  return { things: kept.reverse(), leftOut: { small, hidden } };
}

function heightOf(thing: Thing): number {
  const ups = thing.surfaces.flatMap(({ ring }) => ring.map((p) => p[1]));
  return ups.length === 0 ? 0 : Math.max(...ups) - Math.min(...ups);
}
