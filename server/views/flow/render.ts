/** From a scene to SVG. */
import { documentOf, type Manner } from "../svg/document";
import { element, path, type Element, type Node } from "../svg/element";
import { source } from "../svg/source";
import { writeText } from "../svg/text";
import { arrow, troubleMark, verdictMark, wave } from "./marks";
import { kindOf } from "./labels";
import { SAMPLE } from "./legend";
import type { LegendEntry, LineStyle, PlacedEcho, PlacedLine, PlacedPost, PlacedStrip, PlacedVerdict, Scene, Zone } from "./scene";
import { BEAD, POST } from "./sizes";
import { describeLine } from "./words";

/** How the parts of the drawing look. */
export const FLOW_RULES: readonly string[] = [
  ".strip{fill:var(--ground);stroke:var(--edge);stroke-width:1}",
  ".strip.echoes{fill:none;stroke:none}",
  ".strip.shelf{fill:none;stroke:var(--pale);stroke-dasharray:2 5}",
  ".zone{stroke:var(--ink2);stroke-width:1.5}",
  ".body,.head{fill:var(--post);stroke:var(--ink);stroke-width:1.6}",
  ".call .body{stroke-dasharray:1 4;stroke-linecap:round;stroke-width:2.4}",
  ".foot{stroke:var(--ink);stroke-width:3;stroke-linecap:round}",
  ".spine{stroke:var(--ink2);stroke-width:2;stroke-dasharray:1 5;stroke-linecap:round}",
  ".run{stroke-width:3.4;stroke:var(--out)}",
  ".run.in{stroke-width:2;stroke:var(--in)}",
  ".run.pale{stroke-width:2;stroke:var(--pale);stroke-dasharray:7 6}",
  ".arrow{fill:var(--out);stroke:var(--out);stroke-width:1.5;stroke-linejoin:round}",
  ".arrow.in{fill:var(--ground);stroke:var(--in);stroke-width:2.2}",
  ".arrow.pale{fill:var(--ground);stroke:var(--pale);stroke-width:1.6}",
  ".arrow.echo{fill:var(--trouble);stroke:var(--trouble)}",
  ".bead{fill:var(--page);stroke:var(--out);stroke-width:3}",
  ".bead.in{stroke:var(--in)}",
  ".bead.pale{stroke:var(--pale);stroke-width:2}",
  ".bead.echo{stroke:var(--trouble)}",
  ".hole{fill:var(--page)}",
  ".torn{stroke:var(--trouble);stroke-width:2.6;stroke-linecap:round;stroke-linejoin:round}",
  ".echo-path{stroke:var(--trouble);stroke-width:3;stroke-linejoin:round;stroke-linecap:round}",
  ".turn>*{stroke:var(--trouble);stroke-width:3;stroke-linecap:round;stroke-linejoin:round}",
  ".turn .tip{fill:var(--trouble);stroke-width:1}",
  ".mark>*{stroke:var(--ink);stroke-width:1.8}",
  ".mark .sign,.ailing .sign{stroke:var(--sign)}",
  ".mark.works>*{fill:var(--works)}",
  ".mark.doubtful>*{fill:var(--doubtful)}",
  ".mark.unknown>*{fill:var(--unknown)}",
  ".mark.fails>*{fill:var(--trouble)}",
  ".mark .sign,.ailing .sign{fill:none}",
  ".mark.works .sign{stroke:var(--ink)}",
  ".mark.fails .sign{stroke:var(--page)}",
  ".ailing>*{fill:var(--doubtful);stroke:var(--ink);stroke-width:1.4}",
];

function verdict(placed: PlacedVerdict): Node[] {
  return [
    ...(placed.whole === undefined ? [] : [element("title", {}, placed.whole)]),
    ...(placed.verdict === undefined ? [] : [verdictMark(placed.verdict, placed.markX, placed.markY)]),
    ...placed.texts.map(writeText),
  ];
}

function strip(placed: PlacedStrip): Element {
  const { box } = placed;
  return element("rect", { class: `strip ${placed.kind}`, x: box.x, y: box.y, width: box.width, height: box.height, rx: 10 });
}

function zone(placed: Zone): Element {
  return element("g", { class: "zone-name" },
    writeText(placed.text),
    element("path", { class: "zone", d: path("M", placed.from, placed.y + 6, "V", placed.y, "H", placed.to, "V", placed.y + 6) }));
}

/** A line in its style: single, double or broken. */
function stroke(style: LineStyle, from: number, to: number, y: number): Element[] {
  if (style !== "in") return [element("path", { class: `run ${style}`, d: path("M", from, y, "H", to) })];
  return [-2.6, 2.6].map((shift) => element("path", { class: "run in", d: path("M", from, y + shift, "H", to) }));
}

/** Half the height of the opening that words of this height stand in, and the ragged edge down one side of it. */
function edgeOf(height: number, atLeft: boolean): { half: number; points: string[] } {
  const half = Math.max(13, height / 2 + 4);
  const teeth = 2 * Math.max(2, Math.round(half / 6));
  const reach = atLeft ? 5 : -5;
  return { half, points: Array.from({ length: teeth }, (_, index) => path("l", index % 2 === 0 ? reach : -reach, (2 * half) / teeth)) };
}

/** The end of a line where it is torn off: a ragged edge. */
function torn(x: number, y: number, height: number, atLeft: boolean): Element {
  const { half, points } = edgeOf(height, atLeft);
  return element("path", { class: "torn", d: `${path("M", x, y - half)} ${points.join(" ")}` });
}

/** The opening between two torn ends: one sees through the band. */
function hole(left: number, right: number, y: number, height: number): Element {
  const { half, points } = edgeOf(height, true);
  const up = edgeOf(height, false).points.map((point) => point.replace(/(-?[\d.]+)$/u, "-$1"));
  return element("path", { class: "hole", d: `${path("M", left, y - half)} ${points.join(" ")} ${path("H", right)} ${up.join(" ")} Z` });
}

function line(placed: PlacedLine, nameOf: (id: string) => string, stops: boolean): Element {
  const label = describeLine(placed.line, nameOf);
  const style = (pale: boolean): LineStyle => (pale ? "pale" : placed.direction);
  return element("g", {
    class: "line", "data-from": placed.line.from, "data-to": placed.line.to,
    ...source(placed.line.where, label, stops),
  },
  element("title", {}, label),
  ...placed.pieces.flatMap((piece) => stroke(style(piece.pale), piece.from, piece.to, placed.y)),
  ...placed.arrows.map((mark) => arrow(mark.x, placed.y, mark.right, style(mark.pale))),
  ...(placed.gap === undefined ? [] : [
    hole(placed.gap.left, placed.gap.right, placed.y, placed.gap.height),
    torn(placed.gap.left, placed.y, placed.gap.height, true),
    torn(placed.gap.right, placed.y, placed.gap.height, false),
  ]),
  ...placed.texts.map(writeText));
}

/** What of a post lies behind the lines. */
function shafts(placed: PlacedPost): Element {
  const bottom = placed.bodies.at(-1)?.bottom ?? 0;
  return element("g", { class: placed.post.role },
    ...placed.spines.map((spine) => element("path", { class: "spine", d: path("M", placed.x, spine.top + 4, "V", spine.bottom - 3) })),
    element("path", { class: "foot", d: path("M", placed.x - POST.half - 5, bottom + 1.5, "H", placed.x + POST.half + 5) }),
    ...placed.bodies.map((body) => element("rect", {
      class: "body", x: placed.x - POST.half, y: body.top, width: 2 * POST.half, height: body.bottom - body.top, rx: POST.half,
    })),
    ...(placed.head === undefined ? [] : [element("circle", { class: "head", cx: placed.x, cy: placed.head, r: POST.headRadius })]));
}

/** What of a post lies before the lines: where they join it, and its words. */
function front(placed: PlacedPost, stops: boolean): Element {
  const { post } = placed;
  const named = post.members.length === 1 ? post.name : `${post.name}: ${post.members.map((member) => member.name).slice(0, 60).join(", ")}`;
  const label = [named, post.detail, post.trouble].filter((part) => part !== "").join(", ");
  return element("g", { class: `post ${post.role}`, "data-post": post.id, ...source(post.where, label, stops) },
    element("title", {}, label),
    ...placed.bars.flatMap((bar) => {
      const style: LineStyle = bar.pale ? "pale" : bar.direction;
      const shifts = style === "in" ? [-2.6, 2.6] : [0];
      return shifts.map((shift) => element("path", { class: `run ${style}`, d: path("M", bar.x + shift, bar.top, "V", bar.bottom) }));
    }),
    ...placed.beads.map((bead) => element("circle", { class: `bead ${bead.style}`, cx: placed.x, cy: bead.y, r: BEAD })),
    ...(placed.ailing === undefined ? [] : [troubleMark(placed.ailing.x, placed.ailing.y)]),
    ...placed.texts.map(writeText));
}

function echo(placed: PlacedEcho): Element {
  const { startX, turnX, endX, outY, backY } = placed;
  const side = turnX < startX ? -1 : 1;
  const radius = Math.min(16, (backY - outY) / 2);
  const bend = turnX - side * radius;
  const around = [path("Q", turnX, outY, turnX, outY + radius), path("V", backY - radius), path("Q", turnX, backY, bend, backY)];
  const { closeX } = placed;
  const other = closeX === undefined ? 0 : closeX + side * radius;
  const d = (closeX === undefined
    ? [path("M", startX, outY), wave(startX, bend, outY), ...around, wave(bend, endX, backY)]
    // Round and closed: nothing begins or ends.
    : [path("M", other, outY), wave(other, bend, outY), ...around, wave(bend, other, backY), path("Q", closeX, backY, closeX, backY - radius), path("V", outY + radius), path("Q", closeX, outY, other, outY), "Z"]
  ).join(" ");
  const kind = kindOf(placed.echo.run);
  return element("g", { class: kind === "howl" ? "echo howl" : "echo", "data-echo": placed.echo.run.id },
    element("title", {}, placed.echo.run.title === "" ? kind : `${kind}: ${placed.echo.run.title}`),
    element("path", { class: "echo-path", d }),
    ...placed.arrows.map((mark) => arrow(mark.x, mark.y, mark.right, "echo")),
    ...placed.texts.map(writeText));
}

function legendEntry(entry: LegendEntry): Element {
  const { x, y } = entry;
  const to = x + SAMPLE;
  const middle = x + SAMPLE / 2;
  const sample = ((): Element[] => {
    switch (entry.kind) {
      case "out": return [...stroke("out", x, to, y), arrow(middle, y, true, "out")];
      case "in": return [...stroke("in", x, to, y), arrow(middle, y, false, "in")];
      case "pale": return stroke("pale", x, to, y);
      case "gap": return [...stroke("out", x, x + 11, y), torn(x + 13, y, 0, true), torn(to - 1, y, 0, false)];
      case "echo": return [element("path", { class: "echo-path", d: `${path("M", x, y)} ${wave(x, to, y)}` })];
      case "post": return [
        element("path", { class: "spine", d: path("M", middle, y - 1, "V", y + 6) }),
        element("rect", { class: "body", x: middle - 6, y: y - 12, width: 12, height: 11, rx: 5 }),
        element("rect", { class: "body", x: middle - 6, y: y + 4, width: 12, height: 9, rx: 4.5 }),
      ];
    }
  })();
  return element("g", { class: "legend" }, ...sample, writeText(entry.text));
}

/** The whole drawing as one element. */
export function render(scene: Scene, manner: Manner): Element {
  const names = new Map(scene.posts.map(({ post }) => [post.id, post.name]));
  const nameOf = (id: string): string => names.get(id) ?? id;
  return documentOf("bothways-flow", scene, manner, FLOW_RULES,
    element("g", { class: "grounds" }, ...scene.strips.map(strip)),
  element("g", { class: "head-words" }, ...scene.texts.map(writeText), ...scene.verdicts.map((each) => element("g", { class: "verdict" }, ...verdict(each)))),
  element("g", { class: "zones" }, ...scene.zones.map(zone)),
  ...scene.strips.flatMap((each) => (each.side === undefined ? [] : [element("g", { class: "side", "data-way": each.way }, ...verdict(each.side))])),
  element("g", { class: "shafts" }, ...scene.posts.map(shafts), ...scene.loose.map(shafts)),
  ...scene.lines.map((each) => line(each, nameOf, manner.stops)),
  ...scene.echoes.map(echo),
  ...scene.posts.map((each) => front(each, manner.stops)),
  ...scene.loose.map((each) => front(each, manner.stops)),
  ...scene.legend.map(legendEntry));
}
