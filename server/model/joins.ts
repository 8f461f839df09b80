/** Devices in the room that join the call. */
import { valueOf, type Bound } from "./bound";
import type { Devices } from "./devices";
import { a, canonical } from "./names";
import type { Reading } from "./reading";
import type { Where } from "./where";

export interface Join {
  readonly device: string;
  readonly over: string | undefined;
  /** The account or guest's name under which it joins; nothing where the text does not say. */
  readonly account: string | undefined;
  readonly statements: readonly Bound[];
  readonly bound: Bound;
  readonly where: Where;
}

/** More joins than any meeting has from one room; bounds what a hostile file can ask for. */
const MOST_JOINS = 60;

function accountOf(statement: Bound): string | undefined {
  const account = statement.children.find((c) => c.row.head === "account");
  return account && valueOf(account, "name", "text")?.text;
}

/** The joins of known devices, one for each; says which device joins twice or cannot join. */
export function readJoins(reading: Reading, { devices, vague }: Devices): Join[] {
  const out: Join[] = [];
  for (const statement of reading.by("join")) {
    const written = valueOf(statement, "device", "name");
    if (written === undefined) continue;
    const name = reading.names.find(statement.where.path, written.text)?.name ?? written.text;
    const device = devices.get(canonical(name));
    if (device === undefined) continue;
    const first = out.find((join) => canonical(join.device) === canonical(name));
    if (first !== undefined) {
      reading.say("joins-twice", `“${name}” joins twice; put everything into one join.`, statement.where, { where: first.where, message: "the first one" });
      continue;
    }
    if (out.length === MOST_JOINS) {
      reading.say("too-many", `More than ${MOST_JOINS} devices join; those from here on are left out. Join with one or two, and let the others watch.`, statement.where);
      break;
    }
    if (device.type !== "computer" && !vague.has(canonical(name))) {
      reading.say("cannot-join", `“${name}” is ${a(device.type)}: only a computer, a tablet or a telephone joins a call.`, { path: statement.where.path, start: written.start, end: written.end });
    }
    out.push({ device: name, over: valueOf(statement, "over", "name")?.text, account: accountOf(statement), statements: statement.children, bound: statement, where: statement.where });
  }
  return out;
}
