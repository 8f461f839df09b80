/** The way of each joined device to the internet, hop by hop, and how voices are rated on it. */
import { voicePoor } from "../checks/voice-poor";
import type { Scene } from "../checks/check";
import type { Figure } from "../finding";
import { canonical } from "../model/names";
import type { Trial } from "../model/trial";
import { opinionScore } from "../physics/voiceRating";
import { isMobile, wayOut } from "../signal/network";
import { given, input, round } from "./record";

/** Ratings of voices both ways, and the hops of each way out. */
export function voiceFigures(scene: Scene, trial: Trial): Figure[] {
  const { setup, graph } = scene;
  const ratings = voicePoor.cases(scene).flatMap((one): Figure[] => {
    const outcome = one.measure(trial);
    if (outcome?.measured === undefined) return [];
    const rating = outcome.measured.value;
    const of = [one.ways[0] === "online-hears-room" ? "to the people online" : "from the people online", ...outcome.cause.subjects];
    return [
      { name: "rating of voices", of, value: round(rating), unit: "R", formula: "Ro − Is − Idd − Ie,eff", inputs: [], source: "ITU-T G.107 (06/2015, as transcribed), echo left out" },
      { name: "opinion of voices", of, value: round(opinionScore(rating)), unit: "MOS", formula: "1 + 0.035·R + 7·10⁻⁶·R·(R − 60)·(100 − R)", inputs: [given("rating", rating, "R")], source: "ITU-T G.107 Annex B" },
    ];
  });
  const hops = graph.joins.flatMap((state): Figure[] => {
    const over = setup.internets.find((one) => canonical(one.name) === canonical(state.join.over ?? "")) ?? setup.internets[0];
    const way = wayOut(setup, state.join.device, over);
    if (way.length === 0) return [];
    const last = over !== undefined && isMobile(setup, over) ? ["then the mobile network"] : [];
    return [{
      name: "way to the internet", of: [state.join.device, ...way.map((hop) => `${hop.kind} to ${hop.to}`), ...last], value: way.length, unit: "hops", formula: "the best of the ways stated: cable before mains wires before radio",
      inputs: way.flatMap(({ facts }) => [
        ...(facts.rate === undefined ? [] : [input(facts.rate, trial, "Mb/s", 1e-6)]), ...(facts.delay === undefined ? [] : [input(facts.delay, trial, "ms", 1000)]), ...(facts.loss === undefined ? [] : [input(facts.loss, trial, "%", 100)]),
      ]), source: "the text",
    }];
  });
  return [...ratings, ...hops];
}
