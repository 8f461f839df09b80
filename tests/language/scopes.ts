import type { Highlighting } from "../../grammar/highlighting";

export interface Scoped {
  readonly text: string;
  readonly scope: string;
  readonly start: number;
  readonly end: number;
}

/**
 * What an editor would draw of one line: at each place the rule that matches earliest, the first of those that match at the same place, as
 * grammars of this form are read. Captures are drawn in place of the whole where a rule names them.
 */
export function scopesOf(grammar: Highlighting, line: string): Scoped[] {
  const rules = grammar.patterns.map((rule) => ({
    rule, expression: new RegExp(rule.match.replace("(?i)", ""), rule.match.startsWith("(?i)") ? "dgiu" : "dgu"),
  }));
  const out: Scoped[] = [];
  for (let at = 0; at < line.length;) {
    let best: { rule: (typeof rules)[number]["rule"]; match: RegExpExecArray } | undefined;
    for (const { rule, expression } of rules) {
      expression.lastIndex = at;
      const match = expression.exec(line);
      if (match !== null && (best === undefined || match.index < best.match.index)) best = { rule, match };
    }
    if (best === undefined) break;
    const { rule, match } = best;
    const indices = match.indices ?? [];
    const parts = rule.name !== undefined ? [[0, rule.name] as const]
      : Object.entries(rule.captures ?? {}).map(([group, { name }]) => [Number(group), name] as const);
    for (const [group, scope] of parts) {
      const range = indices[group];
      if (range !== undefined) out.push({ text: line.slice(...range), scope, start: range[0], end: range[1] });
    }
    at = Math.max(at + 1, match.index + match[0].length);
  }
  return out;
}
