import { valueOf } from "../model/bound";
import { holding } from "../model/during";
import { insertInto } from "../model/edits";
import { canonical } from "../model/names";
import { deviceOfNode } from "../signal/edges";
import { carries, ONLINE } from "../signal/graph";
import { micsOf } from "../signal/pick-up/mics";
import type { Trial } from "../model/trial";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

export const sourceWithoutMic: Check = {
  silentInOrder: true,
  entry: {
    code: "source-without-mic", title: "Music or a clip does not get into the call", severity: "warning", group: "The people online hear the room",
    notice: "The film runs, the choir sings, and online there is a picture without sound.",
    why: "A computer sends what its microphone hears, not what it plays, unless it is told to; and an instrument is heard online only through a microphone.",
    todo: ["Send the clip's own sound: sends clip at the join of the device that plays it.", "Set up a microphone for what sings or plays."],
    source: "common practice, no source", symptoms: ["film without sound", "video silent online", "choir not heard"], limit: "each has a way to the call",
  },
  cases: (scene) => [...clips(scene), ...music(scene)],
};

/** Whether sound of a device's own gets to the people online by wires. */
function sentByWire({ graph, setup }: Scene, device: string, trial: Trial): boolean {
  for (const [from, path] of graph.ways("sound", ONLINE, "back")) {
    if (!from.startsWith("port-out:") || canonical(deviceOfNode(from, setup.devices, canonical)) !== canonical(device)) continue;
    if (path.length > 0 && carries(path, trial)) return true;
  }
  return false;
}

function clips(scene: Scene): Case[] {
  const { graph, setup, item } = scene;
  const programme = setup.items.find((one) => one.name === item);
  return (programme?.clips ?? []).map((name): Case => {
    const state = graph.joins.find((j) => canonical(j.join.device) === canonical(name));
    const sent = state !== undefined && holding(state.join.statements, "sends", item).some((s) => !s.negated && valueOf(s, "what", "word")?.word === "clip");
    return {
      key: `clip ${name} ${item ?? ""}`, ways: ["online-hears-room"],
      measure: (trial) => {
        if (graph.joins.length === 0) return undefined;
        const ok = sent || sentByWire(scene, name, trial);
        return {
          severity: ok ? undefined : "warning", badness: ok ? -1 : 1, cause: { key: `clip ${canonical(name)}`, subjects: [name], where: state?.join.where ?? programme?.where ?? setup.titleWhere },
          say: () => ({
            because: `no join sends the sound of what ${name} plays`, effect: "the people online get it through the air, or not at all",
            summary: ok ? `the clip on ${name} is sent` : `the clip on ${name} is not sent`, chain: [],
          }),
        };
      },
      remedies: (): Remedy[] => {
        const file = state && fileOf(setup, state.join.where.path);
        return state === undefined || file === undefined ? [] : [{ title: `Send the clip's own sound from ${name}`, edits: [insertInto(file, state.join.bound, ["sends clip"])] }];
      },
    };
  });
}

function music({ graph }: Scene): Case[] {
  if (graph.joins.length === 0) return [];
  const mics = micsOf(graph);
  return graph.voices.filter((voice) => voice.music).map((voice): Case => ({
    key: `music ${voice.name} ${mics.map((m) => `${m.ending.part.id}${m.path.flatMap((e) => e.gap?.cause ?? []).join("!")}`).join(",")}`, ways: ["online-hears-room"],
    measure: (trial) => {
      const ok = mics.some((m) => carries(m.path, trial));
      return {
        severity: ok ? undefined : "warning", badness: ok ? -1 : 1, cause: { key: `music ${canonical(voice.name)}`, subjects: [voice.name], where: voice.where ?? graph.setup.titleWhere },
        foldUnder: mics[0]?.path.flatMap((e) => e.gap?.cause ?? [])[0] ?? "nothing-sends-sound",
        say: () => ({ because: `no microphone leads ${voice.name} into the call`, effect: `the music of ${voice.name} is missing online`, summary: ok ? `${voice.name} has a microphone` : `${voice.name} has no microphone`, chain: [] }),
      };
    },
  }));
}
