/** What is selected when a selection grows: a word, a value, a statement, its line, the block around it, and so on to the whole text. */
import type { Block, Fact } from "../../grammar/tree";
import type { Bound } from "../model/bound";
import { everywhere } from "../model/reading";
import { fileAsked, touches, type Asked, type Span } from "./asked";

/** Stretches around a position, the innermost first, each within the next and longer than the one before. */
export function selection(asked: Pick<Asked, "setup" | "path" | "text">, offset: number): readonly Span[] {
  const file = fileAsked(asked);
  if (file === undefined) return [];
  const spans: Span[] = [{ start: 0, end: asked.text.length }];
  const inBlock = (block: Block): void => {
    const fact = block.facts.find((one) => one.start <= offset && offset <= one.fullEnd);
    if (fact === undefined) return;
    spans.push({ start: fact.start, end: fact.fullEnd });
    inFact(fact);
    const inner = fact.block;
    if (inner === undefined || !(inner.start <= offset && offset <= inner.end)) return;
    spans.push({ start: inner.start, end: inner.end });
    if (inner.open !== undefined && inner.open.end <= offset && (inner.close === undefined || offset <= inner.close.start)) spans.push(...[trimmed(asked.text, { start: inner.open.end, end: inner.close?.start ?? inner.end })].filter((inside) => touches(inside, offset)));
    inBlock(inner);
  };
  const inFact = (fact: Fact): void => {
    for (const one of [fact, ...fact.also]) if (one.start <= offset && offset <= one.end) spans.push({ start: one.start, end: one.end });
  };
  inBlock(file.tree.root);
  for (const value of valuesAt(file.statements, offset)) spans.push(value);
  const token = file.tree.tokens.find((one) => one.kind !== "newline" && one.start <= offset && offset < one.end) ?? file.tree.tokens.find((one) => one.kind !== "newline" && one.end === offset)
    ?? file.tree.comments.find((one) => touches(one, offset));
  if (token !== undefined) spans.push({ start: token.start, end: token.end });
  return nested(spans);
}

/** A text without the blanks around it: the inside of a block as one would mark it by hand. */
function trimmed(text: string, { start, end }: Span): Span {
  const inside = text.slice(start, end);
  const lead = inside.length - inside.trimStart().length;
  const words = inside.trim();
  return words === "" ? { start, end } : { start: start + lead, end: start + lead + words.length };
}

const valuesAt = (statements: readonly Bound[], offset: number): readonly Span[] =>
  everywhere(statements).flatMap((statement) => [...statement.values.values()].flat()).filter((value) => touches(value, offset)).map(({ start, end }) => ({ start, end }));

/** From the innermost outwards, each longer than the one before and around it. */
function nested(spans: readonly Span[]): readonly Span[] {
  const sorted = [...spans].sort((a, b) => a.end - a.start - (b.end - b.start) || b.start - a.start);
  const out: Span[] = [];
  for (const span of sorted) {
    const last = out.at(-1);
    if (last === undefined || (span.start <= last.start && last.end <= span.end && span.end - span.start > last.end - last.start)) out.push({ start: span.start, end: span.end });
  }
  return out;
}
