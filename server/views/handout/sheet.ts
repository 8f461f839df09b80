/** What all sections of the hand-out share: the study, the numbers and labels, and how much of a long list is printed. */
import { canonical } from "../../model/names";
import type { Study } from "../../study";
import { html, name, type Part } from "./html";
import { numbersOf, setUpOrder, type Numbered } from "./order";
import { linksOf, mainsOf, type Wire } from "./wires";

export interface Sheet {
  readonly study: Study;
  readonly order: readonly Numbered[];
  readonly numbers: ReadonlyMap<string, number>;
  readonly links: readonly Wire[];
  readonly mains: readonly Wire[];
  /** Lists are printed whole, on however many pages. */
  readonly all: boolean;
}

export function sheetOf(study: Study, all: boolean): Sheet {
  const order = setUpOrder(study.setup);
  return { study, order, numbers: numbersOf(order), links: linksOf(study.setup), mains: mainsOf(study.setup), all };
}

/** A device with its number; anything else by its name alone. `written`: as it stands in the text, `laptop.hdmi`. */
export function thing(sheet: Sheet, device: string, written = device): Part[] {
  const number = sheet.numbers.get(canonical(device));
  return number === undefined ? [name(written)] : [html("span", { class: "n" }, String(number)), "\u00a0", name(written)];
}

/** As many rows as two pages hold, and what there is beyond them, with the command that prints all. */
export function bounded<T>(sheet: Sheet, rows: readonly T[], most: number, what: string): { readonly shown: readonly T[]; readonly more: readonly Part[] } {
  if (sheet.all || rows.length <= most) return { shown: rows, more: [] };
  return { shown: rows.slice(0, most), more: [html("p", { class: "more" }, `… and ${rows.length - most} more ${what}: `, html("code", {}, command(sheet, "--all")), " lists all.")] };
}

/** The command that makes this hand-out. A name that a shell would take apart is quoted. */
export function command(sheet: Sheet, option = ""): string {
  const file = sheet.study.root.split("/").at(-1) ?? "";
  const short = file.length > 60 ? "FILE" : file;
  const quoted = /^[\p{L}\p{N}._-]+$/u.test(short) ? short : `'${short.replaceAll("'", "'\\''")}'`;
  return `bothways handout ${quoted}${option === "" ? "" : ` ${option}`}`;
}

const headingOf = (id: string): string => `h-${id.split(" ")[0] ?? id}`;

/** A section with its heading; nothing where it has nothing to say. */
export function section(id: string, title: string, ...content: readonly Part[]): Part[] {
  return content.length === 0 ? [] : [html("section", { class: id, "aria-labelledby": headingOf(id) }, html("h2", { id: headingOf(id) }, title), " ", ...content)];
}

/** A short section that runs on after its heading. */
export const runIn = (id: string, title: string, ...content: readonly Part[]): Part[] => section(`${id} run`, title, ...content);

export const list = (items: readonly (readonly Part[])[], attributes: Readonly<Record<string, string>> = {}): Part[] =>
  items.length === 0 ? [] : [html("ul", attributes, ...items.map((item) => html("li", {}, ...item)))];

/** Things one after another on a line, each kept together as long as it fits. */
export const inline = (items: readonly (readonly Part[])[]): Part[] =>
  items.length === 0 ? [] : [html("p", {}, ...items.flatMap((item, i): Part[] => [i === 0 ? "" : " · ", html("span", {}, ...item)]))];

/** Room to write. */
export const fill = (): Part => html("span", { class: "fill" });
/** A square to tick. */
export const tick = (): Part => html("span", { class: "tick" });

/** `during questions: `, or nothing. */
export const during = (items: readonly string[]): Part[] =>
  items.length === 0 ? [] : [html("b", {}, "during ", ...items.slice(0, 3).flatMap((item, i): Part[] => [i === 0 ? "" : ", ", name(item, 24)]), items.length > 3 ? ` and ${items.length - 3} more` : ""), ": "];
