/**
 * From what somebody notices to the chain of this very setup, the likeliest first: what the study found, then what there is to go to,
 * then how it stands where the study finds it in order.
 */
import { CHECKS } from "../../checks/catalogue";
import { rank, type Finding } from "../../finding";
import { list, withUnit } from "../../model/show";
import type { Setup } from "../../model/setup";
import { Trial } from "../../model/trial";
import { makeGraph, type Graph } from "../../signal/graph";
import type { Study } from "../../study";
import { SYMPTOMS, type Symptom } from "./families";
import { looksAlong, type Suspect } from "./looks";

export type { Suspect } from "./looks";

/** More than anybody looks along while people wait. */
const MOST_SUSPECTS = 8;
const MOST_FOUND = 3;
const MOST_ITEMS = 6;

const graphsOf = (study: Study): Graph[] => (study.items.length === 0 ? [undefined] : study.items.slice(0, MOST_ITEMS)).map((item) => makeGraph(study.setup, item));

/** Where to look, in whatever item of the programme is on. `first`: the code that the words are nearest to. */
export function suspectsOf(study: Study, symptom: Symptom, first?: string, most = MOST_SUSPECTS): Suspect[] {
  const graphs = graphsOf(study);
  const found = foundOf(study, symptom, first);
  const out = [
    ...found.slice(0, MOST_FOUND).map((finding) => ({ name: list(finding.subjects.length > 0 ? finding.subjects : [symptom.says.toLowerCase()], 2), look: finding.message.replace(/\.$/, "") })),
    ...thingsOf(graphs, symptom),
  ];
  const few = once(out).slice(0, Math.max(1, most - 2));
  // What is in order is only worked out for whoever wants to read it.
  return few.length >= most || most < MOST_SUSPECTS ? few.slice(0, most) : once([...few, ...asItStands(study, graphs, symptom, first, new Set(found.map((one) => one.code)))]).slice(0, most);
}

/** What comes first in any item comes first. */
function thingsOf(graphs: readonly Graph[], symptom: Symptom): Suspect[] {
  const each = graphs.map((graph) => looksAlong(graph, symptom));
  const out: Suspect[] = [];
  for (let i = 0; i < Math.max(0, ...each.map((one) => one.length)); i += 1) for (const one of each) out.push(...one.slice(i, i + 1));
  return out;
}

function once(suspects: readonly Suspect[]): Suspect[] {
  const seen = new Set<string>();
  return suspects.filter((one) => !seen.has(`${one.name} ${one.look}`) && seen.add(`${one.name} ${one.look}`));
}

/** What the study says of it already: the code that was meant before the others, then the worst. A way that is merely doubtful by a figure is no silence. */
export function foundOf(study: Study, symptom: Symptom, first?: string): Finding[] {
  const all = study.findings.flatMap((finding) => [finding, ...finding.folded]).filter((f) => f.severity !== "plan" && symptom.codes.includes(f.code)
    && (f.code !== "uncovered-direction" || (f.measured === undefined && f.ways.includes(symptom.way))));
  const order = (f: Finding): number => (f.code === first ? 10 : 0) + rank(f.severity);
  return all.sort((a, b) => order(b) - order(a) || symptom.codes.indexOf(a.code) - symptom.codes.indexOf(b.code));
}

/** Units of what lies on a scale; what is counted, inputs and devices, says nothing by itself. */
const FIGURES: ReadonlySet<string> = new Set(["", "dB", "dBA", "Mb/s", "%", "°", "′", "m", "ms", "s", "min", "h", "lx", "pixels", ":1"]);

/** Of each code, the case that is nearest to its limit, in the words of its check. */
function asItStands(study: Study, graphs: readonly Graph[], symptom: Symptom, first: string | undefined, told: ReadonlySet<string>): Suspect[] {
  const trial = new Trial(new Map(), undefined, study.narrowed);
  const codes = [...symptom.codes].sort((a, b) => Number(b === first) - Number(a === first)).filter((code) => !told.has(code) && code !== "uncovered-direction");
  return codes.flatMap((code): Suspect[] => {
    const check = CHECKS.find((one) => one.entry.code === code);
    const cases = graphs.flatMap((graph) => check?.cases({ setup: study.setup, item: graph.item, graph }) ?? []);
    const [worst] = [...new Map(cases.map((one) => [one.key, one])).values()].flatMap((one) => one.measure(trial) ?? []).filter((one) => one.severity !== "plan").sort((a, b) => b.badness - a.badness);
    if (worst === undefined) return [];
    const { measured, limit } = worst;
    // Checks that say nothing in order have no words for it, but for their figures.
    const look = check?.silentInOrder !== true ? worst.say().summary.replace(/\.$/, "") : measured === undefined || limit === undefined || !FIGURES.has(measured.unit) ? "" : `${withUnit(measured.value, measured.unit)}, the limit is ${withUnit(limit.value, limit.unit)} (${code})`;
    return look === "" ? [] : [{ name: worst.cause.subjects.length === 0 ? check?.entry.title ?? code : list(worst.cause.subjects, 2), look: `as planned: ${look}` }];
  });
}

/** Those that can come up in this setup, the likeliest first: what the study warns of, then the order of the table. */
export function likeliest(study: Study): readonly Symptom[] {
  if (study.setup.joins.length === 0) return [];
  const worst = new Map(SYMPTOMS.map((symptom) => [symptom, Math.max(0, ...foundOf(study, symptom).map((one) => rank(one.severity)))]));
  // A hint comes up on few evenings.
  const weight = (symptom: Symptom): number => Math.max(0, (worst.get(symptom) ?? 0) - rank("hint"));
  return [...SYMPTOMS].filter((symptom) => canComeUp(study.setup, symptom)).sort((a, b) => weight(b) - weight(a));
}

/** What a setup does not have cannot fail in it. */
function canComeUp(setup: Setup, symptom: Symptom): boolean {
  switch (symptom.id) {
    case "loop": return [...setup.devices.values()].some((device) => device.placed !== undefined && ["loop", "transmitter", "recorder"].includes(device.type));
    case "captions": return setup.call.some((s) => s.row.head === "captions");
    case "recording": return setup.call.some((s) => s.row.head === "records");
    case "music": return [...setup.voices.values()].some((voice) => voice.music) || setup.items.some((item) => item.clips.length > 0);
    default: return true;
  }
}
