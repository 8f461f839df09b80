import { holding } from "../model/during";
import { valueOf } from "../model/bound";
import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import type { Case, Check } from "./check";
import { pickUpOf, under, voiceKey } from "./pick-up-causes";
import { faceAudience } from "./pick-up-remedies";

/** Degrees between where a talker looks and the microphone, and how near it may stand all the same, m. Common practice, no source. */
export const TURNED = { angle: 90, near: 0.5 } as const;

export const talkerTurnedAway: Check = {
  silentInOrder: true,
  entry: {
    code: "talker-turned-away", title: "A talker speaks away from the microphone", severity: "hint", group: "The people online hear the room",
    notice: "Whenever the talker turns to the screen the voice online goes dull and faint.",
    why: "A mouth sends its consonants forward: behind the head the high bands are some 10 to 15 dB weaker, and what is left comes off the walls.",
    todo: ["Move the screen, or the microphone, so that both lie on one side of the talker.", "Let the talker wear a microphone: it turns along."],
    source: "common practice, no source", symptoms: ["voice goes dull", "faint when turned to the screen"], limit: `${TURNED.angle}° beyond ${TURNED.near} m`,
  },
  cases: (scene) => scene.graph.voices.flatMap((voice): Case[] => {
    const { graph, item } = scene;
    const faces = holding(voice.statements, "faces", item).find((s) => !s.negated);
    if (faces === undefined || voice.seats !== undefined) return [];
    const toward = valueOf(faces, "at", "place")?.words ?? "";
    return [{
      key: `${voiceKey(graph, voice)} ${item ?? ""}`, ways: ["online-hears-room"],
      measure: (trial) => {
        const p = pickUpOf(graph, voice, trial);
        if (p === undefined || p.repeated !== undefined) return undefined;
        const home = p.hearing;
        const away = !home.worn && home.apart > TURNED.near && home.turned > TURNED.angle;
        return {
          severity: away ? "hint" : undefined, badness: home.worn ? -180 : home.turned - TURNED.angle,
          measured: { value: home.turned, unit: "°" }, limit: { value: TURNED.angle, unit: "°" },
          cause: { key: `turned ${canonical(voice.name)}`, subjects: [voice.name], where: faces.where },
          ...under(undefined, p),
          say: () => ({
            because: `${voice.name} looks ${toward === "" ? "away" : `to ${toward}`}, ${withUnit(home.turned, "°")} away from ${home.mic.part.id}`, effect: `${voice.name} is dull online`,
            summary: `${voice.name} looks ${withUnit(home.turned, "°")} past ${home.mic.part.id}`, chain: [],
          }),
        };
      },
      remedies: () => faceAudience(scene, voice),
    }];
  }),
};
