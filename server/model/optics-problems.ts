/** What cannot be about pictures and lenses: one too high for its room, a lens zoomed in farther than it goes. */
import { clip } from "../../grammar/clip";
import type { Device } from "./device";
import { canonical } from "./names";
import { mostZoom, shapeOf } from "./optics";
import type { Reading } from "./reading";
import type { Room } from "./room";
import { figure } from "./show";

/** Rounding is no mistake, m. */
const SLACK = 0.06;

/** Says which pictures reach through the ceiling at whichever end of what is known only roughly, and which lenses cannot do what is said of them. */
export function opticsProblems(reading: Reading, room: Room, devices: ReadonlyMap<string, Device>): void {
  for (const device of devices.values()) {
    if (device.placed !== undefined && !room.outdoors) tooHigh(reading, room, device);
    for (const part of device.parts) {
      const most = mostZoom(part.optics);
      const { zoomed } = part.optics;
      if (zoomed === undefined || most === undefined || zoomed.low <= most * 1.02) continue;
      reading.say("impossible", `That cannot be: ${clip(part.id)} is zoomed in ${figure(zoomed.best)} times, and its lens goes to ${figure(most)} times: zoomed ${figure(Math.floor(most * 10) / 10)} times.`, device.placed?.where ?? device.where);
    }
  }
}

function tooHigh(reading: Reading, room: Room, device: Device): void {
  const part = device.parts.find((p) => p.type === "display");
  if (part === undefined || device.type === "computer") return;
  const ceiling = room.where === undefined ? `the room is taken to be ${figure(room.height.best)} m high` : `${clip(room.name)} is ${figure(room.height.best)} m high`;
  if (device.type === "projector") {
    const surface = device.fills === undefined ? undefined : room.surfaces.get(canonical(device.fills));
    if (surface === undefined) return;
    const shape = Math.max(shapeOf(part), surface.aspect ?? 0);
    const over = surface.lowerEdge.low + surface.width.low / shape - room.height.high;
    if (over <= SLACK) return;
    const [edge, height] = [surface.lowerEdge.best, surface.width.best / shape];
    reading.warn("too-high", `A picture ${figure(surface.width.best)} m wide on ${clip(surface.name)} is ${figure(height)} m high; from a lower edge ${figure(edge)} m up it would reach ${figure(edge + height)} m, and ${ceiling}. It is taken ${figure(edge + height - room.height.best)} m lower: correct its width or its lower edge, like: screen ${clip(surface.name)} at front, width ${figure(Math.max(0.3, Math.floor((room.height.best - edge) * shape * 10) / 10))} m.`, surface.where);
    return;
  }
  const said = device.place?.relations.flatMap((r) => (r.anchor.kind === "point" ? [r.anchor.coordinates[2]] : [])).find((q) => q !== undefined);
  const middle = device.height ?? (said === undefined ? undefined : said);
  const [width, diagonal] = [part.width, part.diagonal];
  if (middle === undefined || (width === undefined && diagonal === undefined)) return;
  const half = (end: "low" | "best"): number => (width !== undefined ? width[end] / shapeOf(part) : (diagonal?.[end] ?? 0) / Math.hypot(shapeOf(part), 1)) / 2;
  if (middle.low + half("low") - room.height.high <= SLACK) return;
  reading.warn("too-high", `The upper edge of ${clip(device.name)} would be ${figure(middle.best + half("best"))} m up, and ${ceiling}: too high by ${figure(middle.best + half("best") - room.height.best)} m. Its height is that of its middle, like: height ${figure(Math.max(0.5, Math.floor((room.height.best - half("best") - 0.05) * 10) / 10))} m.`, device.placed?.where ?? device.where);
}
