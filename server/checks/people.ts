/** Who is named for what: what checks of jobs share. */
import { append, rewrite } from "../model/edits";
import { canonical } from "../model/names";
import type { Job, Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import { rootFile, type Remedy } from "./check";

/** What each job is, as a sentence has it. */
export const JOB_WORDS: Readonly<Record<string, string>> = {
  listen: "listening to what the people online hear", "run-call": "running the call", record: "the recording", admit: "letting people into the call", chat: "reading what the people online write",
  camera: "the camera", sound: "loudspeakers and microphones", "set-up": "setting everything up", keys: "the keys",
};

/** Those named for a job, each once. */
export const named = (setup: Setup, ...what: readonly string[]): string[] =>
  [...new Map(setup.jobs.filter((job) => what.includes(job.what) && job.who !== undefined).map((job) => [canonical(job.who ?? ""), job.who ?? ""])).values()];

/** Whether the text has the job, with or without somebody for it: one without is told once, as a job without a person. */
export const stated = (setup: Setup, what: string): boolean => setup.jobs.some((job) => job.what === what);

/** Whether somebody of that name speaks in the programme. */
export const speaks = (setup: Setup, who: string, item?: string): boolean => {
  const voice = setup.voices.get(canonical(who));
  if (voice === undefined || !voice.stated) return false;
  const items = setup.items.filter((one) => item === undefined || canonical(one.name) === canonical(item));
  // An item that names nobody has everybody speak.
  return items.length === 0 || items.some((one) => one.talkers.length === 0 || one.talkers.some((talker) => canonical(talker) === canonical(who)));
};

/** People of the text who speak nowhere and have one job at most: who could take on one more. */
export function free(setup: Setup, but: readonly string[] = []): string[] {
  const jobs = new Map<string, { name: string; count: number }>();
  for (const { who } of setup.jobs) if (who !== undefined) jobs.set(canonical(who), { name: who, count: (jobs.get(canonical(who))?.count ?? 0) + 1 });
  return [...jobs.values()].filter(({ name, count }) => count <= 1 && !speaks(setup, name) && !but.some((one) => canonical(one) === canonical(name))).map(({ name }) => name);
}

const quoted = (who: string): string => (/^[\p{L}][\p{L}\p{N}-]*$/u.test(who) ? who : `"${who.replaceAll('"', "”")}"`);

/** Gives a job to somebody whom the text names for another already; whom it does not name it cannot ask. */
export function give(setup: Setup, what: string, but: readonly string[] = []): Remedy[] {
  const file = rootFile(setup);
  if (file === undefined) return [];
  return free(setup, but).slice(0, 2).map((who) => ({
    title: `Let ${who} see to ${JOB_WORDS[what] ?? what}`,
    edits: [append(file, `job ${what} by ${quoted(who)}`, ["job", "join"])],
  }));
}

/** Names somebody else for a job that one has. */
export function handOver(setup: Setup, job: Job, but: readonly string[]): Remedy[] {
  if (setup.jobs.filter((other) => other.statement === job.statement).length > 1) return [];
  return free(setup, but).slice(0, 2).map((who) => ({ title: `Let ${who} see to ${JOB_WORDS[job.what] ?? job.what}`, edits: [rewrite(job.statement, `job ${job.what} by ${quoted(who)}`)] }));
}

/** So many sit round a table and see to everything as they go; a plan of who does what is for more. Model choice. */
const A_FEW = 8;
export const aFew = (setup: Setup): boolean => setup.room.seats.reduce((sum, group) => sum + group.count, 0) <= A_FEW;

/** How many attend online, and what in the room is in the call beside them. */
export const inTheCall = (setup: Setup, trial: Trial): number => trial.value(setup.online) + setup.joins.length + setup.remoteRooms.length;
