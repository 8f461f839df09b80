/** What is brought by whom, set up in which order, plugged in where. */
import { canonical } from "../../model/names";
import { bottlenecks, isFull, loadWords } from "../../signal/circuits";
import { html, listed, name, type Part } from "./html";
import { pointing } from "./duties";
import { STAGE_TITLES, STAGES, type Numbered } from "./order";
import { placeWords } from "./place-words";
import { bounded, section, thing, tick, type Sheet } from "./sheet";

const MOST_DEVICES = 40;
const MOST_WIRES = 44;
const MOST_MAINS = 22;

/** One table, stage after stage; a square to tick for each, and who brings it. */
export function settingUp(sheet: Sheet): Part[] {
  if (sheet.order.length === 0) return [];
  const { shown, more } = bounded(sheet, sheet.order, MOST_DEVICES, "devices");
  const stages = STAGES.filter((stage) => sheet.order.some((row) => row.stage === stage));
  const bodies = stages.map((stage) => ({ stage, rows: shown.filter((row) => row.stage === stage) })).filter(({ rows }) => rows.length > 0);
  return section("order", "Set up in this order", html("table", {},
    html("thead", {}, html("tr", {}, ...["stage", "what", "where it stands", "power", "brought by"].map((word) => html("th", { scope: "col" }, word)))),
    ...bodies.map(({ stage, rows }) => html("tbody", {}, ...rows.map((row, k) => html("tr", {},
      ...(k === 0 ? [html("th", { scope: "rowgroup", rowspan: rows.length }, `${stages.indexOf(stage) + 1}. ${STAGE_TITLES[stage]}`)] : []),
      html("td", {}, tick(), " ", ...what(sheet, row)), html("td", {}, ...where(row)), html("td", {}, ...power(sheet, row)),
      html("td", {}, row.device.owner === undefined ? html("span", { class: "fill short" }) : name(row.device.owner, 30)))))),
  ), ...more, html("p", {}, html("b", {}, "Set up by: "), ...stages.flatMap((stage, i): Part[] => [`${i + 1}. ${STAGE_TITLES[stage].toLowerCase()} `, html("span", { class: "fill short" }), " "]),
    html("b", {}, `${stages.length + 1}. Line check`), ", below."));
}

function what(sheet: Sheet, { device }: Numbered): Part[] {
  const kind = device.kind.replaceAll("-", " ");
  return [...thing(sheet, device.name), ...(kind === "" || kind.toLowerCase() === device.name.toLowerCase() ? [] : [" ", html("span", { class: "kind" }, name(kind))])];
}

function where(row: Numbered): Part[] {
  const { device } = row;
  if (device.placed === undefined) return ["at hand"];
  const place = device.place === undefined ? "its place is not said" : placeWords(device.place);
  return listed([place, ...pointing(row)].map((words) => name(words, 90)), ", ", ", ");
}

function power(sheet: Sheet, { feed, device }: Numbered): Part[] {
  switch (feed?.by) {
    case "mains": {
      const label = sheet.mains.find((wire) => canonical(wire.to) === canonical(device.name))?.label;
      return [name(feed.from ?? "", 30), ...(label === undefined ? [] : [" ", html("span", { class: "label" }, label)])];
    }
    case "usb": return ["USB of ", ...thing(sheet, feed.from ?? "")];
    case "phantom": return ["from its input, 48 V on"];
    case "battery": return ["battery, fresh or charged"];
    case "needs-none": return ["none"];
    case "none": return [html("b", {}, "none yet")];
    case "unknown": case undefined: return device.type === "power-bank" ? ["battery, charged"] : ["not said"];
  }
}

const MOST_LOADS = 6;
const MOST_NAMED = 5;

/** Cables, radio links and what goes into which outlet, with the number for the label at both ends. */
export function plugging(sheet: Sheet): Part[] {
  const cables = bounded(sheet, sheet.links, MOST_WIRES, "cables");
  const mains = bounded(sheet, sheet.mains, MOST_MAINS, "plugs");
  const rows = [...cables.shown, ...mains.shown].map((wire) => html("tr", {},
    html("th", { scope: "row" }, wire.label),
    html("td", {}, html("span", {}, ...thing(sheet, wire.fromDevice, wire.from)), " → ", html("span", {}, ...thing(sheet, wire.toDevice, wire.to))),
    html("td", {}, wire.what === "" ? "" : name(wire.what)),
    html("td", {}, wire.length ?? (wire.label.startsWith("R") ? "" : html("span", { class: "fill tiny" })))));
  return rows.length === 0 ? [] : section("cables", "Cables, radio links, mains", html("table", {},
    html("thead", {}, html("tr", {}, ...["label", "from → to", "what", "length"].map((head) => html("th", { scope: "col" }, head)))), html("tbody", {}, ...rows)),
    ...cables.more, ...mains.more, ...loads(sheet));
}

/** What hangs on each circuit, and on an outlet or a lead that carries more than half of what it may: what is far from full takes no room on the sheet. */
function loads({ study: { setup } }: Sheet): Part[] {
  const necks = bottlenecks(setup).filter((neck) => neck.kind === "circuit" || isFull(setup, neck));
  if (necks.length === 0) return [];
  return [html("p", {}, html("b", {}, "What hangs on what. "), ...necks.slice(0, MOST_LOADS).flatMap(({ kind, name: called, devices }) => [
    name(called), `, ${kind}: ${loadWords(setup, kind, called).join("")} (`, ...devices.slice(0, MOST_NAMED).flatMap((device, i) => [i === 0 ? "" : ", ", name(device.name)]),
    devices.length > MOST_NAMED ? ` and ${devices.length - MOST_NAMED} more). ` : "). ",
  ]), "Which breaker feeds what, and what it may carry, the venue says.")];
}
