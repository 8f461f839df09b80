/** What is brought by whom, set up in which order, plugged in where. */
import { canonical } from "../../model/names";
import { html, listed, name, type Part } from "./html";
import { broughtBy, pointing } from "./duties";
import { STAGE_TITLES, STAGES, type Numbered } from "./order";
import { placeWords } from "./place-words";
import { bounded, inline, runIn, section, thing, tick, type Sheet } from "./sheet";
import type { Wire } from "./wires";

const MOST_DEVICES = 40;
const MOST_WIRES = 44;
const MOST_MAINS = 22;

/** Who brings what, and what is charged before. */
export function bringing(sheet: Sheet): Part[] {
  if (sheet.order.length === 0) return [];
  const rows = [...broughtBy(sheet.order)].map(([owner, devices]): Part[] => {
    const shown = sheet.all ? devices : devices.slice(0, 20);
    return [
      html("b", {}, owner === undefined ? "who brings it is not said" : name(owner)), ": ",
      ...shown.flatMap((row, i): Part[] => [i === 0 ? "" : ", ", ...thing(sheet, row.device.name)]),
      shown.length < devices.length ? ` and ${devices.length - shown.length} more` : "",
    ];
  });
  const charged = sheet.order.filter(({ feed, device }) => feed?.by === "battery" || device.type === "power-bank");
  const { shown, more } = bounded(sheet, rows, 14, "owners");
  const battery: Part[][] = charged.length === 0 ? [] : [[
    html("b", {}, "charged or with fresh batteries: "), ...charged.slice(0, 20).flatMap((row, i): Part[] => [i === 0 ? "" : ", ", ...thing(sheet, row.device.name)]),
    charged.length > 20 ? ` and ${charged.length - 20} more` : "",
  ]];
  return runIn("bring", "Who brings what", ...inline([...shown, ...battery]), ...more);
}

/** One table, stage after stage; a square to tick for each. */
export function settingUp(sheet: Sheet): Part[] {
  if (sheet.order.length === 0) return [];
  const { shown, more } = bounded(sheet, sheet.order, MOST_DEVICES, "devices");
  const stages = STAGES.filter((stage) => sheet.order.some((row) => row.stage === stage));
  const bodies = stages.map((stage) => ({ stage, rows: shown.filter((row) => row.stage === stage) })).filter(({ rows }) => rows.length > 0);
  return section("order", "Set up in this order", html("table", {},
    html("thead", {}, html("tr", {}, ...["stage", "what", "where it stands", "power"].map((word) => html("th", { scope: "col" }, word)))),
    ...bodies.map(({ stage, rows }, i) => html("tbody", {}, ...rows.map((row, k) => html("tr", {},
      ...(k === 0 ? [html("th", { scope: "rowgroup", rowspan: rows.length }, `${i + 1}. ${STAGE_TITLES[stage]}`)] : []),
      html("td", {}, tick(), " ", ...what(sheet, row)), html("td", {}, ...where(row)), html("td", {}, ...power(sheet, row)))))),
  ), ...more, html("p", {}, html("b", {}, `${stages.length + 1}. Line check`), ", below, before anybody comes."));
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
    case "battery": return ["battery"];
    case "needs-none": return ["none"];
    case "none": return [html("b", {}, "none yet")];
    case "unknown": case undefined: return device.type === "power-bank" ? ["battery"] : ["not said"];
  }
}

/** Cables and radio links, with the number for the label at both ends. */
export function plugging(sheet: Sheet): Part[] {
  if (sheet.links.length === 0) return [];
  const { shown, more } = bounded(sheet, sheet.links, MOST_WIRES, "cables");
  const rows = shown.map((wire) => row(sheet, wire, [
    wire.what === "" ? "" : name(wire.what), wire.length === undefined ? (wire.label.startsWith("R") ? "" : html("span", { class: "fill tiny" })) : wire.length,
  ]));
  return section("cables", "Cables and radio links", table(["label", "from", "to", "what", "length"], rows), ...more);
}

/** What goes into which outlet; outlets with their place, where they are first named. */
export function mains(sheet: Sheet): Part[] {
  if (sheet.mains.length === 0) return [];
  const { outlets } = sheet.study.setup.room;
  const { shown, more } = bounded(sheet, sheet.mains, MOST_MAINS, "plugs");
  const rows = shown.map((wire, i) => {
    const first = sheet.mains.findIndex((other) => canonical(other.from) === canonical(wire.from)) === i;
    const place = first ? outlets.get(canonical(wire.from))?.place : undefined;
    return row(sheet, wire, [wire.length ?? ""], place === undefined ? "" : placeWords(place));
  });
  return section("mains", "Mains", table(["label", "into", "goes", "length"], rows), ...more);
}

const table = (heads: readonly string[], rows: readonly Part[]): Part =>
  html("table", {}, html("thead", {}, html("tr", {}, ...heads.map((head) => html("th", { scope: "col" }, head)))), html("tbody", {}, ...rows));

const row = (sheet: Sheet, wire: Wire, rest: readonly Part[], beside = ""): Part => html("tr", {},
  html("th", { scope: "row" }, wire.label), html("td", {}, ...thing(sheet, wire.fromDevice, wire.from), ...(beside === "" ? [] : [" (", name(beside, 90), ")"])), html("td", {}, ...thing(sheet, wire.toDevice, wire.to)),
  ...rest.map((cell) => html("td", {}, cell)));
