/**
 * Every value computed, as a record with its formula, inputs and source. Hovers, the `figures` command and the hand-out print the
 * same records, so that no number can appear twice with two values. Values are those of the best guess.
 */
import type { Scene } from "./checks/check";
import { echoFigures } from "./figures/echo";
import { fallbackFigures } from "./figures/fallbacks";
import { loopFigures } from "./figures/loops";
import { pickUpFigures } from "./figures/pick-up";
import { pictureFigures } from "./figures/pictures";
import { powerFigures } from "./figures/power";
import { reachFigures } from "./figures/reach";
import { roomFigures } from "./figures/room";
import { seatFigures } from "./figures/seats";
import { serviceFigures } from "./figures/service";
import { sightFigures } from "./figures/sight";
import { soundFigures } from "./figures/sound";
import { streamFigures } from "./figures/streams";
import { voiceFigures } from "./figures/voice";
import type { Figure } from "./finding";
import type { Trial } from "./model/trial";

/** All figures of a setup: those that are the same in every item of the programme once, the others with their item. */
export function figuresOf(scenes: readonly Scene[], trial: Trial): Figure[] {
  const [first] = scenes;
  if (first === undefined) return [];
  const each = [pickUpFigures, soundFigures, seatFigures, echoFigures, loopFigures, sightFigures, pictureFigures, reachFigures, streamFigures, voiceFigures].flatMap((of) => perItem(scenes, (scene) => of(scene, trial)));
  return [...roomFigures(first.setup, trial), ...each, ...fallbackFigures(first.setup), ...powerFigures(first, trial), ...serviceFigures(first, trial)];
}

/** The figures of each item, told once where they do not differ. */
function perItem(scenes: readonly Scene[], make: (scene: Scene) => readonly Figure[]): Figure[] {
  const found = new Map<string, Map<Scene, Figure[]>>();
  for (const scene of scenes) {
    for (const figure of make(scene)) {
      const key = JSON.stringify([figure.name, figure.of]);
      const known = found.get(key) ?? new Map<Scene, Figure[]>();
      known.set(scene, [...(known.get(scene) ?? []), figure]);
      found.set(key, known);
    }
  }
  return [...found.values()].flatMap((known) => {
    const all = [...known].map(([scene, figures]) => ({ item: scene.item, figures: once(figures) }));
    const [one] = all;
    const alike = one !== undefined && all.length === scenes.length && all.every(({ figures }) => JSON.stringify(figures) === JSON.stringify(one.figures));
    return alike ? one.figures : all.flatMap(({ item, figures }) => figures.map((figure) => (item === undefined ? figure : { ...figure, item })));
  });
}

/** Of figures of the same place and band, the last. */
const once = (figures: readonly Figure[]): Figure[] => [...new Map(figures.map((figure) => [`${figure.at ?? ""}|${figure.band ?? ""}`, figure])).values()];
