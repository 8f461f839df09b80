import type { Figure } from "../finding";
import { study } from "../study";
import { CannotRun } from "./cannotRun";
import { FINE, formatOption, ROOT_OPTION, type Command } from "./command";
import { countsOf } from "./printStudy";
import type { Page } from "./terminal";
import { Folders, textOf } from "./texts";
import { hung, number, plain } from "./wording";

/** A figure with the keys that scripts count on, in their order. */
export const figureJson = (figure: Figure): Record<string, unknown> => ({
  name: figure.name,
  of: figure.of,
  ...(figure.at === undefined ? {} : { at: figure.at }),
  ...(figure.item === undefined ? {} : { item: figure.item }),
  ...(figure.band === undefined ? {} : { band: figure.band }),
  value: figure.value,
  unit: figure.unit,
  formula: figure.formula,
  inputs: figure.inputs.map((input) => ({
    name: input.name, value: input.value, unit: input.unit, ...(input.assumed === true ? { assumed: true } : {}), ...(input.narrowed === undefined ? {} : { narrowed: input.narrowed }),
  })),
  source: figure.source,
});

const quantity = (value: number, unit: string): string => (unit === "" ? number(value) : `${number(value)} ${unit}`);

const band = (hertz: number): string => (hertz >= 1000 ? `${number(hertz / 1000)} kHz` : `${number(hertz)} Hz`);

/** Figures that differ in their octave band alone are one line. */
function series(figures: readonly Figure[]): [Figure, ...Figure[]][] {
  const out: [Figure, ...Figure[]][] = [];
  let last = "";
  for (const figure of figures) {
    const key = figure.band === undefined ? "" : JSON.stringify([figure.of, figure.at, figure.item, figure.formula, figure.source, figure.inputs]);
    if (key !== "" && key === last) out[out.length - 1]?.push(figure);
    else out.push([figure]);
    last = key;
  }
  return out;
}

/** Figures for people: those of one name together, with the working of each. */
export function printFigures(figures: readonly Figure[], page: Page): string {
  const groups = new Map<string, Figure[]>();
  for (const figure of figures) {
    const group = groups.get(figure.name);
    if (group === undefined) groups.set(figure.name, [figure]);
    else group.push(figure);
  }
  const blocks: string[] = [];
  for (const [name, group] of groups) {
    const out = [page.paint("strong", plain(name))];
    // The working is said once for figures that share it, and again where it changes.
    let working = "";
    for (const [figure, ...others] of series(group)) {
      const next = `${figure.formula}\u0000${figure.source}`;
      if (next !== working) {
        working = next;
        if (figure.formula !== "") out.push(hung("  by      ", figure.formula, page.width));
        if (figure.source !== "") out.push(hung("  source  ", figure.source, page.width));
      }
      const where = [figure.of.join(", "), figure.at === undefined ? "" : `at ${figure.at}`, figure.item === undefined ? "" : `during ${figure.item}`].filter((part) => part !== "").join(", ");
      if (others.length > 0) {
        const bands = [figure, ...others].map((one) => `${band(one.band ?? 0)} ${quantity(one.value, one.unit)}`);
        out.push(hung("  ", `${where === "" ? "" : `${where}:  `}${bands.join("; ")}`, page.width, 4));
      } else {
        const value = quantity(figure.value, figure.unit);
        const of = [where, figure.band === undefined ? "" : band(figure.band)].filter((part) => part !== "").join(", ");
        // Painted after wrapping: colours have no width.
        const line = hung(`  ${value}  `, of, page.width, 4);
        out.push(`  ${page.paint("strong", value)}${line.slice(2 + value.length)}`);
      }
      if (figure.inputs.length > 0) {
        const inputs = figure.inputs.map((i) => `${i.name} ${quantity(i.value, i.unit)}${i.assumed === true ? i.narrowed === undefined ? " (assumed)" : ` (assumed, narrowed by “${i.narrowed}”)` : ""}`);
        out.push(hung("    from  ", inputs.join("; "), page.width));
      }
    }
    blocks.push(out.join("\n"));
  }
  return `${blocks.join("\n\n")}\n`;
}

/** `bothways figures`. */
export const figures: Command = {
  shape: {
    name: "figures",
    usage: "figures FILE",
    summary: "prints every value computed, with formula, inputs and source",
    about: ["Every value that the findings rest on, with what it was computed from. What the text does not state is marked as assumed."],
    options: [formatOption(["text", "json"]), ROOT_OPTION],
    least: 1, most: 1, example: "bothways figures autumn.bothways --format json",
  },

  async run(given, terminal) {
    const source = new Folders(given.value("root")).file(given.words[0] ?? "");
    textOf(source);
    const one = study(source.texts, source.path);
    if (!one.isSetup) throw new CannotRun(`${source.shown}: it holds no setup, so there is nothing to compute.`);
    const all = one.figures();
    if (given.value("format") === "json") {
      await terminal.out(`${JSON.stringify(all.map(figureJson), undefined, 2)}\n`);
      return FINE;
    }
    const mistakes = countsOf({ findings: [], problems: one.problems }).error;
    if (mistakes > 0) terminal.err(`${source.shown}: its text has mistakes (bothways check shows them); what they spoil is left out.\n`);
    await terminal.out(all.length === 0 ? "Nothing could be computed yet.\n" : printFigures(all, terminal));
    return FINE;
  },
};
