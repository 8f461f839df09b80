/** What the kinds of line mean, for those who see such a drawing for the first time. */
import { widthOf } from "../svg/glyphs";
import { kindOf } from "./labels";
import type { Network } from "./network";
import type { LegendEntry } from "./scene";
import { TYPE } from "./sizes";

export const LEGEND_HEIGHT = 28;
/** Width of the sample before the words. */
export const SAMPLE = 42;
const BETWEEN = 22;

const WORDS: Readonly<Record<LegendEntry["kind"], string>> = {
  out: "room to people online",
  in: "people online to room",
  gap: "something is missing",
  pale: "would go on",
  echo: "echo",
  post: "device; thin where it only lets lines pass",
};

/** Entries for what occurs in the drawing, in rows of at most `width`. */
export function legend(network: Network, x: number, y: number, width: number): { entries: LegendEntry[]; rows: number } {
  const lines = network.bands.flatMap((band) => band.lines);
  if (lines.length === 0 && network.echoes.length === 0) return { entries: [], rows: 0 };
  const kinds: LegendEntry["kind"][] = [];
  if (network.bands.some((band) => band.direction === "out" && band.lines.length > 0)) kinds.push("out");
  if (network.bands.some((band) => band.direction === "in" && band.lines.length > 0)) kinds.push("in");
  if (lines.some((line) => line.gap !== "")) kinds.push("gap", "pale");
  if (network.echoes.length > 0) kinds.push("echo");
  kinds.push("post");
  const howl = network.echoes.some((echo) => kindOf(echo.run) === "howl");
  const comingBack = !howl ? WORDS.echo : network.echoes.every((echo) => kindOf(echo.run) === "howl") ? "howl" : "echo or howl";
  const entries: LegendEntry[] = [];
  let at = x;
  let row = 0;
  for (const kind of kinds) {
    const said = kind === "echo" ? comingBack : WORDS[kind];
    const needed = SAMPLE + 10 + widthOf(said, TYPE.note);
    if (at > x && at + needed > x + width) {
      row += 1;
      at = x;
    }
    const middle = y + row * LEGEND_HEIGHT + LEGEND_HEIGHT / 2;
    entries.push({
      kind, x: at, y: middle,
      text: { x: at + SAMPLE + 10, y: middle + TYPE.note * 0.35, text: said, size: TYPE.note, bold: false, anchor: "start", rank: "ink2" },
    });
    at += needed + BETWEEN;
  }
  return { entries, rows: row + 1 };
}
