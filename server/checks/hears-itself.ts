import { duration, figure } from "../model/show";
import { namesOf } from "../model/voices";
import { loopKey, returnOf, worstLoops } from "../signal/echo";
import type { Case, Check } from "./check";
import { limitOf } from "./check";
import { CROSSED, echoPath, namesIn, RETURNED, secondOf } from "./echo-path";
import { concerns, opinion } from "./observes";

/** A late repetition is audible down to this much below the voice itself, dB. Model choice. */
const AUDIBLE = -20;

export const hearsItself: Check = {
  takesLimit: true,
  entry: {
    code: "hears-itself", title: "The room hears itself, late", severity: "error", group: "Echo and howl",
    notice: "Every word spoken in the room comes out of a loudspeaker again a third of a second later.",
    why: "One joined device sends the voices of the room, and a second one in the same room plays what the first sent: the call returns to each device what every other sends.",
    todo: ["Turn off the sound of the second device.", "Let only one device in the room play."],
    source: "model choice: audible within 20 dB of the voice itself",
    symptoms: ["we hear ourselves", "room echo", "words come twice", "delayed loudspeaker", "second laptop talks back"],
    limit: "within 20 dB of the direct voice at some seat",
  },
  cases: (scene) => worstLoops(scene.graph).filter((loop) => loop.plays !== loop.sends).map((loop): Case => ({
    key: `${loopKey(loop)} ${namesOf(scene.graph.voices)}`, ways: ["call"],
    measure: (trial) => {
      const back = returnOf(scene.graph, loop, trial);
      if (back === undefined) return undefined;
      const limit = limitOf(scene.setup, "hears-itself", AUDIBLE);
      const second = secondOf(scene, loop);
      const loud = back.over > limit;
      return {
        severity: loud ? "error" : undefined, badness: back.over - limit,
        measured: { value: back.over, unit: "dB" }, limit: { value: limit, unit: "dB" },
        cause: { key: RETURNED, subjects: [second.join.device], where: second.join.where }, foldUnder: CROSSED,
        say: () => ({
          because: `${loop.plays.join.device} plays in the room what ${loop.sends.join.device} sends from it`,
          effect: `the room hears ${back.voice.name} again ${duration(back.delay)} late, ${figure(Math.abs(back.over))} dB ${back.over > 0 ? "louder" : "softer"} than the voice itself`,
          summary: loud ? `${back.voice.name} comes back to the room through ${loop.plays.join.device}` : `${loop.plays.join.device} brings nothing back that is audible`,
          chain: [`${loop.sends.join.device} sends ${back.voice.name} into the call`, `the call returns it to ${loop.plays.join.device}`, `${back.speaker.part.id} plays it`],
        }),
      };
    },
    observed: (seen) => (concerns(seen, namesIn(loop)) ? opinion(seen, ["echo"]) : undefined),
    remedies: (outcome) => echoPath.cases(scene).find((c) => c.key.startsWith(loopKey(loop)))?.remedies?.(outcome) ?? [],
  })),
};
