import type { Check } from "./check";

export const nobodyListens: Check = {
  entry: {
    code: "nobody-listens", title: "Nobody listens to what the people online hear", severity: "plan", group: "The people online hear the room",
    notice: "For ten minutes nobody in the room knows that nothing is heard online.",
    why: "What goes into the call cannot be heard in the room. Somebody who hears it, with earphones, notices a silent microphone in a minute; those online often only write it once they have given up.",
    todo: ["Name somebody who listens with earphones on a device of their own, with its sound and microphone off in the room: job listen by NAME."],
    source: "common practice, no source", settle: { what: "who listens with earphones to what the people online hear", who: "the helpers" }, symptoms: ["nobody noticed", "silent for minutes", "they could not hear us"], limit: "one person",
  },
  cases: ({ setup, graph }) => (graph.joins.every((join) => join.sound.length === 0) || setup.jobs.some((job) => job.what === "listen" && job.who === undefined) ? [] : [{
    key: "listens", ways: ["online-hears-room"],
    measure: () => {
      const named = setup.jobs.find((job) => job.what === "listen");
      return {
        severity: named === undefined ? "plan" : undefined, badness: named === undefined ? 1 : -1,
        cause: { key: "listens", subjects: [], where: named?.where ?? setup.titleWhere },
        say: () => ({
          because: named === undefined ? "nobody is named who listens to what the people online hear" : `${named.who ?? ""} listens to what the people online hear`,
          effect: "", summary: named === undefined ? "nobody listens" : `${named.who ?? ""} listens`, chain: [],
        }),
      };
    },
  }]),
};
