import { canonical } from "../model/names";
import { namesOf } from "../model/voices";
import { cameraOf, liveShots, seenBy, shotKey, shotsOf } from "../signal/pictures/shots";
import { modeWords } from "../signal/streams";
import { replaceIn } from "./join-text";
import type { Case, Check, Remedy, Scene } from "./check";

/** Frames a second. Common practice, no source. */
const FRAMES = { signing: 25, lips: 15 } as const;

export const choppy: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "choppy", title: "Too few frames for signing or lip-reading", severity: "hint", group: "The people online see the room",
    notice: "Hands jump from sign to sign; lips and words come apart.",
    why: "Signs and lips move faster than a slow picture shows. Between two frames a sign is over.",
    todo: ["More frames a second, and rather fewer pixels.", "Fewer other pictures, so that this one fits."],
    source: "common practice, no source", symptoms: ["jerky picture", "signing cannot be followed"], limit: `${FRAMES.signing} a second for signing, ${FRAMES.lips} for reading lips`,
  },
  cases: (scene) => {
    const { graph, setup } = scene;
    const shots = shotsOf(graph);
    return shots.length === 0 ? [] : graph.voices.filter((v) => v.seats === undefined && (v.signs || setup.lipReading !== undefined)).map((voice): Case => {
      const limit = voice.signs ? FRAMES.signing : FRAMES.lips;
      return {
        key: `${voice.name} ${shotKey(shots)} ${namesOf(graph.voices)}`, ways: ["online-sees-room"],
        measure: (trial) => {
          const best = liveShots(shots, trial).filter((s) => s.sent !== undefined && seenBy(cameraOf(setup, trial, s.ending, graph.voices), voice.position.at(trial)).face).sort((a, b) => (b.sent?.rate ?? 0) - (a.sent?.rate ?? 0))[0];
          if (best?.sent === undefined) return undefined;
          const { rate } = best.sent;
          const { device, part } = best.ending;
          return {
            severity: rate < limit ? "hint" : undefined, badness: limit - rate, measured: { value: rate, unit: "a second" }, limit: { value: limit, unit: "a second" },
            cause: { key: `frames ${canonical(part.id)}`, subjects: [voice.name, part.id], where: best.sent.where ?? device.where },
            say: () => ({
              because: `${part.id} is sent at ${modeWords(best.sent ?? { width: 0, height: 0, rate })}, ${rate} frames a second, and ${limit} are needed`, effect: voice.signs ? `the signs of ${voice.name} cannot be followed` : `nobody reads the lips of ${voice.name}`,
              summary: `${part.id} is sent with ${rate} frames a second`, chain: [],
            }),
          };
        },
        remedies: () => faster(scene),
      };
    });
  },
};

function faster(scene: Scene): Remedy[] {
  return scene.graph.joins.flatMap((state) => state.pictures.filter((p) => p.rate < FRAMES.signing).map((p): Remedy => ({
    title: `Send the picture of ${p.name} at 30 frames a second`, edits: replaceIn(scene.setup, state, "sends", "picture", scene.item, `sends picture from ${p.name} at ${modeWords({ ...p, rate: 30 })}`),
  })));
}
