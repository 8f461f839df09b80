import { valuesOf } from "../model/bound";
import { holding } from "../model/during";
import { insertInto, rewrite } from "../model/edits";
import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import type { Watch } from "../model/setup";
import { deviceNamed, fileOf, type Case, type Check, type Remedy, type Scene } from "./check";
import { concerns, opinion } from "./observes";

export const streamAudible: Check = {
  entry: {
    code: "stream-audible", title: "The public stream is played in the room", severity: "error", group: "Echo and howl",
    notice: "Everything that is said comes again from some device in the room, many seconds later, and goes out a second time.",
    why: "A stream runs ten seconds and more behind the meeting. Played aloud in the room, the room hears it, and so does every microphone that is open: no canceller knows of it.",
    todo: ["Watch the stream without sound.", "Watch it with earphones."],
    source: "common practice, no source",
    symptoms: ["everything again half a minute later", "stream echo", "voices from a telephone in the audience"],
    limit: "none that is audible",
  },
  cases: (scene) => scene.setup.watches.flatMap((watch): Case[] => {
    const on = loudspeakerOf(scene, watch);
    if (on === undefined) return [];
    const said = holding(watch.statements, "plays", scene.item).length > 0;
    const sound = unsaid(`${watch.device}.stream-sound`, `whether ${watch.device} plays the sound of the stream`, true, "what a device does by itself; common practice, no source", `Is the sound of ${watch.device} off while the stream is watched on it?`);
    return [{
      key: `${watch.device} ${on} ${said}`, ways: ["call"],
      measure: (trial) => (!said && !trial.holds(sound) ? undefined : {
        severity: "error", badness: 0, cause: { key: `stream ${canonical(watch.device)}`, subjects: [watch.device], where: watch.where },
        say: () => ({
          because: `${watch.device} plays the public stream on ${on}`, effect: "the room hears everything again many seconds later, and sends it out once more",
          summary: `${watch.device} plays the public stream aloud`, chain: ["a stream runs many seconds behind the meeting", "no canceller holds what comes from it"],
        }),
      }),
      remedies: () => remedies(scene, watch),
      observed: (seen) => (concerns(seen, [watch.device, on]) ? opinion(seen, ["echo"]) : undefined),
    }];
  }),
};

/** The loudspeaker on which a watched stream is heard; nothing where its sound is off, or in earphones. */
function loudspeakerOf(scene: Scene, watch: Watch): string | undefined {
  const { setup } = scene;
  const plays = holding(watch.statements, "plays", scene.item);
  if (plays.some((s) => s.negated)) return undefined;
  const names = plays.flatMap((s) => valuesOf(s, "on", "name")).map((name) => setup.names.find(watch.where.path, name.text)?.name ?? name.text);
  for (const name of names.length === 0 ? [watch.device] : names) {
    const part = scene.graph.endings.get(canonical(name))?.part ?? deviceNamed(setup, name)?.parts.find((p) => p.type === "loudspeaker");
    if (part?.type === "loudspeaker") return part.id;
  }
  return undefined;
}

function remedies(scene: Scene, watch: Watch): Remedy[] {
  const file = fileOf(scene.setup, watch.where.path);
  if (file === undefined) return [];
  const said = holding(watch.statements, "plays", scene.item);
  const [first] = said;
  return [{ title: `Watch the stream on ${watch.device} without sound`, edits: [first === undefined ? insertInto(file, watch.statement, ["plays no sound"]) : rewrite(first, "plays no sound")] }];
}
