/** Judged cases to findings: one for each root cause, over ways and items, with what follows from it folded under it. */
import { rank, type Assumption, type Finding } from "./finding";
import type { Judged, Judgement } from "./judge";
import { isAssumed } from "./model/ranged";
import { list, sentence, shown } from "./model/show";
import type { WayName } from "./model/ways";
import { questionOf } from "./questions";
import { called } from "./signal/coverage";

export interface Merged {
  readonly finding: Finding;
  /** Those of its cause, the worst first. */
  readonly cases: readonly Judged[];
}

/** One finding for each root cause: cases of one code and cause are one, over ways and items; consequences go under their cause. `scenes`: how many there are. */
export function merge(judged: readonly Judged[], scenes: number): Merged[] {
  const groups = new Map<string, Judged[]>();
  for (const one of judged) {
    if (one.judgement.severity === undefined) continue;
    const key = `${one.check.entry.code} ${one.judgement.best.cause.key}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const merged = new Map<string, Merged & { readonly causeKey: string; readonly foldUnder: string | undefined }>();
  for (const [key, group] of groups) {
    const made = makeFinding(group, scenes);
    if (made !== undefined) merged.set(key, { ...made, causeKey: group[0]?.judgement.best.cause.key ?? "", foldUnder: group.find((g) => g.judgement.best.foldUnder !== undefined)?.judgement.best.foldUnder });
  }
  const out: Merged[] = [];
  const folded = new Map<string, Finding[]>();
  const all = [...merged.values()];
  type One = (typeof all)[number];
  const rootOf = (one: One): One | undefined => {
    const root = one.foldUnder === undefined ? undefined : all.find((m) => m !== one && m.causeKey === one.foldUnder);
    if (root === undefined || rank(root.finding.severity) < rank(one.finding.severity)) return undefined;
    // Two that lead to each other: the worse stays, of equals the first.
    const mutual = root.foldUnder === one.causeKey && rank(root.finding.severity) === rank(one.finding.severity);
    return mutual && all.indexOf(root) > all.indexOf(one) ? undefined : root;
  };
  const topOf = (one: One): One | undefined => {
    let top = rootOf(one);
    for (let steps = 0; top !== undefined && steps < all.length; steps += 1) {
      const next = rootOf(top);
      if (next === undefined) break;
      top = next;
    }
    return top;
  };
  for (const one of all) {
    const root = topOf(one);
    if (root !== undefined) {
      folded.set(root.finding.identity, [...(folded.get(root.finding.identity) ?? []), one.finding]);
    } else out.push(one);
  }
  return out.map((one) => {
    const under = folded.get(one.finding.identity);
    if (under === undefined) return one;
    // What follows without an effect of its own is there to be read, and adds no words.
    const effects = [...new Set(under.map((f) => f.effect).filter((effect) => effect !== ""))];
    const tail = one.finding.message.replace(/\.$/, "");
    const ways = [...new Set([...one.finding.ways, ...under.flatMap((f) => f.ways)])];
    return { ...one, finding: { ...one.finding, ways, folded: under, message: effects.length === 0 ? one.finding.message : sentence(`${tail}; so ${list(effects, 2)}`) } };
  });
}

function makeFinding(group: readonly Judged[], scenes: number): Merged | undefined {
  const byBadness = [...group].sort((a, b) => rank(b.judgement.severity) - rank(a.judgement.severity) || b.judgement.best.badness - a.judgement.best.badness);
  const worst = byBadness[0];
  const severity = worst?.judgement.severity;
  if (worst === undefined || severity === undefined) return undefined;
  const { best, said } = worst.judgement;
  const items = [...new Set(group.flatMap((g) => (g.item === undefined ? [] : [g.item])))];
  const everywhere = items.length === scenes;
  const ways = [...new Set(group.flatMap((g) => [...g.judgement.case.ways]))] as WayName[];
  // What is missing has several effects; what is measured is told where it is worst.
  const subjects = [...new Set([...best.cause.subjects, ...group.flatMap((g) => g.judgement.best.cause.subjects)])];
  const others = subjects.filter((name) => !best.cause.subjects.includes(name)).map(called);
  const worstEffect = said.effect === "" ? [] : [others.length === 0 ? said.effect : `${said.effect}, and likewise ${list(others)}`];
  const effects = best.measured !== undefined ? worstEffect : joinAlike([...new Set(group.map((g) => g.judgement.said.effect).filter((effect) => effect !== ""))]);
  // An effect that is the cause over again is for whoever folds it under another.
  const further = effects.filter((effect) => effect !== said.because);
  const during = everywhere || items.length === 0 ? "" : ` (during ${list(items)})`;
  const message = sentence(further.length === 0 ? `${said.because}${during}` : `${said.because}: ${list(further, 2)}${during}`);
  // A fact that can be found out is asked for before a choice that can be made.
  const swing = worst.judgement.turnedBy.find((s) => !s.value.id.includes(".place-")) ?? worst.judgement.turnedBy[0];
  const code = worst.check.entry.code;
  const shownItems = everywhere ? [] : items;
  return {
    finding: {
      code, severity, ways, items: shownItems, subjects, where: best.cause.where, message, notice: said.notice ?? worst.check.entry.notice, chain: said.chain,
      effect: effects.length === 0 ? "" : `${list(effects, 2)}${during}`,
      identity: [code, best.cause.key, ...shownItems].join(" | "),
      measured: best.measured, limit: best.limit, assumed: assumptions(worst.judgement),
      question: swing === undefined ? undefined : questionOf(worst.judgement, swing, ways, worst.check.entry.title), related: said.related ?? [], folded: [],
    },
    // What mends the worst may well mend the rest: its remedies come first.
    cases: byBadness,
  };
}

/** Effects that begin alike are said once: `the people online do not hear Ines and the audience`. */
function joinAlike(effects: readonly string[]): string[] {
  const [first = "", ...rest] = effects;
  if (rest.length === 0) return [...effects];
  let common = first.length;
  for (const effect of rest) while (!effect.startsWith(first.slice(0, common))) common -= 1;
  const lead = first.slice(0, first.lastIndexOf(" ", common) + 1);
  return lead.length < 12 ? [...effects] : [`${lead}${list(effects.map((effect) => effect.slice(lead.length)))}`];
}

/** What was assumed, and weighs: at most a few, the weightiest first. */
function assumptions(judgement: Judgement): Assumption[] {
  return judgement.swings.filter((s) => isAssumed(s.value) && s.span > 0.05).slice(0, 4)
    .map((s) => ({ text: shown(s.value), source: s.value.from.source, where: s.value.from.where }));
}
