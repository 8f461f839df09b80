import type { Case, Check } from "./check";
import { inUse, otherConnection } from "./internet-text";

export const sharedLink: Check = {
  bearing: "beside",
  entry: {
    code: "shared-link", title: "Guests use the same network at the same time", severity: "warning", group: "The internet",
    notice: "It goes well until the break, when everybody takes out a telephone.",
    why: "What others send and receive comes off what the call can have, and nobody can say how much that will be.",
    todo: ["Ask the venue for a network of its own, or for a rule that puts the call first.", "Ask people to leave that network during the meeting.", "A mobile router for the call."],
    source: "common practice, no source", symptoms: ["slow in the break", "others use the network", "everybody on the wireless"], limit: "none on the network of the call",
  },
  cases: (scene) => inUse(scene).map(({ internet, joins }): Case => ({
    key: internet.name, ways: ["internet"],
    measure: () => ({
      severity: internet.shared === undefined ? undefined : "warning", badness: internet.shared === undefined ? -1 : 1,
      cause: { key: `shared ${internet.name}`, subjects: [internet.name], where: internet.shared ?? internet.where },
      say: () => ({
        because: `others use ${internet.name} at the same time`, effect: "what they take comes off the call, and only half of what was measured is counted on",
        summary: internet.shared === undefined ? `${internet.name} is the call's alone` : `others use ${internet.name}, too`, chain: [],
      }),
    }),
    remedies: () => otherConnection(scene.setup, joins, internet, (other) => other.shared === undefined),
  })),
};
