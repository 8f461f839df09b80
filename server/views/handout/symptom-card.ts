/** What somebody says while people wait, and what to look at in this setup, the likeliest first. */
import { canonical } from "../../model/names";
import { suspectsOf, symptomsFor } from "../symptoms";
import { html, type Part } from "./html";
import { inline, runIn, thing, type Sheet } from "./sheet";

/** What the line check leads through, chain by chain, is not said twice on one sheet. */
const IN_THE_LINE_CHECK: ReadonlySet<string> = new Set(["silent-online", "silent-room", "black", "unseen"]);

/** Of each symptom: more is no card. The command says more. */
const MOST_LOOKS = 3;

export function symptomCard(sheet: Sheet): Part[] {
  const rows = symptomsFor(sheet.study.setup).filter((one) => !IN_THE_LINE_CHECK.has(one.id)).flatMap((symptom): Part[][] => {
    // What ails by the study's own word stands elsewhere on the sheet; here are things to go to.
    const things = [...new Map(suspectsOf(sheet.study, symptom).filter((one) => one.name.length <= 60).map((one) => [canonical(one.name), one.name])).values()].slice(0, MOST_LOOKS);
    return things.length === 0 ? [] : [[html("b", {}, `“${symptom.says}”: `), ...things.flatMap((one, i): Part[] => [i === 0 ? "" : " – ", html("span", {}, ...thing(sheet, one))])]];
  });
  return rows.length === 0 ? [] : runIn("symptoms", "If somebody says", ...inline([...rows, ["Nothing heard, or a black picture: along the line check."]]));
}
