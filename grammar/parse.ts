import { lex } from "./lexer";
import { parseStatements } from "./parser";
import { repairBraces } from "./repair";
import { tidy } from "./tidy";
import { LONGEST, type SyntaxProblem, type Token, type Tree } from "./tree";

export interface ParseOptions {
  /** Heads, in lower case, that stand only at top level: where a text is not indented they show where a block must have ended. */
  readonly topHeads?: ReadonlySet<string>;
}

/**
 * Reads a text. Any string gives a tree, in time that grows with its length alone; what is wrong with it as text is in
 * `problems`, in the order of the text, one for each mistake.
 *
 * A head or item of kind `unknown`, `open-text` or `decimal-comma` has its problem already.
 */
export function parse(text: string, options: ParseOptions = {}): Tree {
  const unreadable = whyUnreadable(text);
  if (unreadable !== undefined) return bare(text, unreadable);

  const { tokens, comments } = lex(text);
  const conflict = tokens.find((token) => token.kind === "conflict");
  const sound = conflict === undefined ? tokens : withoutConflicts(tokens);
  const repaired = repairBraces(text, sound, options.topHeads ?? new Set());
  const tidied = tidy(text, repaired.tokens);
  const facts = parseStatements(tidied.tokens);
  return {
    text, tokens, comments,
    root: { open: undefined, close: undefined, facts, start: 0, end: text.length },
    problems: conflict === undefined ? inOrder([...repaired.problems, ...tidied.problems]) : [mergeConflict(conflict)],
  };
}

/** A share of control characters beyond which a file is taken for a picture, an archive or the like. */
const MOST_CONTROLS = 0.1;
const CONTROLS = /[\u0000-\u0008\u000e-\u001f\u007f\ufffd]/g;

function whyUnreadable(text: string): SyntaxProblem | undefined {
  if (text.length > LONGEST) {
    return {
      code: "too-large", start: 0, end: 0,
      message: `This file is too long to read (${text.length} characters, at most ${LONGEST} are read): split it, and bring the parts together with lines such as use "hall.bothways".`,
    };
  }
  const controls = text.match(CONTROLS)?.length ?? 0;
  if (!text.includes("\0") && controls <= text.length * MOST_CONTROLS) return undefined;
  return { code: "not-text", start: 0, end: 0, message: "This file is not text: save it as plain text in UTF-8." };
}

function bare(text: string, problem: SyntaxProblem): Tree {
  return {
    text, tokens: [], comments: [], problems: [problem],
    root: { open: undefined, close: undefined, facts: [], start: 0, end: text.length },
  };
}

/** The tokens without the lines that a merge left, each with its line end. */
function withoutConflicts(tokens: readonly Token[]): Token[] {
  return tokens.filter((token, index) =>
    token.kind !== "conflict" && !(token.kind === "newline" && tokens[index - 1]?.kind === "conflict"));
}

/** One problem for the whole file: all others may follow from the two sides standing in it. */
function mergeConflict({ start, end }: Token): SyntaxProblem {
  return {
    code: "merge-conflict", start, end,
    message: "This file still holds both sides of a merge: keep one side and delete the lines of <, = and > signs.",
  };
}

function inOrder(problems: SyntaxProblem[]): SyntaxProblem[] {
  // Where blocks lie absurdly deep, the braces say nothing more.
  const tooDeep = problems.some((problem) => problem.code === "too-deep");
  const kept = tooDeep
    ? problems.filter(({ code }) => code !== "unclosed-block" && code !== "missing-brace" && code !== "surplus-brace")
    : problems;
  return kept.sort((a, b) => a.start - b.start || a.end - b.end);
}
