import { figure, withUnit } from "../model/show";
import { called } from "../signal/coverage";
import { acoustics } from "../signal/acoustics";
import { openMicrophoneRise } from "../physics/openMicrophones";
import { NOISY } from "../signal/pick-up/hearing";
import type { Case, Check } from "./check";
import { causeKey, gradeOf, micWhere, pickUpOf, under, voiceKey } from "./pick-up-causes";
import { seenOfVoice } from "./pick-up-observed";
import { nearer } from "./pick-up-remedies";
import { awayFrom, openWords, whom } from "./pick-up-words";

export const micNoise: Check = {
  silentInOrder: true,
  entry: {
    code: "mic-noise", title: "The microphone hears the noise along with the voice", severity: "error", group: "The people online hear the room",
    notice: "A rushing or humming lies under the voice; noise suppression takes it away, and bites pieces out of the words.",
    why: "What the room makes by itself, fan, urn, projector, traffic, reaches the microphone as strongly as it does ears, and a voice from afar does not. Each doubling of the microphones that are open adds 3 dB of it.",
    todo: ["Bring the microphone nearer to the mouth.", "Move it away from fan, urn and projector, or switch those off.", "Close microphones that nobody speaks into."],
    source: "common practice, no source", symptoms: ["hiss online", "hum online", "rushing under the voice", "noise suppression cuts words"],
    limit: `speech over noise at the best live microphone: ${NOISY.error} dB, warning under ${NOISY.warning} dB`,
  },
  cases: (scene) => scene.graph.voices.map((voice): Case => ({
    key: voiceKey(scene.graph, voice), ways: ["online-hears-room"],
    measure: (trial) => {
      const p = pickUpOf(scene.graph, voice, trial);
      if (p === undefined || p.repeated !== undefined) return undefined;
      const h = p.hearing;
      const severity = gradeOf("noise", p);
      const limit = severity === "error" ? NOISY.error : NOISY.warning;
      return {
        severity, badness: NOISY.warning - h.overNoise, measured: { value: h.overNoise, unit: "dB" }, limit: { value: limit, unit: "dB" },
        cause: { key: causeKey("noise", p), subjects: p.seats === undefined ? [voice.name, h.mic.device.name] : [voice.name], where: micWhere(scene.graph, p) }, ...under("noise", p),
        say: () => {
          const away = awayFrom(h);
          const over = h.overNoise < 0 ? `${figure(-h.overNoise)} dB below` : `only ${figure(h.overNoise)} dB above`;
          // Where this one alone would do, it is the others that are wrong.
          const crowd = h.open > 1 && h.overNoise + openMicrophoneRise(h.open) >= NOISY.warning ? `${h.open} microphones are open at once: ` : "";
          const because = `${crowd}${h.mic.part.id}${away === undefined ? "" : `, ${away} away,`} hears ${whom(p)} ${over} the noise`;
          return {
            because, effect: severity === "error" ? `${called(voice.name)} drowns in it online` : `a rushing lies under every word of ${called(voice.name)} online`, summary: because,
            chain: [`${withUnit(limit, "dB")} is wanted; ${figure(acoustics(scene.setup, trial).noise)} dBA in ${scene.setup.room.name}${openWords(h)}`],
          };
        },
      };
    },
    remedies: () => nearer(scene, voice, "noise"),
    observed: (seen) => seenOfVoice(scene, voice, seen),
  })),
};
