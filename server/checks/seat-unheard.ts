import { withUnit } from "../model/show";
import { called } from "../signal/coverage";
import { FAR } from "../signal/pick-up/hearing";
import type { Case, Check } from "./check";
import { causeKey, gradeOf, micWhere, pickUpOf, under, voiceKey } from "./pick-up-causes";
import { seenOfSeats } from "./pick-up-observed";
import { nearer } from "./pick-up-remedies";
import { nearEnough, overRoom, repeats, seatsShort } from "./pick-up-words";

export const seatUnheard: Check = {
  entry: {
    code: "seat-unheard", title: "Questions from some seats are not picked up", severity: "warning", group: "The people online hear the room",
    notice: "Somebody in the room asks a question, and the people online write: we could not make that out.",
    why: "The seats speak, and some are so far from every microphone that the room drowns the voice.",
    todo: ["Pass a hand-held microphone round.", "Let somebody who is well heard repeat each question.", "Set up a second microphone for the back."],
    source: "common practice, no source; the limit as for a talker who is far",
    symptoms: ["questions not heard online", "could not hear the question", "back row not heard", "repeat the question"], limit: `voice over reverberation at the best live microphone: ${FAR.warning} dB`,
  },
  cases: (scene) => scene.graph.voices.flatMap((voice): Case[] => (voice.seats === undefined || voice.music ? [] : [{
    key: voiceKey(scene.graph, voice), ways: ["online-hears-room"],
    measure: (trial) => {
      const p = pickUpOf(scene.graph, voice, trial);
      if (p?.seats === undefined) return undefined;
      const { seats, hearing: h } = p;
      const severity = p.repeated === undefined ? gradeOf("far", p) : undefined;
      return {
        severity, badness: FAR.warning - h.ratio, measured: { value: h.ratio, unit: "dB" }, limit: { value: FAR.warning, unit: "dB" },
        cause: { key: causeKey("far", p), subjects: [voice.name], where: micWhere(scene.graph, p) }, ...under("far", p),
        say: () => {
          const short = seatsShort(seats.seats.map((seat) => ({ row: seat.row, short: seat.ratio < FAR.warning })), seats.worst.group, seats.worst.name);
          return {
            because: `${h.mic.part.id} is too far from ${short}`, effect: `questions from there sound hollow and far away online`,
            summary: severity !== undefined ? `${h.mic.part.id} is too far from ${short}`
              : repeats(p) ?? `the people online hear ${called(voice.name)} through ${h.mic.part.id}, ${overRoom(h.ratio)} at the worst seat`,
            chain: [`${withUnit(h.apart, "m")} from the worst seat, ${overRoom(h.ratio)}; ${withUnit(FAR.warning, "dB")} is wanted`, ...(nearEnough(h) === undefined ? [] : [nearEnough(h) ?? ""])],
          };
        },
      };
    },
    remedies: () => nearer(scene, voice, "far"),
    observed: (seen) => seenOfSeats(scene, voice, seen),
  }])),
};
