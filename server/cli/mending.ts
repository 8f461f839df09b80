/** Applies proven fixes to a copy of the texts, one after the other, until nothing that was asked for is left to mend. */
import { parse } from "../../grammar/parse";
import type { SyntaxProblem } from "../../grammar/tree";
import type { Finding, Fix } from "../finding";
import { applyEdits, fixesOf } from "../fixes/prove";
import { study, type Study, type Texts } from "../study";

/** Texts with some of them replaced. */
export class Changed implements Texts {
  readonly #below: Texts;
  readonly #texts = new Map<string, string>();

  constructor(below: Texts) {
    this.#below = below;
  }

  read(path: string): { text: string } | { problem: string } {
    const text = this.#texts.get(path);
    return text === undefined ? this.#below.read(path) : { text };
  }

  set(path: string, text: string): void {
    this.#texts.set(path, text);
  }

  /** Paths and new texts. */
  all(): readonly (readonly [string, string])[] {
    return [...this.#texts];
  }
}

export interface Applied {
  readonly finding: Finding;
  readonly fix: Fix;
}

export interface Mended {
  readonly applied: readonly Applied[];
  readonly texts: Changed;
  /** What is there after the last fix. */
  readonly after: Study;
}

/** No text that a person wrote needs more than this; it only keeps a fault from running for ever. */
const MOST_ROUNDS = 100;

/**
 * Applies the first proven fix of the first finding that is `wanted` and has one, studies anew, and so on. Ends when none is
 * left, or when a text comes back that was there before.
 */
export function mend(below: Texts, path: string, wanted: (finding: Finding) => boolean, say: (words: string) => void): Mended {
  const texts = new Changed(below);
  const applied: Applied[] = [];
  let now = study(texts, path);
  const states = new Set([stateOf(now)]);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let chosen: Applied | undefined;
    for (const finding of now.findings) {
      if (!wanted(finding)) continue;
      say(`trying mends for ${finding.code}`);
      const fix = fixesOf(texts, now, finding, 1)[0];
      if (fix === undefined) continue;
      chosen = { finding, fix };
      break;
    }
    if (chosen === undefined) break;
    for (const [name, text] of edited(now, chosen.fix)) texts.set(name, text);
    now = study(texts, path);
    applied.push(chosen);
    const state = stateOf(now);
    if (states.has(state)) break;
    states.add(state);
  }
  return { applied, texts, after: now };
}

const stateOf = (one: Study): string => one.files.map((file) => `${file.path}\u0000${file.text}`).join("\u0000");

/** The texts that a fix changes, as they would be. */
export function edited(one: Study, fix: Fix): (readonly [string, string])[] {
  return [...new Set(fix.edits.map((edit) => edit.path))].flatMap((path) => {
    const file = one.files.find((f) => f.path === path);
    return file === undefined ? [] : [[path, applyEdits(file.text, fix.edits.filter((edit) => edit.path === path))] as const];
  });
}

/** Mistakes that leave open what belongs to what: a text that has one is not changed by a program. */
const UNSAFE: ReadonlySet<SyntaxProblem["code"]> = new Set([
  "unclosed-block", "surplus-brace", "missing-brace", "merge-conflict", "too-deep", "too-large", "not-text", "unclosed-text",
] as const);

/** Why a text must not be changed by a program, if it must not. */
export function unsafe(text: string): string | undefined {
  return parse(text).problems.find((problem) => UNSAFE.has(problem.code))?.message;
}
