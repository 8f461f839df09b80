/** Devices as a side elevation shows them. */
import type { Device } from "../../model/device";
import type { RoomShape } from "../../model/room-shape";
import type { Trial } from "../../model/trial";
import type { Graph } from "../graph";
import { pictureOf } from "../pictures/picture";
import { usualAim } from "../sight";
import { aimOf, audienceCentre, positionOf, standOf } from "../stands";
import type { SideThing } from "./side";

/** Types that point somewhere. */
const POINTING: ReadonlySet<string> = new Set(["camera", "loudspeaker"]);

/** What is placed, neither worn nor held, and no lead on the floor; of many alike the first. `drawn`: displays that are drawn as pictures. */
export function sideThings(graph: Graph, trial: Trial, { floorAt }: RoomShape, drawn: ReadonlySet<string>): SideThing[] {
  const { setup } = graph;
  const placed = [...setup.devices.values()].filter((device) => device.placed !== undefined && device.type !== "lead" && positionOf(setup, device).held === undefined && !drawn.has(device.name));
  const first = placed.filter((device, i) => !isAlike(device) || placed.findIndex((other) => other.placed?.where === device.placed?.where) === i);
  return first.map((device): SideThing => {
    const at = standOf(setup, device, trial);
    return {
      name: device.name, type: device.type, kind: device.kind.replaceAll("-", " "), x: at.x, y: at.z, floor: floorAt(at), aim: aimAt(graph, trial, device),
      more: isAlike(device) ? placed.filter((other) => other.placed?.where === device.placed?.where).length - 1 : 0,
      rough: device.place?.relations.some((relation) => relation.anchor.kind === "point" || relation.offset !== undefined) !== true, where: device.where,
    };
  });
}

const isAlike = (device: Device): boolean => (device.ring?.count ?? 1) > 2;

function aimAt(graph: Graph, trial: Trial, device: Device): { x: number; y: number } | undefined {
  const { setup } = graph;
  const display = device.parts.find((part) => part.type === "display");
  if (device.type === "projector" && display !== undefined) {
    const [x, , y] = pictureOf(setup, trial, device, display).rectangle.centre;
    return { x, y };
  }
  if (!POINTING.has(device.type)) return undefined;
  const aim = aimOf(setup, device, trial, (t) => (device.type === "camera" ? usualAim(setup, t, device, graph.voices) : audienceCentre(setup, t)));
  return { x: aim.x, y: aim.z };
}
