/** What the author accepts is taken out of what was found, and the rest is put in order. */
import { CHECKS } from "./checks/catalogue";
import type { Finding, Severity, TextProblem } from "./finding";
import { canonical } from "./model/names";
import { list } from "./model/show";
import type { Setup } from "./model/setup";

const ORDER: readonly Severity[] = ["error", "warning", "hint", "plan"];

/** Takes out what the author accepts, and says where an acceptance has nothing left to accept. */
export function settle(setup: Setup, all: readonly Finding[]): { findings: Finding[]; accepted: Finding[]; unused: TextProblem[] } {
  const used = new Set<object>();
  const accepted: Finding[] = [];
  const findings: Finding[] = [];
  for (const finding of all) {
    const meant = setup.accepts.filter((accept) => accept.code === finding.code
      && (accept.of.length === 0 || accept.of.every((name) => finding.subjects.some((subject) => canonical(subject) === canonical(name)))));
    const by = meant.find((accept) => accept.at === undefined || finding.measured === undefined || noWorse(finding, accept.at));
    // What is worse than was accepted is raised again, and its acceptance is not idle.
    if (by === undefined) for (const accept of meant) used.add(accept);
    if (by === undefined) findings.push(finding);
    else {
      used.add(by);
      accepted.push(finding);
    }
  }
  findings.sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity) || a.where.path.localeCompare(b.where.path) || a.where.start - b.where.start);
  // While something is broken, what it hides may be raised again once it is mended.
  const broken = findings.some((finding) => finding.severity === "error");
  const unused = setup.accepts.filter((accept) => !used.has(accept) && !broken).map((accept): TextProblem => ({
    code: "accept-unused", severity: "warning", where: accept.where, related: [],
    message: CHECKS.some((check) => check.entry.code === accept.code)
      ? `Nothing raises ${accept.code}${accept.of.length > 0 ? ` of ${list(accept.of)}` : ""} any more: this “accept” can go.`
      : `There is no finding “${accept.code}” to accept yet.`,
  }));
  const idle = setup.limits.filter((limit) => !CHECKS.some((check) => check.entry.code === limit.code && check.takesLimit === true)).map((limit): TextProblem => ({
    code: "limit-idle", severity: "warning", where: limit.where, related: [],
    message: CHECKS.some((check) => check.entry.code === limit.code)
      ? `${limit.code} has no single limit that could be set. Accept the risk instead: accept ${limit.code} because "…".`
      : `There is no finding “${limit.code}” to set a limit for yet.`,
  }));
  return { findings, accepted, unused: [...unused, ...idle] };
}

/** What a shown unit is in the unit that the text's quantities are kept in. */
const CANONICAL: Readonly<Record<string, number>> = { h: 3600, "Mb/s": 1e6 };

/** Whether a measured value lies no farther beyond its limit than the accepted one. */
function noWorse(finding: Finding, at: number): boolean {
  const scale = CANONICAL[finding.measured?.unit ?? ""] ?? 1;
  const value = (finding.measured?.value ?? 0) * scale;
  const limit = (finding.limit?.value ?? 0) * scale;
  return Math.abs(value - limit) <= Math.abs(at - limit) + 1e-9;
}
