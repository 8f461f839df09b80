import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import type { Trial } from "../model/trial";
import { lasts, timeNeeded } from "../signal/endurance";
import { bottlenecks, loadOn, voltageOf } from "../signal/circuits";
import { ratedPower } from "../physics/mains";
import { given, input, round } from "./record";

/** How long batteries last and have to, and what hangs on the mains. */
export const powerFigures = (scene: Scene, trial: Trial): Figure[] => [...batteryFigures(scene, trial), ...loadFigures(scene, trial)];

/** What hangs on each outlet, lead and circuit, and what may. */
function loadFigures({ setup }: Scene, trial: Trial): Figure[] {
  return bottlenecks(setup).flatMap((neck): Figure[] => {
    const of = [neck.name];
    const inputs = [...neck.devices.flatMap(({ power: { draws } }) => (draws === undefined ? [] : [input(draws, trial, "W")])), ...(neck.besides === undefined ? [] : [input(neck.besides, trial, "W")])];
    const load: Figure = { name: "load on the mains", of, value: round(loadOn(neck, trial)), unit: "W", formula: "ΣP", inputs, source: "arithmetic" };
    if (neck.rated === undefined) return [load];
    const volts = voltageOf(setup, trial);
    return [load, { name: "what it may carry", of, value: round(ratedPower(trial.value(neck.rated), volts)), unit: "W", formula: "P = I·U", inputs: [input(neck.rated, trial, "A"), given("the voltage of the mains", volts, "V")], source: "arithmetic; the venue, the local code and licensed people decide" }];
  });
}

function batteryFigures(scene: Scene, trial: Trial): Figure[] {
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
