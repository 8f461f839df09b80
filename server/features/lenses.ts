/** The six verdicts above the line that makes a file a setup. */
import type { WayVerdict } from "../finding";
import { VERDICT_WORDS, VERDICTS, WAY_TITLES, WAYS, type Verdict, type WayName } from "../model/ways";
import type { Study } from "../study";
import type { Span } from "./asked";

export interface Lens extends Span {
  readonly title: string;
  readonly tooltip: string;
  readonly way: WayName;
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

/** A verdict in a sentence: the way, the weakest link, what it hangs on. */
export function told({ way, verdict, weakest, hangsOn, item }: WayVerdict): string {
  const when = item === undefined ? "" : ` (${item})`;
  const hangs = hangsOn.length === 0 ? "" : `; hangs on ${hangsOn.join(", ")}`;
  return `${WAY_TITLES[way]}${when}: ${VERDICT_WORDS[verdict]}. ${weakest}${hangs}`;
}
