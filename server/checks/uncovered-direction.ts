import { canonical } from "../model/names";
import type { Observation } from "../model/observations";
import { figure, withUnit } from "../model/show";
import { Trial } from "../model/trial";
import { listeners } from "../signal/air";
import { called, claims, type Assessment, type Claim } from "../signal/coverage";
import { nameOfNode } from "../signal/edges";
import type { Case, Check, Outcome, Scene, Testimony } from "./check";
import { remediesFor } from "./cover-remedies";
import { concerns, opinion, seatsMeant } from "./observes";

export const uncoveredDirection: Check = {
  entry: {
    code: "uncovered-direction", title: "Somebody is not reached", severity: "error", group: "Each way across",
    notice: "Somebody asks: can you hear us? – and the answer does not come, or cannot be seen.",
    why: "On the way from who speaks or shows to who should hear or see, something is missing: nothing sends or plays it, no cable, no power, or it is too far away to be seen or heard.",
    todo: ["Look where the way breaks: the message names the place.", "Send or play on a device that is in the call.", "Connect what stands unconnected.", "Place, or join with, a device that is owned."],
    source: "common practice, no source; face angle and pick-up limits are model choices",
    symptoms: ["nobody hears the back row", "black picture", "no sound", "cannot see", "cannot hear", "silent", "mute", "not visible", "too small"],
    limit: "every talker, seat and view that the meeting needs has a way across",
  },
  cases: (scene) => claims(scene.graph).map((claim): Case => ({
    key: claim.key, ways: [claim.way], measure: (trial) => measure(scene, claim, trial), remedies: () => remediesFor(scene, claim),
    observed: (seen) => observed(scene, claim, seen),
  })),
};

function measure(scene: Scene, claim: Claim, trial: Trial): Outcome {
  const a = claim.assess(trial);
  const { setup } = scene;
  const where = whereOf(scene, claim, a);
  const gap = a.gaps.find((g) => !(g.open !== undefined && trial.holds(g.open)));
  if (scene.graph.joins.length === 0) {
    return {
      severity: "warning", unknown: "which device joins the call", badness: 0, cause: { key: "no-join", subjects: [], where: setup.titleWhere },
      say: () => ({ because: "no device joins the call yet", effect: "nothing goes across", summary: "no device joins the call yet", chain: [] }),
    };
  }
  if (gap !== undefined) {
    const power = gap.cause.startsWith("no-power");
    return {
      severity: "error", badness: a.gaps.length,
      cause: { key: gap.cause, subjects: gap.between, where: gapWhere(scene, gap.between) ?? where }, ...(power ? { foldUnder: gap.cause } : {}),
      say: () => ({ because: gap.sentence, effect: claim.unmet, summary: gap.sentence, notice: NOTICE[claim.way], chain: a.through === undefined ? [] : [`the way would go through ${a.through}`] }),
    };
  }
  const measured = a.measured;
  const picture = claim.way === "room-sees-online";
  const severity: Outcome["severity"] = a.grade === "bad" ? "error" : a.grade === "poor" && picture ? "warning" : undefined;
  const base = {
    // A way that is there is told by what is measured on it, by whichever code.
    severity, badness: measured === undefined ? -1000 : measured.limit - measured.value,
    ...(measured === undefined ? {} : { measured: { value: measured.value, unit: measured.unit }, limit: { value: measured.limit, unit: measured.unit } }),
    cause: { key: rootOf(scene, claim), subjects: [claim.subject], where },
    doubtful: a.grade === "poor",
  };
  return {
    ...base,
    say: () => ({
      because: reason(claim, a), effect: effectOf(claim, a),
      summary: severity === undefined && a.grade === "good" ? inOrder(claim, a) : `${reason(claim, a)}: ${effectOf(claim, a)}`,
      notice: NOTICE[claim.way],
      chain: measured === undefined ? [] : [`${measured.what} ${withUnit(measured.value, measured.unit)}, ${withUnit(measured.limit, measured.unit)} is needed`],
    }),
  };
}

/**
 * `observed box clear at row 4` is of seats that hear the people online, `observed Ines clear` and `observed audience unclear` of
 * voices that those online hear.
 */
function observed(scene: Scene, claim: Claim, seen: Observation): Testimony | undefined {
  const { setup } = scene;
  const { way } = claim;
  if (way !== "room-hears-online" && way !== "online-hears-room") return undefined;
  const seats = setup.floor.group(claim.subject);
  if (seen.subject !== undefined && canonical(seen.subject) !== canonical(way === "online-hears-room" ? claim.subject : "")) {
    const through = claim.routes.flat().flatMap((edge) => [nameOfNode(edge.from), nameOfNode(edge.to)]);
    if (!through.some((name) => concerns(seen, [name])) || setup.voices.has(canonical(seen.subject)) || setup.floor.group(seen.subject) !== undefined) return undefined;
  }
  // Somebody who speaks without sitting is heard online as a whole; where in the room is another matter.
  if (seen.place !== undefined && way === "online-hears-room" && seats === undefined) return undefined;
  const meant = seatsMeant(setup, seen);
  if (meant !== undefined && !listeners(setup, new Trial()).some((ear) => ear.group === (seats?.name ?? claim.subject) && meant(ear))) return undefined;
  // That it was unclear is no word against a loudspeaker that plays.
  const said = way === "room-hears-online" ? opinion(seen, [], ["clear"]) : opinion(seen, ["unclear", "quiet"], ["clear"]);
  if (said === undefined || meant === undefined) return said;
  return {
    ...said, part: {
      name: seen.place?.words ?? "",
      measure: (trial) => {
        const a = claim.assess(trial, meant);
        const gap = a.gaps.find((g) => !(g.open !== undefined && trial.holds(g.open)));
        if (gap !== undefined) return { severity: "error", badness: a.gaps.length, words: gap.sentence, off: undefined };
        const is = a.measured;
        return {
          severity: a.grade === "bad" ? "error" : undefined, doubtful: a.grade === "poor", badness: is === undefined ? 0 : is.limit - is.value,
          words: is === undefined ? claim.title : `${is.what} ${withUnit(is.value, is.unit)} there, where ${withUnit(is.limit, is.unit)} is needed`,
          off: is === undefined ? undefined : withUnit(Math.abs(is.limit - is.value), is.unit),
        };
      },
    },
  };
}

/** What one notices, way by way. */
const NOTICE: Readonly<Record<Claim["way"], string>> = {
  "room-hears-online": "Somebody online speaks, and the room looks at each other: nobody hears it.",
  "online-hears-room": "The people online write that they hear nothing.",
  "room-sees-online": "Those in the room see a dark screen, or faces too small to tell who speaks.",
  "online-sees-room": "The people online see an empty place, or nothing, and ask who is talking.",
};

/** Talkers who are all too far, or seats that all see too small a picture, have one cause; seats that a camera misses have their own. */
function rootOf(scene: Scene, claim: Claim): string {
  const seats = claim.way.startsWith("online-") && scene.setup.floor.group(claim.subject) !== undefined;
  return seats ? `${claim.way} ${canonical(claim.subject)}` : claim.way;
}

/** What a way that works rests on. */
function inOrder(claim: Claim, a: Assessment): string {
  const by = a.through === undefined ? "" : ` through ${a.through}`;
  if (a.repeatedBy !== undefined) return `${a.repeatedBy} repeats the words of ${called(claim.subject)}${by}`;
  return `${claim.title}${by}${a.measured === undefined ? "" : `, ${margin(claim, a.measured.value)}`}`;
}

/** The measure of a way that works, in words. */
function margin(claim: Claim, value: number): string {
  switch (claim.way) {
    case "room-hears-online": case "online-hears-room": return "";
    case "room-sees-online": return `a face ${figure(value)}° high from the worst seat`;
    case "online-sees-room": return `${figure(value)}° inside the frame`;
  }
}

function reason(claim: Claim, a: Assessment): string {
  const by = a.through ?? "nothing";
  switch (claim.way) {
    case "room-sees-online": return `${by} does not show the people online to ${called(claim.subject)}`;
    case "room-hears-online": return `${by} plays the call`;
    case "online-hears-room": return `${by} sends ${called(claim.subject)}`;
    case "online-sees-room": return `${by} does not have ${called(claim.subject)} in its frame`;
  }
}

function effectOf(claim: Claim, a: Assessment): string {
  const s = a.short;
  const little = a.grade === "poor";
  if (s === undefined || s.of === 1) return little && claim.way.includes("hear") ? claim.unmet.replace("do not hear", "hardly hear").replace("are not heard", "are hardly heard") : claim.unmet;
  if (claim.way === "online-sees-room") return `${s.count} of ${s.of} heads in ${called(s.within)} lie outside`;
  const rows = s.fromRow !== undefined && s.fromRow > 1 ? ` from row ${s.fromRow} on` : "";
  const verb = claim.way === "room-sees-online" ? "cannot make out a face"
    : `are ${little ? "hardly" : "not"} heard online`;
  return `${s.count} of ${s.of} in ${called(s.within)} ${verb}${rows}, worst ${s.worst}`;
}

/** Where in the text a finding belongs: the device that the way leads through, else who is not reached, else the join. */
function whereOf(scene: Scene, claim: Claim, a: Assessment) {
  const through = a.through === undefined ? undefined : scene.graph.endings.get(canonical(a.through))?.device;
  return through?.placed?.where ?? scene.graph.joins.find((j) => j.device === through)?.join.where
    ?? scene.setup.voices.get(canonical(claim.subject))?.where ?? scene.graph.joins[0]?.join.where ?? scene.setup.titleWhere;
}

/** The statement that wants what is missing: the one in a join that names the second of the two, else where that is placed. */
function gapWhere(scene: Scene, between: readonly string[]) {
  const [first, second] = between;
  const state = scene.graph.joins.find((j) => first !== undefined && canonical(j.join.device) === canonical(first));
  const sent = [...(state?.sound ?? []), ...(state?.plays ?? []), ...(state?.pictures ?? []), ...(state?.shows ?? [])]
    .find((s) => second !== undefined && (canonical(s.name) === canonical(second) || canonical(s.name).startsWith(`${canonical(second)}.`)));
  return sent?.where ?? state?.join.where;
}
