import { canonical } from "../model/names";
import { withUnit, figure } from "../model/show";
import { namesOf } from "../model/voices";
import { luminanceOf } from "../physics/projection";
import { SKIN } from "../physics/light";
import { BACKLIT, headBefore } from "../signal/pictures/behind";
import { contrastOf, lightKey, lightOnFaces } from "../signal/pictures/daylight";
import { pictureOf } from "../signal/pictures/picture";
import { isLit, showingKey } from "../signal/pictures/showing";
import { cameraOf, liveShots, seenBy, shotKey, shotsOf } from "../signal/pictures/shots";
import { backlitByWindows } from "./backlit-by-windows";
import type { Case, Check } from "./check";
import { each } from "./too-near";

export const backlit: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "backlit", title: "A bright picture or window stands behind whoever speaks", severity: "warning", group: "The people online see the room",
    notice: "The people online see a dark shape before a bright screen or window.",
    why: "A camera sets itself by the brightest large thing in its frame. A screen or window that is four times as bright as a face leaves the face dark.",
    todo: ["Move the talker, or the camera, so that nothing bright is behind the head.", "Draw the curtain of that window.", "A lamp on the face, none on the screen.", "Fix the camera's exposure by hand."],
    source: "1 to 4: common practice, no source; daylight by the IESNA daylight availability model, the average daylight factor of BS 8206-2 and geometry", symptoms: ["dark shape", "silhouette", "face too dark before the screen", "window behind the speaker"], limit: `background ${BACKLIT} times the face`,
  },
  cases: (scene) => {
    const { graph, setup, item } = scene;
    const shots = shotsOf(graph);
    return [...backlitByWindows(scene), ...each(scene).filter((s) => s.ending.device.type !== "computer").flatMap((showing) => graph.voices.filter((v) => v.seats === undefined).map((voice): Case => ({
      key: `${voice.name} ${lightKey(setup, item)} ${showingKey([showing])} ${shotKey(shots)} ${namesOf(graph.voices)}`, ways: ["online-sees-room"], together: true,
      measure: (trial) => {
        if (!isLit(showing, trial)) return undefined;
        const mouth = voice.position.at(trial);
        const { device, part } = showing.ending;
        const { rectangle } = pictureOf(setup, trial, device, part);
        const views = liveShots(shots, trial).map((shot) => ({ shot, camera: cameraOf(setup, trial, shot.ending, graph.voices) })).filter(({ camera }) => seenBy(camera, mouth).face);
        if (views.length === 0) return undefined;
        // One camera that has no such thing behind the head is enough.
        const behind = views.map(({ shot, camera }) => ({ shot, share: headBefore(camera.position, rectangle, mouth) })).sort((a, b) => a.share - b.share)[0];
        if (behind === undefined) return undefined;
        const face = luminanceOf(lightOnFaces(setup, trial, item), SKIN);
        const back = contrastOf(setup, trial, device, part, item).luminance;
        const ratio = back / Math.max(0.01, face);
        const bad = behind.share > 0.5 && ratio > BACKLIT;
        return {
          severity: bad ? "hint" : undefined, badness: bad ? ratio - BACKLIT : -1, measured: { value: ratio, unit: ":1" }, limit: { value: BACKLIT, unit: ":1" },
          cause: { key: `backlit ${canonical(part.id)}`, subjects: [voice.name, part.id], where: behind.shot.ending.device.placed?.where ?? showing.shown.where },
          say: () => ({
            because: `seen from ${behind.shot.ending.part.id}, the picture of ${part.id} is behind the head of ${voice.name}: ${withUnit(back, "cd/m²")} behind a face of ${withUnit(face, "cd/m²")}, ${figure(ratio)} to one`,
            effect: `${voice.name} is a dark shape online`, summary: bad ? `the picture of ${part.id} is behind ${voice.name}` : `nothing bright is behind ${voice.name}`, chain: [],
          }),
        };
      },
    })))];
  },
};
