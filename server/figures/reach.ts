/** How well each side hears and sees the other: the very numbers that the four ways across are judged by. */
import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { claims, type Claim } from "../signal/coverage";
import { input, round } from "./record";

/** Of each way that is judged where it is assessed; what seats hear, and what microphones do, has figures of its own. */
const WORKED: Readonly<Partial<Record<Claim["way"], Pick<Figure, "formula" | "source">>>> = {
  "room-sees-online": { formula: "2·arctan(h/2D), h = picture height/(3·⌈√n⌉)", source: "geometry; a face is a third of its tile: common practice, no source" },
  "online-sees-room": { formula: "α/2 − off-axis angle", source: "geometry" },
};

export function reachFigures(scene: Scene, trial: Trial): Figure[] {
  const { graph } = scene;
  return claims(graph).flatMap((claim): Figure[] => {
    const { measured, through, short } = claim.assess(trial);
    const worked = WORKED[claim.way];
    if (measured === undefined || worked === undefined) return [];
    const faces = claim.way === "room-sees-online" ? graph.joins.flatMap((j) => j.shows).find((s) => s.what === "call")?.faces : undefined;
    return [{
      name: measured.what, of: [claim.subject, ...(through === undefined ? [] : [through])], ...(short === undefined ? {} : { at: short.worst }), value: round(measured.value), unit: measured.unit,
      ...worked, inputs: faces === undefined ? [] : [input(faces, trial, "")],
    }];
  });
}
