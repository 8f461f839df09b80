/** Blocks that can be folded: those that run over several lines. */
import { parse } from "../../grammar/parse";
import type { Fact } from "../../grammar/tree";
import { TOP_HEADS } from "../../grammar/vocabulary";
import type { Span } from "./asked";

/** From the brace that opens each block to the one that closes it. */
export function folding(text: string): readonly Span[] {
  const out: Span[] = [];
  const visit = (facts: readonly Fact[]): void => {
    for (const { block } of facts) {
      if (block?.open === undefined) continue;
      if (/[\r\n]/.test(text.slice(block.open.start, block.end))) out.push({ start: block.open.start, end: block.close?.start ?? block.end });
      visit(block.facts);
    }
  };
  visit(parse(text, { topHeads: TOP_HEADS }).root.facts);
  return out;
}
