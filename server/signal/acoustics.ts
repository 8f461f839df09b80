/** How sound stays in the room: reverberation, room constant and noise, from what is stated, else from surfaces and people. */
import { assumed } from "../model/make-ranged";
import type { Ranged } from "../model/ranged";
import { canonical } from "../model/names";
import type { Room } from "../model/room";
import { sizeOf } from "../model/room-shape";
import type { Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { bands, flat, type Bands } from "../physics/bands";
import { FINISHES, PERSON_ABSORPTION, type FinishName } from "../physics/finishes";
import { absorptionFromTime, AIR_HUMID, airAbsorption, sabine, surfaceAbsorption } from "../physics/reverberation";
import { roomConstant } from "../physics/soundField";

/** A room without what is noisy in it: what decides how sound is spread. */
export interface Enclosure {
  /** m³ */
  readonly volume: number;
  /** m² of walls, floor and ceiling. */
  readonly surface: number;
  /** Reverberation time, s. */
  readonly time: Bands;
  /** R, m². */
  readonly constant: Bands;
}

export interface Acoustics extends Enclosure {
  /** dBA */
  readonly noise: number;
}

/** The words of the vocabulary, by the table of finishes. */
export const FINISH_OF_WORD: Readonly<Record<string, FinishName>> = {
  plaster: "plaster", plasterboard: "plasterboard", brick: "brick", block: "block-painted", concrete: "concrete", stone: "stone", wood: "wood-floor",
  panelling: "wood-panelling", "carpet-thin": "carpet-thin", "carpet-heavy": "carpet-heavy", glass: "glass", "double-glazing": "double-glazing",
  "acoustic-tile": "acoustic-tile", linoleum: "linoleum",
};

/** Reverberation worked out from surfaces is good to this factor. Common practice, no source. */
const fromSurfaces = (room: Room): Ranged => assumed(
  "room.reverberation-factor", `the reverberation of ${room.name}, worked out from its surfaces`, "ratio",
  { best: 1, low: 0.75, high: 1.3, source: "common practice, no source" },
);

export function acoustics(setup: Setup, trial: Trial): Acoustics {
  return trial.keep("acoustics", () => ({ ...enclosure(setup, trial), noise: trial.value(setup.room.noise) }));
}

/** How sound stays in the room. What is kept with this alone is not worked out anew where only the noise is in question. */
export function enclosure(setup: Setup, trial: Trial): Enclosure {
  return trial.keep("enclosure", () => {
    const { room } = setup;
    const size = sizeOf(room, trial);
    const { volume, surface } = size;
    // No walls, no ceiling: nothing comes back.
    if (room.outdoors) return { volume, surface, time: flat(0), constant: flat(Infinity) };
    const time = reverberation(setup, trial, size);
    const constant = bands((k) => {
      // A room cannot absorb more than all that falls on it.
      const absorption = Math.min(absorptionFromTime(volume, time[k]), 0.95 * surface);
      return roomConstant(absorption, surface);
    });
    return { volume, surface, time, constant };
  });
}

function reverberation(setup: Setup, trial: Trial, size: { readonly floor: number; readonly walls: number; readonly volume: number }): Bands {
  const { room } = setup;
  if (room.reverberation !== undefined) return flat(trial.value(room.reverberation));
  const factor = trial.value(fromSurfaces(room));
  const { walls } = size;
  const curtain = room.curtains === undefined ? 0 : Math.min(walls, trial.value(room.curtains.area));
  const panes = new Map(room.openings.filter((one) => one.kind === "window").map((one) => [canonical(one.name), trial.value(one.width) * trial.value(one.height)]));
  const drawn = room.overWindows.map(({ weight, area, over }) => ({ weight, area: area === undefined ? (panes.get(canonical(over)) ?? 0) : trial.value(area) }));
  const hung = Math.min(walls - curtain, drawn.reduce((sum, one) => sum + one.area, 0));
  // Where nothing says how much glass is bare in all, it is that of the windows, but for what curtains hang before.
  const bare = room.windows === undefined ? Math.max(0, [...panes.values()].reduce((sum, pane) => sum + pane, 0) - hung) : trial.value(room.windows.area);
  const glass = Math.max(0, Math.min(walls - curtain - hung, bare));
  const people = room.seats.reduce((sum, seats) => sum + seats.count, 0);
  return bands((k) => {
    const alpha = (word: string): number => FINISHES[FINISH_OF_WORD[word] ?? "plaster"].alpha[k];
    const absorbing = surfaceAbsorption([
      { area: size.floor, alpha: alpha(room.floor.finish) },
      { area: size.floor, alpha: alpha(room.ceiling.finish) },
      { area: Math.max(0, walls - curtain - hung - glass), alpha: alpha(room.walls.finish) },
      ...(room.curtains === undefined ? [] : [{ area: curtain, alpha: FINISHES[`curtain-${room.curtains.weight}` as FinishName].alpha[k] }]),
      ...drawn.map((one) => ({ area: one.area, alpha: FINISHES[`curtain-${one.weight}` as FinishName].alpha[k] })),
      ...(glass === 0 ? [] : [{ area: glass, alpha: alpha(room.windows?.glass ?? "glass") }]),
    ]);
    const absorption = absorbing + people * PERSON_ABSORPTION[k] + airAbsorption(AIR_HUMID[k], size.volume);
    return factor * sabine(size.volume, absorption);
  });
}
