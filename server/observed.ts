/**
 * What was noticed on the evening, held against the model: it takes ends off ranges that would make it untrue, denies cases, and
 * where nothing that is open would make it true, the model is wrong somewhere, and that is said.
 *
 * Ends are tried one at a time, all else at its best guess, as the judge does. So an end that is taken off is one that would make
 * what was noticed untrue by itself; two values that could only be wrong together keep their ranges.
 */
import type { Case, Check, Opinion, Outcome, Reading, Scene, Testimony } from "./checks/check";
import { rank, type TextProblem } from "./finding";
import type { Judgement, Trials } from "./judge";
import { canonical } from "./model/names";
import type { Observation } from "./model/observations";
import { isOpen, type How, type Ranged } from "./model/ranged";
import { amount, rate, sentence, shown, withUnit } from "./model/show";
import type { Setup } from "./model/setup";
import type { At, End, Narrowed, Trial } from "./model/trial";

/** A case as it stands in one item of the programme. */
export interface Subject {
  readonly scene: Scene;
  readonly check: Check;
  readonly case: Case;
}

/** One statement, and what came of it. */
export interface Noticed {
  readonly seen: Observation;
  /** As written, without `observed`. */
  readonly text: string;
  /** In words, a clause each. */
  readonly came: readonly string[];
}

export interface Evidence {
  readonly narrowed: Narrowed;
  readonly problems: readonly TextProblem[];
  readonly noticed: readonly Noticed[];
  /** The statement that denies what a case raises, if one does. */
  denies(subject: Subject): Noticed | undefined;
}

/** Halvings between the best guess and an end: what is left unclear is a 256th of the way. */
const HALVINGS = 8;
/** What the author vouches for stays as it is stated. */
const NARROWS: ReadonlySet<How> = new Set<How>(["guessed", "kind", "assumed", "unsaid"]);
/** More open values than any honest case has. */
const MOST_VALUES = 80;

/** What one case has to say to one statement; cases of equal key have the same to say in every item. */
interface Voice {
  readonly subjects: Subject[];
  readonly key: string;
  readonly testimony: Testimony;
}

interface Statement extends Noticed {
  readonly came: string[];
  readonly voices: readonly Voice[];
}

const keyOf = ({ check, case: one }: Subject): string => `${check.entry.code} ${one.key}`;
const placeOf = (subject: Subject): string => `${subject.scene.item ?? ""} | ${keyOf(subject)}`;

export function weighEvening(setup: Setup, subjects: readonly Subject[], trials: Trials): Evidence {
  const problems: TextProblem[] = [];
  const denied = new Map<string, Noticed>();
  const cuts: Cut[] = [];
  // The order in which things were written down changes nothing.
  const statements = [...setup.observations].sort((a, b) => orderOf(setup, a) - orderOf(setup, b) || a.where.start - b.where.start).map((seen): Statement => ({
    seen, text: textOf(setup, seen), came: [], voices: voicesOf(seen, subjects),
  }));
  const aside = atOdds(statements, problems);
  for (const one of statements) {
    if (aside.has(one)) continue;
    const measured = measuredUplink(setup, one, problems);
    if (one.voices.length === 0) {
      // A name that is not known is a mistake of its own.
      if (!measured && (one.seen.subject === undefined || setup.names.find(one.seen.where.path, one.seen.subject) !== undefined)) problems.push(idle(one));
      continue;
    }
    const all = mattersOf(one, trials).map((matter) => ({ matter, found: hold(matter, trials) }));
    for (const { matter, found } of all) {
      cuts.push(...found.cuts.map((cut) => ({ ...cut, by: one })));
      if (found.stands === "otherwise") problems.push(otherwise(one, matter, found, trials));
    }
    const [worst] = STANDS.flatMap((stands) => all.filter(({ found }) => found.stands === stands));
    if (worst !== undefined) one.came.push(wordsOf(worst.found));
    for (const { testimony, subjects: all } of one.voices) {
      const [first] = all;
      if (testimony.says !== "denies" || first === undefined || !coversWorst(testimony, first.case, trials.best)) continue;
      for (const subject of all) if (!denied.has(placeOf(subject))) denied.set(placeOf(subject), one);
    }
  }
  const narrowed = narrow(cuts);
  for (const value of narrowed.values()) {
    for (const one of new Set(cuts.filter((cut) => cut.value.id === value.id).map((cut) => cut.by))) {
      (one as Statement).came.push(isOpen(value) ? `narrows ${shown({ ...value, from: { ...value.from, narrowed: undefined } })}` : `settles ${value.label}`);
    }
  }
  return {
    narrowed, problems: oneAPlace(problems), noticed: statements.map((one) => ({ ...one, came: [...new Set(one.came)] })),
    denies: (subject) => denied.get(placeOf(subject)),
  };
}

const orderOf = (setup: Setup, seen: Observation): number => setup.files.findIndex((file) => file.path === seen.where.path);

function textOf(setup: Setup, { where, what }: Observation): string {
  const text = setup.files.find((file) => file.path === where.path)?.text.slice(where.start, where.end) ?? what;
  const words = text.replace(/\s+/g, " ").replace(/^observed /i, "").trim();
  return words.length > 60 ? `${words.slice(0, 59)}…` : words;
}

function voicesOf(seen: Observation, subjects: readonly Subject[]): Voice[] {
  const during = seen.statement.tails.during.map((name) => canonical(name.text));
  const out = new Map<string, Voice>();
  for (const subject of subjects) {
    if (during.length > 0 && !during.includes(canonical(subject.scene.item ?? ""))) continue;
    const key = keyOf(subject);
    const known = out.get(key);
    if (known !== undefined) {
      known.subjects.push(subject);
      continue;
    }
    const testimony = subject.case.observed?.(seen);
    if (testimony !== undefined && (testimony.says !== "reads" || seen.value !== undefined)) out.set(key, { key, testimony, subjects: [subject] });
  }
  return [...out.values()];
}

/** Statements that cannot both be true are set aside, both of them: one message for each two. */
function atOdds(statements: readonly Statement[], problems: TextProblem[]): ReadonlySet<Statement> {
  const aside = new Set<Statement>();
  statements.forEach((second, i) => {
    const first = statements.slice(0, i).find((other) => contradict(other, second) || contradict(second, other));
    if (first === undefined) return;
    for (const one of [first, second]) {
      aside.add(one);
      one.came.push("set aside");
    }
    problems.push({
      code: "observed-both-ways", severity: "warning", where: second.seen.where, related: [{ where: first.seen.where, message: `“${first.text}”` }],
      message: `“${first.text}” and “${second.text}” contradict each other, so neither counts. Say where, or during which item, each was noticed.`,
    });
  });
  return aside;
}

/** Whether the second says of all that it speaks of what the first denies, or read another figure of the same thing. */
function contradict(first: Statement, second: Statement): boolean {
  const shared = (voice: Voice): Voice | undefined => first.voices.find((other) => other.key === voice.key && other.subjects.some((a) => voice.subjects.some((b) => placeOf(a) === placeOf(b))));
  const agreeing = second.voices.filter((voice) => voice.testimony.says === "agrees");
  if (agreeing.length > 0) {
    return agreeing.every((voice) => {
      const other = shared(voice)?.testimony;
      if (other?.says !== "denies") return false;
      return other.part === undefined || other.part.name === (voice.testimony as Opinion).part?.name;
    });
  }
  return second.voices.some((voice) => {
    const other = shared(voice)?.testimony;
    const [a, b] = [first.seen.value, second.seen.value];
    if (voice.testimony.says !== "reads" || other?.says !== "reads" || other.name !== voice.testimony.name || a === undefined || b === undefined) return false;
    return Math.max(a.low - b.high, b.low - a.high) > 2 * voice.testimony.slack;
  });
}

const idle = (one: Statement): TextProblem => ({
  code: "observed-idle", severity: "warning", where: one.seen.where, related: [],
  message: one.seen.what === "uplink" ? `“${one.text}” is of no connection that the text states: internet venue { }.`
    : (one.seen.what === "level" && one.seen.value === undefined) ? `“${one.text}” wants the figure that was read: observed box level 62 dBA at row 3.`
    : `“${one.text}” speaks about nothing that is judged in this setup, so it changes nothing. Was another device or place meant?`,
});

/** A measured uplink stands in the setup already; where the text states another, that is said. */
function measuredUplink(setup: Setup, one: Statement, problems: TextProblem[]): boolean {
  const internet = setup.internets.find(({ observed }) => observed?.by.includes(one.seen));
  if (internet?.up === undefined) return false;
  const { stated } = internet.observed ?? {};
  one.came.push(`counts as the uplink of ${internet.name}`);
  const off = stated === undefined ? 0 : Math.max(internet.up.low - stated.high, stated.low - internet.up.high);
  if (stated !== undefined && off > UPLINK_SLACK * stated.best) {
    problems.push({
      code: "observed-otherwise", severity: "warning", where: one.seen.where, related: stated.from.where === undefined ? [] : [{ where: stated.from.where, message: "stated here" }],
      message: `The text has ${shown(stated)}; what was measured is off by ${rate(off)}, and counts instead. Correct what is stated.`,
    });
  }
  return true;
}

/** So far apart may two measurements of one uplink lie, as a share. Common practice, no source. */
const UPLINK_SLACK = 0.1;

/** One question put to the model: is it in this trial as it was noticed? */
interface Matter {
  fits(trial: Trial): boolean;
  /** The farther, the less does the trial agree; only compared with itself. */
  far(trial: Trial): number;
  /** What the model says in a trial, and how far it is from what was noticed. */
  says(trial: Trial): { readonly words: string; readonly off: string | undefined };
}

/** What is denied must be in order everywhere; what was noticed must be somewhere. */
function mattersOf(one: Statement, trials: Trials): Matter[] {
  const { value } = one.seen;
  const agreeing = one.voices.filter((voice) => voice.testimony.says === "agrees");
  const out: Matter[] = [];
  for (const { testimony, subjects: [subject] } of one.voices) {
    if (subject === undefined) continue;
    if (testimony.says === "reads" && value !== undefined) out.push(reading(testimony, value));
    if (testimony.says === "denies") {
      out.push({
        fits: (trial) => rank(view(testimony, subject.case, trial)?.severity) < rank("warning"),
        far: (trial) => farOf(view(testimony, subject.case, trial)), says: (trial) => saidOf(testimony, subject.case, trial),
      });
    }
  }
  if (agreeing.length > 0) {
    const views = (trial: Trial) => agreeing.flatMap(({ testimony, subjects: [subject] }) => (subject === undefined ? [] : [{ testimony: testimony as Opinion, subject }]))
      .map((each) => ({ ...each, is: view(each.testimony, each.subject.case, trial) }));
    out.push({
      fits: (trial) => views(trial).some(({ is }) => rank(is?.severity) >= rank("hint") || is?.doubtful === true),
      far: (trial) => Math.min(...views(trial).map(({ is }) => -farOf(is))),
      says: (trial) => {
        const nearest = views(trial).sort((a, b) => farOf(b.is) - farOf(a.is))[0];
        return nearest === undefined ? { words: "nothing", off: undefined } : saidOf(nearest.testimony, nearest.subject.case, trial);
      },
    });
  }
  return worstOf(out, trials);
}

/** Those that stand otherwise in all trials are said once, by the worst of them; so the worst comes first. */
const worstOf = (matters: readonly Matter[], trials: Trials): Matter[] => [...matters].sort((a, b) => b.far(trials.best) - a.far(trials.best));

function reading(testimony: Reading, read: { readonly low: number; readonly high: number }): Matter {
  const off = (trial: Trial): number => {
    const is = testimony.figure(trial);
    return is === undefined ? Infinity : Math.max(0, read.low - is, is - read.high);
  };
  return {
    fits: (trial) => off(trial) <= testimony.slack, far: off,
    says: (trial) => {
      const is = testimony.figure(trial);
      return is === undefined ? { words: `${testimony.name} is nothing that could be read`, off: undefined } : { words: `${testimony.name} is ${withUnit(is, testimony.unit)}`, off: withUnit(off(trial), testimony.unit) };
    },
  };
}

const view = (testimony: Opinion, subject: Case, trial: Trial): Pick<Outcome, "severity" | "badness" | "doubtful"> | undefined =>
  testimony.part === undefined ? subject.measure(trial) : testimony.part.measure(trial);

const farOf = (is: Pick<Outcome, "severity" | "badness"> | undefined): number => (is === undefined ? -1e9 : rank(is.severity) * 1e6 + Math.max(-1e5, Math.min(1e5, is.badness)));

function saidOf(testimony: Opinion, subject: Case, trial: Trial): { readonly words: string; readonly off: string | undefined } {
  const part = testimony.part?.measure(trial);
  if (part !== undefined) return { words: part.words, off: part.off };
  const is = subject.measure(trial);
  if (is === undefined) return { words: "there is nothing of the kind", off: undefined };
  const said = is.say();
  const words = is.severity === undefined || said.effect === "" ? (is.severity === undefined ? said.summary : said.because) : `${said.because}: ${said.effect}`;
  const off = is.measured === undefined || is.limit === undefined ? undefined : withUnit(Math.abs(is.measured.value - is.limit.value), is.measured.unit);
  return { words, off };
}

/** Whether the part that was noticed holds the worst of the case: then nothing is left that could be raised. */
function coversWorst(testimony: Opinion, subject: Case, best: Trial): boolean {
  if (testimony.part === undefined) return true;
  const [part, whole] = [testimony.part.measure(best), subject.measure(best)];
  return part !== undefined && (whole === undefined || part.badness >= whole.badness - 1e-6);
}

interface Cut {
  readonly value: Ranged;
  readonly end: End;
  readonly to: number;
  readonly by: Noticed;
}

/** The worst first: a statement agrees with the model where all of it does. */
const STANDS = ["otherwise", "may", "agrees"] as const;

interface Held {
  /** `agrees` at the best guess; `may` be at some end; `otherwise` wherever what is open lies. */
  readonly stands: "agrees" | "may" | "otherwise";
  readonly cuts: readonly Omit<Cut, "by">[];
  /** Where it comes nearest, if anything is open. */
  readonly nearest: { readonly value: Ranged; readonly end: End } | undefined;
}

function hold(matter: Matter, trials: Trials): Held {
  const { result: fits, read } = trials.best.trace(() => matter.fits(trials.best));
  const open = [...read.values()].slice(0, MOST_VALUES);
  const ends = open.flatMap((value) => (["low", "high"] as const).map((end) => ({ value, end })));
  if (fits) {
    const cuts = ends.filter(({ value, end }) => NARROWS.has(value.from.how) && value[end] !== value.best && !matter.fits(trials.at(value.id, end)));
    return { stands: "agrees", nearest: undefined, cuts: cuts.map((cut) => ({ ...cut, to: nearestThatFits(matter, cut.value, cut.end, trials) })) };
  }
  const by = ends.map((one) => ({ ...one, far: matter.far(trials.at(one.value.id, one.end)), fits: matter.fits(trials.at(one.value.id, one.end)) })).sort((a, b) => Number(b.fits) - Number(a.fits) || a.far - b.far);
  const [nearest] = by;
  if (nearest?.fits === true) return { stands: "may", nearest, cuts: [] };
  // What no one end brings about, all kind ends together may.
  const asItIs = matter.far(trials.best);
  const kind = new Map<string, At>();
  for (const one of by) if (one.far < asItIs && !kind.has(one.value.id)) kind.set(one.value.id, one.end);
  const together = kind.size > 1 && matter.fits(trials.all(kind));
  return { stands: together ? "may" : "otherwise", nearest: nearest !== undefined && nearest.far < asItIs ? nearest : undefined, cuts: [] };
}

/** The farthest value towards an end of which what was noticed is still true, to within a 256th of the way. A yes or no has nothing between. */
function nearestThatFits(matter: Matter, value: Ranged, end: End, trials: Trials): number {
  if (value.from.how === "unsaid") return value.best;
  let [good, bad] = [value.best, value[end]];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (good + bad) / 2;
    if (matter.fits(trials.at(value.id, middle))) good = middle;
    else bad = middle;
  }
  return good;
}

/** Of several cuts at one end the one nearest to the best guess holds. */
function narrow(cuts: readonly Cut[]): Narrowed {
  const out = new Map<string, Ranged>();
  for (const value of new Map(cuts.map((cut) => [cut.value.id, cut.value])).values()) {
    const own = cuts.filter((cut) => cut.value.id === value.id);
    const tightest = (end: End): Cut | undefined => own.filter((cut) => cut.end === end).reduce<Cut | undefined>((so, cut) => (so === undefined || Math.abs(cut.to - value.best) < Math.abs(so.to - value.best) ? cut : so), undefined);
    const [low, high] = [tightest("low"), tightest("high")];
    const by = [...new Set([low, high].flatMap((cut) => (cut === undefined ? [] : [cut.by])))];
    const [first] = by;
    if (first === undefined) continue;
    out.set(value.id, {
      ...value, low: low?.to ?? value.low, high: high?.to ?? value.high,
      from: { ...value.from, narrowed: { by: by.map((one) => `observed ${one.text}`).join("” and “"), where: first.seen.where } },
    });
  }
  return out;
}

function otherwise(one: Statement, matter: Matter, held: Held, trials: Trials): TextProblem {
  const is = matter.says(trials.best);
  const by = is.off === undefined ? "" : `, ${is.off} off`;
  const nearest = held.nearest && { ...held.nearest, is: matter.says(trials.at(held.nearest.value.id, held.nearest.end)) };
  const would = nearest === undefined ? "No assumption would bring it about: something that the text states is otherwise, or something is missing in it"
    : nearest.value.from.how === "unsaid" ? `Nearest to it comes another answer to ${nearest.value.label}${nearest.is.off === undefined ? "" : `, and even then it is ${nearest.is.off} off`}`
    : `Nearest to it comes ${nearest.value.label} at ${amount(nearest.value[nearest.end], nearest.value.dimension)} in place of ${amount(nearest.value.best, nearest.value.dimension)}${nearest.is.off === undefined ? "" : `, and even then it is ${nearest.is.off} off`}: that would have to lie farther out, or something that is stated is otherwise`;
  return {
    code: "observed-otherwise", severity: "warning", where: one.seen.where, related: nearest?.value.from.where === undefined ? [] : [{ where: nearest.value.from.where, message: nearest.value.label }],
    message: `“${one.text}” was noticed, and the model says otherwise over its whole range: ${is.words}${by}. ${sentence(would)}`,
  };
}

function wordsOf(held: Held): string {
  switch (held.stands) {
    case "agrees": return "agrees with the best guess";
    case "otherwise": return "the model says otherwise";
    case "may": {
      const { nearest } = held;
      return nearest === undefined ? "agrees with the model only if several guesses are off"
        : `agrees with the model only if ${nearest.value.from.how === "unsaid" ? `the answer to ${nearest.value.label} is another` : `${nearest.value.label} is nearer to ${amount(nearest.value[nearest.end], nearest.value.dimension)} than to ${amount(nearest.value.best, nearest.value.dimension)}`}`;
    }
  }
}

/** One statement is contradicted once, however many cases do it. */
function oneAPlace(problems: readonly TextProblem[]): TextProblem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = `${problem.code} ${problem.where.path} ${problem.where.start}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** What was noticed raises nothing: where a narrower range leaves less of the kind end, the level stays what it was. */
export function keepLevels(now: Judgement, before: Judgement | undefined): Judgement {
  if (before === undefined) return now;
  const couldFail = now.couldFail.filter((swing) => before.couldFail.some((other) => other.value.id === swing.value.id));
  return rank(now.severity) > rank(before.severity) ? { ...now, severity: before.severity, couldFail } : { ...now, couldFail };
}

/** A case that what was noticed denies is in order, as noticed. */
export function inOrder(judgement: Judgement, text: string): Judgement {
  if (judgement.atBest === undefined && judgement.best.unknown === undefined && judgement.best.doubtful !== true && judgement.couldFail.length === 0) return judgement;
  const { cause } = judgement.best;
  const said = { ...judgement.said, summary: `noticed on the evening: ${text}` };
  return { ...judgement, best: { severity: undefined, badness: 0, cause, say: () => said }, said, severity: undefined, atBest: undefined, turnedBy: [], couldFail: [], swings: [] };
}
