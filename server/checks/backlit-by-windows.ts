/** A window behind whoever speaks, seen from the camera that has them: part of `backlit`. */
import { canonical } from "../model/names";
import { lightOn } from "../model/lights";
import { figure, withUnit } from "../model/show";
import { namesOf } from "../model/voices";
import { between } from "../physics/geometry";
import { SKIN } from "../physics/light";
import { luminanceOf } from "../physics/projection";
import { BACKLIT, headBefore } from "../signal/pictures/behind";
import { lightKey, lightOnFace } from "../signal/pictures/daylight";
import { cameraOf, liveShots, seenBy, shotKey, shotsOf } from "../signal/pictures/shots";
import { panesOf } from "../signal/pictures/windows";
import { triple } from "../signal/stands";
import { turn } from "./camera-remedies";
import type { Case, Scene } from "./check";
import { drawCurtain } from "./light-remedies";

export function backlitByWindows(scene: Scene): Case[] {
  const { graph, setup, item } = scene;
  const shots = shotsOf(graph);
  if (shots.length === 0 || !setup.room.openings.some((one) => one.kind === "window")) return [];
  return graph.voices.filter((v) => v.seats === undefined).map((voice): Case => ({
    key: `window ${voice.name} ${lightKey(setup, item)} ${shotKey(shots)} ${namesOf(graph.voices)}`, ways: ["online-sees-room"], asks: true, together: true,
    measure: (trial) => {
      const mouth = voice.position.at(trial);
      const panes = panesOf(setup, trial, item);
      const views = liveShots(shots, trial).map((shot) => ({ shot, camera: cameraOf(setup, trial, shot.ending, graph.voices) })).filter(({ camera }) => seenBy(camera, mouth).face);
      if (views.length === 0 || panes.length === 0) return undefined;
      // The worst window for each camera; one camera that has none behind the head is enough.
      const best = views.map(({ shot, camera }) => {
        const behind = panes.filter((pane) => headBefore(camera.position, pane.rectangle, mouth) > 0.5).reduce<(typeof panes)[number] | undefined>((a, b) => (a === undefined || b.luminance > a.luminance ? b : a), undefined);
        const face = behind === undefined ? 1 : luminanceOf(lightOnFace(setup, trial, item, triple(mouth), between(triple(mouth), camera.position)), SKIN);
        return { shot, behind, face, ratio: behind === undefined ? 0 : behind.luminance / Math.max(0.01, face) };
      }).reduce((a, b) => (b.ratio < a.ratio ? b : a));
      const { behind, face, ratio, shot } = best;
      const bad = behind !== undefined && ratio > BACKLIT;
      const name = behind?.opening.name ?? "";
      // What is stated of the light on faces leaves the window alone to be guessed.
      return {
        severity: bad ? (lightOn(setup.room, "faces", item) === undefined ? "hint" : "warning") : undefined, badness: ratio - BACKLIT, measured: { value: ratio, unit: ":1" }, limit: { value: BACKLIT, unit: ":1" },
        cause: { key: `backlit ${canonical(name)}`, subjects: [voice.name, name].filter((n) => n !== ""), where: shot.ending.device.placed?.where ?? setup.titleWhere },
        say: () => ({
          because: behind === undefined ? `no window is behind ${voice.name}` : `seen from ${shot.ending.part.id}, ${name} is behind the head of ${voice.name}: by daylight ${withUnit(behind.luminance, "cd/m²")} behind a face of ${withUnit(face, "cd/m²")}, ${figure(ratio)} to one`,
          effect: `${voice.name} is a dark shape online`, summary: bad ? `${name} is behind ${voice.name}` : `nothing bright is behind ${voice.name}`, chain: [],
        }),
      };
    },
    remedies: (outcome) => [...drawCurtain(scene, outcome.cause.subjects[1] ?? ""), ...turn(scene, voice.name)],
  }));
}
