import { canonical } from "../model/names";
import { figure } from "../model/show";
import type { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { called } from "../signal/coverage";
import { cameraOf, liveShots, seenBy, shotKey, shotsOf, type Shot } from "../signal/pictures/shots";
import { turn, zoomIn } from "./camera-remedies";
import type { Case, Check, Scene } from "./check";

export const inFrameAgainstWill: Check = {
  bearing: "beside",
  entry: {
    code: "in-frame-against-will", title: "Somebody who wants to be in no picture is in one", severity: "error", group: "Access and consent",
    notice: "Somebody sees their own face on the wall, or on the recording, after having said that they did not want to.",
    why: "Seats are set aside for those who want to be in no picture, and the frame of a camera that is sent takes them in.",
    todo: ["Aim the camera elsewhere, or zoom it in on whoever speaks.", "Move those seats out of the frame: behind the camera is safest.", "Say at the door where one is not seen, and mark those seats."],
    source: "geometry in three dimensions: a pinhole camera; what people have a right to, the local law says", symptoms: ["filmed against their will", "did not want to be in the picture", "seen on camera who had said no"], limit: "no face on a seat that is off camera lies in the frame of a camera that is sent",
  },
  cases: (scene) => {
    const groups = scene.setup.room.seats.filter((group) => group.offCamera.length > 0);
    return groups.length === 0 ? [] : shotsOf(scene.graph).map((shot): Case => ({
      key: `${shotKey([shot])} ${namesOf(scene.graph.voices)}`, ways: ["online-sees-room"],
      measure: (trial) => {
        if (liveShots([shot], trial).length === 0) return undefined;
        const faces = facesIn(scene, shot, trial);
        const inside = faces.filter(({ margin }) => margin > 0).sort((a, b) => b.margin - a.margin);
        const nearest = Math.max(...faces.map(({ margin }) => margin));
        const { device, part } = shot.ending;
        return {
          severity: inside.length > 0 ? "error" : undefined, badness: nearest, measured: { value: nearest, unit: "°" }, limit: { value: 0, unit: "°" },
          cause: { key: `against will ${canonical(part.id)}`, subjects: [device.name, ...new Set(inside.map(({ group }) => group))], where: device.placed?.where ?? shot.sent?.where ?? scene.setup.titleWhere },
          say: () => ({
            because: inside.length > 0 ? `${part.id} has ${inside.length} of ${faces.length} faces in its frame that are to be in no picture, ${called(inside[0]?.group ?? "")} in row ${inside[0]?.row ?? ""} ${figure(inside[0]?.margin ?? 0)}° inside` : `no face that is to be in no picture is in the frame of ${part.id}`,
            effect: inside.length > 0 ? "they are seen by everybody in the call, and on every recording" : "", summary: inside.length > 0 ? `${part.id} shows ${inside.length} who want to be in no picture` : `${part.id} keeps out who wants to be in no picture`, chain: [],
          }),
        };
      },
      remedies: () => [...scene.graph.voices.filter((voice) => voice.stated && voice.seats === undefined).slice(0, 2).flatMap((voice) => turn(scene, voice.name)), ...zoomIn(scene, 1.5)],
    }));
  },
};

/** The faces on seats that are off camera, each with its degrees to the edge of the frame: positive inside. */
function facesIn({ setup, graph }: Scene, shot: Shot, trial: Trial): { readonly group: string; readonly row: number; readonly margin: number }[] {
  const camera = cameraOf(setup, trial, shot.ending, graph.voices);
  return setup.room.seats.flatMap((group) => setup.floor.seats(group, trial).filter((seat) => seat.offCamera).map((seat) => ({ group: group.name, row: seat.row, margin: seenBy(camera, seat.mouth).margin })));
}
