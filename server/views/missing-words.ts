/** What is lost when one thing is missing, in words that a hand-out and a terminal share. */
import { list } from "../model/show";
import type { Setup } from "../model/setup";
import type { Loss, Missing } from "../missing";
import { WAY_TITLES, type WayName } from "../model/ways";

/** Each job as one would ask for it. */
const JOBS: Readonly<Record<string, string>> = {
  listen: "listens in", "run-call": "runs the call", record: "starts the recording", admit: "lets people in", chat: "reads the chat", camera: "turns the camera", sound: "minds the sound", "set-up": "knows the setup", keys: "has the keys",
};

const ACROSS: readonly WayName[] = ["room-hears-online", "online-hears-room", "room-sees-online", "online-sees-room"];

/** `the people online do not hear Ines, nobody sees the call (during questions)`; many of one way are told as the way. */
export function lossWords(lost: readonly Loss[]): string {
  const ways = [...new Set(lost.map((one) => one.way))];
  if (lost.length > 3 && ACROSS.every((way) => lost.some((one) => one.way === way && one.items.length === 0))) return "nothing gets across any more";
  if (lost.length > 3) return `not any more: ${list(ways.map((way) => WAY_TITLES[way].toLowerCase()), 6)}`;
  return list(ways.flatMap((way: WayName): string[] => {
    const of = lost.filter((one) => one.way === way);
    const [first] = of;
    if (of.length > 2 || first === undefined) return [`not any more: ${WAY_TITLES[way].toLowerCase()}`];
    return of.map((one) => `${one.says}${one.items.length === 0 ? "" : ` (during ${list(one.items, 2)})`}`);
  }), 4);
}

/** What one does: `spare stands in`; `laptop: what it has of its own`; nothing where nothing at hand helps. */
const OWN: Readonly<Partial<Record<WayName, string>>> = { "online-hears-room": "microphone", "room-hears-online": "loudspeaker", "online-sees-room": "camera", "room-sees-online": "screen" };

export function insteadWords({ instead, what, lost, left }: Missing): string {
  if (instead === undefined) return what === "lead" ? "a spare lead" : "nothing at hand";
  if (instead.by === "own") {
    const mended = [...new Set(lost.map((one) => one.way))].filter((way) => left.filter((one) => one.way === way).length < lost.filter((one) => one.way === way).length);
    return `the ${list(mended.flatMap((way) => OWN[way] ?? []))} of ${list(instead.names)} itself`;
  }
  if (instead.by === "dial-in") return "dial in by telephone, sound alone";
  if (instead.by === "whole") return `microphone and loudspeaker of ${list(instead.names)} itself`;
  if (instead.by === "radio") return `${list(instead.names)} by radio`;
  if (instead.by === "alone") return `${list(instead.names)} carries the call alone, its sound on`;
  return `${list(instead.names)} in its place${instead.by === "planned" ? ", as planned" : ""}`;
}

/** What stays lost, and whether the rest suffers. */
export function leftWords(row: Missing, setup: Setup): string {
  const words = [lossWords(row.left), jobWords(row, setup)].filter((part) => part !== "").join("; ");
  return words === "" ? (row.poorer ? "nothing, but less well than planned" : "nothing") : words;
}

/** Jobs that fall to nobody, and who in the text could take them on. */
export function jobWords(row: Missing, setup: Setup): string {
  if (row.jobs.length === 0) return "";
  const others = [...new Set(setup.jobs.flatMap((job) => (job.who === undefined || job.who === row.name ? [] : [job.who])))];
  return `nobody ${list(row.jobs.map((job) => JOBS[job] ?? job), 4)}${others.length === 0 ? "" : `; ask ${others.length === 1 ? (others[0] ?? "") : `${others.slice(0, 3).join(" or ")}`}`}`;
}

export interface Alike {
  readonly rows: readonly Missing[];
  /** What is to be said of all of them. */
  readonly first: Missing;
}

/**
 * Rows that say the same are one: the lapel microphone, or its lead. `brief`: so are those for which a device uses what it has
 * itself and nothing stays lost, whichever part of it that is.
 */
export function alike(rows: readonly Missing[], brief = false): Alike[] {
  const out = new Map<string, Missing[]>();
  for (const row of rows) {
    const own = brief && row.what !== "person" && row.instead?.by === "own" && row.left.length === 0;
    const key = row.what === "person" ? `person ${row.name}` : JSON.stringify(own ? [row.instead, row.poorer] : [row.lost, row.instead, row.left, row.poorer]);
    out.set(key, [...(out.get(key) ?? []), row]);
  }
  return [...out.values()].flatMap((same) => (same[0] === undefined ? [] : [{ rows: same, first: { ...same[0], lost: same.flatMap((row) => row.lost) } }]));
}
