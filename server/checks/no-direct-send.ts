import { canonical } from "../model/names";
import { node } from "../signal/edges";
import { carries, type Ending } from "../signal/graph";
import { mixerOf, wiresOf } from "../signal/loops/net";
import { micsOf } from "../signal/pick-up/mics";
import type { Case, Check, Remedy, Scene } from "./check";
import { replaceIn } from "./join-text";

export const noDirectSend: Check = {
  silentInOrder: true,
  entry: {
    code: "no-direct-send", title: "The call hears the mixer only through the air", severity: "warning", group: "The people online hear the room",
    notice: "In the room everybody is clear; online the same voices sound as from the far end of a hall.",
    why: "The talkers speak into microphones that lead to the loudspeakers of the room. The call takes up that sound with another microphone, with the room and its noise on top.",
    todo: ["Run a cable from the mixer to the computer, and send that.", "Keep the people online off that bus."],
    source: "common practice, no source", symptoms: ["hall sound online", "clear in the room, hollow online"], limit: "a wire from the mixer to the call",
  },
  cases: (scene) => {
    const { graph, setup } = scene;
    if (graph.joins.every((j) => j.sound.length === 0)) return [];
    const local = amplified(scene);
    if (local.length === 0) return [];
    const mics = micsOf(graph);
    return [{
      key: `${local.map((l) => l.part.id).join(",")} to ${mics.map((m) => `${m.ending.part.id}${m.path.flatMap((e) => e.gap?.cause ?? []).join("!")}`).join(",")}`, ways: ["online-hears-room"],
      measure: (trial) => {
        const live = mics.filter((m) => carries(m.path, trial));
        if (live.length === 0) return undefined;
        const direct = live.some((m) => local.includes(m.ending));
        const through = live[0]?.ending.part.id ?? "";
        return {
          severity: direct ? undefined : "warning", badness: direct ? -1 : 1,
          cause: { key: "no-direct-send", subjects: local.map((l) => l.device.name), where: graph.joins.find((j) => j.sound.length > 0)?.join.where ?? setup.titleWhere },
          say: () => ({
            because: `what goes to the loudspeakers of the room reaches the call only through the air, at ${through}`, effect: "the people online hear the hall along with every word",
            summary: direct ? "the mixer is sent to the call" : "the mixer is not sent to the call", chain: [],
          }),
        };
      },
      remedies: () => sendMixer(scene, local),
    } satisfies Case];
  },
};

/** Microphones that wires lead to loudspeakers of the room by way of a mixer. */
function amplified({ graph }: Scene): Ending[] {
  const wires = wiresOf(graph);
  const all = [...graph.endings.values()];
  const speakers = all.filter((e) => e.part.type === "loudspeaker");
  return all.filter((e) => e.part.type === "microphone" && speakers.some((s) => {
    const path = wires(node("microphone", e.part.id)).get(node("loudspeaker", s.part.id));
    return path !== undefined && path.every((edge) => edge.gap === undefined) && path.some((edge) => mixerOf(graph, edge) !== undefined);
  }));
}

/** Sends the sound of a mixer that is wired to a joined computer. */
function sendMixer({ graph, setup, item }: Scene, local: readonly Ending[]): Remedy[] {
  const wires = wiresOf(graph);
  return graph.joins.filter((state) => state.sound.length > 0).flatMap((state) => [...setup.mixers.values()].flatMap((mixer): Remedy[] => {
    const reaches = local.some((mic) => state.device.ports.some((port) => wires(node("microphone", mic.part.id)).get(node("port-in", port.id))?.some((edge) => mixerOf(graph, edge) === canonical(mixer.device))));
    return reaches ? [{ title: `Send the sound of ${mixer.device} from ${state.join.device}`, edits: replaceIn(setup, state, "sends", "sound", item, `sends sound from ${mixer.device}`) }] : [];
  }));
}
