/** The six verdicts, each with its weakest link and the facts that it hangs on; and what to find out first. */
import type { Scene } from "./checks/check";
import { rank, type Finding, type Question, type WayVerdict } from "./finding";
import type { Judged } from "./judge";
import { list, rate, shown } from "./model/show";
import type { Setup } from "./model/setup";
import { WAYS, type Verdict, type WayName } from "./model/ways";
import { questionOf } from "./questions";
import { Trial } from "./model/trial";
import { FAR } from "./signal/pick-up/hearing";
import { seatsThrough } from "./signal/pick-up/seats-heard";
import { streamsOver, total } from "./signal/streams";

/** Which of what was judged the author accepts. */
export type Accepted = (judged: Judged) => boolean;

export function verdicts(setup: Setup, judged: readonly Judged[], items: readonly (string | undefined)[], accepted: Accepted): WayVerdict[] {
  return WAYS.flatMap((way) => {
    const each = items.map((item) => ({ item, ...verdictOf(way, judged.filter((j) => j.item === item && j.judgement.case.ways.includes(way)), setup, accepted) }));
    const first = each[0];
    if (first === undefined) return [];
    const same = each.every((v) => v.verdict === first.verdict && v.weakest === first.weakest);
    if (same) return [{ way, verdict: first.verdict, weakest: first.weakest, hangsOn: first.hangsOn }];
    return each.map((v) => ({ way, verdict: v.verdict, weakest: v.weakest, hangsOn: v.hangsOn, ...(v.item === undefined ? {} : { item: v.item }) }));
  });
}

function verdictOf(way: WayName, judged: readonly Judged[], setup: Setup, accepted: Accepted): { verdict: Verdict; weakest: string; hangsOn: readonly string[] } {
  // What is missing in the plan changes no verdict, and neither does what is in it.
  const deciding = judged.filter((j) => j.check.bearing !== "beside" && j.check.entry.severity !== "plan");
  if (deciding.every((j) => j.check.silentInOrder === true && j.judgement.severity === undefined)) {
    const nobody = setup.joins.length === 0;
    // With nobody who speaks there is nothing to hear or see from the room, and nothing to judge.
    if (!nobody && (way === "online-hears-room" || way === "online-sees-room")) return { verdict: "cannot-tell", weakest: "the text does not say who speaks", hangsOn: ["who speaks"] };
    return { verdict: nobody || way === "internet" ? "cannot-tell" : "works", weakest: nobody ? "no device joins the call yet" : way === "call" ? callInOrder(setup) : "nothing is sent", hangsOn: [] };
  }
  // A risk that is taken fails no way: it leaves it doubtful, and is told as what it hangs by.
  const graded = deciding.map((j) => ({ j, taken: accepted(j), verdict: verdictFor(j) }))
    .map((g) => (g.taken && SEVERE[g.verdict] > SEVERE.doubtful ? { ...g, verdict: "doubtful" as const } : g)).sort((a, b) => SEVERE[b.verdict] - SEVERE[a.verdict]
    || rank(b.j.judgement.atBest) - rank(a.j.judgement.atBest) || b.j.judgement.best.badness - a.j.judgement.best.badness);
  const weakest = graded.find((g) => g.verdict !== "works" || g.j.check.silentInOrder !== true) ?? graded[0];
  if (weakest === undefined) return { verdict: "cannot-tell", weakest: "", hangsOn: [] };
  const { judgement } = weakest.j;
  if (weakest.taken && weakest.verdict !== "works") return { verdict: weakest.verdict, weakest: `accepted: ${judgement.said.summary}`, hangsOn: [] };
  const swings = weakest.verdict === "works" || weakest.verdict === "fails" ? [] : judgement.turnedBy.length > 0 ? judgement.turnedBy : judgement.couldFail.length > 0 ? judgement.couldFail
    : judgement.swings.filter((s) => rank(s.low) !== rank(judgement.atBest) || rank(s.high) !== rank(judgement.atBest));
  const facts = judgement.best.unknown === undefined ? swings.map((s) => shown(s.value)) : [judgement.best.unknown];
  return { verdict: weakest.verdict, weakest: judgement.said.summary, hangsOn: [...new Set(facts)].slice(0, 2) };
}

const SEVERE: Readonly<Record<Verdict, number>> = { works: 0, doubtful: 1, "cannot-tell": 2, fails: 3 };

function verdictFor({ judgement, check }: Judged): Verdict {
  // A way fails when it does not reach; that one of the devices on it ails may leave another route.
  if (judgement.severity === "error") return check.bearing === "device" ? "doubtful" : "fails";
  if (judgement.best.unknown !== undefined) return "cannot-tell";
  if (rank(judgement.atBest) >= rank("warning")) return "doubtful";
  if (judgement.best.doubtful === true || judgement.couldFail.length > 0) return "doubtful";
  return "works";
}

const callInOrder = (setup: Setup): string => `${list(setup.joins.map((j) => j.device))} ${setup.joins.length === 1 ? "joins" : "join"}; nothing comes back`;

/** Questions in the order in which their answers would change a verdict. */
export function openQuestions(setup: Setup, scenes: readonly Scene[], findings: readonly Finding[], judged: readonly Judged[], accepted: Accepted): Question[] {
  const out = new Map<string, Question>();
  // How loud people speak is asked of one of them, whichever order they stand in.
  const ofVoices = new Map<string, Question>();
  const add = (question: Question): void => {
    const known = out.get(question.id);
    if (known === undefined) out.set(question.id, question);
    else out.set(question.id, { ...(question.weight > known.weight ? question : known), ways: [...new Set([...known.ways, ...question.ways])], weight: Math.max(known.weight, question.weight) });
  };
  for (const finding of findings) if (finding.question !== undefined) add(finding.question);
  uplinkQuestions(setup, scenes).forEach(add);
  talkerQuestions(setup, scenes).forEach(add);
  for (const one of judged) {
    // What would be asked of a risk that is taken changes nothing, nor what decides no way.
    if (accepted(one) || one.check.bearing === "beside") continue;
    const { judgement, check } = one;
    for (const swing of judgement.severity === undefined ? judgement.turnedBy.slice(0, 1) : []) {
      const question = questionOf(judgement, swing, judgement.case.ways, check.entry.title);
      if (question.weight > 1) add(question);
    }
    for (const swing of judgement.couldFail) add(questionOf(judgement, swing, judgement.case.ways, check.entry.title));
    // What is only guessed and could turn a warning either way is worth a look, too.
    if (check.asksWhenRaised === true && judgement.severity === undefined) continue;
    for (const swing of judgement.swings.slice(0, 3)) {
      // Whether there is a hint to give or none is nothing that anybody would go and find out.
      if (Math.max(rank(swing.low), rank(swing.high)) < rank("warning")) continue;
      if (rank(swing.low) === rank(swing.high) || judgement.turnedBy.includes(swing) || judgement.couldFail.includes(swing)) continue;
      const question = questionOf(judgement, swing, judgement.case.ways, check.entry.title);
      // Not what turns a hint alone, nor where exactly something is put: that is no fact of the venue.
      if (question.weight <= 1) continue;
      const lighter = { ...question, weight: question.weight - 1 };
      if (!swing.value.id.startsWith("voice.")) add(lighter);
      else {
        const known = ofVoices.get(check.entry.code);
        if (known === undefined || lighter.weight > known.weight || (lighter.weight === known.weight && lighter.id < known.id)) ofVoices.set(check.entry.code, lighter);
      }
    }
  }
  ofVoices.forEach((question) => add(question));
  return [...out.values()].sort((a, b) => b.weight - a.weight || a.id.localeCompare(b.id));
}

/** Where the text names nobody who speaks, whether the seats do too decides what the microphones must reach. */
function talkerQuestions(setup: Setup, scenes: readonly Scene[]): Question[] {
  const scene = scenes[0];
  const seats = [...setup.voices.values()].find((voice) => voice.seats !== undefined);
  if (scene === undefined || seats === undefined || setup.joins.length === 0 || setup.items.length > 0 || [...setup.voices.values()].some((v) => v.stated)) return [];
  const heard = seatsThrough(scene.graph, seats, new Trial());
  const far = heard?.seats.filter((seat) => seat.ratio < FAR.warning) ?? [];
  if (heard === undefined || far.length === 0) return [];
  const from = [...new Set(far.map((seat) => seat.row))].sort((a, b) => a - b).find((row) => heard.seats.every((seat) => seat.row < row || far.includes(seat)));
  const rows = from !== undefined && from > 1 ? `, all of them from row ${from} on` : "";
  return [{
    id: "who-speaks", ask: `Who speaks, besides ${setup.lectern.name}?`, ways: ["online-hears-room"], weight: 2.5,
    answers: [
      { when: "nobody else", then: "in order" },
      { when: "the audience too", then: `${far.length} of ${heard.seats.length} seats are too far from ${heard.hearing.mic.part.id} to be heard well online${rows}` },
    ],
    write: "talker NAME at lectern, repeats audience", where: seats.where,
  }];
}

function uplinkQuestions(setup: Setup, scenes: readonly Scene[]): Question[] {
  const unknown = setup.internets.length === 0 ? [undefined] : setup.internets.filter((i) => i.up === undefined);
  return unknown.flatMap((internet): Question[] => {
    const need = Math.max(0, ...scenes.map((scene) => total(streamsOver(scene.graph, internet), "target")));
    const least = Math.max(0, ...scenes.map((scene) => total(streamsOver(scene.graph, internet).filter((s) => s.what !== "picture"), "minimum")));
    if (need === 0) return [];
    return [{
      id: `internet.${internet?.name ?? "venue"}.up`, ask: `What uplink does ${internet?.name ?? "the venue"} have at the hour of the meeting?`, ways: ["internet"], weight: 3.2,
      answers: [
        { when: `${rate(need / 0.75)} and more`, then: "everything fits" },
        { when: `down to ${rate(least / 0.75)}`, then: "a smaller picture, or none" },
        { when: "less", then: "not even the sound fits: another way to the outside" },
      ],
      write: `internet ${internet?.name ?? "venue"} { up ${rate(need / 0.75)}${setup.date === undefined ? "" : ` measured ${setup.date} 19:00`} }`,
      ...(internet === undefined ? {} : { where: internet.where }),
    }];
  });
}
