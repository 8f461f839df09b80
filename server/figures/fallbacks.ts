/** The best set of streams for every uplink, as records; and how long what steps in lasts. */
import { levelWords, streamName } from "../checks/set-words";
import type { Figure } from "../finding";
import type { Setup } from "../model/setup";
import { Trial } from "../model/trial";
import { fallbackTables } from "./fallback-table";
import { given, round } from "./record";
import { standInsOf } from "./stand-ins";

/** More rows than anybody reads. */
const MOST_ROWS = 60;

/** For each connection, from which measured uplink which set is the best, the largest first; then what each one that steps in can do. */
export function fallbackFigures(setup: Setup): Figure[] {
  const tables = fallbackTables(setup).flatMap((table) => table.best.slice(0, MOST_ROWS).map((set): Figure => ({
    name: "best set from this uplink on", of: [table.internet, ...(set.cost === 0 ? ["nothing: dial in by telephone"] : [...set.levels].map(([ladder, level]) => levelWords(ladder, level)))],
    value: round(set.cost / table.share / 1e6), unit: "Mb/s", formula: "of all sets that fit, the best by order of importance; Σ target rates / usable part",
    inputs: [...set.levels].flatMap(([ladder, level]) => (level === undefined ? [] : [given(streamName(ladder), level.cost / 1e6, "Mb/s")])), source: "multiple-choice knapsack, exact; order of importance: as stated, else common practice",
  })));
  const last = standInsOf(setup, new Trial()).flatMap((one): Figure[] => [
    ...(one.data === undefined ? [] : [{ name: "allowance lasts", of: [one.internet.name, one.insteadOf.name], value: round(one.data / 3600), unit: "h", formula: "allowance / (sent + received)", inputs: [given("sent and received", one.rate / 1e6, "Mb/s")], source: "arithmetic, at what fits" }]),
    ...(one.battery === undefined ? [] : [{ name: "battery of what steps in lasts", of: [one.device ?? "", one.internet.name], value: round(one.battery / 3600), unit: "h", formula: "energy·share / draw, or as stated", inputs: [], source: "arithmetic; share of an aged battery: common practice" }]),
  ]);
  return [...tables, ...last];
}
