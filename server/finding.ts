/** What a study says: findings, questions, figures, verdicts. Data only; words come from the check of each code. */
import type { Where } from "./model/where";
import type { Verdict, WayName } from "./model/ways";
import type { Edit } from "./model/edits";

export type { Edit } from "./model/edits";
export type { TextProblem } from "./model/text-problem";

/** `plan`: a gap in the plan, kept in one list, never a squiggle. */
export type Severity = "error" | "warning" | "hint" | "plan";

/** A gap in the plan ranks below every finding, so that it hides none and bars no mend. */
const RANK: Readonly<Record<Severity, number>> = { plan: 0.5, hint: 1, warning: 2, error: 3 };
export const rank = (severity: Severity | undefined): number => (severity === undefined ? 0 : RANK[severity]);

export interface Amount {
  readonly value: number;
  /** As shown: `dB`, `Mb/s`, `h`, `m`, `W`. */
  readonly unit: string;
}

/** An open value that a result read. */
export interface Assumption {
  /** `the noise in old-schoolroom 40 dBA (35 to 48)`. */
  readonly text: string;
  readonly source?: string | undefined;
  readonly where?: Where | undefined;
}

/** A fact worth finding out, and what either answer would mean. */
export interface Question {
  /** Identity: the open value's. */
  readonly id: string;
  /** `How is box connected to laptop?`, `What uplink does the venue have?` */
  readonly ask: string;
  /** What each answer means: `up to 0.9 s: fine; longer: …`. */
  readonly answers: readonly { readonly when: string; readonly then: string }[];
  /** A line that would state it: `internet venue { up 6 Mb/s measured 2026-11-20 19:00 }`. */
  readonly write?: string | undefined;
  readonly ways: readonly WayName[];
  /** How much it decides: 3 turns a verdict from fails to works, 0 changes none. Questions come sorted, largest first. */
  readonly weight: number;
  readonly where?: Where | undefined;
}

/** A remedy that was tried on a copy of the text and found to hold. */
export interface Fix {
  /** Imperative, short: `Turn off the sound of phone`. */
  readonly title: string;
  readonly edits: readonly Edit[];
}

export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  /** Code, root subjects and item; does not change when the worst seat does. */
  readonly identity: string;
  readonly ways: readonly WayName[];
  /** Items of the programme in which it holds; empty where it holds throughout. */
  readonly items: readonly string[];
  readonly subjects: readonly string[];
  readonly where: Where;
  /** One line: what is wrong and by how much. */
  readonly message: string;
  /** What follows from the cause, as a clause: what is said of it where it is folded under another. Empty: it adds no words there. */
  readonly effect: string;
  /** What one will notice on the evening. */
  readonly notice: string;
  /** From cause to effect, a clause each. */
  readonly chain: readonly string[];
  readonly measured?: Amount | undefined;
  readonly limit?: Amount | undefined;
  readonly assumed: readonly Assumption[];
  /** Set where an assumed value decides: the finding was lowered a level. */
  readonly question?: Question | undefined;
  readonly related: readonly { readonly where: Where; readonly message: string }[];
  /** Consequences of the same cause. */
  readonly folded: readonly Finding[];
}

export interface WayVerdict {
  readonly way: WayName;
  readonly verdict: Verdict;
  readonly weakest: string;
  readonly hangsOn: readonly string[];
  /** Set where items of the programme differ. */
  readonly item?: string | undefined;
}

export interface Figure {
  readonly name: string;
  readonly of: readonly string[];
  /** The seat where it is so. */
  readonly at?: string | undefined;
  /** The item of the programme in which it is so; absent where it is the same in all. */
  readonly item?: string | undefined;
  /** Octave band in Hz. */
  readonly band?: number | undefined;
  readonly value: number;
  readonly unit: string;
  readonly formula: string;
  readonly inputs: readonly { readonly name: string; readonly value: number; readonly unit: string; readonly assumed?: boolean; readonly narrowed?: string }[];
  readonly source: string;
}
