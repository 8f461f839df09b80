import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { cameraOf, liveShots, seenBy, shotKey, shotsOf, turnedFrom } from "../signal/pictures/shots";
import { standOf } from "../signal/stands";
import { joinCamera } from "./camera-remedies";
import type { Case, Check, Remedy, Scene } from "./check";
import { moveTo } from "./show-remedies";
import type { Voice } from "../model/setup";
import { namesOf } from "../model/voices";

/** Between where somebody looks and the camera, degrees. Common practice, no source. */
const BEHIND = { warning: 90, hint: 60 } as const;

export const behindTalker: Check = {
  silentInOrder: true,
  entry: {
    code: "behind-talker", title: "The camera sees somebody from behind", severity: "warning", group: "The people online see the room",
    notice: "The people online look at the back of a head.",
    why: "Whoever faces the audience, or the middle of a table, turns the back to a camera on the other side.",
    todo: ["Put the camera where people look to.", "A second camera for the other side of the table."],
    source: "common practice, no source", symptoms: ["back of the head", "sees the speaker from behind"], limit: `${BEHIND.warning}°; over ${BEHIND.hint}° a hint`,
  },
  cases: (scene) => {
    const shots = shotsOf(scene.graph);
    return shots.length === 0 ? [] : scene.graph.voices.filter((v) => v.seats === undefined).map((voice): Case => ({
      key: `${voice.name} ${shotKey(shots)} ${scene.item ?? ""} ${namesOf(scene.graph.voices)}`, ways: ["online-sees-room"], together: true,
      measure: (trial) => {
        const mouth = voice.position.at(trial);
        // Two that see somebody equally well are told apart by their names, not by the order in which they stand.
        // Who speaks right at a computer turns to it; and how one stands of which nothing is said, nobody knows.
        const views = liveShots(shots, trial).flatMap((shot) => {
          const camera = cameraOf(scene.setup, trial, shot.ending, scene.graph.voices);
          const seen = seenBy(camera, mouth);
          return !seen.face || (shot.ending.device.type === "computer" && shot.ending.device.aim === undefined) ? [] : [{ shot, turned: seen.depth <= (shot.ending.device.type === "computer" ? 1.2 : 0.7) ? 0 : turnedFrom(scene.graph, voice, mouth, camera, trial) }];
        }).sort((a, b) => Math.round((a.turned - b.turned) * 1e6) || (a.shot.ending.part.id < b.shot.ending.part.id ? -1 : 1));
        const best = views[0];
        if (best === undefined) return undefined;
        const value = best.turned;
        // Around a table one turns to whoever speaks.
        const severity = value > BEHIND.warning && !voice.around ? "warning" : value > BEHIND.hint ? "hint" : undefined;
        const { device, part } = best.shot.ending;
        return {
          severity, badness: value - BEHIND.hint, measured: { value, unit: "°" }, limit: { value: severity === "warning" ? BEHIND.warning : BEHIND.hint, unit: "°" },
          cause: { key: `behind ${canonical(part.id)}`, subjects: [voice.name], where: device.placed?.where ?? best.shot.sent?.where ?? scene.setup.titleWhere },
          say: () => ({
            because: `${part.id} is ${withUnit(value, "°")} away from where ${voice.name} looks`, effect: value > 120 ? `the people online see ${voice.name} from behind` : `the people online see ${voice.name} from the side`,
            summary: `${part.id} sees ${voice.name} from ${withUnit(value, "°")} off`, chain: [],
          }),
        };
      },
      remedies: () => [...before(scene, voice), ...joinCamera(scene, voice.name)],
    }));
  },
};

/** A camera of its own, moved to where somebody looks. */
function before(scene: Scene, voice: Voice): Remedy[] {
  const trial = new Trial();
  const mouth = voice.position.at(trial);
  return liveShots(shotsOf(scene.graph), trial).filter((s) => s.ending.device.type === "camera").flatMap(({ ending }) => {
    const at = standOf(scene.setup, ending.device, trial);
    const far = Math.hypot(at.x - mouth.x, at.y - mouth.y);
    const group = scene.setup.room.seats[0];
    return group === undefined ? [] : moveTo(ending.device, `behind row ${Math.max(1, Math.min(group.rows, Math.round(far / 2)))}${ending.device.aim === undefined ? `, aim ${voice.name}` : ""}`, `Move ${ending.device.name} behind row ${Math.max(1, Math.min(group.rows, Math.round(far / 2)))}`);
  });
}
