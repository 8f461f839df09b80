/** Where light falls: on faces, on tables, on pictures. One value for the whole room, as it is computed or stated; windows with the side they look to. */
import { canonical } from "../../model/names";
import { limitOf } from "../../model/limits";
import { lampsAt, lightOn } from "../../model/lights";
import { figure } from "../../model/show";
import type { OpeningAt } from "../../model/room-shape";
import type { Setup } from "../../model/setup";
import type { Trial } from "../../model/trial";
import { listeners } from "../air";
import type { Graph } from "../graph";
import { contrastOf, daylightStated, FACE_LIGHT, lightOnFaces, tablesLight } from "../pictures/daylight";
import { daylightLevel } from "../pictures/windows";
import { isLit, showings } from "../pictures/showing";
import type { Answer } from "./plan";

/** Lux to two figures: nobody's eyes, and no guess, are finer. */
const lux = (n: number): string => `${figure(Number(n.toPrecision(2)))} lx`;

export function light(graph: Graph, trial: Trial): Answer {
  const { setup, item } = graph;
  const { room } = setup;
  const value = lightOnFaces(setup, trial, item);
  const enough = limitOf(setup, "dark-face", FACE_LIGHT.warning);
  const beside = new Map<string, string>();
  for (const voice of graph.voices) if (voice.seats === undefined) beside.set(canonical(voice.name), `${lux(value)} on the face`);
  for (const showing of showings(graph).filter((s) => isLit(s, trial))) {
    const { device, part } = showing.ending;
    const { ambient, thrown, value: contrast } = contrastOf(setup, trial, device, part, item);
    beside.set(canonical(device.name), `${lux(ambient)} of room light on its picture${thrown === undefined ? "" : `; ${lux(thrown)} of its own`}; contrast ${figure(contrast)}:1`);
  }
  return {
    ask: "light", unit: "lx", decimals: 0, better: "more", enough, bounds: [enough / 2, enough, Math.max(enough, FACE_LIGHT.hint) * 1.001, 2 * FACE_LIGHT.hint].map((bound) => Math.round(bound)),
    question: "How much light falls on faces and on pictures, in lux?", words: ["dark", "grainy online", "fair", "good", "bright"],
    values: listeners(setup, trial).map(() => Number(value.toPrecision(2))), none: "", beside,
    says: lightOn(room, "faces", item) === undefined
      ? `About ${lux(value)} on every face, of about ${lux(tablesLight(setup, trial, item))} on tables, which is ${daylightStated(setup, item) ? "stated" : daylightWords(setup, trial, item)}.`
      : `${lux(value)} on every face, as the text states.`,
    notes: ["One value for the whole room: it is lighter under lamps and at windows.", ...lampWords(setup, item), ...windowWords(setup)],
  };
}

function daylightWords(setup: Setup, trial: Trial, item: string | undefined): string {
  const day = daylightLevel(setup, trial, item);
  return day < 1 ? "taken by what is said of the lamps" : `taken by what is said of the lamps, and ${lux(day)} of daylight by windows, hour and a sky between clear and overcast`;
}

function lampWords({ room }: Setup, item: string | undefined): string[] {
  const [front, back] = [lampsAt(room, "front", item)?.how, lampsAt(room, "back", item)?.how];
  if (front === undefined && back === undefined) return [];
  return [front === back ? `Lamps are ${front ?? "on"}.` : `Lamps at the front are ${front ?? "on"}, those at the back ${back ?? "on"}.`];
}

const windowWords = ({ room }: Setup): string[] =>
  (room.openings.some((one) => one.kind === "window" && one.looks === undefined) && room.north === undefined ? ["Where north is nobody says, so neither does the plan say which way its windows look."] : []);

const COMPASS = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"] as const;

/** What is to be said at a window: `window to the south-west, heavy curtain`. */
export function windowSays(setup: Setup, { name, bearing }: OpeningAt): string {
  const curtain = setup.room.overWindows.find(({ over }) => canonical(over) === canonical(name));
  return `window${bearing === undefined ? "" : ` to the ${COMPASS[Math.round(bearing / 45) % 8] ?? "north"}`}${curtain === undefined ? "" : `, ${curtain.weight} curtain`}`;
}
