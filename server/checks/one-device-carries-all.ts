import { canonical } from "../model/names";
import { list } from "../model/show";
import { Trial } from "../model/trial";
import { WAY_TITLES, type WayName } from "../model/ways";
import { claims } from "../signal/coverage";
import { deviceOfNode } from "../signal/edges";
import { carries } from "../signal/graph";
import type { Case, Check, Scene } from "./check";

export const oneDeviceCarriesAll: Check = {
  bearing: "beside",
  entry: {
    code: "one-device-carries-all", title: "One device carries everything", severity: "hint", group: "Each way across",
    notice: "It restarts for an update, and the meeting is over until it is back.",
    why: "Two or more ways across go through one device only, and the text names nothing that steps in.",
    todo: ["Name what steps in: fallback spare for laptop.", "Have one more device ready that can join, charged, with its sound off.", "If the risk is taken: accept it with the reason."],
    source: "common practice, no source",
    symptoms: ["everything gone", "computer crashed", "update", "restart"],
    limit: "no device whose loss takes two or more ways with it",
  },
  cases: (scene) => {
    const lost = worstLoss(scene);
    if (lost === undefined) return [];
    const { device, ways } = lost;
    return [{
      key: `${device} ${ways.join(",")}`, ways: [...ways],
      measure: () => {
        const stepsIn = scene.setup.fallbacks.find((f) => canonical(f.for) === canonical(device));
        const where = scene.graph.joins.find((j) => canonical(j.join.device) === canonical(device))?.join.where
          ?? scene.setup.devices.get(canonical(device))?.where ?? scene.setup.titleWhere;
        return {
          severity: stepsIn === undefined ? "hint" : undefined, badness: 0, measured: { value: ways.length, unit: "ways" }, limit: { value: 1, unit: "ways" },
          cause: { key: `carries ${canonical(device)}`, subjects: [device], where },
          say: () => ({
            because: `${ways.length} ways go through ${device} alone`, effect: "if it gives way they are gone, and nothing is named that steps in",
            summary: stepsIn === undefined ? `${device} carries ${ways.length} ways alone` : `${stepsIn.device} steps in for ${device}`,
            chain: [list(ways.map((way) => WAY_TITLES[way].toLowerCase()), 4)],
          }),
        };
      },
    } satisfies Case];
  },
};

/** The device whose loss takes most ways with it, if it takes two. */
function worstLoss(scene: Scene): { device: string; ways: readonly WayName[] } | undefined {
  const trial = new Trial();
  const carried = new Map<string, Set<WayName>>();
  for (const claim of claims(scene.graph)) {
    const live = claim.routes.filter((route) => carries(route, trial));
    if (live.length === 0) continue;
    // Devices that every live route of this claim goes through.
    const sets = live.map((route) => new Set(route.flatMap((e) => [e.from, e.to]).map((id) => deviceOfNode(id, scene.setup.devices, canonical)).filter((d) => scene.setup.devices.has(canonical(d)))));
    const [first, ...rest] = sets;
    for (const device of first ?? []) {
      if (!rest.every((set) => set.has(device))) continue;
      const ways = carried.get(device) ?? new Set<WayName>();
      ways.add(claim.way);
      carried.set(device, ways);
    }
  }
  let best: { device: string; ways: readonly WayName[] } | undefined;
  for (const [device, ways] of carried) {
    const joined = scene.graph.joins.some((j) => canonical(j.join.device) === canonical(device));
    if (ways.size >= 2 && (best === undefined || ways.size > best.ways.length || (ways.size === best.ways.length && joined))) best = { device, ways: [...ways] };
  }
  return best;
}
