import { withUnit } from "../model/show";
import type { Severity } from "../finding";
import { called } from "../signal/coverage";
import { FAR, type Hearing } from "../signal/pick-up/hearing";
import type { Case, Check } from "./check";
import { causeKey, gradeOf, micWhere, pickUpOf, under, voiceKey, type PickUp } from "./pick-up-causes";
import { seenOfVoice } from "./pick-up-observed";
import { nearer } from "./pick-up-remedies";
import { awayFrom, nearEnough, overRoom, repeats } from "./pick-up-words";

export const talkerFar: Check = {
  entry: {
    code: "talker-far", title: "A talker is far from the microphone", severity: "warning", group: "The people online hear the room",
    notice: "The voice sounds as from the far end of a hall; after a quarter of an hour it tires.",
    why: "A microphone hears the voice itself and the room that answers it. The voice falls by 6 dB with each doubling of the distance, what the room makes of it does not. Ears in the room tell the two apart; whoever listens to one loudspeaker or earphones cannot.",
    todo: ["Bring the microphone nearer: half the distance gives 6 dB.", "Let the talker wear a microphone, or hold one.", "Use a directional microphone, aimed at the mouth.", "Curtains and carpets help the whole room, a little."],
    source: "model choice: the voice itself against what reverberates of it, A-weighted; hollow below 0 dB, far away below −6 dB",
    symptoms: ["sounds hollow", "like in a bathroom", "far away", "echoey voice", "as from a well"], limit: `voice over reverberation at the best live microphone: ${FAR.warning} dB, hint under ${FAR.hint} dB`,
  },
  cases: (scene) => scene.graph.voices.flatMap((voice): Case[] => (voice.seats !== undefined || voice.music ? [] : [{
    key: voiceKey(scene.graph, voice), ways: ["online-hears-room"],
    measure: (trial) => {
      const p = pickUpOf(scene.graph, voice, trial);
      if (p === undefined) return undefined;
      const h = p.hearing;
      const severity = p.repeated === undefined ? gradeOf("far", p) : undefined;
      const limit = severity === "hint" ? FAR.hint : FAR.warning;
      return {
        severity, badness: FAR.warning - h.ratio, measured: { value: h.ratio, unit: "dB" }, limit: { value: limit, unit: "dB" },
        cause: { key: causeKey("far", p), subjects: [voice.name, h.mic.device.name], where: micWhere(scene.graph, p) }, ...under("far", p),
        say: () => ({
          because: reason(p, h), effect: effectOf(p, severity), summary: severity === "warning" ? reason(p, h) : inOrder(p),
          chain: [`voice over what reverberates ${withUnit(h.ratio, "dB")}, ${withUnit(limit, "dB")} is wanted`, ...(severity === "warning" ? (nearEnough(h) === undefined ? [] : [nearEnough(h) ?? ""]) : [])],
        }),
      };
    },
    remedies: () => nearer(scene, voice, "far"),
    observed: (seen) => seenOfVoice(scene, voice, seen),
  }])),
};

function reason({ voice }: PickUp, h: Hearing): string {
  const away = awayFrom(h);
  const turned = h.turned > 90 ? `, and ${called(voice.name)} looks away from it` : "";
  return `${h.mic.part.id} ${away === undefined ? `hears ${called(voice.name)}` : `is ${away} from ${called(voice.name)}`}${turned}, ${overRoom(h.ratio)}`;
}

const effectOf = ({ voice }: PickUp, severity: Severity | undefined): string => `${called(voice.name)} sounds ${severity === "warning" ? "hollow and far away" : "a little hollow"} online`;

const inOrder = (p: PickUp): string => repeats(p) ?? `the people online hear ${called(p.voice.name)} through ${p.hearing.mic.part.id}, ${overRoom(p.hearing.ratio)}`;
