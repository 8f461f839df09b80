/** Other rooms that join the call as one: what they play can come back through what they send. */
import { valueOf, type Bound } from "./bound";
import { fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface RemoteRoom {
  readonly name: string;
  readonly people: Ranged | undefined;
  /** Whether it cancels its echo; nothing where the text does not say. */
  readonly cancels: boolean | undefined;
  readonly statement: Bound;
  readonly where: Where;
}

export const readRemoteRooms = (reading: Reading): RemoteRoom[] => reading.by("remote-room").map((statement) => {
  const name = reading.nameOf(statement);
  const people = valueOf(statement, "people", "quantity");
  const cancels = statement.children.find((c) => c.row.head === "cancels");
  return {
    name, statement, where: statement.where, cancels: cancels && !cancels.negated,
    people: people === undefined || people.said === "unknown" ? undefined : fromText(people, statement, `remote-room.${name}.people`, `how many sit in ${name}`, false),
  };
});
