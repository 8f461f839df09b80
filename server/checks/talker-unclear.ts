import { figure } from "../model/show";
import { UNCLEAR } from "../signal/pick-up/hearing";
import type { Case, Check } from "./check";
import { causeKey, gradeOf, micWhere, pickUpOf, under, voiceKey } from "./pick-up-causes";
import { seenOfVoice } from "./pick-up-observed";
import { nearer } from "./pick-up-remedies";
import { awayFrom, clarityCause, whom } from "./pick-up-words";

export const talkerUnclear: Check = {
  silentInOrder: true,
  entry: {
    code: "talker-unclear", title: "Words are lost on the way into the call", severity: "error", group: "The people online hear the room",
    notice: "The people online hear somebody speak and cannot follow; names and numbers are asked for again.",
    why: "Reverberation smears one syllable over the next, noise fills the gaps between them. The speech transmission index, 0 to 1, says how much of speech is left to be understood.",
    todo: ["Bring the microphone nearer, or let the talker wear one.", "Make less noise: fan, urn, projector, open window.", "Close microphones that nobody speaks into."],
    source: "IEC 60268-16 for the index; limits and the direct with the diffuse field: common practice and a model choice. An index from a room's figures lies low by up to 0.1",
    symptoms: ["cannot follow", "mumbling", "words lost", "indistinct online"], limit: `speech transmission index from mouth to call: ${UNCLEAR.error}, warning under ${UNCLEAR.warning}`,
  },
  cases: (scene) => scene.graph.voices.flatMap((voice): Case[] => (voice.music ? [] : [{
    key: voiceKey(scene.graph, voice), ways: ["online-hears-room"],
    measure: (trial) => {
      const p = pickUpOf(scene.graph, voice, trial);
      if (p === undefined || p.repeated !== undefined) return undefined;
      const h = p.hearing;
      const severity = gradeOf("unclear", p);
      const limit = severity === "error" ? UNCLEAR.error : UNCLEAR.warning;
      return {
        severity, badness: UNCLEAR.warning - h.sti, measured: { value: h.sti, unit: "" }, limit: { value: limit, unit: "" },
        cause: { key: causeKey("unclear", p), subjects: p.seats === undefined ? [voice.name, h.mic.device.name] : [voice.name], where: micWhere(scene.graph, p) }, ...under("unclear", p),
        say: () => {
          const away = awayFrom(h);
          const through = `through ${h.mic.part.id}${away === undefined ? "" : `, ${away} away,`}`;
          const because = `${through} ${severity === "error" ? "few words" : "not all words"} of ${whom(p)} can be made out`;
          const cause = clarityCause(scene, h, trial);
          return {
            because: `${because}, speech transmission index ${figure(h.sti)} where ${figure(limit)} is wanted`, effect: `the people online lose ${severity === "error" ? "most of what is said" : "words"}`,
            summary: `${because}, speech transmission index ${figure(h.sti)}`, chain: cause === undefined ? [] : [cause],
          };
        },
      };
    },
    remedies: () => nearer(scene, voice, "unclear"),
    observed: (seen) => seenOfVoice(scene, voice, seen),
  }])),
};
