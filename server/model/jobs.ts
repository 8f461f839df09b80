/** Who sees to what during the meeting. */
import { valueOf, type Bound } from "./bound";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Job {
  /** A word of the vocabulary: `listen`, `run-call`. */
  readonly what: string;
  readonly who: string;
  readonly statement: Bound;
  readonly where: Where;
}

export const readJobs = (reading: Reading): Job[] => reading.by("job").flatMap((statement) => {
  const what = valueOf(statement, "what", "word")?.word;
  const who = valueOf(statement, "who", "text")?.text;
  return what === undefined || who === undefined ? [] : [{ what, who, statement, where: statement.where }];
});
