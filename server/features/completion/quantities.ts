/** Units behind a figure, and figures as they are written. */
import { DIMENSIONS, UNITS, type Dimension } from "../../../grammar/units";
import type { Row, Slot } from "../../../grammar/vocabulary";
import { exampleOf } from "./examples";
import { offer, type Bare } from "./offer";

/** Spelt-out doubles of units that have a short sign. */
const LONG = /^(?:metres?|meters?|foot|feet|inches|sec|seconds?|minutes?|hours?|watts|degrees|percent|lux|lumens|[MkG]bit\/s|[MkG]bps|sqm|sqft|ft2|ft²|yards)$/;

/** Units of a dimension, the one of the example first; `count` is what is counted, where that is said. */
export function units(dimension: Dimension, counted: string | undefined): Bare[] {
  if (dimension === "count" || dimension === "ratio") return counted === undefined ? [] : [offer("unit", counted, "what is counted", "", 0)];
  const usual = /[^\d\s.]+$/u.exec(DIMENSIONS[dimension].example)?.[0];
  return [...UNITS].filter(([word, unit]) => unit.dimension === dimension && !LONG.test(word))
    .map(([word]) => offer("unit", word, DIMENSIONS[dimension].title, "", word === usual ? 0 : 1));
}

/** What a slot counts: people, where the example says so. */
export const countedIn = (row: Row, slot: Slot): string | undefined => /\d\s+(people)$/.exec(exampleOf(row, slot) ?? "")?.[1];

const FIGURE = /^([-+−]?\d+(?:\.\d+)?)[^\d\s.]*$/u;

/** The figure in what is being written, with or without the beginning of a unit behind it. */
export const figureIn = (typed: string): string | undefined => FIGURE.exec(typed)?.[1];

/** The figure that is being written with each unit that it may have. */
export const withUnits = (figure: string, dimension: Dimension, counted: string | undefined): Bare[] =>
  units(dimension, counted).map((unit) => ({ ...unit, label: `${figure} ${unit.label}`, insert: `${figure} ${unit.insert}` }));

/** A figure for a slot: one like it, or that it is not known well. */
export function figures(row: Row, slot: Slot, afterAbout: boolean): Bare[] {
  const example = exampleOf(row, slot);
  if (afterAbout) return example === undefined ? [] : [offer("value", example.replace(/^about\s+/, ""), "like this", slot.meaning, 0)];
  return [
    ...(example === undefined ? [] : [offer("value", example, "like this", slot.meaning, 0)]),
    offer("connector", "about", "", `${slot.meaning}, give or take`, 1, "about "), offer("connector", "unknown", "", "nobody knows yet", 2),
  ];
}
