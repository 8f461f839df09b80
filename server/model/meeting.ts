/** The meeting itself: its day and times, how many attend online, and the reserve that batteries shall keep. */
import { rowFor } from "../../grammar/vocabulary";
import { valueOf, valuesOf, type Bound } from "./bound";
import { defaultOf } from "./defaults";
import { assumed, fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Meeting {
  readonly date: string | undefined;
  /** Minutes since midnight of the day of the meeting. */
  readonly access: number | undefined;
  readonly start: number | undefined;
  readonly end: number | undefined;
  readonly reserve: Ranged;
  /** The statement that somebody online reads lips. */
  readonly lipReading: Bound | undefined;
  readonly online: Ranged;
  /** Time zones: of the room, and of those online who have another. */
  readonly zone: string | undefined;
  readonly zones: readonly string[];
  /** Day of the rehearsal in the room. */
  readonly rehearsal: string | undefined;
  /** What may be spent, in the money in which the text counts. */
  readonly budget: { readonly money: number; readonly where: Where } | undefined;
}

/** Reads what is stated of the meeting, in its block or outside; says what is stated twice or lies in the wrong order. */
export function readMeeting(reading: Reading): Meeting {
  const meeting = [...reading.by("meeting").flatMap((m) => m.children), ...reading.all.filter((s) => rowFor("meeting", s.row.head) !== undefined)];
  onlyOnce(reading, meeting.filter((s) => s.row.once === true));
  onlyOnce(reading, reading.all.filter((s) => ["meeting", "programme", "call"].includes(s.row.head)));
  const value = (head: string): Bound | undefined => meeting.find((s) => s.row.head === head);
  const clock = (head: string): number | undefined => {
    const found = value(head);
    return found && valueOf(found, "time", "clock")?.minutes;
  };
  const access = clock("access");
  const start = clock("start");
  const end = clock("end");
  order(reading, value("access"), access, value("start"), start);
  order(reading, value("start"), start, value("end"), end);
  const online = value("online");
  const people = online && valueOf(online, "people", "quantity");
  const reserve = value("reserve");
  const spare = reserve && valueOf(reserve, "time", "quantity");
  const day = value("date");
  const zone = value("zone");
  const zones = value("zones");
  const rehearsal = value("rehearsal");
  const budget = value("budget");
  const money = budget && valueOf(budget, "money", "quantity")?.best;
  return {
    lipReading: value("lip-reading"),
    date: day && valueOf(day, "date", "date")?.date, access, start, end,
    zone: zone && valueOf(zone, "zone", "word")?.word, zones: zones === undefined ? [] : valuesOf(zones, "zones", "word").map((z) => z.word),
    rehearsal: rehearsal && valueOf(rehearsal, "date", "date")?.date,
    budget: budget === undefined || money === undefined || !Number.isFinite(money) ? undefined : { money, where: budget.where },
    reserve: reserve !== undefined && spare !== undefined && spare.said !== "unknown"
      ? fromText(spare, reserve, "meeting.reserve", "the reserve that batteries shall keep", false)
      : assumed("meeting.reserve", "the reserve that batteries shall keep", "time", defaultOf("reserve", "meeting", "time")),
    online: online !== undefined && people !== undefined && people.said !== "unknown"
      ? fromText(people, online, "meeting.online", "how many attend online", false)
      : assumed("meeting.online", "how many attend online", "count", defaultOf("online", "meeting", "people")),
  };
}

/** What may stand once, wherever it stands, and stands twice. */
function onlyOnce(reading: Reading, statements: readonly Bound[]): void {
  const seen = new Map<string, Bound>();
  for (const statement of statements) {
    const { head } = statement.row;
    const first = seen.get(head);
    if (first === undefined) seen.set(head, statement);
    else reading.say("said-twice", `“${head}” is stated twice; keep one.`, statement.where, { where: first.where, message: "the first one" });
  }
}

function order(reading: Reading, before: Bound | undefined, a: number | undefined, after: Bound | undefined, b: number | undefined): void {
  if (before === undefined || after === undefined || a === undefined || b === undefined || a <= b) return;
  reading.say("impossible", `“${after.row.head}” lies before “${before.row.head}”. If it is past midnight write ${after.row.head} 00:15 next-day.`, after.where, { where: before.where, message: `“${before.row.head}”` });
}
