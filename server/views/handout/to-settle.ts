/** Gaps in the plan: what is to be settled before the evening, under who would know. */
import { CATALOGUE, type Settle } from "../../checks/catalogue";
import { sentence as asSentence } from "../../model/show";
import { html, sentenceOf, type Part } from "./html";
import { bounded, inline, runIn, type Sheet } from "./sheet";

/** As many as anybody sees to in the days before. */
const MOST_GAPS = 10;

export function toSettle(sheet: Sheet): Part[] {
  const gaps = sheet.study.findings.filter((finding) => finding.severity === "plan");
  const { shown, more } = bounded(sheet, gaps, MOST_GAPS, "gaps in the plan");
  const by = new Map<Settle["who"], string[]>();
  for (const finding of shown) {
    const settle = CATALOGUE.find((entry) => entry.code === finding.code)?.settle;
    const who = settle?.who ?? "the helpers";
    by.set(who, [...(by.get(who) ?? []), asSentence(settle?.what ?? finding.message)]);
  }
  return shown.length === 0 ? [] : runIn("settle", "To settle before the evening", ...inline([...by].map(([who, what]): Part[] => [html("b", {}, `${asSentence(who).replace(/\.$/, "")}: `), ...what.flatMap((one, i): Part[] => [i === 0 ? "" : " ", sentenceOf(one)])])), ...more);
}
