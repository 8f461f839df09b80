import { canonical } from "../model/names";
import { figure, withUnit } from "../model/show";
import { pixelsAcrossFace, project } from "../physics/framing";
import { HEIGHTS } from "../model/position";
import { namesOf } from "../model/voices";
import { triple } from "../signal/stands";
import { cameraOf, liveShots, shotKey, shotsOf } from "../signal/pictures/shots";
import { PIXELS_OF_LETTER } from "../signal/pictures/showing";
import { modeWords } from "../signal/streams";
import { moreLines, zoomIn } from "./camera-remedies";
import type { Case, Check } from "./check";

export const boardUnreadable: Check = {
  silentInOrder: true,
  entry: {
    code: "board-unreadable", title: "What is written on the board cannot be read online", severity: "warning", group: "The people online see the room",
    notice: "The people online ask what it says there.",
    why: "A letter needs about ten pixels of height to be told from another, and coding takes away more.",
    todo: ["A close-up of the board, or a camera over a sheet of paper.", "Larger letters, thick pens.", "Write in a shared document in place of the board."],
    source: "common practice, no source", symptoms: ["cannot read the board", "flip chart too small"], limit: `${PIXELS_OF_LETTER} pixels over a capital letter`,
  },
  cases: (scene) => {
    const { graph, setup } = scene;
    const shots = shotsOf(graph);
    return setup.shallShow(graph.item).flatMap(({ text }): Case[] => {
      const board = setup.room.surfaces.get(canonical(text));
      const letters = board?.letters;
      if (board === undefined || letters === undefined || shots.length === 0) return [];
      return [{
        key: `${board.name} ${shotKey(shots)} ${namesOf(graph.voices)}`, ways: ["online-sees-room"],
        measure: (trial) => {
          const spot = setup.floor.spot(board.name, trial);
          if (spot === undefined) return undefined;
          const at = triple({ ...spot, z: Math.max(spot.z, HEIGHTS.wall) });
          const views = liveShots(shots, trial).flatMap((shot) => {
            const camera = cameraOf(setup, trial, shot.ending, graph.voices);
            const seen = project(camera, at);
            return seen.inside ? [{ shot, depth: seen.depth, pixels: pixelsAcrossFace(shot.sent?.height ?? 720, camera.vertical, seen.depth, trial.value(letters)) }] : [];
          }).sort((a, b) => b.pixels - a.pixels);
          const best = views[0];
          if (best === undefined) return undefined;
          return {
            severity: best.pixels < PIXELS_OF_LETTER ? "warning" : undefined, badness: PIXELS_OF_LETTER - best.pixels, measured: { value: best.pixels, unit: "pixels" }, limit: { value: PIXELS_OF_LETTER, unit: "pixels" },
            cause: { key: `board ${canonical(board.name)}`, subjects: [board.name], where: board.where },
            say: () => {
              const is = `letters of ${withUnit(trial.value(letters) * 100, "cm")} on ${board.name}, ${withUnit(best.depth, "m")} before ${best.shot.ending.part.id}, are ${figure(best.pixels)} pixels high${best.shot.sent === undefined ? "" : ` at ${modeWords(best.shot.sent)}`}`;
              return { because: `${is}, and ${PIXELS_OF_LETTER} are needed`, effect: "online nobody reads them", summary: is, chain: [] };
            },
          };
        },
        remedies: ({ measured }) => [...zoomIn(scene, measured === undefined ? 1 : PIXELS_OF_LETTER / measured.value), ...moreLines(scene)],
      }];
    });
  },
};
