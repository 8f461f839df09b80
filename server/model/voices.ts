/** Those who speak: the talkers that the text names, and the seats whose people may speak. */
import { valueOf, type Bound, type PlaceValue } from "./bound";
import type { Vec3 } from "./geometry";
import { assumed, fromText } from "./make-ranged";
import { canonical } from "./names";
import { CROWN, usualEyes } from "./placing/heights";
import { HEIGHTS, type Floor, type Position, type Ring } from "./position";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Room, Seats } from "./room";
import type { Trial } from "./trial";
import { once } from "./watching/once";
import type { Where } from "./where";

/** Somebody who speaks: one person, or whoever speaks from some seats. */
export interface Voice {
  readonly name: string;
  readonly seats: Seats | undefined;
  /** The text names it as a talker; else it is seats whose people may speak. */
  readonly stated: boolean;
  /** Of the mouth. */
  readonly position: Position;
  /** What the position is reckoned from. */
  readonly placing: Placing;
  readonly body: Body;
  /** dBA at 1 m. */
  readonly level: Ranged;
  /** Over how much it walks about, front to back and left to right, in metres. */
  readonly walks: { readonly length: Ranged; readonly width: Ranged } | undefined;
  /** Has a place around a table. */
  readonly around: boolean;
  /** Speaks in sign language. */
  readonly signs: boolean;
  /** Sings or plays an instrument. */
  readonly music: boolean;
  readonly statements: readonly Bound[];
  readonly where: Where | undefined;
}

/** Where a mouth is: as stated, else near `otherwise`, and how high. */
export interface Placing {
  readonly place: PlaceValue | undefined;
  readonly otherwise: string;
  readonly mouth: number | Ranged;
  readonly ring: Ring | undefined;
}

/** The position of somebody's mouth on a floor. */
export const mouthOn = (floor: Floor, name: string, { place, otherwise, mouth, ring }: Placing): Position => floor.position(name, place, otherwise, mouth, ring);

/** The names of voices in one word, for keys; the same lists are asked for over and over. */
export const namesOf = once((voices: readonly Voice[]): string => voices.map((voice) => voice.name).join(","));

/** How high somebody is, above the floor on which they stand or sit. */
export interface Body {
  readonly standing: boolean;
  readonly mouth: number | Ranged;
  readonly eyes: Ranged;
  /** The top of the head, where stated. */
  readonly head: Ranged | undefined;
}

function bodyOf(name: string, statements: readonly Bound[], standing: boolean): Body {
  const stated = (head: "eyes" | "mouth" | "head"): Ranged | undefined => {
    const fact = statements.find((s) => s.row.head === head);
    const value = fact && valueOf(fact, "height", "quantity");
    return fact === undefined || value === undefined || value.said === "unknown" ? undefined : fromText(value, fact, `voice.${name}.${head}`, `how high ${head === "eyes" ? "the eyes" : head === "mouth" ? "the mouth" : "the head"} of ${name} ${head === "eyes" ? "are" : "is"}`, false);
  };
  return { standing, mouth: stated("mouth") ?? (standing ? HEIGHTS.standingMouth : HEIGHTS.seatedMouth), eyes: stated("eyes") ?? usualEyes(name, standing), head: stated("head") };
}

const metres = (height: number | Ranged, trial: Trial): number => (typeof height === "number" ? height : trial.value(height));

/** Where the eyes of somebody who speaks are, and how high the top of the head, m; of people in seats the seats say it. */
export function headOf(voice: Voice, trial: Trial): { readonly eyes: Vec3; readonly top: number } {
  const mouth = voice.position.at(trial);
  const floor = mouth.z - metres(voice.body.mouth, trial);
  const eyes = trial.value(voice.body.eyes);
  return { eyes: { ...mouth, z: floor + eyes }, top: floor + (voice.body.head === undefined ? eyes + CROWN : trial.value(voice.body.head)) };
}

/** What the text says of how somebody speaks, besides how loud. */
function manner(name: string, statements: readonly Bound[], place?: PlaceValue): Pick<Voice, "walks" | "music" | "around" | "signs"> {
  const walks = statements.find((s) => s.row.head === "walks");
  const length = walks && valueOf(walks, "length", "quantity");
  const width = (walks && valueOf(walks, "width", "quantity")) ?? length;
  return {
    music: statements.some((s) => s.row.head === "music"), signs: statements.some((s) => s.row.head === "signs"), around: place?.relations.some((r) => r.relation === "around") === true,
    walks: walks === undefined || length === undefined || width === undefined || length.said === "unknown" || width.said === "unknown" ? undefined : {
      length: fromText(length, walks, `voice.${name}.walk-length`, `how far ${name} walks from front to back`, false),
      width: fromText(width, walks, `voice.${name}.walk-width`, `how far ${name} walks from side to side`, false),
    },
  };
}

/**
 * Every voice by its canonical name, and whoever speaks at the lectern. A level that is not stated is that of a normal voice,
 * 60 dBA at 1 m, or of a raised one, 66 dBA, ±6 dB (ISO 9921); who stands, or speaks in a large room and does not sit, raises it.
 */
export function readVoices(reading: Reading, floor: Floor, room: Room): { voices: Map<string, Voice>; lectern: Voice } {
  const out = new Map<string, Voice>();
  const at = (name: string, place: PlaceValue | undefined, otherwise: string, mouth: number | Ranged, ring?: Ring): Pick<Voice, "placing" | "position"> => {
    const placing: Placing = { place, otherwise, mouth, ring };
    return { placing, position: mouthOn(floor, name, placing) };
  };
  const level = (name: string, statements: readonly Bound[], large: boolean): Ranged => {
    const stated = statements.find((s) => s.row.head === "speech-level");
    const value = stated && valueOf(stated, "level", "quantity");
    const label = `how loud ${name} speaks`;
    if (stated !== undefined && value !== undefined && value.said !== "unknown") return fromText(value, stated, `voice.${name}`, label, false);
    const raised = statements.some((s) => s.row.head === "raised" || s.row.head === "standing") || (large && !statements.some((s) => s.row.head === "seated"));
    const best = raised ? 66 : 60;
    return assumed(`voice.${name}`, label, "level", { best, low: best - 6, high: best + 6, source: "ISO 9921, normal and raised voice" });
  };
  // Whoever addresses people farther than three metres away raises the voice.
  const large = room.length.best > 5.5 || room.width.best > 5.5;
  for (const talker of reading.by("talker")) {
    const name = reading.nameOf(talker);
    const place = valueOf(talker, "place", "place");
    const group = place?.relations.length === 1 && place.relations[0]?.anchor.kind === "name" ? floor.group(place.relations[0].anchor.name.text) : undefined;
    const standing = talker.children.some((c) => c.row.head === "standing") || (large && group === undefined && !talker.children.some((c) => c.row.head === "seated"));
    const body = bodyOf(name, talker.children, standing);
    out.set(canonical(name), {
      name, body, seats: group, stated: true, ...manner(name, talker.children, place), statements: talker.children, where: talker.where, level: level(name, talker.children, large),
      ...at(name, place, "lectern", body.mouth),
    });
  }
  for (const group of reading.by("talkers")) {
    const count = Math.min(500, Math.round(valueOf(group, "count", "quantity")?.best ?? 0));
    const place = valueOf(group, "place", "place");
    for (let i = 1; i <= count; i += 1) {
      const name = `talker-${i}`;
      const body = bodyOf(name, group.children, group.children.some((c) => c.row.head === "standing"));
      out.set(canonical(name), {
        name, body, seats: undefined, stated: true, ...manner(name, group.children, place), statements: group.children, where: group.where, level: level(name, group.children, false),
        ...at(name, place, "audience", body.mouth, { index: i - 1, count }),
      });
    }
  }
  // Seats speak when the programme says so.
  for (const seats of room.seats) {
    if (out.has(canonical(seats.name))) continue;
    out.set(canonical(seats.name), {
      name: seats.name, body: bodyOf(seats.name, [], false), seats, stated: false, ...manner(seats.name, []), statements: [], where: seats.where, level: level(seats.name, [], large),
      ...at(seats.name, undefined, seats.name, HEIGHTS.seatedMouth),
    });
  }
  const lectern: Voice = {
    name: "whoever speaks at the lectern", body: bodyOf("whoever speaks at the lectern", [], large), seats: undefined, stated: false, ...manner("lectern", []), statements: [], where: undefined, level: level("whoever speaks at the lectern", [], large),
    ...at("whoever speaks at the lectern", undefined, "lectern", large ? HEIGHTS.standingMouth : HEIGHTS.seatedMouth),
  };
  return { voices: out, lectern };
}
