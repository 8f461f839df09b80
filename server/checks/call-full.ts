import { figure } from "../model/show";
import type { Check } from "./check";
import { inTheCall } from "./people";

export const callFull: Check = {
  silentInOrder: true,
  entry: {
    code: "call-full", title: "The call does not hold everybody", severity: "error", group: "The call",
    notice: "Somebody rings: I cannot get in, it says that the meeting is full.",
    why: "The people online and the devices in the room are more than the service lets into one call.",
    todo: ["Ask who has an account that holds more.", "Let people who sit together join as one.", "Join with one device in the room instead of several."],
    source: "the capacity is the text's, or what most services hold (common practice, no source); arithmetic", symptoms: ["cannot get in", "meeting is full", "somebody could not join"],
    limit: "people online and devices of the room, up to what the call holds",
  },
  cases: ({ setup }) => (setup.joins.length === 0 ? [] : [{
    key: "capacity", ways: ["call"],
    measure: (trial) => {
      const count = inTheCall(setup, trial);
      const most = trial.value(setup.service.capacity);
      return {
        severity: count > most ? "error" : undefined, badness: count - most, measured: { value: count, unit: "in the call" }, limit: { value: most, unit: "in the call" },
        cause: { key: "capacity", subjects: [], where: setup.service.capacity.from.where ?? setup.online.from.where ?? setup.titleWhere },
        say: () => ({
          because: `${figure(count)} want to be in a call that holds ${figure(most)}`, effect: `${figure(count - most)} do not get in`,
          summary: count > most ? `the call holds ${figure(most)} of ${figure(count)}` : `${figure(count)} in a call that holds ${figure(most)}`,
          chain: [`${figure(trial.value(setup.online))} people online`, `${setup.joins.length + setup.remoteRooms.length} devices that join from rooms`],
        }),
      };
    },
  }]),
};
