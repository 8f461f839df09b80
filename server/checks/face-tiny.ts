import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { called } from "../signal/coverage";
import { framed, liveShots, PIXELS, shotKey, shotsOf } from "../signal/pictures/shots";
import { modeWords } from "../signal/streams";
import { Trial } from "../model/trial";
import { namesOf } from "../model/voices";
import { joinCamera, moreLines, nearer, zoomIn } from "./camera-remedies";
import type { Case, Check } from "./check";
import { subjectsOf } from "./out-of-frame";

export const faceTiny: Check = {
  silentInOrder: true,
  entry: {
    code: "face-tiny", title: "Faces from the room are too small in the picture that is sent", severity: "warning", group: "The people online see the room",
    notice: "Online one sees a room with a small figure in it, and no face.",
    why: "A picture of so many pixels over so wide a scene leaves a face only so many of them. No screen at the other end puts back what was not sent.",
    todo: ["Camera nearer, or zoomed in.", "Send more pixels, if the uplink carries them.", "A second camera for the audience."],
    source: "geometry; 30 and 12 pixels: common practice, no source", symptoms: ["cannot see the speaker's face", "speaker too small", "picture too wide"], limit: `${PIXELS.talker} pixels across a talker's face, under ${PIXELS.warning} a warning; ${PIXELS.audience} across one of many`,
  },
  cases: (scene) => {
    const shots = shotsOf(scene.graph);
    return shots.length === 0 ? [] : subjectsOf(scene).filter((subject) => !scene.setup.room.surfaces.has(canonical(subject.name))).map((subject): Case => ({
      key: `${subject.name} ${shotKey(shots)} ${namesOf(scene.graph.voices)}`, ways: ["online-sees-room"],
      measure: (trial) => {
        const live = liveShots(shots, trial);
        const all = framed(scene.setup, trial, live, scene.graph.voices, subject.points(trial)).filter((p) => p !== undefined);
        const worst = all.reduce<(typeof all)[number] | undefined>((a, b) => (a === undefined || b.pixels < a.pixels ? b : a), undefined);
        if (worst === undefined) return undefined;
        const limit = !subject.many ? PIXELS.talker : PIXELS.audience;
        const { device, part } = worst.shot.ending;
        return {
          severity: worst.pixels >= limit ? undefined : !subject.many && worst.pixels < PIXELS.warning ? "warning" : "hint", badness: limit - worst.pixels, measured: { value: worst.pixels, unit: "pixels" }, limit: { value: limit, unit: "pixels" },
          cause: { key: `tiny ${subject.many ? "audience" : "talkers"} ${canonical(part.id)}`, subjects: [subject.name], where: device.placed?.where ?? worst.shot.sent?.where ?? scene.setup.titleWhere },
          say: () => {
            const is = `${part.id} sends a face ${subject.person ? `of ${called(subject.name)}` : `in ${called(subject.name)}`} ${withUnit(worst.depth, "m")} away with ${figure(Math.round(worst.pixels))} pixels across${worst.shot.sent === undefined ? "" : ` at ${modeWords(worst.shot.sent)}`}`;
            const few = all.filter((p) => p.pixels < limit).length;
            return {
              because: `${is}, and ${limit} are needed`, effect: subject.person || few === all.length ? "online nobody reads that face" : `${few} of ${all.length} faces are mere spots online`, summary: is,
              chain: [`pixels across a face ${figure(worst.pixels)}, ${limit} are needed`],
            };
          },
        };
      },
      remedies: (outcome) => {
        const point = subject.points(new Trial())[0];
        const { measured, limit } = outcome;
        return [...zoomIn(scene, measured === undefined || limit === undefined ? 1 : limit.value / measured.value), ...moreLines(scene), ...(point === undefined ? [] : nearer(scene, subject.name, point)), ...joinCamera(scene, subject.name)];
      },
    }));
  },
};
