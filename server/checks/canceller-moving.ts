import type { Bound } from "../model/bound";
import { insertInto, rewrite } from "../model/edits";
import { list } from "../model/show";
import { movingGains, ownLoops, type Moving } from "../signal/loops/cancelled";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

export const cancellerMoving: Check = {
  entry: {
    code: "canceller-moving", title: "A gain moves inside the canceller's loop", severity: "hint", group: "Echo and howl",
    notice: "Echo comes back for a second or two each time somebody begins to speak after a pause.",
    why: "A canceller learns how loud the loudspeaker comes back. A microphone, an interface or a channel that turns itself up in a pause changes that, and the canceller has to learn anew.",
    todo: ["Fix the gain of the microphone, the interface or the channel, and leave levels to the call program."],
    source: "common practice, no source",
    symptoms: ["echo that comes and goes", "echo after a pause", "level breathes"],
    limit: "no gain that changes by itself between microphone and canceller",
  },
  cases: (scene) => ownLoops(scene.graph).flatMap((loop): Case[] => {
    const moving = movingGains(scene.graph, loop);
    const [first] = moving;
    if (first === undefined || loop.state.cancels.high < 0.5) return [];
    const { device } = loop.state.join;
    const names = moving.map((one) => one.name);
    return [{
      key: `${device} ${names.join(",")} ${loop.state.cancels.best}`, ways: ["call"],
      measure: (trial) => (!trial.holds(loop.state.cancels) ? undefined : {
        severity: "hint", badness: 0, cause: { key: `moving ${device}`, subjects: [...names, device], where: whereOf(first) ?? loop.state.join.where },
        say: () => ({
          because: `${list(names)} ${names.length === 1 ? "turns itself" : "turn themselves"} up and down inside the loop that ${device} cancels`, effect: "its canceller has to learn anew after each pause",
          summary: `a gain moves inside what ${device} cancels`, chain: [],
        }),
      }),
      remedies: () => moving.flatMap((one) => fixed(scene, one)),
    }];
  }),
};

/** What is said of the gain where the setup places or describes it. */
const statementOf = ({ device, channel }: Moving): { readonly owner: Bound; readonly said: Bound | undefined } | undefined => {
  const owner = channel?.statement ?? device?.placed;
  return owner === undefined ? undefined : { owner, said: owner.children.find((s) => s.row.head === "gain") };
};
const whereOf = (one: Moving) => statementOf(one)?.said?.where ?? statementOf(one)?.owner.where;

function fixed(scene: Scene, one: Moving): Remedy[] {
  const at = statementOf(one);
  const file = at && fileOf(scene.setup, at.owner.where.path);
  if (at === undefined || file === undefined) return [];
  return [{ title: `Fix the gain of ${one.name}`, edits: [at.said === undefined ? insertInto(file, at.owner, ["gain fixed"]) : rewrite(at.said, "gain fixed")] }];
}
