/** Gaps in the plan of who sees to place and people, and when. */
import { canonical } from "../model/names";
import { figure, list } from "../model/show";
import { limitOf } from "./check";
import { gap } from "./gap";
import { aFew, give, JOB_WORDS, named, stated } from "./people";

const GROUP = "Place and people";
const SOURCE = "common practice, no source";
const WAYS = ["call"] as const;

export const roleOpen = gap({
  code: "role-open", title: "A job has no person", group: GROUP,
  notice: "Everybody thought that somebody else would do it.",
  why: "The plan has a job and no name behind it.", todo: ["Name somebody: job chat by NAME.", "Or take the job out, if it is none."],
  source: SOURCE, settle: { who: "the helpers" }, symptoms: ["nobody did it", "everybody thought somebody else would"], limit: "a name for each job",
}, WAYS, ({ setup }) => {
  const open = setup.jobs.filter((job) => job.who === undefined && named(setup, job.what).length === 0);
  if (setup.jobs.length === 0) return undefined;
  const words = list([...new Set(open.map((job) => JOB_WORDS[job.what] ?? job.what))], 8);
  const [first] = open;
  return {
    open: open.length > 0, where: first?.where, because: open.length > 0 ? `nobody is named yet for ${words}` : "each job has a person",
    summary: open.length > 0 ? `nobody for ${words}` : "each job has a person", ...(first === undefined ? {} : { remedies: () => give(setup, first.what) }),
  };
});

export const oneExpert = gap({
  code: "one-expert", title: "One person knows the setup", group: GROUP,
  notice: "That person has a cold on the day, and nobody knows which cable goes where.",
  why: "Everything hangs on one head.", todo: ["Let a second person set it up once, with this text and its hand-out: job set-up by NAME and NAME."],
  source: SOURCE, settle: { what: "a second who knows the setup", who: "the helpers" }, symptoms: ["nobody knew how it works", "the one who knows was ill"], limit: "two who know the setup",
}, WAYS, ({ setup }) => {
  const who = named(setup, "set-up");
  const all = [...new Set(setup.jobs.flatMap((job) => (job.who === undefined ? [] : [canonical(job.who)])))];
  const jobs = new Set(setup.jobs.filter((job) => job.who !== undefined).map((job) => job.what));
  // Nothing is said of it where nobody is named for it; that one does everything is said, too.
  const alone = who.length === 1 ? who[0] : who.length === 0 && all.length === 1 && jobs.size >= 3 ? setup.jobs.find((job) => job.who !== undefined)?.who : undefined;
  if (who.length === 0 && alone === undefined) return undefined;
  return {
    open: alone !== undefined, subjects: alone === undefined ? [] : [alone], where: setup.jobs.find((job) => job.who === alone)?.where,
    because: alone === undefined ? `${list(who)} know the setup` : who.length === 1 ? `only ${alone} knows the setup` : `${alone} has every job, and is the only one named`,
    summary: alone === undefined ? `${list(who)} know the setup` : `only ${alone} knows the setup`, remedies: () => give(setup, "set-up", alone === undefined ? [] : [alone]),
  };
});

export const notRehearsed = gap({
  code: "not-rehearsed", title: "No rehearsal in the room", group: GROUP,
  notice: "Whatever does not go together is found with everybody watching.",
  why: "Nothing of this setup has been tried where it will be used, and no day before the meeting is set aside for it.",
  todo: ["Date one, in the room, with the kit and with somebody in the call from elsewhere: rehearsal 2026-10-12 19:00.", "Go through the line check of the hand-out."],
  source: SOURCE, settle: { what: "a day to try it in the room", who: "the venue" }, symptoms: ["nobody had tried it", "found out on the evening"], limit: "a day before the meeting",
}, WAYS, ({ setup }) => {
  if (setup.date === undefined || setup.joins.length === 0 || (setup.rehearsal === undefined && aFew(setup))) return undefined;
  const open = setup.rehearsal === undefined || setup.rehearsal >= setup.date;
  return {
    open, because: setup.rehearsal === undefined ? "no rehearsal in the room is dated" : open ? `the rehearsal of ${setup.rehearsal} is not before the meeting` : `it is rehearsed on ${setup.rehearsal}`,
    summary: open ? "not rehearsed" : "rehearsed",
  };
});

export const setupRushed = gap({
  code: "setup-rushed", title: "Little time to set up", group: GROUP,
  notice: "The first guests sit down while somebody still looks for the right input.",
  why: "Between the room being open and the start there is less time than setting up and trying takes.",
  todo: ["Ask for the room earlier.", "Prepare what can be: label cables, pack by the set-up order of the hand-out.", "Leave out what no way across hangs on."],
  source: SOURCE, settle: { who: "the venue" }, symptoms: ["no time to set up", "started late"], limit: "60 min from access to start",
}, WAYS, ({ setup }) => {
  if (setup.access === undefined || setup.start === undefined || setup.joins.length === 0 || aFew(setup)) return undefined;
  const minutes = setup.start - setup.access;
  const limit = limitOf(setup, "setup-rushed", 3600) / 60;
  return {
    open: minutes < limit, because: `${figure(minutes)} min from access to start${minutes < limit ? `, where ${figure(limit)} are wanted` : ""}`, effect: "setting up and trying will take longer",
    summary: `${figure(minutes)} min to set up`, measured: { value: minutes, limit, unit: "min" },
  };
}, { takesLimit: true });

export const doorAndKeys = gap({
  code: "door-and-keys", title: "Nobody has the keys", group: GROUP,
  notice: "Everybody stands in front of a locked door with a loudspeaker in their arms.",
  why: "Nobody is named who has the keys, knows of the alarm, and can reach whoever looks after the house.",
  todo: ["Name somebody: job keys by NAME.", "Write the caretaker's number into a note."],
  source: SOURCE, settle: { what: "who has the keys, and whom to ring about the alarm", who: "the venue" }, symptoms: ["locked out", "alarm went off", "caretaker could not be reached"], limit: "one person",
}, WAYS, ({ setup }) => {
  // Before there is a day or an hour, nobody asks for keys.
  if ((setup.date === undefined && setup.access === undefined) || setup.joins.length === 0 || (stated(setup, "keys") && named(setup, "keys").length === 0)) return undefined;
  const who = named(setup, "keys");
  if (who.length === 0 && aFew(setup)) return undefined;
  return {
    open: who.length === 0, because: who.length === 0 ? "nobody is named for keys, alarm and caretaker" : `${list(who)} has the keys`,
    summary: who.length === 0 ? "nobody has the keys" : `${list(who)} has the keys`, remedies: () => give(setup, "keys"),
  };
});
