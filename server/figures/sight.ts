import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { node } from "../signal/edges";
import { ONLINE } from "../signal/graph";
import { pictureHeight, viewOf } from "../signal/sight";
import { input, round } from "./record";

/** Heights of pictures and angles of view. */
export function sightFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const out: Figure[] = [];
  const forth = graph.ways("picture", ONLINE, "forth");
  const back = graph.ways("picture", ONLINE, "back");
  for (const { device, part } of graph.endings.values()) {
    const path = part.type === "display" ? forth.get(node("display", part.id)) : part.type === "camera" ? back.get(node("camera", part.id)) : undefined;
    if (path === undefined || path.length === 0) continue;
    if (part.type === "display") {
      out.push({ name: "height of the picture", of: [part.id], value: round(pictureHeight(setup, device, part, trial)), unit: "m", formula: "16:9", inputs: part.diagonal === undefined ? [] : [input(part.diagonal, trial, "m")], source: "geometry" });
    } else out.push({ name: "angle of view, from side to side", of: [part.id], value: round(viewOf(part, trial)), unit: "°", formula: "α = 2·arctan(d/2f)", inputs: part.view === undefined ? [] : [input(part.view, trial, "°")], source: "geometry" });
  }
  return out;
}
