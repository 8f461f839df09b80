import { figure } from "../model/show";
import { FAILING_BELOW_ACCEPTABLE } from "../physics/talkerEcho";
import { echoOf, loopKey, worstLoops } from "../signal/echo";
import { fileOf, limitOf, type Case, type Check, type Remedy, type Scene } from "./check";
import type { Loop } from "../signal/echo";
import { insertInto, rewrite } from "../model/edits";
import { namesIn, unitAlone } from "./echo-path";
import { replaceIn } from "./join-text";
import { concerns, opinion } from "./observes";

export const cancellerBlind: Check = {
  takesLimit: true,
  entry: {
    code: "canceller-blind", title: "The echo canceller cannot know what is played", severity: "error", group: "Echo and howl",
    notice: "The people online hear themselves although the unit on the table cancels echo.",
    why: "A unit with a canceller of its own takes out what it plays itself. The sound of the call comes from another loudspeaker, which its canceller has never heard of, and the call program's canceller is switched off.",
    todo: ["Play on the unit itself.", "Switch the canceller of the call program on.", "Use the microphone of the device that plays."],
    source: "model choice on the workings of adaptive cancellers: the estimate is made from the unit's own loudspeaker signal",
    symptoms: ["they hear themselves", "echo despite speakerphone", "canceller does nothing"],
    limit: "as for echo-path",
  },
  cases: (scene) => worstLoops(scene.graph).filter(unitAlone).map((loop): Case => ({
    key: loopKey(loop), ways: ["call"],
    measure: (trial) => {
      const echo = echoOf(scene.graph, loop, trial);
      if (echo === undefined) return undefined;
      const device = loop.sends.join.device;
      const unit = loop.mics.find((m) => m.ending.device.cancels)?.ending.device.name ?? device;
      const other = loop.speakers.find((s) => s.ending.device.name !== unit)?.ending.device.name ?? device;
      const needed = limitOf(scene.setup, "canceller-blind", echo.needed);
      const short = needed - echo.telr;
      const severity = short > FAILING_BELOW_ACCEPTABLE ? "error" : short > 0 ? "warning" : undefined;
      return {
        severity, badness: short, measured: { value: echo.telr, unit: "dB" }, limit: { value: needed, unit: "dB" },
        cause: { key: `blind ${device}`, subjects: [unit, other], where: loop.sends.sound[0]?.where ?? loop.sends.join.where },
        say: () => ({
          because: `${unit} cancels only what it plays itself, and ${other} plays`,
          effect: `the people online hear themselves: ${figure(echo.telr)} dB where ${figure(needed)} dB is needed`,
          summary: severity === undefined ? `${unit} plays what it cancels` : `${unit} cannot cancel what ${other} plays`,
          chain: [`${device} says that it cancels no echo itself`, `${other} plays the call, ${unit} listens`],
        }),
      };
    },
    remedies: () => remedies(scene, loop),
    observed: (seen) => (concerns(seen, namesIn(loop)) ? opinion(seen, ["echo"]) : undefined),
  })),
};

function remedies(scene: Scene, loop: Loop): Remedy[] {
  const { setup, item } = scene;
  const out: Remedy[] = [];
  const off = loop.sends.join.statements.find((s) => s.row.head === "cancels" && s.negated);
  const file = fileOf(setup, loop.sends.join.where.path);
  if (off !== undefined) out.push({ title: `Switch the canceller of ${loop.sends.join.device} on`, edits: [rewrite(off, "cancels echo")] });
  else if (file !== undefined) out.push({ title: `Switch the canceller of ${loop.sends.join.device} on`, edits: [insertInto(file, loop.sends.join.bound, ["cancels echo"])] });
  const unit = loop.mics.find((m) => m.ending.device.cancels)?.ending.device;
  if (unit?.parts.some((p) => p.type === "loudspeaker") === true) {
    out.push({ title: `Play on ${unit.name} itself`, edits: replaceIn(setup, loop.sends, "plays", "sound", item, `plays sound on ${unit.name}`) });
  }
  return out;
}
