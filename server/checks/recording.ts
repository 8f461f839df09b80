/** Whether the recording that is planned can be made, whether somebody starts it, and whether those who are on it know. */
import { valueOf, type Bound } from "../model/bound";
import { holding } from "../model/during";
import { rewrite } from "../model/edits";
import { unsaid } from "../model/make-ranged";
import { canonical } from "../model/names";
import { list } from "../model/show";
import type { Trial } from "../model/trial";
import type { Case, Check, Remedy, Scene } from "./check";
import { give, named, stated } from "./people";

/** What is to be recorded in an item, as the text says it. */
const planned = ({ setup, item }: Scene): Bound[] => holding(setup.call, "records", item);

/** On what a statement has the recording kept: a device, else the service. */
const keptOn = ({ setup }: Scene, statement: Bound): string | undefined => {
  const name = valueOf(statement, "on", "name")?.text;
  return name === undefined ? undefined : setup.devices.get(canonical(name))?.name ?? name;
};

export const noRecording: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "no-recording", title: "A recording is planned, and is not made", severity: "warning", group: "The call",
    notice: "Whoever could not come asks for the recording, and there is none.",
    why: "The recording is kept by the service, by a device in the call, or by a recorder; not every service keeps one, and in most only whoever runs the call can start it.",
    todo: ["Find out where the call can be recorded: service { recording service }.", "Or name the device that keeps it: records on laptop.", "Name somebody who starts it, and who may: job record by NAME."],
    source: "common practice, no source", symptoms: ["no recording", "forgot to start the recording", "recording button is missing"], limit: "something keeps it, and somebody starts it", settle: { what: "who starts the recording, and who may", who: "the helpers" },
  },
  cases: (scene) => (scene.graph.joins.length === 0 ? [] : planned(scene).flatMap((statement) => [kept(scene, statement), ...started(scene, statement)])),
};

/** What is wrong with where it is to be kept; nothing where nothing is. */
function fault(scene: Scene, statement: Bound, trial: Trial): string | undefined {
  const { setup, graph } = scene;
  const on = keptOn(scene, statement);
  const { recording } = setup.service;
  const device = on === undefined ? undefined : setup.devices.get(canonical(on));
  if (device?.type === "recorder") return device.placed === undefined ? `${device.name} stands nowhere` : undefined;
  if (on !== undefined) {
    if (!graph.joins.some((state) => state.device === device)) return `${on} is neither in the call nor a recorder`;
    if (recording === "none" || recording === "service") return recording === "none" ? "the service lets nobody record" : `the service keeps recordings itself, and ${on} cannot`;
    return recording === "device" || trial.holds(mayRecord(`devices may record the call`)) ? undefined : `nothing is said on whether ${on} may record the call`;
  }
  if (recording === "service") return undefined;
  if (recording === "device") return "the service keeps no recording: a device in the call has to, and none is named";
  if (recording === "none") return "the service keeps no recording";
  return trial.holds(mayRecord("the service keeps a recording")) ? undefined : "nothing is said on whether the service keeps a recording";
}

const mayRecord = (what: string) => unsaid("service.recording", `whether ${what}`, false, "common practice, no source", "Can the call be recorded, and does the service keep the recording or a device in the call?");

function kept(scene: Scene, statement: Bound): Case {
  const on = keptOn(scene, statement);
  return {
    key: `keeps ${on ?? ""} ${scene.graph.joins.map((state) => state.join.device).join(",")}`, ways: ["call"],
    measure: (trial) => {
      const wrong = fault(scene, statement, trial);
      return {
        severity: wrong === undefined ? undefined : "warning", badness: wrong === undefined ? -1 : 1, cause: { key: `keeps ${canonical(on ?? "")}`, subjects: on === undefined ? [] : [on], where: statement.where },
        say: () => ({ because: wrong ?? `${on ?? "the service"} keeps the recording`, effect: "the recording that is planned is not made", summary: wrong ?? `${on ?? "the service"} keeps the recording`, chain: [] }),
      };
    },
    remedies: () => elsewhere(scene, statement),
  };
}

/** A device in the call where the service leaves it to those, the service where it keeps the recording, a recorder that stands there. */
function elsewhere({ setup, graph }: Scene, statement: Bound): Remedy[] {
  const during = statement.tails.during.length === 0 ? "" : ` during ${statement.tails.during.map((name) => name.text).join(" and ")}`;
  const on = (name: string): Remedy => ({ title: `Record on ${name}`, edits: [rewrite(statement, `records on ${name}${during}`)] });
  const { recording } = setup.service;
  return [
    ...(recording === "service" ? [{ title: "Let the service record", edits: [rewrite(statement, `records${during}`)] }] : []),
    ...(recording === "device" ? graph.joins.slice(0, 2).map((state) => on(state.join.device)) : []),
    ...[...setup.devices.values()].filter((device) => device.type === "recorder" && device.placed !== undefined).slice(0, 2).map((device) => on(device.name)),
  ];
}

/** A gap in the plan where nobody starts it, or only somebody who may not. */
function started(scene: Scene, statement: Bound): Case[] {
  const { setup } = scene;
  const on = keptOn(scene, statement);
  const byHand = on !== undefined && setup.devices.get(canonical(on))?.type === "recorder";
  // A job without a person is told as one.
  if (stated(setup, "record") && named(setup, "record").length === 0) return [];
  const may = named(setup, "run-call");
  const starts = named(setup, "record");
  const who = starts.length > 0 || byHand ? starts : may;
  // Where whoever is named runs the call, only they start a recording of it.
  const barred = !byHand && setup.service.runBy === "named" && may.length > 0 && who.length > 0 && !who.some((one) => may.some((other) => canonical(other) === canonical(one)));
  const open = who.length === 0 || barred;
  return [{
    key: `starts ${who.join(",")} ${may.join(",")}`, ways: ["call"],
    measure: () => ({
      severity: open ? "plan" : undefined, badness: open ? 1 : -1, cause: { key: "starts the recording", subjects: barred ? who : [], where: statement.where },
      say: () => ({
        because: barred ? `${list(who)} is to start the recording, and only ${list(may)} can run the call` : open ? "nobody is named who starts the recording" : `${list(who)} starts the recording`, effect: "",
        summary: open ? "nobody starts the recording" : `${list(who)} starts the recording`, chain: [],
      }),
    }),
    remedies: () => (barred ? [] : give(setup, "record")),
  }];
}

export const consentMissing: Check = {
  bearing: "beside", silentInOrder: true,
  entry: {
    code: "consent-missing", title: "A recording is planned, and nothing is said on whether people agreed", severity: "warning", group: "Access and consent",
    notice: "Somebody finds themselves on the recording, and asks who allowed that.",
    why: "Voices and faces are people's own. In many places a recording needs their consent, or at least that they are told before; what exactly, the local law says, and of children and of those who are off camera it says more.",
    todo: ["Ask at booking or in the invitation, and write it down: consent given, or consent announced.", "Say it before the recording starts, and say when it stops.", "Leave out what need not be recorded: records during talk.", "Ask whoever knows the local law."],
    source: "local law; that it is noted: common practice, no source", symptoms: ["recorded without asking", "did not want to be recorded", "nobody told us of the recording"], limit: "consent is noted",
  },
  cases: (scene) => planned(scene).slice(0, 1).map((statement): Case => {
    const consent = scene.setup.call.find((s) => s.row.head === "consent");
    return {
      key: "consent", ways: ["call"],
      measure: () => ({
        severity: consent === undefined ? "warning" : undefined, badness: consent === undefined ? 1 : -1, cause: { key: "consent", subjects: [], where: statement.where },
        say: () => ({
          because: consent === undefined ? "the meeting is recorded, and nothing is said on whether those who are heard and seen agreed" : "those who are heard and seen know of the recording", effect: "",
          summary: consent === undefined ? "nothing is said on consent to the recording" : "consent is noted", chain: [],
        }),
      }),
    };
  }),
};
