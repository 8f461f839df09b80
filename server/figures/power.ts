import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { lasts, timeNeeded } from "../signal/endurance";
import { input, round } from "./record";

/** How long batteries last, and how long they have to. */
export function powerFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const needed = timeNeeded(setup);
  return [...graph.feeds.values()].flatMap((feed): Figure[] => {
    const { device } = feed;
    if (feed.by !== "battery" || device.placed === undefined) return [];
    const life = lasts(setup, device, feed, graph.feeds, trial);
    if (life === undefined || !Number.isFinite(life)) return [];
    const { battery, draws, life: stated } = device.power;
    return [{
      name: "battery life", of: [device.name], value: round(life / 3600), unit: "h", formula: stated === undefined ? "E·η/P" : "as stated",
      inputs: [...(stated === undefined ? [] : [input(stated, trial, "h", 1 / 3600)]), ...(battery === undefined || stated !== undefined ? [] : [input(battery, trial, "Wh", 1 / 3600)]), ...(draws === undefined || stated !== undefined ? [] : [input(draws, trial, "W")])],
      source: "arithmetic; ageing 0.8: common practice, no source",
    }, ...(needed === undefined ? [] : [{
      name: "battery life needed", of: [device.name], value: round((needed.seconds + trial.value(setup.reserve)) / 3600), unit: "h", formula: "access to end + reserve",
      inputs: [input(setup.reserve, trial, "h", 1 / 3600)], source: "common practice, no source",
    }])];
  });
}
