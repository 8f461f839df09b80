/** What the call runs on, told by what it allows; what the text does not say is taken as most services have it. */
import { valueOf, type Bound } from "./bound";
import { assumed, fromText } from "./make-ranged";
import type { Ranged } from "./ranged";
import type { Reading } from "./reading";
import { defaultOf } from "./defaults";
import type { Where } from "./where";

export interface PictureLimit {
  readonly width: number;
  readonly height: number;
  /** Frames a second. */
  readonly rate: number;
  /** bit/s, where the text says so. */
  readonly most: Ranged | undefined;
}

export interface Service {
  /** Nothing where the text says nothing of it. */
  readonly where: Where | undefined;
  readonly statement: Bound | undefined;
  /** Seconds after which a call is cut off; none where none is stated. */
  readonly endsAfter: Ranged | undefined;
  /** Minutes since midnight at which the call is opened anew, in order. */
  readonly reopens: readonly number[];
  readonly capacity: Ranged;
  /** None where no limit is stated. */
  readonly devicesPerAccount: Ranged | undefined;
  readonly enters: "muted" | "live" | undefined;
  readonly admission: "open" | "gated" | undefined;
  readonly runBy: "opener" | "named" | "anybody" | undefined;
  /** The largest picture that it takes from a device, that it hands out, and that it hands out of what is presented. */
  readonly sends: PictureLimit | undefined;
  readonly receives: PictureLimit | undefined;
  readonly presents: PictureLimit | undefined;
  /** Of its program; nothing where the text does not say. */
  readonly cancels: boolean | undefined;
  readonly suppresses: boolean | undefined;
  readonly captions: "made" | "none" | undefined;
  readonly dialIn: "offered" | "none" | undefined;
  readonly recording: "service" | "device" | "none" | undefined;
}

/** The service of a setup. Of several statements the first counts; the others have their message. */
export function readService(reading: Reading): Service {
  const [statement, ...others] = reading.by("service");
  for (const second of others) reading.say("said-twice", "“service” is stated twice; keep one.", second.where, statement && { where: statement.where, message: "the first one" });
  for (const what of ["picture", "content"]) {
    const [first, second] = statement?.children.filter((c) => c.row.head === "receives" && valueOf(c, "what", "word")?.word === what) ?? [];
    if (second !== undefined) reading.say("said-twice", `“receives ${what}” is stated twice; keep one.`, second.where, first && { where: first.where, message: "the first one" });
  }
  const find = (head: string): Bound | undefined => statement?.children.find((c) => c.row.head === head);
  const quantity = (head: string, slot: string, id: string, label: string): Ranged | undefined => {
    const found = find(head);
    const value = found && valueOf(found, slot, "quantity");
    return found === undefined || value === undefined || value.said === "unknown" ? undefined : fromText(value, found, `service.${id}`, label, false);
  };
  const word = <W extends string>(head: string, slot = "how"): W | undefined => {
    const found = find(head);
    return found && (valueOf(found, slot, "word")?.word as W | undefined);
  };
  const yes = (head: string): boolean | undefined => {
    const found = find(head);
    return found && !found.negated;
  };
  const picture = (head: string, what: string): PictureLimit | undefined => {
    const found = statement?.children.find((c) => c.row.head === head && valueOf(c, "what", "word")?.word === what);
    const mode = found && valueOf(found, "mode", "mode");
    const most = found && valueOf(found, "rate", "quantity");
    return mode === undefined ? undefined : { width: mode.width, height: mode.height, rate: mode.rate, most: found === undefined || most === undefined || most.said === "unknown" ? undefined : fromText(most, found, `service.${head}.${what}.rate`, `the most that the service ${head} of a picture`, false) };
  };
  return {
    where: statement?.where, statement,
    endsAfter: quantity("ends", "after", "ends", "how long a call may last"),
    reopens: (statement?.children ?? []).filter((c) => c.row.head === "reopens").flatMap((c) => valueOf(c, "at", "clock")?.minutes ?? []).sort((a, b) => a - b),
    capacity: quantity("capacity", "people", "capacity", "how many the call holds")
      ?? assumed("service.capacity", "how many the call holds", "count", defaultOf("capacity", "service", "people")),
    devicesPerAccount: quantity("devices-per-account", "count", "devices-per-account", "how many devices may join under one account"),
    enters: word("enters"), admission: word("admission"), runBy: word("run-by", "whom"), sends: picture("sends", "picture"), receives: picture("receives", "picture"), presents: picture("receives", "content"),
    cancels: yes("cancels"), suppresses: yes("suppresses"), captions: word("captions"), dialIn: word("dial-in"), recording: word("recording"),
  };
}
