import { canonical } from "../model/names";
import { namesOf } from "../model/voices";
import { project } from "../physics/framing";
import { pictureOf } from "../signal/pictures/picture";
import { isLit, showingKey, showings } from "../signal/pictures/showing";
import { cameraOf, liveShots, shotKey, shotsOf } from "../signal/pictures/shots";
import type { Case, Check } from "./check";

export const pictureLoop: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "picture-loop", title: "A camera films the display that shows the call", severity: "hint", group: "The people online see the room",
    notice: "In the picture of the room there is the picture of the room, and in it another.",
    why: "What the camera sends comes back on the display, and the camera films it again.",
    todo: ["Aim the camera past the display.", "Or show the slides there, and the call elsewhere."],
    source: "geometry", symptoms: ["picture in the picture", "endless tunnel"], limit: "the middle of no such display in a frame",
  },
  cases: ({ graph, setup }) => {
    const shots = shotsOf(graph);
    return showings(graph).filter((s) => s.shown.what === "call" && s.ending.device.type !== "computer").flatMap((showing) => shots.map((shot): Case => ({
      key: `${showingKey([showing])} ${shotKey([shot])} ${namesOf(graph.voices)}`, ways: ["online-sees-room"], together: true,
      measure: (trial) => {
        if (!isLit(showing, trial) || liveShots([shot], trial).length === 0) return undefined;
        const camera = cameraOf(setup, trial, shot.ending, graph.voices);
        const { device, part } = showing.ending;
        const { rectangle, normal } = pictureOf(setup, trial, device, part);
        const way = [camera.position[0] - rectangle.centre[0], camera.position[1] - rectangle.centre[1]] as const;
        const faces = normal === undefined || way[0] * normal[0] + way[1] * normal[1] > 0;
        const at = project(camera, rectangle.centre);
        const films = faces && at.inside;
        return {
          severity: films ? "hint" : undefined, badness: films ? 1 - Math.max(Math.abs(at.across), Math.abs(at.up)) : -1,
          cause: { key: `films ${canonical(part.id)}`, subjects: [shot.ending.part.id, part.id], where: shot.ending.device.placed?.where ?? showing.shown.where },
          say: () => ({
            because: `${shot.ending.part.id} has ${part.id} in its frame, which shows the call`, effect: "the people online see themselves within themselves",
            summary: films ? `${shot.ending.part.id} films ${part.id}` : `${shot.ending.part.id} looks past ${part.id}`, chain: [],
          }),
        };
      },
    })));
  },
};
