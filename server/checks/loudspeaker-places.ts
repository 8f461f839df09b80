/** Where a loudspeaker may sensibly stand to be nearer to some seats: at a wall beside them, out of everybody's way. */
import { valueOf } from "../model/bound";
import type { Device } from "../model/device";
import type { Edit } from "../model/edits";
import type { Vec3 } from "../model/geometry";
import type { Setup } from "../model/setup";
import { Trial } from "../model/trial";
import { listeners } from "../signal/air";
import { standOf } from "../signal/stands";

export interface Spot {
  /** `at the left wall beside row 3 of audience`. */
  readonly words: string;
  /** As the text would have it. */
  readonly text: string;
}

/** From a wall, and from the nearest seat at least, m. Common practice, no source. */
const FROM_WALL = 0.4;
const FROM_SEAT = 0.8;

/** Spots at both side walls beside the middle of some seats, places in `listeners`; the one on the side of `near` first. */
export function besideSeats(setup: Setup, seats: readonly number[], near: Vec3 | undefined): Spot[] {
  const trial = new Trial();
  const all = listeners(setup, trial);
  const meant = seats.flatMap((i) => all[i] ?? []);
  const middle = meant[Math.floor(meant.length / 2)];
  if (setup.room.seats.length === 0 || middle === undefined) return [];
  const x = meant.reduce((sum, ear) => sum + ear.at.x, 0) / meant.length;
  const row = meant.reduce((best, ear) => (Math.abs(ear.at.x - x) < Math.abs(best.at.x - x) ? ear : best), middle);
  const width = setup.room.width.best;
  const [left, right] = [FROM_WALL, width - FROM_WALL].map((y, side) => ({ y, side }));
  const sides = near !== undefined && near.y > width / 2 ? [right, left] : [left, right];
  return sides.flatMap((one): Spot[] => {
    if (one === undefined || all.some((ear) => Math.hypot(ear.at.x - x, ear.at.y - one.y) < FROM_SEAT)) return [];
    return [{
      words: `at the ${one.side === 0 ? "left" : "right"} wall beside ${row.name.includes(".row-") ? `row ${row.row} of ` : ""}${row.group}`,
      text: `at (${metres(row.at.x)}, ${metres(one.y)})`,
    }];
  });
}

const metres = (value: number): string => `${Number(value.toFixed(1))} m`;

/** Another place for what one statement places by itself; nothing where it is worn, stands in a row of its like, or has no place of its own. */
export function moved(setup: Setup, device: Device, spot: Spot): Edit[] {
  const { placed } = device;
  const place = placed && valueOf(placed, "place", "place");
  if (placed === undefined || place === undefined || [...setup.devices.values()].some((other) => other !== device && other.placed === placed)) return [];
  return [{ path: placed.where.path, start: place.start, end: place.end, newText: spot.text }];
}

export const standsAt = (setup: Setup, device: Device): Vec3 => standOf(setup, device, new Trial());
