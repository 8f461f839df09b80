/** Where in the language a cursor stands, in sound text and in broken: in whose block, in which statement, behind which words of it. */
import { TOP_HEADS, rowFor, type Owner, type Row } from "../../../grammar/vocabulary";
import { parse } from "../../../grammar/parse";
import { isPoint, type Block, type Fact, type Item, type Point, type Token, type Tree } from "../../../grammar/tree";
import type { Span } from "../asked";

export interface CursorPlace {
  /** Whose block the cursor is in; nothing in a block that the vocabulary does not have. */
  readonly owner: Owner | undefined;
  /** Facts of that block, for what may stand there once only. */
  readonly siblings: readonly Fact[];
  /** The statements in whose blocks the cursor is, the outermost first. */
  readonly chain: readonly Fact[];
  /** The line's first fact, where the cursor is not in its head. */
  readonly line: Line | undefined;
  /** The fact that is being written: its words before the cursor, the one that touches it left out. Without a head the cursor is at it. */
  readonly head: string | undefined;
  readonly headToken: Token | undefined;
  /** Whether that fact is the line's first. */
  readonly isFirst: boolean;
  readonly items: readonly Item[];
  /** The token before what is being written. */
  readonly before: Token | undefined;
  /** What is being written, up to the end of its word. */
  readonly word: Span & { readonly typed: string };
  /** Set in a quotation that has begun: what stands in it before the cursor. */
  readonly quoted: (Span & { readonly typed: string; readonly closed: boolean }) | undefined;
  /** Whether the cursor is between the round brackets of a point. */
  readonly inPoint: boolean;
}

export interface Line {
  readonly start: number;
  /** Where the vocabulary has it. */
  readonly row: Row | undefined;
  /** What the line is about: the first word behind its head, as written. */
  readonly subject: string | undefined;
  /** The whole of it, with what stands behind the cursor. */
  readonly fact: Fact | undefined;
}

const WORD = /[\p{L}\p{M}\p{N}_\-\u200c\u200d./'’%°′″]/u;

/** Reads the place of a cursor; nothing in a comment. */
export function placeOf(text: string, offset: number): CursorPlace | undefined {
  const tree = parse(text, { topHeads: TOP_HEADS });
  if (tree.comments.some((comment) => comment.start < offset && offset <= comment.end)) return undefined;
  const quotation = tree.tokens.find((token) => (token.kind === "text" && token.start < offset && offset < token.end) || (token.kind === "open-text" && token.start < offset && offset <= lineEnd(text, token.end)));
  const word = wordAt(text, quotation?.start ?? offset, offset);
  const { owner, facts, chain } = blockAt(tree, text, offset);
  const tokens = tree.tokens.filter((token) => token.end <= word.start);
  const { pieces, inPoint } = statementBefore(tokens, chain.at(-1)?.block?.open?.start ?? -1);
  const [first = []] = pieces;
  const last = pieces.at(-1) ?? [];
  const [start, second] = first;
  return {
    owner, siblings: facts, chain, inPoint, word, before: tokens.at(-1),
    line: start === undefined ? undefined : {
      start: start.start, row: owner === undefined ? undefined : rowFor(owner, start.text), subject: second?.kind === "word" ? second.text : undefined,
      fact: facts.find((fact) => fact.start === start.start),
    },
    head: last[0]?.text.toLowerCase(), headToken: last[0], isFirst: pieces.length === 1, items: itemsOf(last.slice(1)),
    quoted: quotation === undefined ? undefined : {
      start: quotation.start + 1, end: quotation.kind === "text" ? quotation.end - 1 : Math.max(offset, quotation.end), typed: text.slice(quotation.start + 1, offset), closed: quotation.kind === "text",
    },
  };
}

const lineEnd = (text: string, at: number): number => {
  const end = text.slice(at).search(/[\r\n]/);
  return end < 0 ? text.length : at + end;
};

function wordAt(text: string, before: number, offset: number): CursorPlace["word"] {
  if (before < offset) return { start: before, end: offset, typed: "" };
  let start = offset;
  while (start > 0 && WORD.test(text.charAt(start - 1))) start -= 1;
  let end = offset;
  while (end < text.length && WORD.test(text.charAt(end))) end += 1;
  return { start, end, typed: text.slice(start, offset) };
}

/** The innermost block that holds a position; an unclosed one reaches on while lines are indented more than its head. */
function blockAt(tree: Tree, text: string, offset: number): { owner: Owner | undefined; facts: readonly Fact[]; chain: readonly Fact[] } {
  const chain: Fact[] = [];
  let owner: Owner | undefined = "file";
  let facts: readonly Fact[] = tree.root.facts;
  for (;;) {
    const inner: Fact | undefined = facts.find((fact, i) => fact.block !== undefined && holds(fact, fact.block, facts[i + 1], text, offset));
    if (inner?.block === undefined) return { owner, facts, chain };
    owner = owner === undefined ? undefined : bodyOf(owner, inner);
    chain.push(inner);
    facts = inner.block.facts;
  }
}

/** Whose block it is: of a line with commas the first fact's, as the binder has it. */
const bodyOf = (owner: Owner, fact: Fact): Owner | undefined => rowFor(owner, fact.head.text)?.body;

function holds(fact: Fact, block: Block, next: Fact | undefined, text: string, offset: number): boolean {
  if (block.open === undefined || offset < block.open.end) return false;
  const close = block.close;
  if (close !== undefined && close.end > close.start) return offset <= close.start;
  if (offset <= block.end) return true;
  if (next !== undefined && next.start < offset) return false;
  // The end that repair put in stands right behind the last word.
  const column = (at: number): number => at - (Math.max(text.lastIndexOf("\n", at - 1), text.lastIndexOf("\r", at - 1)) + 1);
  const lineStart = offset - column(offset);
  const indent = /^[ \t]*/.exec(text.slice(lineStart, offset))?.[0].length ?? 0;
  const own = /^[ \t]*/.exec(text.slice(fact.start - column(fact.start)))?.[0].length ?? 0;
  return indent > own || !/[\r\n]/.test(text.slice(block.open.end, offset));
}

/** The words of the statement that is being written, parted at its commas. */
function statementBefore(tokens: readonly Token[], blockStart: number): { pieces: Token[][]; inPoint: boolean } {
  let from = tokens.length;
  let depth = 0;
  while (from > 0) {
    const token = tokens[from - 1];
    if (token === undefined || token.kind === "newline" || token.start <= blockStart) break;
    // Another statement's whole block, on the same line: what stands behind it is a statement of its own.
    if (token.kind === "open-brace" || token.kind === "close-brace") break;
    from -= 1;
  }
  const pieces: Token[][] = [[]];
  for (const token of tokens.slice(from)) {
    if (token.kind === "open-paren") depth += 1;
    if (token.kind === "close-paren") depth = Math.max(0, depth - 1);
    if (token.kind === "comma" && depth === 0) pieces.push([]);
    else pieces.at(-1)?.push(token);
  }
  return { pieces, inPoint: depth > 0 };
}

/** Tokens as the binder has them: what stands in round brackets is one item. */
function itemsOf(tokens: readonly Token[]): Item[] {
  const out: Item[] = [];
  for (let i = 0; i < tokens.length; i += 1) {
    const token = tokens[i];
    if (token === undefined) break;
    if (token.kind !== "open-paren") {
      out.push(token);
      continue;
    }
    const close = tokens.findIndex((other, j) => j > i && other.kind === "close-paren");
    if (close < 0) break;
    const inner = tokens.slice(i + 1, close);
    const coordinates: Token[][] = [[]];
    for (const part of inner) if (part.kind === "comma") coordinates.push([]); else coordinates.at(-1)?.push(part);
    const point: Point = { kind: "point", open: token, close: tokens[close], coordinates, start: token.start, end: tokens[close]?.end ?? token.end };
    out.push(point);
    i = close;
  }
  return out;
}

/** The item as a word in lower case. */
export const wordOf = (item: Item | undefined): string | undefined => (item !== undefined && !isPoint(item) && item.kind === "word" ? item.text.toLowerCase() : undefined);
