/** Gaps in the plan of who sees to the call. */
import { list } from "../model/show";
import { gap } from "./gap";
import { aFew, give, handOver, named, speaks, stated } from "./people";

const GROUP = "The call";
const SOURCE = "common practice, no source";

export const oneRunsCall = gap({
  code: "one-runs-call", title: "Only one can run the call", group: GROUP,
  notice: "Whoever opened the call has left for a minute, and nobody can let the latecomers in or turn off the dog that barks.",
  why: "If the only person or device that can run the call is busy or gone, nobody lets people in, silences them, or ends it.",
  todo: ["Name a second: job run-call by NAME.", "Where only the device that opened the call can run it, ask whether somebody can be named beforehand."],
  source: SOURCE, settle: { what: "who runs the call, and who else can", who: "the helpers" }, symptoms: ["nobody could let them in", "nobody could mute", "who runs the call"], limit: "two who can run the call",
}, ["call"], ({ setup, graph }) => {
  if (graph.joins.length === 0 || setup.service.runBy === "anybody" || (stated(setup, "run-call") && named(setup, "run-call").length === 0)) return undefined;
  const who = named(setup, "run-call");
  if (who.length === 0 && setup.service.runBy === undefined && aFew(setup)) return undefined;
  const device = setup.service.runBy === "opener";
  const open = device || who.length < 2;
  return {
    open, subjects: who.slice(0, 1), where: setup.jobs.find((job) => job.what === "run-call")?.where ?? setup.service.where,
    because: device ? "only the device that opened the call can run it" : who.length === 0 ? "nobody is named who runs the call" : who.length === 1 ? `only ${who[0] ?? ""} can run the call` : `${list(who)} can run the call`,
    summary: open ? "one at most can run the call" : `${list(who)} can run the call`,
    ...(device ? {} : { remedies: () => give(setup, "run-call", who) }),
  };
});

export const nobodyAdmits = gap({
  code: "nobody-admits", title: "Nobody lets people into the call", group: GROUP,
  notice: "Ten people sit in front of a waiting page while the talk is well under way.",
  why: "Somebody in the call has to let everybody in, one by one, and nobody has that job.",
  todo: ["Name somebody: job admit by NAME.", "Or open the call to whoever has the invitation, where the service allows it: admission open."],
  source: SOURCE, settle: { what: "who lets people into the call", who: "the helpers" }, symptoms: ["waiting to be let in", "nobody lets us in", "stuck in the waiting room"], limit: "one person",
}, ["call"], ({ setup, graph }) => {
  if (graph.joins.length === 0 || setup.service.admission !== "gated" || (stated(setup, "admit") && named(setup, "admit").length === 0)) return undefined;
  const who = named(setup, "admit", "run-call");
  return {
    open: who.length === 0, where: setup.service.where,
    because: who.length === 0 ? "people have to be let into the call, and nobody has that job" : `${list(who)} lets people into the call`,
    summary: who.length === 0 ? "nobody lets people in" : `${list(who)} lets people in`, remedies: () => give(setup, "admit"),
  };
});

export const chatUnwatched = gap({
  code: "chat-unwatched", title: "Nobody reads what the people online write", group: GROUP,
  notice: "Afterwards one finds that three people had written for a quarter of an hour that they hear nothing.",
  why: "Who cannot be heard, or does not want to interrupt, writes; it is the only way in which those online can say that something is wrong.",
  todo: ["Name somebody who reads along, on a device with its sound off: job chat by NAME."],
  source: SOURCE, settle: { what: "who reads what the people online write", who: "the helpers" }, symptoms: ["nobody read the chat", "they wrote and nobody answered", "questions from online were missed"], limit: "one person",
}, ["call"], ({ setup, graph }) => {
  if (graph.joins.length === 0 || (stated(setup, "chat") && named(setup, "chat").length === 0)) return undefined;
  const who = named(setup, "chat");
  if (who.length === 0 && aFew(setup)) return undefined;
  return {
    open: who.length === 0, because: who.length === 0 ? "nobody is named who reads what the people online write" : `${list(who)} reads what the people online write`,
    summary: who.length === 0 ? "nobody reads the chat" : `${list(who)} reads the chat`, remedies: () => give(setup, "chat"),
  };
});

export const presenterOperates = gap({
  code: "presenter-operates", title: "Somebody speaks and runs the call at once", group: GROUP,
  notice: "The talk stops every few minutes because somebody has to be let in, or turned off.",
  why: "Nobody can speak to a room and watch a call at the same time.",
  todo: ["Give the call to somebody who does not speak in that item."],
  source: SOURCE, settle: { who: "whoever speaks" }, symptoms: ["talk was interrupted by the computer", "speaker had to click", "speaker ran the call"], limit: "whoever runs the call speaks in no item alone with it",
}, ["call"], ({ setup, item }) => {
  const who = named(setup, "run-call");
  if (who.length === 0) return undefined;
  const open = who.every((one) => speaks(setup, one, item));
  const job = setup.jobs.find((one) => one.what === "run-call");
  return {
    open, subjects: who, where: job?.where, because: open ? `${list(who)} ${who.length === 1 ? "speaks and runs" : "all speak and run"} the call at once` : `${list(who.filter((one) => !speaks(setup, one, item)))} runs the call and does not speak`,
    summary: `${list(who)} ${open ? "speaks and runs the call" : "runs the call"}`, ...(job === undefined ? {} : { remedies: () => [...handOver(setup, job, who), ...give(setup, "run-call", who)] }),
  };
});

export const zoneMissing = gap({
  code: "zone-missing", title: "Other time zones, and none is stated for the room", group: GROUP,
  notice: "Somebody joins an hour late, and is sure of having been on time.",
  why: "People attend from other time zones, and the times of the text say nothing of the zone they are in.",
  todo: ["State it, and put it into the invitation: zone Europe/Tallinn."],
  source: SOURCE, settle: { what: "the time zone of the times", who: "whoever invites" }, symptoms: ["joined an hour late", "wrong time", "time zone"], limit: "the zone of the room is stated",
}, ["call"], ({ setup }) => (setup.zones.length === 0 ? undefined : {
  open: setup.zone === undefined, because: setup.zone === undefined ? `people attend from ${list(setup.zones)}, and no time zone of the room is stated` : `the times are those of ${setup.zone}`,
  summary: setup.zone === undefined ? "no time zone is stated" : setup.zone,
}));
