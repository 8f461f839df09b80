/** Where devices stand and where they point. */
import type { PlaceValue } from "../model/bound";
import type { Device } from "../model/device";
import type { Vec3 } from "../model/geometry";
import { canonical } from "../model/names";
import { HEIGHTS, type Position } from "../model/position";
import type { Setup, Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { between, type Vec3 as Triple } from "../physics/geometry";
import { onceFor } from "../model/watching/once";

/** Heights at which things are used, in metres. Common practice, no source. */
const USED_AT: Readonly<Record<string, number>> = {
  loudspeaker: 1.2, camera: 1.4, projector: 0.95, computer: 0.9, display: 1.4, microphone: 1.1, speakerphone: 0.8,
};

export const positionOf = onceFor((device: Device) => device.name, (setup: Setup, device: Device): Position =>
  setup.floor.position(device.name, device.place, "operator", device.height ?? USED_AT[device.type] ?? 0.9, device.ring));

/** Where a device is; what is worn or handed round is where its holder's mouth is. */
export function standOf(setup: Setup, device: Device, trial: Trial): Vec3 {
  const position = positionOf(setup, device);
  if (position.held !== undefined) {
    const voice = setup.voices.get(canonical(position.held.by));
    if (voice !== undefined) return voice.position.at(trial);
  }
  return position.at(trial);
}

/** The point that a device is aimed at; where nothing is said, `otherwise`. */
export function aimOf(setup: Setup, device: Device, trial: Trial, otherwise: (trial: Trial) => Vec3): Vec3 {
  return device.aim?.relations[0] === undefined ? otherwise(trial) : pointOf(setup, `${device.name} aim`, device.aim, trial);
}

/** The point that somebody or something is turned to: the middle of seats, a mouth, a spot at the height of a head. */
export function pointOf(setup: Setup, owner: string, place: PlaceValue, trial: Trial): Vec3 {
  const anchor = place.relations[0]?.anchor;
  if (anchor?.kind === "name") {
    const name = anchor.name.text;
    const group = setup.floor.group(name);
    if (group !== undefined) return audienceCentre(setup, trial, group.name);
    const voice = setup.voices.get(canonical(name));
    if (voice !== undefined) return voice.position.at(trial);
    const spot = setup.floor.spot(name, trial);
    if (spot !== undefined) return { ...spot, z: spot.z + HEIGHTS.seatedMouth + 0.15 };
  }
  return setup.floor.position(owner, place, "audience", HEIGHTS.seatedEye).at(trial);
}

/** The middle of the seats, at the height of ears. */
export function audienceCentre(setup: Setup, trial: Trial, group?: string): Vec3 {
  return trial.keep(`centre ${group ?? ""}`, () => {
    const seats = setup.room.seats.filter((s) => group === undefined || canonical(s.name) === canonical(group)).flatMap((s) => setup.floor.seats(s, trial));
    if (seats.length === 0) {
      return { x: trial.value(setup.room.length) * 0.6, y: trial.value(setup.room.width) / 2, z: HEIGHTS.seatedEye };
    }
    const sum = seats.reduce((s, seat) => ({ x: s.x + seat.at.x, y: s.y + seat.at.y }), { x: 0, y: 0 });
    return { x: sum.x / seats.length, y: sum.y / seats.length, z: HEIGHTS.seatedEye };
  });
}

/** The way somebody faces while speaking: who sits faces the front, or the table; who stands before seats faces them. */
export function facing(setup: Setup, voice: Voice, mouth: Vec3, trial: Trial): Triple {
  if (voice.seats !== undefined) {
    const around = voice.seats.place?.relations.find((r) => r.relation === "around");
    if (around !== undefined) return between(triple(mouth), triple(audienceCentre(setup, trial, voice.seats.name)));
    const seat = setup.floor.seats(voice.seats, trial).find((one) => one.mouth.x === mouth.x && one.mouth.y === mouth.y);
    return seat === undefined ? [-1, 0, 0] : [seat.faces.x, seat.faces.y, 0];
  }
  return between(triple(mouth), triple(audienceCentre(setup, trial)));
}

export const triple = (p: Vec3): Triple => [p.x, p.y, p.z];
