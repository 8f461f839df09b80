/** Where a plug still goes in, nearest first: leads that have power, and outlets. */
import type { Device } from "../model/device";
import { canonical } from "../model/names";
import { Trial } from "../model/trial";
import { positionOf } from "../signal/stands";
import type { Scene } from "./check";

export interface FreeOutlet {
  readonly name: string;
  readonly lead: boolean;
}

/** Sockets of a lead or an outlet of which nothing is said. Common practice, no source. */
const SOCKETS = { lead: 3, outlet: 2 } as const;

export function freeOutlets(scene: Scene, device: Device): readonly FreeOutlet[] {
  const { setup } = scene;
  const trial = new Trial();
  const at = positionOf(setup, device).at(trial);
  const free = (name: string, sockets: number): boolean => sockets > setup.mains.filter((m) => canonical(m.from) === canonical(name)).length;
  const leads = [...setup.devices.values()]
    .filter((d) => d.type === "lead" && d.name !== device.name && scene.graph.feeds.get(canonical(d.name))?.by === "mains" && free(d.name, d.sockets?.best ?? SOCKETS.lead))
    .map((d) => ({ name: d.name, lead: true, place: positionOf(setup, d).at(trial) }));
  const outlets = [...setup.room.outlets.values()]
    .filter((o) => free(o.name, o.sockets?.best ?? SOCKETS.outlet))
    .map((o) => ({ name: o.name, lead: false, place: setup.floor.spot(o.name, trial) ?? at }));
  const far = (place: { readonly x: number; readonly y: number }): number => Math.hypot(place.x - at.x, place.y - at.y);
  return [...leads, ...outlets].sort((a, b) => far(a.place) - far(b.place));
}
