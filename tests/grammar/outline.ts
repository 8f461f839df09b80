import { isPoint, type Fact, type Tree } from "../../grammar/tree";

/** A fact in one line of text: its tokens with one blank between, a point in parentheses. */
export function sayFact(fact: Fact): string {
  const items = fact.items.map((item) => isPoint(item)
    ? `(${item.coordinates.map((coordinate) => coordinate.map((token) => token.text).join(" ")).join(", ")})`
    : item.text);
  return [fact.head.text, ...items].join(" ");
}

/** The statements of a tree as an indented outline: what belongs to what, and nothing else. */
export function outline(tree: Tree): string {
  const lines: string[] = [];
  const add = (facts: readonly Fact[], depth: number): void => {
    for (const fact of facts) {
      lines.push("  ".repeat(depth) + [fact, ...fact.also].map(sayFact).join(", "));
      if (fact.block !== undefined) add(fact.block.facts, depth + 1);
    }
  };
  add(tree.root.facts, 0);
  return lines.join("\n");
}
