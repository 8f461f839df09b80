import type { Figure } from "../finding";
import type { Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { SABINE_CONSTANT } from "../physics/reverberation";
import { acoustics } from "../signal/acoustics";
import { byBand, given, input, round } from "./record";

/** Sabine's constant K = 24·ln 10/c, which is nearer 0.1611 than 0.161 s/m. */
const SABINE = given("K", SABINE_CONSTANT, "s/m");

/** Volume, surface, noise, reverberation and room constant. */
export function roomFigures(setup: Setup, trial: Trial): Figure[] {
  const { room } = setup;
  const a = acoustics(setup, trial);
  const sides = [input(room.length, trial, "m"), input(room.width, trial, "m"), input(room.height, trial, "m")];
  const of = [room.name];
  const stated = room.reverberation;
  return [
    { name: "volume", of, value: round(a.volume), unit: "m³", formula: room.corners === undefined && room.slope === undefined ? "V = l·w·h" : "V = A·h, A the area within the corners, less what lies under a slope", inputs: sides, source: "geometry" },
    { name: "surface", of, value: round(a.surface), unit: "m²", formula: room.corners === undefined ? "S = 2·(l·w + l·h + w·h)" : "S = 2·A + h·(way round the walls)", inputs: sides, source: "geometry" },
    { name: "noise", of, value: a.noise, unit: "dBA", formula: "as stated", inputs: [input(room.noise, trial, "dBA")], source: room.noise.from.source ?? "the text" },
    ...byBand(a.time, (value) => ({
      name: "reverberation time", of, value: round(value), unit: "s",
      formula: stated === undefined ? "T = K·V/(ΣαS + n·A₁ + 4mV)" : "as stated, alike in all bands",
      inputs: stated === undefined ? [SABINE, given("volume", a.volume, "m³"), given("people", room.seats.reduce((n, s) => n + s.count, 0), "")] : [input(stated, trial, "s")],
      source: stated === undefined ? "Sabine; EN 12354-6:2003; 0.5 m² a person: model choice" : "the text",
    })),
    ...byBand(a.constant, (value) => ({
      name: "room constant", of, value: round(value), unit: "m²", formula: "R = A/(1 − A/S), A = K·V/T, at most 0.95·S",
      inputs: [SABINE, given("volume", a.volume, "m³"), given("surface", a.surface, "m²")], source: "handbook of sound system design, ch. 6",
    })),
  ];
}
