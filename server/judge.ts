/**
 * How a case stands up to what is not known: measured at the best guess, at both ends of every open value that it read, one at a
 * time, and at all kind ends together. The one place where levels are decided; no check lowers its own.
 */
import type { Case, Check, Outcome, Saying } from "./checks/check";
import { rank, type Severity } from "./finding";
import { isAssumed, type Ranged } from "./model/ranged";
import { Shelf, Trial, type At, type End, type Narrowed } from "./model/trial";
import { atOnce, type Pieces } from "./pieces";

/** One open value that matters to a case, and what either end of it makes of the case. */
export interface Swing {
  readonly value: Ranged;
  readonly low: Severity | undefined;
  readonly high: Severity | undefined;
  /** How far its ends are apart, in the case's own measure. */
  readonly span: number;
}

export interface Judgement {
  /** What remains of the case once it is judged. */
  readonly case: Pick<Case, "key" | "ways">;
  readonly best: Outcome;
  /** `best` in words. */
  readonly said: Saying;
  /** The level at which it is raised, after what the ranges do to it; nothing where it is in order. */
  readonly severity: Severity | undefined;
  /** The level at the best guess. */
  readonly atBest: Severity | undefined;
  /** Every open value that was read, those that decide most first. */
  readonly swings: readonly Swing[];
  /** Set where an assumption decides whether there is anything to raise. */
  readonly turnedBy: readonly Swing[];
  /** In order at the best guess, but one end of one value makes it an error. */
  readonly couldFail: readonly Swing[];
}

/** A case judged in one item of the programme. */
export interface Judged {
  readonly check: Check;
  readonly item: string | undefined;
  readonly judgement: Judgement;
}

const LEVELS: readonly (Severity | undefined)[] = [undefined, "hint", "warning", "error"];

/** Trials shared by all cases of one study, so that a room computed once for an end is computed once. */
export class Trials {
  readonly #shelf: Shelf;
  readonly #narrowed: Narrowed | undefined;
  readonly best: Trial;
  readonly #single = new Map<string, Trial>();
  readonly #joint = new Map<string, Trial>();

  /** `shelf`: of the setup whose cases are judged. `narrowed`: ranges that hold instead of those of the text. */
  constructor(shelf: Shelf = new Shelf(), narrowed?: Narrowed) {
    this.#shelf = shelf;
    this.#narrowed = narrowed;
    this.best = new Trial(new Map(), shelf, narrowed);
  }

  at(id: string, end: At): Trial {
    return this.kept(this.#single, `${id} ${end}`, new Map([[id, end]]));
  }

  all(ends: ReadonlyMap<string, At>): Trial {
    const key = [...ends].map(([id, end]) => `${id} ${end}`).sort().join("|");
    // Joint trials differ from case to case; what they have in common stays on the shelf.
    if (this.#joint.size > 64) this.#joint.clear();
    return this.kept(this.#joint, key, ends);
  }

  private kept(map: Map<string, Trial>, key: string, ends: ReadonlyMap<string, At>): Trial {
    let trial = map.get(key);
    if (trial === undefined) {
      trial = new Trial(ends, this.#shelf, this.#narrowed);
      map.set(key, trial);
    }
    return trial;
  }
}

/** More open values than any honest case has; beyond it the rest stay at their best guess. */
const MOST_VALUES = 80;

export const judge = (subject: Case, trials: Trials): Judgement | undefined => atOnce(judging(subject, trials));

/** The same a piece at a time: one for each open value. */
export function* judging(subject: Case, trials: Trials): Pieces<Judgement | undefined> {
  const { result: best, read } = trials.best.trace(() => subject.measure(trials.best));
  if (best === undefined) return undefined;
  // What the plan leaves out is there or not; no figure in a range decides it.
  if (best.severity === "plan") return { case: subject, best, said: best.say(), severity: "plan", atBest: "plan", swings: [], turnedBy: [], couldFail: [] };
  const open = [...read.values()].slice(0, MOST_VALUES);
  const swings: Swing[] = [];
  const kind = new Map<string, End>();
  const asItIs = badness(best);
  for (const value of open) {
    const low = subject.measure(trials.at(value.id, "low"));
    const high = subject.measure(trials.at(value.id, "high"));
    const [a, b] = [badness(low), badness(high)];
    swings.push({ value, low: low?.severity, high: high?.severity, span: Math.abs(a - b) });
    // Where neither end is kinder than the best guess, the best guess is the kindest.
    if (Math.min(a, b) < asItIs) kind.set(value.id, a < b ? "low" : "high");
    yield;
  }
  swings.sort((x, y) => turn(y) - turn(x) || y.span - x.span);
  const kindest = kind.size > 1 ? subject.measure(trials.all(kind))?.severity : undefined;
  const ranks = [best.severity, ...swings.flatMap((s) => [s.low, s.high]), ...(kind.size > 1 ? [kindest] : [])].map(rank);
  const atBest = rank(best.severity);
  let least = Math.min(...ranks);
  if (subject.together === true && atBest > 0 && least > 0) least = Math.min(least, yield* together(subject, trials, best, swings));
  // Held over the whole range it keeps the level that it has everywhere; where an end removes it, it drops one and asks.
  const turnedBy = atBest > 0 && least === 0 ? deciding(swings, (s) => Math.min(rank(s.low), rank(s.high)) === 0) : [];
  const asks = subject.asks === true && turnedBy.some((s) => isAssumed(s.value));
  const level = atBest === 0 || asks ? 0 : least > 0 ? least : atBest - 1;
  const couldFail = atBest === 0 ? swings.filter((s) => Math.max(rank(s.low), rank(s.high)) >= 3) : [];
  return { case: subject, best, said: best.say(), severity: LEVELS[level], atBest: best.severity, swings, turnedBy, couldFail };
}

/** So many values are tried in all their corners; of more, so many are set one after the other. */
const MOST_IN_CORNERS = 5;
const MOST_SET = 12;

/**
 * The least level of all values together. Who stands in a line of sight, and which of two sounds is the weaker, depends on all of them:
 * no end of one is kinder by itself. Few values are tried in every corner. Of more, those that weigh most are set one after the other to
 * whichever end is kinder with all that is set already.
 */
function* together(subject: Case, trials: Trials, best: Outcome, swings: readonly Swing[]): Pieces<number> {
  let least = rank(best.severity);
  if (swings.length <= MOST_IN_CORNERS) {
    for (let bits = 0; bits < 2 ** swings.length && least > 0; bits += 1) {
      const corner = new Map(swings.map((s, i): [string, End] => [s.value.id, (bits >> i) % 2 === 0 ? "low" : "high"]));
      least = Math.min(least, rank(subject.measure(trials.all(corner))?.severity));
      yield;
    }
    return least;
  }
  let [ends, at]: [ReadonlyMap<string, End>, Outcome | undefined] = [new Map(), best];
  for (const { value } of swings.slice(0, MOST_SET)) {
    for (const end of ["low", "high"] as const) {
      const tried = new Map([...ends, [value.id, end] as const]);
      const there = subject.measure(trials.all(tried));
      if (badness(there) < badness(at)) [ends, at] = [tried, there];
    }
    yield;
    least = Math.min(least, rank(at?.severity));
    if (least === 0) return least;
  }
  return least;
}

/** Those that decide by themselves; where none does and only all together do, the two that weigh most. */
function deciding(swings: readonly Swing[], alone: (swing: Swing) => boolean): readonly Swing[] {
  const found = swings.filter(alone);
  return found.length > 0 ? found : swings.slice(0, 2);
}

const turn = (swing: Swing): number => Math.abs(rank(swing.low) - rank(swing.high));

/** One number to tell the kinder end by: the level first, then the measure. Nothing to measure is the kindest of all. */
function badness(outcome: Outcome | undefined): number {
  if (outcome === undefined) return -1e9;
  return rank(outcome.severity) * 1e6 + Math.max(-1e5, Math.min(1e5, outcome.badness));
}
