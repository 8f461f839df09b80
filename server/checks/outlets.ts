/** Where a plug still goes in, nearest first: leads that have power, and outlets. */
import type { Device } from "../model/device";
import { canonical } from "../model/names";
import { Trial } from "../model/trial";
import { plugsIn, socketsOf } from "../signal/circuits";
import { positionOf } from "../signal/stands";
import type { Scene } from "./check";

export interface FreeOutlet {
  readonly name: string;
  readonly lead: boolean;
}

export function freeOutlets(scene: Scene, device: Device): readonly FreeOutlet[] {
  const { setup } = scene;
  const trial = new Trial();
  const at = positionOf(setup, device).at(trial);
  const free = (name: string): boolean => socketsOf(setup, name).best > plugsIn(setup, name).length;
  const leads = [...setup.devices.values()]
    .filter((d) => d.type === "lead" && d.name !== device.name && scene.graph.feeds.get(canonical(d.name))?.by === "mains" && free(d.name))
    .map((d) => ({ name: d.name, lead: true, place: positionOf(setup, d).at(trial) }));
  const outlets = [...setup.room.outlets.values()]
    .filter((o) => free(o.name))
    .map((o) => ({ name: o.name, lead: false, place: setup.floor.spot(o.name, trial) ?? at }));
  const far = (place: { readonly x: number; readonly y: number }): number => Math.hypot(place.x - at.x, place.y - at.y);
  return [...leads, ...outlets].sort((a, b) => far(a.place) - far(b.place));
}
