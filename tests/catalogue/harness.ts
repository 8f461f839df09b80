/** Pairs: the smallest setup that raises a code, its nearest neighbour that does not, and a fix that leads from one to the other. */
import { expect } from "vitest";
import type { Finding, Severity } from "../../server/finding";
import { applyEdits, fixesOf } from "../../server/fixes/prove";
import { study, type Study, type Texts } from "../../server/study";

/** One text, and what lies in the same folder. */
export const one = (text: string, beside: Readonly<Record<string, string>> = {}): Texts => {
  const files = new Map([...Object.entries(beside), ["it.bothways", text]]);
  return {
    read: (path) => {
      const found = files.get(path);
      return found === undefined ? { problem: "there is no such file" } : { text: found };
    },
    beside: (path) => [...files].filter(([other]) => other !== path && !other.includes("/")).map(([other, found]) => ({ path: other, text: found })),
  };
};
export const judged = (text: string, beside?: Readonly<Record<string, string>>): Study => study(one(text, beside), "it.bothways");

/** The findings of a code, folded ones too. */
export const raised = (of: Study, code: string): readonly Finding[] => of.findings.flatMap((f) => [f, ...f.folded]).filter((f) => f.code === code);

export interface Pair {
  readonly code: string;
  /** What the pair is about. */
  readonly about: string;
  readonly raises: string;
  readonly severity: Severity;
  readonly subjects: readonly string[];
  readonly doesNot: string;
  /** Other files, for what no single text can raise. */
  readonly beside?: Readonly<Record<string, string>>;
  /** Title of a fix that must be offered and hold; absent where no choice mends it. */
  readonly fix?: string;
}

/** Both halves of a pair hold, and the fix leads from the first to a text without the finding. */
export function holdsTrue(pair: Pair): void {
  const bad = judged(pair.raises, pair.beside);
  expect(bad.problems.map((p) => p.message)).toEqual([]);
  const found = raised(bad, pair.code);
  expect(found.map((f) => f.severity), pair.raises).toEqual([pair.severity]);
  expect(found[0]?.subjects).toEqual(pair.subjects);
  const good = judged(pair.doesNot, pair.beside);
  expect(good.problems.map((p) => p.message)).toEqual([]);
  expect(raised(good, pair.code).map((f) => f.message), pair.doesNot).toEqual([]);
  if (pair.fix === undefined) return;
  const top = bad.findings.find((f) => f === found[0] || f.folded.includes(found[0] as Finding));
  const fixes = fixesOf(one(pair.raises, pair.beside), bad, top as Finding);
  const fix = fixes.find((f) => f.title === pair.fix);
  expect(fix, `offered: ${fixes.map((f) => f.title).join("; ")}`).toBeDefined();
  const after = judged(applyEdits(pair.raises, fix?.edits ?? []), pair.beside);
  expect(raised(after, pair.code).filter((f) => f.severity === pair.severity)).toEqual([]);
  expect(after.problems).toEqual([]);
}
