import { canonical } from "../model/names";
import type { JoinState } from "../signal/call-state";
import { nameOfNode, node } from "../signal/edges";
import type { Graph } from "../signal/graph";
import { inputs } from "../signal/sound-ends";
import { portOwnersOf } from "../signal/wiring";
import type { Case, Check } from "./check";
import { replaceIn } from "./join-text";

export const headsetProfile: Check = {
  silentInOrder: true,
  entry: {
    code: "headset-profile", title: "A wireless unit that speaks and listens at once sounds like a telephone", severity: "warning", group: "The room hears the people online",
    notice: "As soon as its microphone is used, everything that it plays turns dull and thin, and so does what it sends.",
    why: "The common radio profile for music goes one way only. As soon as a unit's own microphone is used too, both ways change to the telephone's profile: one channel, speech up to 4 or 8 kHz.",
    todo: ["Take the sound from another microphone, and let the unit play alone.", "Connect the unit by cable.", "Or play on something else."],
    source: "published driver documentation of the profiles (A2DP, HFP); newer radio profiles may do better",
    symptoms: ["dull", "like a telephone", "thin sound", "sound changed when the call began"], limit: "microphone and loudspeaker of one wireless unit not both in use",
  },
  cases: ({ graph, setup, item }) => graph.joins.flatMap((state): Case[] => bothWays(graph, state).map((unit): Case => {
    const radio = setup.links.find((link) => link.how === "radio" && [link.from, link.to].some((end) => canonical(end).split(".")[0] === canonical(unit)));
    return {
      key: `${canonical(state.join.device)} ${canonical(unit)}`, ways: ["room-hears-online", "online-hears-room"],
      measure: () => ({
        severity: "warning", badness: 1,
        cause: { key: `both ways ${canonical(unit)}`, subjects: [unit], where: radio?.where ?? state.join.where },
        say: () => ({
          because: `${unit} plays and listens by radio at once`, effect: "both come through as by telephone: one channel, no highs",
          summary: `${unit} sounds like a telephone`, chain: [],
        }),
      }),
      remedies: () => inputs(graph, state.device).filter((end) => canonical(end.device.name) !== canonical(unit)).map((end) => ({
        title: `Let ${state.join.device} send the sound of ${end.name} instead`, edits: replaceIn(setup, state, "sends", "sound", item, `sends sound from ${end.name}`),
      })),
    };
  })),
};

/** Units that a join both plays on and hears from, over radio. */
function bothWays(graph: Graph, { join }: JoinState): string[] {
  const owners = portOwnersOf(graph.setup);
  const bluetooth = (id: string): boolean => owners.get(canonical(nameOfNode(id)))?.ports.some((port) => canonical(port.id) === canonical(nameOfNode(id)) && port.connector === "bluetooth") === true;
  const units = (end: string, sense: "forth" | "back", type: "loudspeaker" | "microphone"): Set<string> => {
    const out = new Set<string>();
    const ways = graph.ways("sound", end, sense);
    for (const { device, part } of graph.endings.values()) {
      if (part.type !== type && !(type === "loudspeaker" && part.type === "earphones")) continue;
      const path = ways.get(node(part.type, part.id));
      if (path?.some((edge) => edge.via === "radio" && bluetooth(edge.from)) === true && !path.some((edge) => edge.via === "call")) out.add(device.name);
    }
    return out;
  };
  const plays = units(node("out", join.device), "forth", "loudspeaker");
  return [...units(node("in", join.device), "back", "microphone")].filter((name) => plays.has(name));
}
