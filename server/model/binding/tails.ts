/** What may follow any statement: `during`, `because`, `measured`, `guessed`. */
import { isPoint } from "../../../grammar/tree";
import type { Row } from "../../../grammar/vocabulary";
import type { Tails } from "../bound";
import { isDate, minutesOf, noDay } from "./calendar";
import { readNames } from "./names";
import { textOf, type Reader } from "./reader";

/** Tails while they are read. */
export type OpenTails = { -readonly [K in keyof Tails]: Tails[K] };

/** The tails of a statement that has none. */
export const noTails = (): OpenTails => ({ during: [], because: undefined, measured: undefined, guessed: false });

/** Reads the tail that begins with `word` into `tails`; answers whether the word begins one. */
export function readTail(reader: Reader, word: string, tails: OpenTails, row: Row): boolean {
  const item = reader.items[reader.at];
  if (item === undefined) return false;
  switch (word) {
    case "during": {
      reader.at += 1;
      const names = readNames(reader, true);
      if (names.length === 0) reader.fail("After “during” belongs an item of the programme: during questions.", item.start, item.end);
      else if (row.during === undefined) reader.fail(`“${row.head}” cannot differ from item to item: leave “during” out.`, item.start, item.end);
      tails.during = names;
      return true;
    }
    case "because": {
      reader.at += 1;
      const text = textOf(reader.items[reader.at]);
      if (text === undefined) reader.fail('After “because” belongs a reason in quotation marks: because "the heating is on".', item.start, item.end);
      else reader.at += 1;
      tails.because = text;
      return true;
    }
    case "measured": {
      reader.at += 1;
      const day = reader.items[reader.at];
      let date: string | undefined;
      let minutes: number | undefined;
      if (day !== undefined && !isPoint(day) && day.kind === "date") {
        date = day.text;
        if (!isDate(date)) reader.fail(noDay(date), day.start, day.end);
        reader.at += 1;
        const clock = reader.items[reader.at];
        if (clock !== undefined && !isPoint(clock) && clock.kind === "clock") {
          minutes = minutesOf(clock.text);
          if (minutes === undefined) reader.fail(`${clock.text} is no time of the day: write it like 18:40.`, clock.start, clock.end);
          reader.at += 1;
        }
      }
      const time = minutes === undefined ? "" : ` ${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
      tails.measured = { date, minutes, when: date === undefined ? undefined : `${date}${time}` };
      return true;
    }
    case "guessed":
      reader.at += 1;
      tails.guessed = true;
      return true;
    default:
      return false;
  }
}
