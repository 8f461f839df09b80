/** What was noticed on the evening, as the author wrote it down afterwards. */
import type { Quantity } from "../../grammar/quantity";
import { valueOf, type Bound, type PlaceValue } from "./bound";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Observation {
  /** `observed no echo`. */
  readonly negated: boolean;
  /** A word of the vocabulary: `clear`, `echo`. */
  readonly what: string;
  /** A device, a part, a talker, seats, an internet or a remote room; everything where nothing is said. */
  readonly subject: string | undefined;
  readonly value: Quantity | undefined;
  readonly place: PlaceValue | undefined;
  readonly statement: Bound;
  readonly where: Where;
}

export const readObservations = (reading: Reading): Observation[] => reading.by("observed").flatMap((statement) => {
  const what = valueOf(statement, "what", "word")?.word;
  const subject = (valueOf(statement, "subject", "name") ?? valueOf(statement, "of", "name"))?.text;
  return what === undefined ? [] : [{
    negated: statement.negated, what, subject: subject === undefined ? undefined : reading.names.find(statement.where.path, subject)?.name ?? subject,
    value: valueOf(statement, "value", "quantity"), place: valueOf(statement, "place", "place"), statement, where: statement.where,
  }];
});
