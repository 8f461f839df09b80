/** What something noticed on the evening has to do with a case: small matters that all codes share. */
import { canonical } from "../model/names";
import type { Observation } from "../model/observations";
import { seatOf } from "../model/position";
import type { Setup } from "../model/setup";
import { Trial } from "../model/trial";
import { listeners, type Listener } from "../signal/air";
import type { SeatAsked } from "../signal/coverage";
import type { Opinion } from "./check";

/** Whether it was noticed of one of these, or of no one thing. A device is meant with its parts, a part not with its device's others. */
export function concerns(seen: Observation, names: readonly string[]): boolean {
  if (seen.subject === undefined) return true;
  const subject = canonical(seen.subject);
  return names.some((name) => canonical(name) === subject || canonical(name).startsWith(`${subject}.`));
}

/** `as`: words for what the case would raise; `against`: words for its contrary. `no` before a word turns it round. */
export function opinion(seen: Observation, as: readonly string[], against: readonly string[] = []): Opinion | undefined {
  const [raises, contrary] = [as.includes(seen.what), against.includes(seen.what)];
  if (!raises && !contrary) return undefined;
  return { says: raises === seen.negated ? "denies" : "agrees" };
}

/** The seats at the place where something was noticed; nothing where no place is said. A place between the seats is the seat next to it. */
export function seatsMeant(setup: Setup, seen: Observation): ((seat: SeatAsked) => boolean) | undefined {
  const { place } = seen;
  if (place === undefined) return undefined;
  const [first, ...more] = place.relations;
  if (first !== undefined && more.length === 0 && first.offset === undefined) {
    const { anchor } = first;
    const groupOf = (name: string): string => canonical(setup.floor.group(name)?.name ?? name);
    if (anchor.kind === "row") {
      const group = anchor.of === undefined ? undefined : groupOf(anchor.of.text);
      return (ear) => ear.row === anchor.row && (group === undefined || canonical(ear.group) === group);
    }
    if (anchor.kind === "name") {
      const seat = seatOf(anchor.name.text);
      if (seat === undefined && setup.floor.group(anchor.name.text) !== undefined) return (ear) => canonical(ear.group) === groupOf(anchor.name.text);
      if (seat !== undefined && seat.seat === undefined) return (ear) => ear.row === seat.row && canonical(ear.group) === groupOf(seat.group);
    }
  }
  const trial = new Trial();
  const at = setup.floor.position("what was noticed", place, "middle", 1.2).at(trial);
  const all = listeners(setup, trial);
  const far = (ear: Listener): number => Math.hypot(ear.at.x - at.x, ear.at.y - at.y);
  const next = all.reduce<Listener | undefined>((so, ear) => (so === undefined || far(ear) < far(so) ? ear : so), undefined);
  return (ear) => ear.name === next?.name && ear.group === next.group;
}
