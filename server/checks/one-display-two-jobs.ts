import { canonical } from "../model/names";
import { rewrite } from "../model/edits";
import { isLit, showings, showingKey } from "../signal/pictures/showing";
import { fileOf, type Case, type Check, type Remedy } from "./check";
import { statementOf } from "./show-remedies";

export const oneDisplayTwoJobs: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "one-display-two-jobs", title: "Slides and faces share one display", severity: "hint", group: "The room sees the people online",
    notice: "Either the slides shrink to make room for faces, or nobody online is seen while slides are up.",
    why: "A call shows what is presented large and everybody online in a strip of thumbnails, or the other way round.",
    todo: ["A second display for the faces.", "Or take turns: faces for the questions, slides for the talk."],
    source: "common practice, no source", symptoms: ["faces disappear behind slides", "slides too small beside faces"], limit: "one of the two on a display at a time",
  },
  cases: (scene) => {
    const all = showings(scene.graph);
    return all.filter((s) => s.shown.what === "call" && !s.shown.assumed).flatMap((call): Case[] => {
      const other = all.find((s) => s.shown.what !== "call" && s.ending.part === call.ending.part);
      if (other === undefined) return [];
      const { part } = call.ending;
      return [{
        key: showingKey([call, other]), ways: ["room-sees-online"],
        measure: (trial) => (!isLit(call, trial) ? undefined : {
          severity: "hint", badness: 1, cause: { key: `two jobs ${canonical(part.id)}`, subjects: [part.id], where: other.shown.where },
          say: () => ({ because: `${part.id} shows the call and ${other.shown.what === "slides" ? "the slides" : "a film"} at once`, effect: "one of them is small, or hidden", summary: `${part.id} has two jobs`, chain: [] }),
        }),
        remedies: (): Remedy[] => {
          const statement = statementOf(call);
          const file = statement && fileOf(scene.setup, statement.where.path);
          if (statement === undefined || file === undefined) return [];
          const free = [...scene.graph.endings.values()].filter((e) => e.part.type === "display" && e.part !== part && !all.some((s) => s.ending.part === e.part && s.shown.what !== "call"));
          return free.filter((e) => e.device === call.join.device || all.some((s) => s.ending.device === e.device)).slice(0, 3)
            .map((e) => ({ title: `Show the call on ${e.part.id} instead`, edits: [rewrite(statement, `shows call on ${e.part.id}${statement.tails.during.length === 0 ? "" : ` during ${statement.tails.during.map((n) => n.text).join(" and ")}`}`)] }));
        },
      }];
    });
  },
};
