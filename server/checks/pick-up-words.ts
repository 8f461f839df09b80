/** What the codes on pick-up have to say in common. */
import { figure, withUnit } from "../model/show";
import type { Trial } from "../model/trial";
import { acoustics } from "../signal/acoustics";
import { called } from "../signal/coverage";
import { FAR, type Hearing } from "../signal/pick-up/hearing";
import { openMicrophoneRise } from "../physics/openMicrophones";
import type { Scene } from "./check";
import type { PickUp } from "./pick-up-causes";

/** `the voice 16 dB above the sound of the room`. */
export const overRoom = (ratio: number): string => `the voice ${figure(Math.abs(ratio))} dB ${ratio < 0 ? "below" : "above"} the sound of the room`;

/** Who is meant: Ines, or of seats the one that is heard worst. */
export const whom = (p: PickUp): string => (p.seats === undefined ? called(p.voice.name) : p.seats.worst.name);

/** How far a microphone that is neither worn nor held is from a mouth; nothing where that is no matter. */
export const awayFrom = (h: Hearing): string | undefined => (h.worn || h.apart < 0.1 ? undefined : withUnit(h.apart, "m"));

/** How near it would have to be for the room not to drown the voice; the direct sound falls with the square of the distance. */
export function nearEnough(h: Hearing): string | undefined {
  const metres = h.apart * 10 ** ((h.ratio - FAR.warning) / 20);
  return h.worn || metres >= h.apart || metres < 0.05 ? undefined : `${withUnit(metres, "m")} would do`;
}

/** `Ines repeats the words of the audience through lapel`; nothing where nobody does. */
export const repeats = (p: PickUp): string | undefined =>
  (p.repeated === undefined ? undefined : `${p.repeated.repeatedBy ?? ""} repeats the words of ${called(p.voice.name)} through ${p.repeated.home.mic.part.id}`);

/** What takes most from the speech transmission index, and what the index would be without it. */
export function clarityCause({ setup }: Scene, h: Hearing, trial: Trial): string | undefined {
  const { sti, withoutNoise, withoutReverberation } = h.causes();
  const room = acoustics(setup, trial);
  const [noise, hall] = [withoutNoise - sti, withoutReverberation - sti];
  if (Math.max(noise, hall) < 0.03) return undefined;
  return noise > hall
    ? `the noise does it, ${figure(room.noise)} dBA in ${setup.room.name}${openWords(h)}: without it ${figure(withoutNoise)}`
    : `the reverberation of ${setup.room.name} does it, ${withUnit(room.time[3], "s")}: without it ${figure(withoutReverberation)}`;
}

/** What several microphones that are open at once add to the noise, where it matters. */
export const openWords = (h: Hearing): string => (h.open < 2 ? "" : ` and ${h.open} microphones open at once, which adds ${figure(openMicrophoneRise(h.open))} dB`);

/** `12 of 18 in the audience, all from row 3 on, worst audience.row-3.seat-6`. */
export function seatsShort(seats: readonly { readonly row: number; readonly short: boolean }[], group: string, worst: string): string {
  const short = seats.filter((seat) => seat.short).length;
  const rows = [...new Set(seats.map((seat) => seat.row))].sort((a, b) => a - b);
  const from = rows.length < 2 ? undefined : rows.find((row) => seats.every((seat) => seat.row < row || seat.short));
  return `${short} of ${seats.length} in ${called(group)}${from === undefined || from < 2 ? "" : `, all of them from row ${from} on`}, worst ${worst}`;
}
