import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { hiddenTo } from "../signal/pictures/blocked";
import { liveShots, shotKey, shotsOf, type Shot } from "../signal/pictures/shots";
import { standOf } from "../signal/stands";
import type { Case, Check, Remedy, Scene } from "./check";
import { setInPlace } from "./show-remedies";

/** Share of head and shoulders hidden. Common practice, no source. */
const HIDDEN = 0.3;

export const blockedView: Check = {
  silentInOrder: true,
  entry: {
    code: "blocked-view", title: "Heads stand between the camera and whoever speaks", severity: "warning", group: "The people online see the room",
    notice: "The people online see the hair of the third row.",
    why: "A camera at the height of heads, behind rows of people, looks into their backs.",
    todo: ["Raise the camera above the heads.", "Put it in the aisle, or in front of the first row."],
    source: "geometry in three dimensions; common practice, no source", symptoms: ["heads in the picture", "somebody's head in front of the speaker"], limit: `${HIDDEN * 100} per cent of head and shoulders`,
  },
  cases: (scene) => {
    const shots = shotsOf(scene.graph);
    return shots.length === 0 ? [] : scene.graph.voices.filter((v) => v.seats === undefined && !v.around).map((voice): Case => ({
      key: `${voice.name} ${shotKey(shots)} ${namesOf(scene.graph.voices)}`, ways: ["online-sees-room"], asks: true, together: true,
      measure: (trial) => {
        const views = liveShots(shots, trial).map((shot) => ({ shot, hidden: hiddenTo(scene.graph, voice, shot.ending, trial) })).filter((v) => v.hidden !== undefined).sort((a, b) => (a.hidden ?? 1) - (b.hidden ?? 1));
        const best = views[0];
        if (best === undefined) return undefined;
        const value = best.hidden ?? 0;
        const { device, part } = best.shot.ending;
        return {
          severity: value > HIDDEN ? "warning" : undefined, badness: (value - HIDDEN) * 100, measured: { value: value * 100, unit: "%" }, limit: { value: HIDDEN * 100, unit: "%" },
          cause: { key: `blocked ${canonical(part.id)}`, subjects: [part.id, voice.name], where: device.placed?.where ?? best.shot.sent?.where ?? scene.setup.titleWhere },
          say: () => ({
            because: `${part.id}, ${withUnit(standOf(scene.setup, device, trial).z, "m")} up, has heads in front of it that hide ${withUnit(Math.round(value * 100), "%")} of head and shoulders of ${voice.name}`, effect: `the people online hardly see ${voice.name}`,
            summary: value === 0 ? `nothing stands between ${part.id} and ${voice.name}` : `heads hide ${withUnit(Math.round(value * 100), "%")} of ${voice.name} from ${part.id}`, chain: [],
          }),
        };
      },
      remedies: () => shots.filter((s) => s.ending.device.type === "camera").flatMap((s) => raised(scene, s)),
    }));
  },
};

function raised(scene: Scene, { ending }: Shot): Remedy[] {
  const z = standOf(scene.setup, ending.device, new Trial()).z;
  return [1.8, 2.2].filter((h) => h > z + 0.1 && h < scene.setup.room.height.best - 0.2).flatMap((h) => setInPlace(scene, ending.device, "height", `${figure(h)} m`, `Raise ${ending.device.name} to ${figure(h)} m`));
}
