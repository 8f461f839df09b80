import { canonical } from "../model/names";
import { unsaid } from "../model/make-ranged";
import { liveShots, shotKey, shotsOf } from "../signal/pictures/shots";
import type { Case, Check } from "./check";

export const overlayShows: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "overlay-shows", title: "The camera's menus are in the picture that is sent", severity: "warning", group: "The people online see the room",
    notice: "Online one sees battery signs, a focus frame and the time over everybody's faces.",
    why: "Many still and film cameras put on their picture output what stands on their own screen. Some can switch it off, some cannot.",
    todo: ["Switch the camera's output to the picture alone.", "Try it before the day: it differs from model to model."],
    source: "common practice, no source", symptoms: ["camera menu in the picture", "battery sign in the picture"], limit: "a clean output",
  },
  cases: ({ graph }) => shotsOf(graph).filter((s) => s.ending.device.type === "camera" && (s.ending.part.optics.output === "overlaid" || s.ending.device.ports.some((p) => p.connector === "hdmi" && p.gives.has("picture")))).map((shot): Case => {
    const { device, part } = shot.ending;
    return {
      key: shotKey([shot]), ways: ["online-sees-room"], asks: true,
      measure: (trial) => {
        if (liveShots([shot], trial).length === 0) return undefined;
        const clean = part.optics.output !== undefined ? part.optics.output === "clean" : trial.holds(unsaid(`${part.id}.clean`, `whether the output of ${part.id} is free of menus`, true, "the text does not say", `Is the output of ${device.name} free of its menus?`));
        return {
          severity: clean ? undefined : "warning", badness: clean ? -1 : 1, cause: { key: `overlay ${canonical(part.id)}`, subjects: [device.name], where: device.placed?.where ?? device.where },
          say: () => ({ because: `the output of ${part.id} carries its menus`, effect: "the people online see them over the picture", summary: clean ? `${part.id} gives its picture alone` : `${part.id} gives its menus, too`, chain: [] }),
        };
      },
    };
  }),
};
