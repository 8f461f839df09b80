/** From where one can look at a setup – its cameras, its seats and talkers' places, its rows from the side – and what is seen from one of them. */
import { canonical } from "../model/names";
import { isAround, seatOf } from "../model/placing/seats";
import { seatsInRow } from "../model/seating";
import type { Setup } from "../model/setup";
import type { SideView } from "../signal/elevation/side";
import type { Perspective } from "../signal/perspective/perspective";
import type { Study } from "../study";
import type { Look, LookPlace } from "./looks";

/** More than this nobody chooses from. */
const MOST = 1000;

export function placesOf(setup: Setup, look: Look): readonly LookPlace[] {
  return (look === "camera" ? cameras(setup) : look === "side" ? rows(setup) : [...talkers(setup), ...seats(setup)]).slice(0, MOST);
}

/** Cameras that are nothing else first: of a computer's own, few are sent. */
function cameras(setup: Setup): LookPlace[] {
  const all = [...setup.devices.values()].flatMap((device) => device.parts.filter((part) => part.type === "camera").map(({ id }) => ({ id, alone: device.type === "camera" })));
  return [...all.filter((one) => one.alone), ...all.filter((one) => !one.alone)].map(({ id }) => ({ of: id, title: id }));
}

const talkers = (setup: Setup): LookPlace[] => [...setup.voices.values()].filter((voice) => voice.seats === undefined && voice.stated).map(({ name }) => ({ of: name, title: name }));

function seats(setup: Setup): LookPlace[] {
  return setup.room.seats.flatMap((group): LookPlace[] => {
    if (group.single) return [{ of: group.name, title: group.name }];
    if (isAround(group)) return [{ of: group.name, title: group.name, seats: group.count }];
    return rowsOf(group.rows).map((row) => ({ of: `${group.name}.row-${row}`, title: `${group.name}, row ${row}`, seats: seatsInRow(group, row) }));
  });
}

const rows = (setup: Setup): LookPlace[] => setup.room.seats.filter((group) => !group.single && !isAround(group))
  .flatMap((group) => rowsOf(group.rows).map((row) => ({ of: `${group.name}.row-${row}`, title: `${group.name}, row ${row}` })));

const rowsOf = (many: number): number[] => Array.from({ length: Math.min(many, MOST) }, (_, i) => i + 1);

export interface Looked {
  readonly places: readonly LookPlace[];
  /** Where one looks from; nothing where there is no such place. */
  readonly of: string | undefined;
  /** What is seen, or, in a sentence, why nothing is. */
  readonly seen: Perspective | SideView | { readonly nothing: string };
}

/** What is seen from the place of that name; from one that tells most where none is named, or the name has gone. */
export function lookFrom(study: Study, look: Look, of: string | undefined, item: string | undefined): Looked {
  const places = placesOf(study.setup, look);
  if (look === "side") {
    const wanted = of === undefined ? undefined : places.find((place) => canonical(place.of) === canonical(of));
    const row = wanted === undefined ? undefined : seatOf(wanted.of);
    const seen = study.side(item, row === undefined ? undefined : { group: row.group, row: row.row });
    const chosen = seen.rows.find((one) => one.chosen && !one.ring);
    return { places, of: chosen === undefined ? undefined : `${chosen.group}.row-${chosen.row}`, seen };
  }
  const asked = of === undefined ? undefined : study.sees(look, of, item);
  const seen = asked !== undefined && !("known" in asked) ? asked : study.sees(look, fallback(study.setup, places, look), item);
  if (!("known" in seen)) return { places, of: seen.of, seen };
  return { places, of: undefined, seen: { nothing: `There is nothing to look from: ${seen.known}.` } };
}

/** The first camera; of seats the last row of the first group, else whoever comes first. */
function fallback(setup: Setup, places: readonly LookPlace[], look: "camera" | "seat"): string | undefined {
  const first = setup.room.seats[0];
  return (look === "seat" ? first?.name : undefined) ?? places[0]?.of;
}
