/** Help, made from the same tables that arguments are read by. */
import type { Shape } from "./arguments";
import type { Page } from "./terminal";
import { hung } from "./wording";

/** What there is, in one screen. */
export function overview(shapes: readonly Shape[], version: string, page: Page): string {
  const widest = Math.max(...shapes.map((shape) => shape.usage.length));
  return `${[
    `${page.paint("strong", `bothways ${version}`)}  reads the setup of a meeting that some attend in a room and others online,`,
    "and says what will be heard, seen, carried and powered.",
    "",
    ...shapes.map((shape) => hung(`  bothways ${shape.usage.padEnd(widest)}  `, shape.summary, page.width)),
    "",
    "  bothways help COMMAND      says more about one of them",
    "",
    "To begin: bothways start",
  ].join("\n")}\n`;
}

/** All about one command. */
export function manual(shape: Shape, page: Page): string {
  const options = shape.options.map((option) => ({
    written: option.value === undefined ? `--${option.name}` : `--${option.name} ${option.value}`, meaning: option.meaning,
  }));
  const widest = Math.max(0, ...options.map((option) => option.written.length));
  return `${[
    `${page.paint("strong", `bothways ${shape.usage}`)}  ${shape.summary}`,
    "",
    ...shape.about.map((paragraph) => hung("", paragraph, page.width)),
    ...(options.length === 0 ? [] : ["", ...options.map((o) => hung(`  ${o.written.padEnd(widest)}  `, o.meaning, page.width))]),
    "",
    `For example: ${shape.example}`,
  ].join("\n")}\n`;
}
