import { withUnit } from "../model/show";
import { FACE_LIGHT, lightKey, lightOnFaces } from "../signal/pictures/daylight";
import { liveShots, shotKey, shotsOf } from "../signal/pictures/shots";
import { limitOf, type Case, type Check } from "./check";

export const darkFace: Check = {
  bearing: "beside", silentInOrder: true, takesLimit: true,
  entry: {
    code: "dark-face", title: "Too little light falls on faces", severity: "warning", group: "The people online see the room",
    notice: "The people online see grey, grainy faces, and movements that smear.",
    why: "Lamps overhead light tables and hair. What a camera needs is light that falls on faces from the front.",
    todo: ["Switch on the lamps over the people.", "A lamp from the front, a little above the eyes, off the screen.", "Do not stand under a lone ceiling lamp. Keep hot lamps away from curtains and people."],
    source: "EN 12464-1:2021: 150 lx on an upright cylinder in conference rooms; under 100 lx: common practice", symptoms: ["grainy picture", "too dark", "faces in the dark"], limit: `${FACE_LIGHT.hint} lx; under ${FACE_LIGHT.warning} lx a warning`,
  },
  cases: ({ graph, setup, item }) => {
    const shots = shotsOf(graph);
    const first = shots[0];
    if (first === undefined) return [];
    return [{
      key: `${shotKey(shots)} ${lightKey(setup, item)}`, ways: ["online-sees-room"], asks: true,
      measure: (trial) => {
        if (liveShots(shots, trial).length === 0) return undefined;
        const limit = limitOf(setup, "dark-face", FACE_LIGHT.warning);
        const value = lightOnFaces(setup, trial, item);
        const severity = value < limit ? "warning" : value < FACE_LIGHT.hint && limit === FACE_LIGHT.warning ? "hint" : undefined;
        return {
          severity, badness: FACE_LIGHT.hint - value, measured: { value, unit: "lx" }, limit: { value: severity === "hint" ? FACE_LIGHT.hint : limit, unit: "lx" },
          cause: { key: "dark faces", subjects: [setup.room.name], where: setup.room.where ?? setup.titleWhere },
          say: () => ({ because: `about ${withUnit(value, "lx")} fall on faces`, effect: "pictures of them are grainy and smear", summary: `about ${withUnit(value, "lx")} on faces`, chain: [] }),
        };
      },
    } satisfies Case];
  },
};
