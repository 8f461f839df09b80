/** The programme: its items in the order of their times. */
import { valueOf, valuesOf } from "./bound";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Item {
  readonly name: string;
  /** Minutes since midnight of the day of the meeting. */
  readonly from: number | undefined;
  readonly to: number | undefined;
  /** Voices named; empty where the item names none. */
  readonly talkers: readonly string[];
  /** Devices that play a recording with sound of its own. */
  readonly clips: readonly string[];
  readonly where: Where;
}

/** The items with their times in minutes since midnight. One that states no begin or end takes that of its neighbour, the first and last those of the meeting. */
export function readItems(reading: Reading, start: number | undefined, end: number | undefined): Item[] {
  const stated = [...reading.by("programme").flatMap((p) => p.children), ...reading.by("item")].filter((s) => s.row.head === "item");
  const rough = stated.map((s) => ({
    name: reading.nameOf(s), from: valueOf(s, "from", "clock")?.minutes, to: valueOf(s, "to", "clock")?.minutes, where: s.where,
    talkers: s.children.filter((c) => c.row.head === "talkers").flatMap((c) => valuesOf(c, "who", "name").map((n) => n.text)),
    clips: s.children.filter((c) => c.row.head === "clip").flatMap((c) => valuesOf(c, "on", "name").map((n) => reading.names.find(c.where.path, n.text)?.name ?? n.text)),
  }));
  for (const { from, to, where } of rough) {
    if (from !== undefined && to !== undefined && to < from) reading.say("impossible", "This item ends before it begins. If that is past midnight write to 00:15 next-day.", where);
  }
  // In the order of their times; an item that states none stays behind the one that it is written behind.
  let latest = -Infinity;
  const timed = rough.map((item) => ({ ...item, behind: (latest = item.from ?? latest) }));
  timed.sort((one, other) => (one.behind === other.behind ? 0 : one.behind - other.behind));
  return timed.map(({ behind: _, ...item }, i) => ({
    ...item, from: item.from ?? (i === 0 ? start : timed[i - 1]?.to), to: item.to ?? timed[i + 1]?.from ?? (i === timed.length - 1 ? end : undefined),
  }));
}
