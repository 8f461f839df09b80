/** What somebody says while people wait, and what to look at in this setup, the likeliest first. */
import { canonical } from "../../model/names";
import { likeliest, suspectsOf } from "../symptoms/chain";
import { html, type Part } from "./html";
import { inline, runIn, thing, type Sheet } from "./sheet";

/** What the line check leads through, chain by chain, is not said twice on one sheet. */
const IN_THE_LINE_CHECK: ReadonlySet<string> = new Set(["silent-online", "silent-room", "black", "unseen"]);

/** Of symptoms, and of things for each: more is no card. The command says more. */
const MOST_SYMPTOMS = 6;
const MOST_LOOKS = 2;

export function symptomCard(sheet: Sheet): Part[] {
  const rows: Part[][] = [];
  for (const symptom of likeliest(sheet.study)) {
    if (rows.length >= MOST_SYMPTOMS) break;
    if (IN_THE_LINE_CHECK.has(symptom.id)) continue;
    // What ails by the study's own word stands elsewhere on the sheet; here are things to go to.
    const things = [...new Map(suspectsOf(sheet.study, symptom, undefined, MOST_LOOKS + 3).filter((one) => one.name.length <= 60).map((one) => [canonical(one.name), one.name])).values()].slice(0, MOST_LOOKS);
    if (things.length > 0) rows.push([html("b", {}, `“${symptom.says}”: `), ...things.flatMap((one, i): Part[] => [i === 0 ? "" : " – ", html("span", {}, ...thing(sheet, one))])]);
  }
  return rows.length === 0 ? [] : runIn("symptoms", "If somebody says", ...inline([...rows, ["Nothing heard, or a black picture: along the line check."]]));
}
