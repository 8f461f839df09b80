import { valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { insertInto } from "../model/edits";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { called } from "../signal/coverage";
import { fed, fedKey, onlineReaches, voiceReaches } from "../signal/feeds-of-sound";
import type { Device } from "../model/device";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

export const loopMisses: Check = {
  bearing: "beside",
  entry: {
    code: "loop-misses", title: "The hearing loop does not get everybody", severity: "error", group: "Access and consent",
    notice: "Whoever wears a hearing aid switches it to the loop and hears one voice, or none.",
    why: "A loop gives what its amplifier is fed with, and nothing else: who speaks into no microphone, or into one that does not lead there, and who speaks online while the call does not lead there, is not in it.",
    todo: ["Feed the loop from the mixer, with every microphone and the call on that bus.", "Let somebody with a microphone repeat what others say.", "On the evening let somebody with a hearing aid listen before it begins."],
    source: "IEC 60118-4 for what a loop has to give; that everybody must reach it: common practice, no source",
    symptoms: ["hearing loop is silent", "loop without the people online", "nothing on the loop"], limit: "every talker and the people online",
  },
  cases: (scene) => fed(scene.graph).filter((device) => device.type === "loop").map((device): Case => ({
    key: fedKey(scene.graph, device), ways: ["room-hears-online"],
    measure: (trial) => {
      const missing = missingFrom(scene, device, trial);
      return {
        severity: missing.length > 0 ? "error" : undefined, badness: missing.length, measured: { value: missing.length, unit: "" }, limit: { value: 0, unit: "" },
        cause: { key: `loop ${canonical(device.name)}`, subjects: [device.name], where: device.where },
        say: () => ({
          because: `nothing leads ${list(missing)} to ${device.name}`, effect: `whoever listens through the loop does not hear ${missing.length === 1 ? "that" : "those"}`,
          summary: missing.length > 0 ? `${device.name} does not get ${list(missing)}` : `${device.name} gets everybody`, chain: [],
        }),
      };
    },
    remedies: () => hold(scene, device),
  })),
};

function missingFrom({ graph, setup }: Scene, device: Device, trial: Trial): string[] {
  const reached = (voice: Voice): boolean => voiceReaches(graph, voice, device, trial);
  const repeated = (voice: Voice): boolean => [...setup.voices.values()].some((other) => other !== voice && reached(other)
    && holding(other.statements, "repeats", graph.item).some((s) => !s.negated && valuesOf(s, "of", "name").some((n) => canonical(n.text) === canonical(voice.name))));
  const silent = graph.voices.filter((voice) => !reached(voice) && !repeated(voice)).map((voice) => called(voice.name));
  const online = graph.joins.some((join) => join.plays.length > 0) && !onlineReaches(graph, device, trial);
  return [...silent, ...(online ? ["the people online"] : [])];
}

/** Puts every channel on the bus that feeds the loop. */
function hold({ setup }: Scene, device: Device): Remedy[] {
  const own = new Set(device.ports.map((port) => canonical(port.id)));
  const feeding = new Set(setup.links.flatMap((link) => (own.has(canonical(link.to)) ? [canonical(link.from)] : own.has(canonical(link.from)) ? [canonical(link.to)] : [])));
  return [...setup.mixers.values()].flatMap((mixer) => mixer.buses.filter((bus) => bus.ports.some((port) => feeding.has(port))).flatMap((bus): Remedy[] => {
    const file = fileOf(setup, bus.where.path);
    return file === undefined ? [] : [{ title: `Put every channel on ${bus.name} of ${mixer.device}`, edits: [insertInto(file, bus.statement, ["holds all"])] }];
  }));
}
