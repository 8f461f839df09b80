/** The six verdicts above the line that makes a file a setup. */
import type { WayVerdict } from "../finding";
import { canonical } from "../model/names";
import { withUnit } from "../model/show";
import { VERDICT_WORDS, VERDICTS, WAY_TITLES, WAYS, type Verdict, type WayName } from "../model/ways";
import type { Study } from "../study";
import type { Span } from "./asked";

export interface Lens extends Span {
  readonly title: string;
  readonly tooltip: string;
  /** The way that it tells of; nothing where it is about one join. */
  readonly way: WayName | undefined;
}

/** Marks that differ in shape, not in colour alone. */
export const MARKS: Readonly<Record<Verdict, string>> = { works: "✓", doubtful: "~", "cannot-tell": "?", fails: "✗" };

/** Short names of the ways, for where six of them stand side by side. */
export const SHORT_WAYS: Readonly<Record<WayName, string>> = {
  "room-hears-online": "room hears", "online-hears-room": "online hears", "room-sees-online": "room sees", "online-sees-room": "online sees", call: "call", internet: "internet",
};

/** A lens for each way: its worst item's verdict, and in the tip what it hangs on. Empty where the file is no setup. */
export function lenses(study: Study): readonly Lens[] {
  if (!study.isSetup) return [];
  const { start, end } = study.setup.titleWhere;
  return WAYS.flatMap((way): Lens[] => {
    const all = study.ways.filter((one) => one.way === way);
    const worst = all.reduce<WayVerdict | undefined>((a, b) => (a === undefined || VERDICTS.indexOf(b.verdict) > VERDICTS.indexOf(a.verdict) ? b : a), undefined);
    if (worst === undefined) return [];
    return [{ start, end, way, title: `${MARKS[worst.verdict]} ${SHORT_WAYS[way]}: ${VERDICT_WORDS[worst.verdict]}`, tooltip: all.map(told).join("\n") }];
  });
}

/** A lens for each join of the setup's own text: what it sends in all, how long its battery lasts, and what was found of it. */
export function joinLenses(study: Study): readonly Lens[] {
  if (!study.isSetup) return [];
  const figures = study.figures();
  return study.setup.joins.filter((join) => join.where.path === study.root).flatMap((join): Lens[] => {
    const { start, end } = join.where;
    const device = canonical(join.device);
    const state = study.setup.devices.get(device);
    const cameras = new Set([device, ...(state?.parts ?? []).map((part) => canonical(part.id))]);
    const sent = study.setup.joins.length === 1 ? figures.filter((f) => f.name === "sent in all") : figures.filter((f) => f.name === "target rate of a stream" && f.of.some((of) => of.endsWith(` of ${join.device}`) || cameras.has(canonical(of.split(" at ")[0] ?? ""))));
    const life = figures.find((f) => f.name === "battery life" && f.of.some((of) => canonical(of) === device));
    const needed = figures.find((f) => f.name === "battery life needed" && f.of.some((of) => canonical(of) === device));
    const found = study.findings.filter((f) => f.severity !== "plan" && f.subjects.some((subject) => canonical(subject) === device || canonical(subject).startsWith(`${device}.`)));
    const out: { title: string; tooltip: string }[] = [];
    if (sent.length > 0) out.push({ title: `sends up to ${withUnit(Math.max(...sent.map((f) => f.value)), sent[0]?.unit ?? "")}`, tooltip: sent.map((f) => `${f.of.join(", ")}: ${withUnit(f.value, f.unit)}`).join("\n") });
    if (life !== undefined) out.push({ title: `battery ${withUnit(life.value, life.unit)}${needed === undefined ? "" : ` of ${withUnit(needed.value, needed.unit)} needed`}`, tooltip: `${life.formula}. ${life.source}` });
    out.push({ title: found.length === 0 ? "nothing found" : `${found.length} found: ${[...new Set(found.map((f) => f.code))].slice(0, 3).join(", ")}`, tooltip: found.map((f) => f.message).join("\n") });
    return out.map((one) => ({ start, end, way: undefined, ...one }));
  });
}

/** A verdict in a sentence: the way, the weakest link, what it hangs on. */
export function told({ way, verdict, weakest, hangsOn, item }: WayVerdict): string {
  const when = item === undefined ? "" : ` (${item})`;
  const hangs = hangsOn.length === 0 ? "" : `; hangs on ${hangsOn.join(", ")}`;
  return `${WAY_TITLES[way]}${when}: ${VERDICT_WORDS[verdict]}. ${weakest}${hangs}`;
}
