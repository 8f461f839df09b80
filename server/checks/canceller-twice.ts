import { rewrite } from "../model/edits";
import { ownLoops, unitInSeries } from "../signal/loops/cancelled";
import type { Case, Check } from "./check";

export const cancellerTwice: Check = {
  entry: {
    code: "canceller-twice", title: "Two echo cancellers in series", severity: "hint", group: "Echo and howl",
    notice: "Voices pump and lose syllables when both sides speak at once.",
    why: "A canceller learns how the loudspeaker comes back through the microphone. Behind another canceller that comes back differently every moment, and what the first one leaves the second one mangles.",
    todo: ["Switch one of the two off: where a unit has its own, that of the call program."],
    source: "common practice, no source",
    symptoms: ["choppy voices", "syllables missing", "both speak and one is cut off"],
    limit: "one canceller on a path; only where both are there by choice",
  },
  cases: (scene) => ownLoops(scene.graph).flatMap((loop): Case[] => {
    const unit = unitInSeries(loop);
    const stated = loop.state.join.statements.find((s) => s.row.head === "cancels" && !s.negated);
    if (unit === undefined || stated === undefined || loop.state.cancels.best < 0.5) return [];
    const { device } = loop.state.join;
    return [{
      key: `${device} ${unit.name} ${loop.state.cancels.best}`, ways: ["call"],
      measure: () => ({
        severity: "hint", badness: 0, cause: { key: `twice ${device}`, subjects: [unit.name, device], where: stated.where },
        say: () => ({
          because: `${unit.name} cancels what it plays, and ${device} cancels the same once more`, effect: "voices may pump when both sides speak at once",
          summary: `the echo of ${unit.name} is cancelled twice`, chain: [`${unit.name} has a canceller of its own and both plays and listens`, `${device} says that it cancels echo, too`],
        }),
      }),
      remedies: () => [{ title: `Switch the canceller of ${device} off`, edits: [rewrite(stated, "cancels no echo")] }],
    }];
  }),
};
