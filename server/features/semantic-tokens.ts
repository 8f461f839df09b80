/**
 * What each word of a text is, by what it means and not by how it is spelt: statements, names by what they stand for, words of closed lists,
 * figures, quotations. Whatever the language does not know stays without a mark.
 */
import type { Token } from "../../grammar/tree";
import { CONNECTORS, isRelation } from "../../grammar/vocabulary";
import type { Bound } from "../model/bound";
import { everywhere } from "../model/reading";
import { fileAsked, type Asked, type Span } from "./asked";
import { occurrences, type SymbolKind } from "./names";

/** Kinds of words, in the names that editors colour by. */
export const TOKEN_KINDS = ["keyword", "operator", "class", "variable", "property", "namespace", "struct", "parameter", "event", "interface", "function", "enumMember", "number", "string", "comment"] as const;
export type TokenKind = (typeof TOKEN_KINDS)[number];
export const TOKEN_MARKS = ["declaration", "defaultLibrary"] as const;
export type TokenMark = (typeof TOKEN_MARKS)[number];

/** One word, or a part of a dotted one; never over a line's end, and none over another. */
export interface MarkedToken extends Span {
  readonly kind: TokenKind;
  readonly marks: readonly TokenMark[];
}

const NAMES: Readonly<Record<SymbolKind, TokenKind>> = {
  kind: "class", device: "variable", part: "property", port: "property", alias: "namespace", room: "namespace", "remote-room": "namespace", talker: "parameter",
  item: "event", internet: "interface", channel: "function", bus: "function", spot: "struct", table: "struct", surface: "struct", outlet: "struct", seats: "struct",
  area: "struct", door: "struct", window: "struct", column: "struct", circuit: "struct",
};

/** The words of a text in order; of a stretch of it where one is given. */
export function semanticTokens(asked: Pick<Asked, "setup" | "path" | "text">, within: Span = { start: 0, end: Infinity }): readonly MarkedToken[] {
  const file = fileAsked(asked);
  if (file === undefined) return [];
  const inside = (span: Span): boolean => span.end > within.start && span.start < within.end;
  const out: MarkedToken[] = [];
  const named = occurrences(asked.setup).filter((one) => one.path === asked.path && inside(one));
  for (const one of named) {
    const marks: TokenMark[] = [...(one.declares ? ["declaration" as const] : []), ...(one.builtIn === true ? ["defaultLibrary" as const] : [])];
    out.push({ start: one.start, end: one.end, kind: NAMES[one.kind], marks });
  }
  const taken = cover(out);
  const words = wordsOf(everywhere(file.statements));
  for (const token of file.tree.tokens) {
    if (token.kind === "newline" || token.end === token.start || !inside(token) || taken(token)) continue;
    const kind = kindOf(token, words);
    if (kind !== undefined) out.push({ start: token.start, end: token.end, kind, marks: [] });
  }
  for (const comment of file.tree.comments) if (inside(comment)) out.push({ start: comment.start, end: comment.end, kind: "comment", marks: [] });
  return out.sort((a, b) => a.start - b.start || a.end - b.end).filter((one, i, all) => one.start >= (all[i - 1]?.end ?? 0));
}

/** Whether a token touches one of some stretches. */
function cover(spans: readonly Span[]): (span: Span) => boolean {
  const sorted = [...spans].sort((a, b) => a.start - b.start);
  return (span) => {
    let [low, high] = [0, sorted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((sorted[middle]?.end ?? 0) <= span.start) low = middle + 1;
      else high = middle;
    }
    const found = sorted[low];
    return found !== undefined && found.start < span.end;
  };
}

interface Words {
  readonly heads: ReadonlySet<number>;
  /** Beginnings of words that stand in a closed list of their slot. */
  readonly listed: ReadonlySet<number>;
  /** Stretches of figures with their units. */
  readonly figures: (span: Span) => boolean;
}

function wordsOf(statements: readonly Bound[]): Words {
  const heads = new Set(statements.map((statement) => statement.fact.head.start));
  const values = statements.flatMap((statement) => [...statement.values.values()].flat());
  return {
    heads, listed: new Set(values.filter((value) => value.kind === "word").map((value) => value.start)),
    figures: cover(values.filter((value) => value.kind === "quantity" || value.kind === "date" || value.kind === "clock" || value.kind === "mode" || value.kind === "ratio")),
  };
}

function kindOf(token: Token, { heads, listed, figures }: Words): TokenKind | undefined {
  switch (token.kind) {
    case "text": case "open-text": return "string";
    case "number": case "date": case "clock": case "mode": case "size": return "number";
    case "symbol": return figures(token) ? "number" : undefined;
    case "word": {
      if (heads.has(token.start)) return "keyword";
      if (listed.has(token.start)) return "enumMember";
      const word = token.text.toLowerCase();
      if (CONNECTORS.has(word) || isRelation(word)) return "operator";
      return figures(token) ? "number" : undefined;
    }
    default: return undefined;
  }
}
