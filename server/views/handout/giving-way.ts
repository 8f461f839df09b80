/** What is done when something gives way, and what this sheet stands on: risks taken, values assumed, facts still open. */
import { setInWords } from "../../checks/set-words";
import { standInsOf } from "../../figures/stand-ins";
import { canonical } from "../../model/names";
import { data, duration, rate, sentence as asSentence } from "../../model/show";
import { Trial } from "../../model/trial";
import { html, listed, name, sentenceOf, type Html, type Part } from "./html";
import { bounded, inline, runIn, section, thing, type Sheet } from "./sheet";
import { stairsOf, type Stair, type Turned } from "./thin";

/** Mb/s as a speed test shows them, rounded so that the step is taken rather too early than too late. */
const uplink = (bits: number): string => `${(Math.ceil(bits / 1e5 - 1e-9) / 10).toFixed(1)} Mb/s`;

/** Instructions with the uplink below which each holds. */
export function thinInternet(sheet: Sheet): Part[] {
  // What steps in and carries everything needs no steps of its own.
  const stairs = stairsOf(sheet.study.setup).filter((stair) => stair.insteadOf === undefined || stair.up === undefined || stair.taken > 0);
  return stairs.length === 0 ? [] : section("thin", "When the internet is thin", ...stairs.flatMap((stair) => [measuring(sheet, stair), ...stepsDown(sheet, stair)]));
}

function measuring(sheet: Sheet, stair: Stair): Html {
  const at: Part[] = stair.item === undefined ? [] : [", most of all during ", name(stair.item, 24)];
  return html("p", {}, ...(stair.insteadOf === undefined ? ["Measure the uplink of ", name(stair.internet)] : [name(stair.internet), " in place of ", name(stair.insteadOf), ": measure"]), " from ", ...listed(stair.devices.slice(0, 4).map((device) => html("span", {}, ...thing(sheet, device)))), ": ", html("span", { class: "fill tiny" }), " Mb/s",
    ...(stair.up === undefined ? [" (not known yet)"] : [` (planned with ${rate(stair.up)})`]), `. About ${Math.round(stair.share * 100)} % of it can be counted on, so the plan needs ${uplink(stair.wanted)}`, ...at, ".");
}

function stepsDown(sheet: Sheet, stair: Stair): Part[] {
  if (stair.steps.length === 0) return stair.sound ? [html("p", {}, `Below ${uplink(stair.least)}: dial in by telephone.`, ...lineGone(sheet, stair.internet))] : [];
  const rows = stair.steps.map((step, i): Html => html("li", {}, html("b", {}, `below ${uplink(step.below)}: `),
    ...step.turned.slice(0, 6).flatMap((turned, k): Part[] => [k === 0 ? "" : ", ", ...turnedWords(sheet, turned)]), step.turned.length > 6 ? ` and ${step.turned.length - 6} more` : "",
    step.soundOnly && stair.sound ? html("b", {}, ": sound only") : "", i < stair.taken ? html("b", {}, " – from the start") : ""));
  return [html("ol", {}, ...rows), html("p", {}, "It freezes all the same: one step further. ",
    stair.sound ? html("b", {}, `Sound is given up last; below ${uplink(stair.least)}: dial in.`) : "No sound is sent over this line.", ...lineGone(sheet, stair.internet))];
}

/** `⑦ phone: camera at 360p15`; `⑥ laptop: stage-camera off`. */
function turnedWords(sheet: Sheet, { device, picture, to }: Turned): Part[] {
  const own = `${canonical(device)}.`;
  return [...thing(sheet, device), ": ", name(canonical(picture).startsWith(own) ? picture.slice(own.length) : picture), to === undefined ? " off" : ` at ${to}`];
}

/** Whether it is a connection to the internet that something steps in for: that is told where the thin line is. */
const isLine = (sheet: Sheet, name: string): boolean => sheet.study.setup.internets.some((internet) => canonical(internet.name) === canonical(name));

/** What steps in for what, connections left out. */
export function fallbacks(sheet: Sheet): Part[] {
  const rows = sheet.study.setup.fallbacks.filter((fallback) => !isLine(sheet, fallback.for)).map((fallback): Part[] => [...thing(sheet, fallback.device), " steps in for ", ...thing(sheet, fallback.for), "."]);
  const { shown, more } = bounded(sheet, rows, 12, "of these");
  return rows.length === 0 ? [] : runIn("fallback", "If something gives way", ...inline(shown), ...more);
}

/** What steps in for a connection that is gone; of another connection what fits on it, and how long its allowance and its battery last. */
function lineGone(sheet: Sheet, internet: string): Part[] {
  const { setup } = sheet.study;
  const known = standInsOf(setup, new Trial());
  return setup.fallbacks.filter((fallback) => canonical(fallback.for) === canonical(internet)).slice(0, 3).flatMap((fallback): Part[] => {
    const one = known.find((each) => canonical(each.internet.name) === canonical(fallback.device) && canonical(each.insteadOf.name) === canonical(internet));
    return [
      " Line gone: ", ...thing(sheet, fallback.device), " steps in",
      ...(one === undefined ? [] : [one.fits === undefined ? "; measure what it carries" : " with ", ...(one.fits === undefined ? [] : [html("bdi", {}, setInWords(one.fits))]),
        ...(one.data === undefined || one.internet.allowance === undefined ? [] : [`; its ${data(one.internet.allowance.best)} last ${duration(one.data)}`]),
        ...(one.battery === undefined ? [] : [`; the battery of ${one.device ?? "it"} lasts ${duration(one.battery)}`])]), ".",
    ];
  });
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
  // What only a hint hangs on helps nobody on the evening.
  const told = study.findings.filter((finding) => finding.severity === "error" || finding.severity === "warning");
  const known = new Set(study.findings.filter((finding) => finding.severity === "hint").flatMap((finding) => (finding.question === undefined ? [] : [finding.question.id])));
  const open = study.questions.filter((question) => !known.has(question.id));
  const assumed = [...new Set([...told.flatMap((finding) => finding.assumed.map((a) => a.text)), ...study.ways.filter((way) => way.verdict !== "works").flatMap((way) => way.hangsOn)])];
  const facts = bounded(sheet, assumed, 8, "assumptions");
  const asks = bounded(sheet, open, 3, "questions");
  return [
    ...(assumed.length === 0 ? [] : runIn("assumed", "Assumed, and something hangs on it", ...inline(facts.shown.map((text) => [sentenceOf(text)])), ...facts.more)),
    ...(open.length === 0 ? [] : runIn("ask", "Still to find out", ...inline(asks.shown.map((question) => [sentenceOf(question.ask)])), ...asks.more)),
  ];
}
