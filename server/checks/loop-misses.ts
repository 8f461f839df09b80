import { valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { insertInto } from "../model/edits";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Voice } from "../model/setup";
import type { Trial } from "../model/trial";
import { called } from "../signal/coverage";
import { feedKey, soundFeeds, wayOfOnline, wayOfVoice, type SoundFeed } from "../signal/feeds-of-sound";
import type { Device } from "../model/device";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

export const loopMisses: Check = {
  bearing: "beside",
  entry: {
    code: "loop-misses", title: "A hearing loop, receivers or an interpreter do not get everybody", severity: "error", group: "Access and consent",
    notice: "Whoever wears a hearing aid switches it to the loop and hears one voice, or none.",
    why: "A loop gives what its amplifier is fed with, and nothing else: who speaks into no microphone, or into one that does not lead there, and who speaks online while the call does not lead there, is not in it. The same holds for what receivers, earphones of an interpreter and recorders are to carry.",
    todo: ["Feed the loop from the mixer, with every microphone and the call on that bus.", "Let somebody with a microphone repeat what others say.", "On the evening let somebody with a hearing aid listen before it begins."],
    source: "IEC 60118-4 for what a loop has to give; that everybody must reach it: common practice, no source",
    symptoms: ["hearing loop is silent", "loop without the people online", "nothing on the loop"], limit: "every talker and the people online",
  },
  cases: (scene) => soundFeeds(scene.graph).filter((feed) => feed.wants !== undefined).map((feed): Case => ({
    key: feedKey(scene.graph, feed), ways: ["room-hears-online"],
    measure: (trial) => {
      const { device } = feed;
      const missing = missingFrom(scene, feed, trial);
      return {
        severity: missing.length > 0 ? "error" : undefined, badness: missing.length, measured: { value: missing.length, unit: "" }, limit: { value: 0, unit: "" },
        cause: { key: `loop ${canonical(device.name)}`, subjects: [device.name], where: device.where },
        say: () => ({
          because: `nothing leads ${list(missing)} to ${device.name}`, effect: effectOf(feed, missing.length === 1 ? "that" : "those"),
          summary: missing.length > 0 ? `${device.name} does not get ${list(missing)}` : `${device.name} gets everybody`, chain: [],
          ...(feed.by === "loop" ? {} : { notice: NOTICES[feed.by] }),
        }),
      };
    },
    remedies: () => hold(scene, feed.device),
  })),
};

const NOTICES: Readonly<Record<Exclude<SoundFeed["by"], "loop">, string>> = {
  receivers: "Whoever has put a receiver on hears nothing, or one voice of several, and takes it off.",
  earphones: "The interpreter falls silent, and those who listen to the other language hear nothing.",
  record: "The recording is silent where somebody spoke, and nobody knows before it is played.",
};

function effectOf(feed: SoundFeed, whom: string): string {
  switch (feed.by) {
    case "loop": return `whoever listens through the loop does not hear ${whom}`;
    case "receivers": return `whoever wears a receiver does not hear ${whom}`;
    case "earphones": return `${feed.for?.name ?? "the interpreter"} has to interpret ${whom} and does not hear it`;
    case "record": return `the recording does not have ${whom}`;
  }
}

function missingFrom({ graph, setup }: Scene, { device, wants }: SoundFeed, trial: Trial): string[] {
  const reached = (voice: Voice): boolean => wayOfVoice(graph, voice, device, trial) !== undefined;
  const repeated = (voice: Voice): boolean => [...setup.voices.values()].some((other) => other !== voice && reached(other)
    && holding(other.statements, "repeats", graph.item).some((s) => !s.negated && valuesOf(s, "of", "name").some((n) => canonical(n.text) === canonical(voice.name))));
  const silent = (wants?.voices ?? []).filter((voice) => !reached(voice) && !repeated(voice)).map((voice) => called(voice.name));
  const online = wants?.online === true && wayOfOnline(graph, device, trial) === undefined;
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
