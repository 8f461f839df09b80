/**
 * What fits for every uplink, as steps: a strip for each stream, the most important at the top, in which a line climbs from off to
 * what is planned as the uplink grows. The uplink runs from left to right, each doubling as wide as the one before.
 */
import type { FallbackTable } from "../../figures/fallback-table";
import { streamName } from "../../checks/set-words";
import { rate } from "../../model/show";
import type { FittingSet, Ladder } from "../../signal/giving-up";
import { element, path, write, type Element } from "../svg/element";
import { FONT_STACK, widthOf } from "../svg/glyphs";
import { paletteSheet, type Theme } from "../svg/palette";
import { shorten } from "../svg/wrap";

const WIDTH = 920;
const LEFT = 210;
const RIGHT = 24;
const TOP = 92;
const STEP = 17;
const BETWEEN = 14;
/** So many strips are drawn; a meeting with more has no use for a drawing of all. */
const MOST_STRIPS = 24;

/** Where the best set changes: from `from` bit/s of measured uplink upwards it is `set`. */
interface Stretch { readonly from: number; readonly to: number; readonly set: FittingSet }

/** The table of one connection as an SVG document; the same text for the same table. */
export function drawUplink(title: string, table: FallbackTable, theme?: Theme): string {
  const stretches = stretchesOf(table);
  const lows = stretches.map((one) => one.from).filter((from) => from > 0);
  const [least, most] = [Math.max(1e3, Math.min(...lows, table.up ?? Infinity) / 2), Math.max(...lows, table.up ?? 0) * 1.6];
  const x = (bits: number): number => LEFT + (WIDTH - LEFT - RIGHT) * Math.min(1, Math.max(0, Math.log(Math.max(bits, least) / least) / Math.log(most / least)));
  const ladders = table.ladders.flat().slice(0, MOST_STRIPS);
  const heights = ladders.map((ladder) => (ladder.levels.length + 1) * STEP);
  const tops = heights.map((_, i) => TOP + heights.slice(0, i).reduce((sum, height) => sum + height + BETWEEN, 0));
  const bottom = (tops.at(-1) ?? TOP) + (heights.at(-1) ?? 0);
  const hidden = table.ladders.flat().length - ladders.length;
  const height = bottom + 58 + (hidden > 0 ? 18 : 0);
  const root = `.bothways-uplink${theme === undefined ? "" : `.${theme}`}`;
  const words = wordsOf(table, stretches);
  const said = `${title}: what fits over ${table.internet}${table.insteadOf === undefined ? "" : `, instead of ${table.insteadOf}`}`;
  return `${write(element("svg", { xmlns: "http://www.w3.org/2000/svg", viewBox: `0 0 ${WIDTH} ${Math.round(height)}`, class: `bothways-uplink${theme === undefined ? "" : ` ${theme}`}`, role: "img", "aria-labelledby": "uplink-title uplink-words" },
    element("title", { id: "uplink-title" }, said), element("desc", { id: "uplink-words" }, words),
    { css: [paletteSheet(root, theme), ...rules(root)].join("\n") },
    element("rect", { class: "page", x: 0, y: 0, width: WIDTH, height }),
    text(24, 30, shorten(said, 17, WIDTH - 48, true), "b", 17),
    text(24, 52, `What can be counted on is ${Math.round(table.share * 100)} % of the uplink as measured${table.item === undefined ? "" : `; as it is during ${shorten(table.item, 13, 260)}`}.`, "ink2", 13),
    ...axis(least, most, x, bottom),
    ...ladders.flatMap((ladder, i) => ground(ladder, stretches, x, tops[i] ?? TOP)),
    ...(table.up === undefined ? [] : now(x(table.up), bottom, table.up)),
    ...ladders.flatMap((ladder, i) => labels(ladder, stretches, x, tops[i] ?? TOP)),
    ...(hidden > 0 ? [text(24, height - 12, `… and ${hidden} more streams`, "ink2", 13)] : []),
  ))}\n`;
}

const rules = (root: string): string[] => [
  `text{font-family:${FONT_STACK};fill:var(--ink)}`, "text.b{font-weight:bold}", "text.ink2{fill:var(--ink2)}", "text.on{paint-order:stroke;stroke:var(--post);stroke-width:3}", "text.off{paint-order:stroke;stroke:var(--ground);stroke-width:3}", ".page{fill:var(--page)}", ".strip{fill:var(--ground);stroke:var(--edge)}",
  ".fill{fill:var(--post);stroke:none}", ".stair{fill:none;stroke:var(--out);stroke-width:3;stroke-linejoin:round}", ".tick{stroke:var(--pale);stroke-width:1;stroke-dasharray:2 4}", ".now{stroke:var(--ink);stroke-width:2}",
].map((rule) => `${root} ${rule}`);

const text = (x: number, y: number, words: string, style: string, size: number, anchor?: string): Element => element("text", { x, y, class: style, "font-size": size, "text-anchor": anchor }, words);

/** The uplink at which each best set begins and ends, the thinnest first. */
export function stretchesOf(table: FallbackTable): Stretch[] {
  const rising = [...table.best].reverse();
  return rising.map((set, i) => ({ set, from: set.cost / table.share, to: rising[i + 1] === undefined ? Infinity : (rising[i + 1]?.cost ?? 0) / table.share }));
}

function axis(least: number, most: number, x: (bits: number) => number, bottom: number): Element[] {
  const marks = [1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9].flatMap((decade) => [1, 2, 5].map((times) => decade * times)).filter((bits) => bits >= least && bits <= most);
  return [
    ...marks.map((bits) => element("line", { class: "tick", x1: x(bits), y1: TOP - 14, x2: x(bits), y2: bottom })),
    ...marks.map((bits) => text(x(bits), bottom + 18, `${bits / 1e6}`, "ink2", 12, "middle")),
    text(WIDTH - RIGHT, bottom + 38, "uplink as measured, Mb/s", "ink2", 12, "end"),
  ];
}

interface Run { readonly from: number; to: number; readonly y: number; readonly set: FittingSet }

/** The stretches over which one stream stays as it is, with the height of its line. */
function runsOf(ladder: Ladder, stretches: readonly Stretch[], top: number): Run[] {
  const foot = top + (ladder.levels.length + 1) * STEP;
  const runs: Run[] = [];
  for (const { from, to, set } of stretches) {
    const level = set.levels.get(ladder);
    const y = level === undefined ? foot - 3 : top + STEP * ladder.levels.indexOf(level) + 6;
    const last = runs.at(-1);
    if (last !== undefined && last.y === y) last.to = to;
    else runs.push({ from, to, y, set });
  }
  return runs;
}

/** A strip with the line that climbs through a stream's levels. */
function ground(ladder: Ladder, stretches: readonly Stretch[], x: (bits: number) => number, top: number): Element[] {
  const height = (ladder.levels.length + 1) * STEP;
  const line = runsOf(ladder, stretches, top).flatMap((run, i) => [i === 0 ? "M" : "L", x(run.from), run.y, "L", x(run.to), run.y]);
  return [
    element("rect", { class: "strip", x: LEFT, y: top, width: WIDTH - LEFT - RIGHT, height }),
    element("path", { class: "fill", d: path(...line, "L", WIDTH - RIGHT, top + height, "L", LEFT, top + height, "Z") }),
    element("path", { class: "stair", d: path(...line) }),
    text(LEFT - 10, top + height / 2 + 4, shorten(streamName(ladder), 14, LEFT - 34, true), "b", 14, "end"),
  ];
}

/** What each level is called, where there is room for it; what has none stands in the words and in the table. */
const labels = (ladder: Ladder, stretches: readonly Stretch[], x: (bits: number) => number, top: number): Element[] => runsOf(ladder, stretches, top).flatMap((run): Element[] => {
  const level = run.set.levels.get(ladder);
  const words = level === undefined ? "off" : ladder.stream.picture === undefined && level.planned ? "as planned" : level.title.replace(/^at /, "");
  return widthOf(words, 11) > x(run.to) - x(run.from) - 8 ? [] : [text(x(run.from) + 5, run.y + (level === undefined ? -4 : 13), words, level === undefined ? "off" : "on", 11)];
});

function now(at: number, bottom: number, up: number): Element[] {
  const right = at > WIDTH - 180;
  return [element("line", { class: "now", x1: at, y1: TOP - 20, x2: at, y2: bottom }), text(at + (right ? -6 : 6), TOP - 12, `${rate(up)} as stated`, "b", 12, right ? "end" : "start")];
}

/** The whole drawing in words. */
function wordsOf(table: FallbackTable, stretches: readonly Stretch[]): string {
  const all = table.ladders.flat();
  return [...stretches].reverse().slice(0, 40).map(({ from, set }) => {
    const parts = all.slice(0, 12).map((ladder) => {
      const level = set.levels.get(ladder);
      return `${streamName(ladder)} ${level === undefined ? "off" : level.title}`;
    });
    return set.cost === 0 ? "Below that nothing fits: dial in by telephone." : `From ${rate(from)}: ${parts.join(", ")}.`;
  }).join(" ");
}
