/** Who sees to what, before and during the meeting; a job that several share is one for each. */
import { valueOf, valuesOf, type Bound } from "./bound";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Job {
  /** A word of the vocabulary: `listen`, `run-call`. */
  readonly what: string;
  /** Nobody where the text names nobody yet. */
  readonly who: string | undefined;
  readonly statement: Bound;
  readonly where: Where;
}

export const readJobs = (reading: Reading): Job[] => reading.by("job").flatMap((statement) => {
  const what = valueOf(statement, "what", "word")?.word;
  const who = valuesOf(statement, "who", "text").map((name) => name.text);
  return what === undefined ? [] : (who.length === 0 ? [undefined] : who).map((name) => ({ what, who: name, statement, where: statement.where }));
});
