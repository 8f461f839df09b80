/** What is said of a value that is missing or does not fit: what is wanted, with one shown. */
import { isPoint, type Item } from "../../../grammar/tree";
import { DIMENSIONS, unitOf } from "../../../grammar/units";
import type { Owner, Row, Slot } from "../../../grammar/vocabulary";
import type { Measure } from "./measure";

/** An owner of statements as a message calls it. */
export const ownerWord = (owner: Owner): string =>
  ({ device: "kind or device", place: "place", surface: "table or screen", seats: "chairs", area: "stage or walkway", opening: "door or window", link: "cable, radio or mains" } as Partial<Record<Owner, string>>)[owner] ?? owner;

/** What a slot wants, in words, with one shown. */
export function wantedBy(slot: Slot): string {
  const takes = slot.takes;
  switch (takes.kind) {
    case "quantity": return `${DIMENSIONS[takes.dimension].title}, like ${DIMENSIONS[takes.dimension].example}`;
    case "any-quantity": return "a figure with its unit, like 12 dB";
    case "word": return `one of ${Object.keys(takes.words).join(", ")}`;
    case "new-name": return "a name, like side-table";
    case "name": return `the name of ${takes.of.join(", ").replace(/, ([^,]*)$/, " or $1")}`;
    case "text": return 'a text in quotation marks, like "spring meeting"';
    case "who": return 'a name or a text, like "the choir"';
    case "place": return "a place, like: on table beside lectern";
    case "date": return "a date, like 2026-10-14";
    case "clock": return "a time, like 18:30";
    case "zone": return "a time zone, like Europe/Tallinn";
    case "mode": return "a size and frame rate, like 720p30";
    case "ratio": return "a ratio, like 16:9";
    case "point": return "points, each of two lengths, like (3.2 m, 1.0 m)";
    case "code": return "the code of a finding, like echo-path";
  }
}

/** Says between which bounds the quantity lies, in the unit in which it was written. */
export function impossible(row: Row, slot: Slot, takes: Measure, written: readonly Item[]): string {
  const unit = written.flatMap((item) => {
    const found = isPoint(item) ? undefined : unitOf(item.text);
    return found?.dimension === takes.dimension && !isPoint(item) ? [{ word: item.text, factor: found.factor }] : [];
  })[0] ?? { word: DIMENSIONS[takes.dimension].unit, factor: 1 };
  const { min, max } = takes;
  const figure = (n: number): string => `${short(n / unit.factor)} ${unit.word}`.trim();
  const bounds = min === undefined ? `not above ${figure(max ?? 0)}` : max === undefined ? `not below ${figure(min)}`
    : `between ${short(min / unit.factor)} and ${figure(max)}`;
  return `That cannot be: “${row.head}”, ${slot.meaning}, lies ${bounds}.`;
}

const short = (n: number): string => (n >= 1e6 ? n.toExponential(0) : String(Number(n.toPrecision(3))));
