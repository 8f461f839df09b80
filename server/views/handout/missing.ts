/** If one thing is missing: what to do instead, and what stays lost. */
import { canonical } from "../../model/names";
import { whatIfMissing, type Missing } from "../../missing";
import { alike, insteadWords, leftWords } from "../missing-words";
import { html, listed, name, type Part } from "./html";
import { bounded, command, inline, runIn, thing, type Sheet } from "./sheet";

/** As many as helpers read before they begin to run. */
const MOST_ROWS = 8;
const MOST_NAMES = 8;

export function ifMissing(sheet: Sheet): Part[] {
  const { setup } = sheet.study;
  const { rows, untried } = whatIfMissing(setup);
  const groups = alike(rows, true);
  if (groups.length === 0) return [];
  const { shown, more } = bounded(sheet, groups, MOST_ROWS, "that one can do without");
  const row = ({ rows: same, first }: (typeof groups)[number]): Part[] => [
    html("b", {}, ...listed(same.slice(0, MOST_NAMES).map((one) => html("span", {}, ...called(sheet, one))), ", ", " or "), same.length > MOST_NAMES ? ` or ${same.length - MOST_NAMES} more` : "", ": "),
    ...(first.lost.length === 0 ? [] : [`${insteadWords(first)}; `]), ...(first.left.length === 0 && first.jobs.length === 0 ? [first.poorer ? "less well" : "as well"] : [leftWords(first, setup)]),
  ];
  return runIn("missing", "If this one is missing", ...inline(shown.map(row)),
    ...more, ...(untried === 0 ? [] : [html("p", { class: "more" }, `${untried} more were not tried: `, html("code", {}, command(sheet).replace("handout", "missing")), ".")]));
}

function called(sheet: Sheet, row: Missing): Part[] {
  if (row.what === "person") return [name(row.name), ...(row.ends.length === 0 ? [] : [" with ", ...listed(row.ends.slice(0, 3).map((device) => html("span", {}, ...thing(sheet, device))))])];
  if (row.what === "device") return thing(sheet, row.name);
  const wire = sheet.links.find((one) => canonical(one.from) === canonical(row.ends[0] ?? "") && canonical(one.to) === canonical(row.ends[1] ?? ""));
  return wire === undefined ? [name(row.name)] : [html("span", { class: "label" }, wire.label)];
}
