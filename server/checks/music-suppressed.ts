import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { holding } from "../model/during";
import { insertInto, rewrite } from "../model/edits";
import { list } from "../model/show";
import type { JoinState } from "../signal/call-state";
import { fileOf, type Case, type Check, type Remedy, type Scene } from "./check";

export const musicSuppressed: Check = {
  silentInOrder: true,
  entry: {
    code: "music-suppressed", title: "Noise suppression takes the music out", severity: "warning", group: "The people online hear the room",
    notice: "Online the singing breaks up, wobbles or vanishes, while speech was fine a minute ago.",
    why: "Noise suppression keeps what resembles one person's speech and takes out the rest: held notes, instruments and many voices at once are the rest.",
    todo: ["Switch it off for that item: suppresses no noise during hymn.", "Send the sound of a clip by itself: sends clip.", "Switch it on again for the talk."],
    source: "common practice, no source", symptoms: ["music breaks up", "singing vanishes", "choir wobbles", "piano cuts out"], limit: "suppression off while there is music",
  },
  cases: (scene) => {
    const music = musicIn(scene);
    if (music.length === 0) return [];
    return scene.graph.joins.filter((state) => state.sound.length > 0).map((state): Case => ({
      key: `${canonical(state.join.device)} ${music.join(",")} ${scene.item ?? ""}`, ways: ["online-hears-room"],
      measure: (trial) => {
        const [stated] = holding(state.join.statements, "suppresses", scene.item);
        const on = stated === undefined
          ? scene.setup.service.suppresses ?? trial.holds(unsaid(`${canonical(state.join.device)}.suppresses`, `whether noise suppression is on at ${state.join.device}`, true, "what call programs do by default; common practice, no source", `Is noise suppression on at ${state.join.device}?`))
          : !stated.negated;
        const device = state.join.device;
        return {
          severity: on ? "warning" : undefined, badness: on ? 1 : -1,
          cause: { key: `suppresses ${canonical(device)}`, subjects: [device], where: stated?.where ?? state.join.where },
          say: () => ({
            because: `${device} takes out what is no speech`, effect: `the people online lose ${list(music)}`,
            summary: on ? `noise suppression at ${device} takes ${list(music)} out` : `${device} leaves ${list(music)} as it is`, chain: [],
          }),
        };
      },
      remedies: () => off(scene, state),
    }));
  },
};

/** What makes music in an item: talkers that sing or play. */
const musicIn = ({ graph }: Scene): string[] => graph.voices.filter((voice) => voice.music).map((voice) => voice.name);

function off(scene: Scene, state: JoinState): Remedy[] {
  const file = fileOf(scene.setup, state.join.where.path);
  if (file === undefined) return [];
  const during = scene.item === undefined ? "" : ` during ${scene.item}`;
  const title = `Switch noise suppression off at ${state.join.device}${during}`;
  const own = holding(state.join.statements, "suppresses", scene.item).find((s) => s.tails.during.length > 0 || scene.item === undefined);
  return [{ title, edits: [own === undefined ? insertInto(file, state.join.bound, [`suppresses no noise${during}`]) : rewrite(own, `suppresses no noise${during}`)] }];
}
