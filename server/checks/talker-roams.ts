import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import { FAR } from "../signal/pick-up/hearing";
import type { Case, Check } from "./check";
import { gradeOf, micWhere, pickUpOf, voiceKey } from "./pick-up-causes";
import { wear } from "./pick-up-owned";
import { sendAnother } from "./pick-up-remedies";
import { overRoom } from "./pick-up-words";

export const talkerRoams: Check = {
  silentInOrder: true,
  entry: {
    code: "talker-roams", title: "A talker walks away from the microphone", severity: "warning", group: "The people online hear the room",
    notice: "The voice comes and goes online, as the talker walks up and down.",
    why: "A microphone on a stand or a table hears well over an arm's length or two, and a talker who walks leaves that behind.",
    todo: ["Let the talker wear a microphone: lapel or headset.", "Or ask the talker to stay at the stand."],
    source: "common practice, no source; the limit as for a talker who is far", symptoms: ["voice comes and goes", "fades when walking", "walks out of the microphone"],
    limit: `voice over reverberation everywhere in the area walked: ${FAR.warning} dB`,
  },
  cases: (scene) => scene.graph.voices.flatMap((voice): Case[] => (voice.walks === undefined || voice.seats !== undefined || voice.music ? [] : [{
    key: voiceKey(scene.graph, voice), ways: ["online-hears-room"],
    measure: (trial) => {
      const p = pickUpOf(scene.graph, voice, trial);
      if (p?.roaming === undefined || p.repeated !== undefined) return undefined;
      const [home, worst] = [p.hearing, p.roaming];
      // Who is far where the text puts them is far, whether or not they walk.
      const leaves = worst.ratio < FAR.warning && gradeOf("far", p) !== "warning";
      return {
        severity: leaves ? "warning" : undefined, badness: FAR.warning - worst.ratio, measured: { value: worst.ratio, unit: "dB" }, limit: { value: FAR.warning, unit: "dB" },
        cause: { key: `roams ${canonical(voice.name)}`, subjects: [voice.name], where: voice.where ?? micWhere(scene.graph, p) },
        say: () => ({
          because: `${voice.name} walks up to ${withUnit(worst.apart, "m")} away from ${worst.mic.part.id}, and there ${overRoom(worst.ratio)}`, effect: `the voice of ${voice.name} comes and goes online`,
          summary: `${voice.name} walks up to ${withUnit(worst.apart, "m")} away from ${worst.mic.part.id}`,
          chain: [`where ${voice.name} stands, ${overRoom(home.ratio)}; ${withUnit(FAR.warning, "dB")} is wanted over all the area walked`],
        }),
      };
    },
    remedies: () => [...sendAnother(scene, voice), ...wear(scene, voice)],
  }])),
};
