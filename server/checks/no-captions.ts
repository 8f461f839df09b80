import { valueOf, type Bound } from "../model/bound";
import { holding } from "../model/during";
import { unsaid } from "../model/make-ranged";
import { called } from "../signal/coverage";
import type { Case, Check, Scene } from "./check";
import { causeKey, gradeOf, micWhere, pickUpOf, voiceKey } from "./pick-up-causes";
import { nearer } from "./pick-up-remedies";

export const noCaptions: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "no-captions", title: "Captions are wanted, and do not come or cannot be right", severity: "warning", group: "Access and consent",
    notice: "Whoever reads along has an empty line before them, or sentences that nobody said.",
    why: "Captions are made by the service, where it makes any, or by somebody who writes them. Both write down what comes out of the call: words that are hollow or lie in noise come out as other words.",
    todo: ["Find out whether the service makes captions in the language that is spoken: service { captions made }.", "Or book somebody who writes them: captions by NAME.", "Send the sound of a microphone close to the mouth."],
    source: "common practice, no source; limits of clear sound as in talker-unclear and mic-noise", symptoms: ["no captions", "captions are wrong", "captions are nonsense", "nothing to read along"], limit: "somebody or something makes them, from sound that is clear",
  },
  cases: (scene) => {
    const wanted = holding(scene.setup.call, "captions", scene.item).at(-1);
    if (wanted === undefined || scene.graph.joins.length === 0) return [];
    const by = valueOf(wanted, "who", "text")?.text;
    const { service } = scene.setup;
    const maker: Case = {
      key: `makes ${by ?? ""} ${service.captions ?? ""}`, ways: ["online-hears-room"],
      measure: (trial) => {
        const made = by !== undefined || (service.captions === undefined
          ? trial.holds(unsaid("service.captions", "whether the service makes captions", false, "common practice, no source", "Does the service make captions in the language that is spoken?"))
          : service.captions === "made");
        return {
          severity: made ? undefined : "warning", badness: made ? -1 : 1, cause: { key: "captions", subjects: [], where: wanted.where },
          say: () => ({
            because: made ? `${by ?? "the service"} makes captions` : service.captions === "none" ? "the service makes no captions, and nobody is named who writes them" : "nobody is named who writes captions, and nothing is said on whether the service makes them",
            effect: "whoever has to read along is left out", summary: made ? "captions are made" : "nobody makes the captions", chain: [],
          }),
        };
      },
    };
    return [maker, ...fromClearSound(scene, wanted)];
  },
};

/** What is said must be clear in the call: the captions of it are no better than the sound. */
function fromClearSound(scene: Scene, wanted: Bound): Case[] {
  return scene.graph.voices.filter((voice) => !voice.music).map((voice): Case => ({
    key: `clear ${voiceKey(scene.graph, voice)}`, ways: ["online-hears-room"],
    measure: (trial) => {
      const p = pickUpOf(scene.graph, voice, trial);
      // Who does not get into the call at all is told of by itself, and whose words are repeated has their captions from those.
      if (p === undefined || p.repeated !== undefined) return undefined;
      const kind = (["unclear", "noise"] as const).find((one) => gradeOf(one, p) !== undefined && gradeOf(one, p) !== "hint");
      return {
        severity: kind === undefined ? undefined : "warning", badness: kind === undefined ? -1 : 1,
        cause: { key: `captions of ${causeKey(kind ?? "unclear", p)}`, subjects: [voice.name], where: wanted.where },
        ...(kind === undefined ? {} : { foldUnder: causeKey(kind, p) }),
        say: () => ({
          because: `${called(voice.name)} is not clear enough in the call for captions`, effect: `captions of ${called(voice.name)} will be wrong`, summary: kind === undefined ? `${called(voice.name)} is clear enough for captions` : `captions of ${called(voice.name)} will be wrong`,
          chain: [], related: [{ where: micWhere(scene.graph, p), message: "the microphone through which the captions are made" }],
        }),
      };
    },
    remedies: () => [...nearer(scene, voice, "unclear"), ...nearer(scene, voice, "noise")],
  }));
}
