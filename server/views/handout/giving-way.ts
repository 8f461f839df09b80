/** What is done when something gives way, and what this sheet stands on: risks taken, values assumed, facts still open. */
import { canonical } from "../../model/names";
import { rate, sentence as asSentence } from "../../model/show";
import { html, name, sentenceOf, type Part } from "./html";
import { bounded, inline, runIn, thing, type Sheet } from "./sheet";
import { laddersOf, type Ladder } from "./thin";

/** Steps down, and from where on they fit. */
export function thinInternet(sheet: Sheet): Part[] {
  const ladders = laddersOf(sheet.study.setup);
  return ladders.length === 0 ? [] : runIn("thin", "When the internet is thin", ...ladders.map((ladder): Part => html("p", {},
    ...planned(ladder), ...stepsOf(ladder), ladder.sound ? html("b", {}, " Sound is given up last.") : " No sound is sent over this line.")));
}

function planned(ladder: Ladder): Part[] {
  const at: Part[] = ladder.item === undefined ? [] : [", most of all during ", name(ladder.item, 24)];
  if (ladder.usable === undefined) return [`${rate(ladder.sent)} is to be sent`, ...at, "; what ", name(ladder.internet), " can carry is not known. If pictures freeze or voices break up:"];
  const much = ladder.sent <= ladder.usable ? "of" : "where only";
  return [`${rate(ladder.sent)} is to be sent`, ...at, `, ${much} ${rate(ladder.usable)} that can be counted on`, " over ", name(ladder.internet), ladder.sent <= ladder.usable ? ". If pictures freeze all the same:" : ". Before they freeze:"];
}

function stepsOf(ladder: Ladder): Part[] {
  const first = ladder.sent <= (ladder.usable ?? 0) ? -1 : ladder.steps.findIndex((step) => step.fits === true);
  return ladder.steps.flatMap((step, i): Part[] => [
    i === 0 ? " " : "; ", html("b", {}, `${i + 1}.`), " ", ...step.changes.slice(0, 6).flatMap((change, k): Part[] => [k === 0 ? "" : ", ", name(change)]),
    step.changes.length > 6 ? ` and ${step.changes.length - 6} more` : "", ` (${rate(step.sent)} in all)`, i === first ? html("b", {}, ", from here on it fits") : "", i === ladder.steps.length - 1 ? "." : "",
  ]);
}

/** What steps in for what. */
export function fallbacks(sheet: Sheet): Part[] {
  const rows = sheet.study.setup.fallbacks.map((fallback): Part[] => [...thing(sheet, fallback.device), " steps in for ", ...thing(sheet, fallback.for), "."]);
  const { shown, more } = bounded(sheet, rows, 12, "of these");
  return rows.length === 0 ? [] : runIn("fallback", "If something gives way", ...inline(shown), ...more);
}

/** Risks that were taken knowingly, each with its reason. */
export function accepted(sheet: Sheet): Part[] {
  const { study } = sheet;
  const rows = study.accepted.map((finding): Part[] => {
    const because = study.setup.accepts.find((accept) => accept.code === finding.code
      && accept.of.every((of) => finding.subjects.some((subject) => canonical(subject) === canonical(of))))?.because;
    return [sentenceOf(asSentence(finding.message)), " Accepted: ", because === undefined ? "no reason is given." : html("bdi", {}, sentenceOf(asSentence(because)))];
  });
  const { shown, more } = bounded(sheet, rows, 8, "risks");
  return rows.length === 0 ? [] : runIn("risks", "Risks accepted", ...inline(shown), ...more);
}

/** What the text does not state and a verdict or a finding hangs on; then what to find out, the weightiest first. */
export function openFacts(sheet: Sheet): Part[] {
  const { study } = sheet;
  const told = study.findings.filter((finding) => finding.severity !== "plan");
  const assumed = [...new Set([...told.flatMap((finding) => finding.assumed.map((a) => a.text)), ...study.ways.filter((way) => way.verdict !== "works").flatMap((way) => way.hangsOn)])];
  const facts = bounded(sheet, assumed, 8, "assumptions");
  const asks = bounded(sheet, study.questions, 3, "questions");
  return [
    ...(assumed.length === 0 ? [] : runIn("assumed", "Assumed, and something hangs on it", ...inline(facts.shown.map((text) => [sentenceOf(text)])), ...facts.more)),
    ...(study.questions.length === 0 ? [] : runIn("ask", "Still to find out", ...inline(asks.shown.map((question) => [sentenceOf(question.ask)])), ...asks.more)),
  ];
}
