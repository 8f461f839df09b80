import { canonical } from "../model/names";
import { figure } from "../model/show";
import { namesOf } from "../model/voices";
import { CANCELLER_STRAINED_BELOW } from "../physics/coupling";
import { echoOf, loopKey, worstLoops } from "../signal/echo";
import { calmer } from "./calmer";
import { limitOf, type Case, type Check } from "./check";

export const cancellerStrained: Check = {
  takesLimit: true,
  entry: {
    code: "canceller-strained", title: "The echo canceller is strained", severity: "hint", group: "Echo and howl",
    notice: "While somebody online speaks, the room cannot be heard: the call goes one way at a time.",
    why: "The loudspeaker reaches the microphone far louder than the talker does. A canceller keeps that from coming back only by shutting the microphone while the loudspeaker plays.",
    todo: ["The loudspeaker farther from the microphone, or aimed past it.", "The microphone nearer to whoever speaks.", "The loudspeaker quieter."],
    source: "model choice: a canceller holds a loudspeaker up to 15 dB louder than the voice",
    symptoms: ["only one side at a time", "cut off while they talk", "half duplex", "they do not hear us interrupt"],
    limit: "echo loss before the canceller below −15 dB",
  },
  cases: (scene) => worstLoops(scene.graph).filter((loop) => loop.plays === loop.sends).map((loop): Case => ({
    key: `${loopKey(loop)} ${namesOf(scene.graph.voices)}`, ways: ["call"],
    measure: (trial) => {
      const echo = echoOf(scene.graph, loop, trial);
      const held = echo?.held;
      if (echo === undefined || held === undefined) return undefined;
      const limit = limitOf(scene.setup, "canceller-strained", CANCELLER_STRAINED_BELOW);
      if (held >= limit) return undefined;
      const { device } = loop.plays.join;
      const pair = echo.pair;
      return {
        severity: "hint", badness: limit - held, measured: { value: held, unit: "dB" }, limit: { value: limit, unit: "dB" },
        cause: { key: `strained ${device}`, subjects: [device, ...(pair === undefined ? [] : [pair.speaker.device.name])].filter((n, i, all) => all.indexOf(n) === i), where: pair?.speaker.device.where ?? loop.plays.join.where },
        foldUnder: `echo ${canonical(device)}`,
        say: () => ({
          because: pair === undefined ? `what ${device} plays comes back to it ${figure(-held)} dB louder than a voice` : `${pair.mic.part.id} hears ${pair.speaker.part.id} ${figure(-held)} dB louder than whoever speaks`,
          effect: `the canceller of ${device} lets only one side through at a time`,
          summary: `the canceller of ${device} is strained`,
          chain: pair === undefined ? [] : [`${pair.speaker.part.id} is ${figure(pair.metres)} m from ${pair.mic.part.id}`, `a canceller holds up to ${-limit} dB`],
        }),
      };
    },
    remedies: () => calmer(scene, loop),
  })),
};
