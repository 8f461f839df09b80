/** What a check is: cases to measure, and what to say of each. Ranges, levels, folding and budget are the study's. */
import type { Amount, Severity } from "../finding";
import type { Edit } from "../model/edits";
import { canonical } from "../model/names";
import type { SourceFile } from "../model/files";
import type { Observation } from "../model/observations";
import type { Setup } from "../model/setup";
import type { Trial } from "../model/trial";
import type { WayName } from "../model/ways";
import type { Where } from "../model/where";
import type { Graph } from "../signal/graph";

/** A setup in one item of its programme. */
export interface Scene {
  readonly setup: Setup;
  readonly item: string | undefined;
  readonly graph: Graph;
}

/** What came of measuring a case in one trial. */
export interface Outcome {
  /** Nothing where the case is in order. */
  readonly severity: Severity | undefined;
  /** In order, but near enough to its limit that the way is doubtful. */
  readonly doubtful?: boolean;
  /** The fact that would decide it is not in the text: which one. */
  readonly unknown?: string;
  /** How far beyond the limit, in whatever unit the check measures; only compared with other trials of the same case. */
  readonly badness: number;
  readonly measured?: Amount;
  readonly limit?: Amount;
  /** The root cause: findings of one code and one cause are one finding. */
  readonly cause: { readonly key: string; readonly subjects: readonly string[]; readonly where: Where };
  /** Key of another cause of which this is but a consequence. */
  readonly foldUnder?: string;
  /** In words; asked for once a case is judged, not in every trial. */
  say(): Saying;
}

export interface Saying {
  /** The root cause in a sentence, and what follows from it; of several, the effects are joined. Without one it folds silently. */
  readonly because: string;
  readonly effect: string;
  /** The case in a few words, whether it is in order or not: the weakest link of its way. */
  readonly summary: string;
  readonly chain: readonly string[];
  /** What one notices, where it differs from what the code says in general. */
  readonly notice?: string;
  readonly related?: readonly { readonly where: Where; readonly message: string }[];
}

export interface Case {
  /** Cases of one check with equal keys come out equal in every item. */
  readonly key: string;
  readonly ways: readonly WayName[];
  /** Where what is assumed decides, nothing is raised: the fact is asked for, and the way is doubtful. */
  readonly asks?: true;
  /** No end of a value is kinder by itself: they are tried together. */
  readonly together?: true;
  measure(trial: Trial): Outcome | undefined;
  /** Remedies to try, cheapest first: a setting, a move, something owned, something to borrow. */
  remedies?(outcome: Outcome): readonly Remedy[];
  /** What something that was noticed on the evening says about this case; nothing where it speaks of something else. */
  observed?(seen: Observation): Testimony | undefined;
}

/** What was noticed, as far as a case is concerned. */
export type Testimony = Opinion | Reading;

/** Somebody heard it, or heard it not. */
export interface Opinion {
  /** `denies`: were it as was noticed, the case would be in order. `agrees`: it is what the case would raise. */
  readonly says: "denies" | "agrees";
  /** Where less was noticed than the case covers, such as one row of all: which part of it, and how the model sees that part. */
  readonly part?: { readonly name: string; measure(trial: Trial): PartOutcome | undefined };
}

/** What comes of a part of a case: its measure as that of the whole, in words, and how far it lies from its limit. */
export interface PartOutcome extends Pick<Outcome, "severity" | "badness" | "doubtful"> {
  readonly words: string;
  readonly off: string | undefined;
}

/** Somebody read a figure. */
export interface Reading {
  readonly says: "reads";
  /** What was read, as a sentence has it: `the level of box in row 3`. Two readings of one name are of the same thing. */
  readonly name: string;
  readonly unit: string;
  /** How far a reading may be off, in the unit. */
  readonly slack: number;
  /** What the model has for it. */
  figure(trial: Trial): number | undefined;
}

export interface Remedy {
  /** Imperative, short. */
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** What a code means, for `explain`. */
export interface Entry {
  readonly code: string;
  readonly title: string;
  /** The worst level at which it is raised. */
  readonly severity: Severity;
  readonly group: string;
  /** What one notices on the evening. */
  readonly notice: string;
  readonly why: string;
  readonly todo: readonly string[];
  readonly source: string;
  readonly symptoms: readonly string[];
  readonly limit: string;
  /** Of a gap in the plan: what there is to settle before the evening, and with whom. */
  readonly settle?: Settle;
}

export interface Settle {
  /** As `still open:` has it; without one, what the finding says. */
  readonly what?: string;
  /** Who would know, or decides. Common practice. */
  readonly who: "whoever invites" | "the helpers" | "whoever speaks" | "the venue" | "whoever brings the kit";
}

export interface Check {
  readonly entry: Entry;
  /** What it means for a way: `beside` does not decide whether it works, `device` is about one device, and another may carry the way. */
  readonly bearing?: "beside" | "device";
  /** In order it says nothing on how its ways stand: others do. */
  readonly silentInOrder?: true;
  /** Of what is in order it asks nothing, unless it could fail: its facts are none that anybody finds out before an evening. */
  readonly asksWhenRaised?: true;
  /** Whether `limit CODE VALUE` sets anything in it. */
  readonly takesLimit?: true;
  cases(scene: Scene): readonly Case[];
}

export { limitOf } from "../model/limits";

/** The file that a statement stands in. */
export const fileOf = (setup: Setup, path: string): SourceFile | undefined => setup.files.find((file) => file.path === path);

/** The setup's own file: new statements go there. */
export const rootFile = (setup: Setup): SourceFile | undefined => setup.files[0];

/** A name as the text would write it, with its capital letters. */
export const deviceNamed = (setup: Setup, name: string) => setup.devices.get(canonical(name));
