import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { hiddenTo } from "../signal/pictures/blocked";
import { liveShots, shotKey, shotsOf, type Shot } from "../signal/pictures/shots";
import { standOf } from "../signal/stands";
import type { Case, Check, Remedy, Scene } from "./check";
import { moveTo, setInPlace } from "./show-remedies";

/** Share of head and shoulders hidden. Common practice, no source. */
const HIDDEN = 0.3;

export const blockedView: Check = {
  silentInOrder: true,
  entry: {
    code: "blocked-view", title: "Heads or things stand between the camera and whoever speaks", severity: "warning", group: "The people online see the room",
    notice: "The people online see the hair of the third row.",
    why: "A camera at the height of heads, behind rows of people, looks into their backs. A column or a display in between hides whoever is behind it, at any height.",
    todo: ["Raise the camera above the heads.", "Put it in the aisle, or in front of the first row."],
    source: "geometry in three dimensions; common practice, no source", symptoms: ["heads in the picture", "somebody's head in front of the speaker", "column in front of the speaker"], limit: `${HIDDEN * 100} per cent of head and shoulders`,
  },
  cases: (scene) => {
    const shots = shotsOf(scene.graph);
    return shots.length === 0 ? [] : scene.graph.voices.filter((v) => v.seats === undefined && !v.around).map((voice): Case => ({
      key: `${voice.name} ${shotKey(shots)} ${namesOf(scene.graph.voices)}`, ways: ["online-sees-room"], asks: true, together: true,
      measure: (trial) => {
        const views = liveShots(shots, trial).map((shot) => ({ shot, hidden: hiddenTo(scene.graph, voice, shot.ending, trial) })).filter((v) => v.hidden !== undefined).sort((a, b) => (a.hidden?.share ?? 1) - (b.hidden?.share ?? 1));
        const best = views[0];
        if (best === undefined) return undefined;
        const value = best.hidden?.share ?? 0;
        // What hides more than half of all that is hidden is the cause.
        const thing = best.hidden?.thing !== undefined && best.hidden.thing.share > value / 2 ? best.hidden.thing.name : undefined;
        const { device, part } = best.shot.ending;
        return {
          severity: value > HIDDEN ? "warning" : undefined, badness: (value - HIDDEN) * 100, measured: { value: value * 100, unit: "%" }, limit: { value: HIDDEN * 100, unit: "%" },
          cause: { key: `blocked ${canonical(part.id)} ${canonical(thing ?? "")}`, subjects: thing === undefined ? [part.id, voice.name] : [part.id, voice.name, thing], where: device.placed?.where ?? best.shot.sent?.where ?? scene.setup.titleWhere },
          say: () => ({
            because: thing !== undefined ? `${thing} stands between ${part.id} and ${voice.name} and hides ${withUnit(Math.round(value * 100), "%")} of head and shoulders` : `${part.id}, ${withUnit(standOf(scene.setup, device, trial).z, "m")} up, has heads in front of it that hide ${withUnit(Math.round(value * 100), "%")} of head and shoulders of ${voice.name}`, effect: `the people online hardly see ${voice.name}`,
            summary: value === 0 ? `nothing stands between ${part.id} and ${voice.name}` : `${thing ?? "heads"} hide${thing === undefined ? "" : "s"} ${withUnit(Math.round(value * 100), "%")} of ${voice.name} from ${part.id}`, chain: [],
          }),
        };
      },
      remedies: () => shots.filter((s) => s.ending.device.type === "camera").flatMap((s) => [...raised(scene, s), ...aside(scene, s)]),
    }));
  },
};

/** To either side of where it stands, at the height at which it is. */
function aside(scene: Scene, { ending }: Shot): Remedy[] {
  const at = standOf(scene.setup, ending.device, new Trial());
  const most = scene.setup.room.width.best - 0.3;
  const high = ending.device.place?.relations.some((r) => r.anchor.kind === "point" && r.anchor.coordinates.length > 2) === true ? `, ${figure(Math.round(at.z * 10) / 10)} m` : "";
  return [0.6, -0.6, 1.2, -1.2].map((d) => ({ d, y: Math.round((at.y + d) * 10) / 10 })).filter(({ y }) => y > 0.3 && y < most)
    .flatMap(({ d, y }) => moveTo(ending.device, `at (${figure(Math.round(at.x * 10) / 10)} m, ${figure(y)} m${high})`, `Move ${ending.device.name} ${figure(Math.abs(d))} m to the ${d > 0 ? "right" : "left"}`));
}

function raised(scene: Scene, { ending }: Shot): Remedy[] {
  const z = standOf(scene.setup, ending.device, new Trial()).z;
  return [1.8, 2.2].filter((h) => h > z + 0.1 && h < scene.setup.room.height.best - 0.2).flatMap((h) => setInPlace(scene, ending.device, "height", `${figure(h)} m`, `Raise ${ending.device.name} to ${figure(h)} m`));
}
