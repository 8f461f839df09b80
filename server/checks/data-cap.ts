import { data } from "../model/show";
import { Trial } from "../model/trial";
import { dataOver } from "../signal/load";
import { receivedOver } from "../signal/received";
import { limitOf, type Case, type Check } from "./check";
import { inUse, otherConnection } from "./internet-text";
import { thinRemedies } from "./thin-remedies";
import { streamsOver, total } from "../signal/streams";

export const dataCap: Check = {
  takesLimit: true, silentInOrder: true,
  entry: {
    code: "data-cap", title: "The data allowance does not last", severity: "warning", group: "The internet",
    notice: "From one minute to the next nothing but a trickle gets through.",
    why: "All that is sent and received over the meeting is more than what may pass.",
    todo: ["Buy more beforehand.", "Send smaller pictures, show fewer faces.", "Use the venue's line, and keep this one for when it fails."],
    source: "arithmetic over the programme at target rates", symptoms: ["out of data", "suddenly slow", "mobile allowance"], limit: "what is sent and received over the meeting is no more than the allowance",
  },
  cases: (scene) => inUse(scene).flatMap(({ internet, joins }): Case[] => {
    const { allowance } = internet;
    if (allowance === undefined) return [];
    return [{
      key: internet.name, ways: ["internet"],
      measure: (trial) => {
        const used = dataOver(scene.setup, internet, trial);
        if (used === undefined) return undefined;
        const may = trial.value(allowance) * Math.min(1, limitOf(scene.setup, "data-cap", 1));
        return {
          severity: used > may ? "warning" : undefined, badness: (used - may) / 8e9, measured: { value: used / 8e9, unit: "GB" }, limit: { value: may / 8e9, unit: "GB" },
          cause: { key: `allowance ${internet.name}`, subjects: [internet.name], where: allowance.from.where ?? internet.where },
          say: () => ({
            because: `${data(may)} may pass over ${internet.name}`, effect: `the meeting takes ${data(used)}`,
            summary: `${data(used)} of ${data(may)} over ${internet.name}`, chain: ["both ways, at the rates that are aimed at, from the first item to the end"],
          }),
        };
      },
      remedies: (outcome) => {
        // What comes in stays as it is; what goes out has to make up for all that is too much, with a little to spare.
        const part = (0.98 * (outcome.limit?.value ?? 0)) / Math.max(1e-9, outcome.measured?.value ?? 1);
        const [sent, received] = [total(streamsOver(scene.graph, internet), "target"), total(receivedOver(scene.graph, internet, new Trial()), "target")];
        return [...otherConnection(scene.setup, joins, internet, (other) => other.allowance === undefined), ...thinRemedies(scene, internet, Math.max(0, (sent + received) * part - received))];
      },
    }];
  }),
};
