/** Devices in the room on which the public stream of the meeting is watched, outside the call. */
import { valueOf, type Bound } from "./bound";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Watch {
  readonly device: string;
  /** `plays` statements; who says nothing on the sound leaves it on. */
  readonly statements: readonly Bound[];
  readonly statement: Bound;
  readonly where: Where;
}

export const readWatches = (reading: Reading): Watch[] => reading.by("watch").flatMap((statement) => {
  const name = valueOf(statement, "device", "name")?.text;
  return name === undefined ? [] : [{ device: reading.names.find(statement.where.path, name)?.name ?? name, statements: statement.children, statement, where: statement.where }];
});
