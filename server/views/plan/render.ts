/** From a placed floor plan to SVG. */
import { documentOf, type Manner } from "../svg/document";
import { element, path, tidy, type Element, type Node } from "../svg/element";
import { source } from "../svg/source";
import { writeText } from "../svg/text";
import { offset } from "../../signal/ground-plan/walls";
import type { Spot } from "./frame";
import { hatch } from "./hatch";
import { SAMPLE } from "./key";
import { deviceMark, outletMark, talkerMark } from "./marks";
import type { KeyEntry, Label, PlacedArea, PlacedField, PlacedRoute, PlacedRow, PlacedThing, Scene } from "./scene";
import { longestNumber, numberSize } from "./seats";
import { WALL } from "./sizes";
import { aimOf } from "./things";

/** How the parts of a plan look. */
export const PLAN_RULES: readonly string[] = [
  ".floor{fill:var(--ground);stroke:none}",
  ".wall{stroke:var(--ink);stroke-width:6;stroke-linejoin:miter}",
  ".wall.open{stroke-width:2;stroke-dasharray:10 7}",
  ".area{fill:var(--page);stroke:var(--ink2);stroke-width:1.4}",
  ".area.screen{stroke:var(--ink);stroke-width:5;stroke-linecap:butt}",
  ".area.column{fill:var(--ink2)}",
  ".area.stage{fill:var(--page);stroke:var(--ink);stroke-width:2}",
  ".area.door{stroke:var(--page);stroke-width:7}",
  ".area.window{stroke:var(--page);stroke-width:3}",
  ".leaf{stroke:var(--ink);stroke-width:1.4}",
  ".area.walkway{fill:none;stroke-dasharray:3 5}",
  ".field{stroke-width:2;stroke-linejoin:round}",
  ".hatch{stroke-width:.8;opacity:.55}",
  ".camera .field,.camera .hatch,.key .camera{stroke:var(--out)}",
  ".loudspeaker .field,.key .loudspeaker{stroke:var(--in);stroke-width:2.6;stroke-dasharray:2 6;stroke-linecap:round}",
  ".display .field,.display .hatch,.key .display{stroke:var(--trouble)}",
  ".display .field{stroke-dasharray:10 5}",
  ".route{stroke:var(--ink2);stroke-width:1.6;stroke-linejoin:round}",
  ".route.mains{stroke-width:2.6;stroke-dasharray:9 4}",
  ".route.radio{stroke-dasharray:1 5;stroke-linecap:round;stroke-width:2}",
  ".seat{fill:var(--page);stroke:var(--ink2);stroke-width:1}",
  ".off{stroke:var(--trouble);stroke-width:1.2}",
  ".back{stroke:var(--ink2);stroke-width:2;stroke-linecap:round}",
  ".seat.step1{fill:var(--step1)}", ".seat.step2{fill:var(--step2)}", ".seat.step3{fill:var(--step3)}", ".seat.step4{fill:var(--step4)}", ".seat.step5{fill:var(--step5)}",
  ".words text{paint-order:stroke;stroke:var(--ground);stroke-width:3px;stroke-linejoin:round}",
  "text.n0{fill:var(--ink2)}",
  "text.n1{fill:var(--on1)}", "text.n2{fill:var(--on2)}", "text.n3{fill:var(--on3)}", "text.n4{fill:var(--on4)}", "text.n5{fill:var(--on5)}",
  ".body,.head{fill:var(--page);stroke:var(--ink);stroke-width:1.7}",
  ".body.full,.head,.dot{fill:var(--ink)}",
  ".stroke{stroke:var(--ink);stroke-width:1.5}",
  ".truly{fill:var(--ink)}",
  ".moved,.leader{stroke:var(--ink2);stroke-width:1}",
  ".aim{stroke:var(--ink);stroke-width:1.3;stroke-dasharray:6 4}",
  ".tip{fill:var(--ink)}",
  ".bar{stroke:var(--ink);stroke-width:1.4}",
  ".bar.full{fill:var(--ink)}",
  ".bar.open{fill:none}",
  "[data-path]{cursor:pointer}",
];

const ring = (points: readonly Spot[], closed = true): string => (points.length === 0 ? "" : path(...points.flatMap((point, i) => [i === 0 ? "M" : "L", point.x, point.y]), ...(closed ? ["Z"] : [])));

function label(placed: Label | undefined): Node[] {
  if (placed === undefined) return [];
  return [
    ...(placed.leader === undefined ? [] : [element("path", { class: "leader", d: ring(placed.leader, false) })]),
    element("g", { class: "words" }, ...placed.texts.map(writeText)),
  ];
}

function area({ area: one, corners, label: words }: PlacedArea, stops: boolean): Element {
  const line = corners.length === 2;
  const middle = one.kind === "table" || one.kind === "screen" ? middleOf(one.corners) : undefined;
  return element("g", { class: "room-thing", "data-post": one.name, ...(middle === undefined ? {} : { ...place(middle), "data-fact": "yes" }), ...source(one.where, `${one.kind} ${one.name}, ${one.detail}`, stops) },
    element("title", {}, `${one.kind} ${one.name}, ${one.detail}`),
    element("path", { class: `area ${one.kind}`, d: ring(corners, !line) }),
    ...(one.kind === "door" ? [element("path", { class: "leaf", d: ring(corners, false) })] : []),
    ...label(words));
}

const middleOf = (corners: readonly Spot[]): Spot | undefined => (corners.length === 0 ? undefined : {
  x: corners.reduce((sum, corner) => sum + corner.x, 0) / corners.length, y: corners.reduce((sum, corner) => sum + corner.y, 0) / corners.length,
});

function field({ field: one, outline }: PlacedField): Element {
  const slanting = one.kind === "camera" ? hatch(outline, 9, true) : one.kind === "display" ? hatch(outline, 9, false) : "";
  return element("g", { class: one.kind, "data-field": one.of },
    ...(slanting === "" ? [] : [element("path", { class: "hatch", d: slanting })]),
    element("path", { class: "field", d: ring(outline) }));
}

function route({ route: one, points, label: words }: PlacedRoute, stops: boolean): Element {
  const says = `${one.kind === "radio" ? "radio" : one.kind === "mains" ? "mains lead" : "cable"} from ${one.from} to ${one.to}, ${one.length.toFixed(1)} m`;
  return element("g", { class: "way", "data-from": one.from, "data-to": one.to, ...source(one.where, says, stops) },
    element("title", {}, says),
    element("path", { class: `route ${one.kind}`, d: ring(points, false) }),
    ...label(words));
}

/** Corners of a seat that looks along `way`. */
function cornersOf(at: Spot, way: Spot, half: number): Spot[] {
  return ([[half, -half], [half, half], [-half, half], [-half, -half]] as const).map(([x, y]) => ({ x: at.x + x * way.x - y * way.y, y: at.y + x * way.y + y * way.x }));
}

const disc = (at: Spot, radius: number): string =>
  path("M", at.x - radius, at.y, "a", radius, radius, 0, 1, 0, 2 * radius, 0, "a", radius, radius, 0, 1, 0, -2 * radius, 0, "Z");

/** One path for all seats of a row that look alike, one line of type for all numbers of one ink. */
function row(placed: PlacedRow, side: number, longest: number, stops: boolean): Element {
  const { seats } = placed;
  const steps = [...new Set(seats.map((seat) => seat.step))].sort();
  const half = side / 2;
  const size = numberSize(side, longest);
  const drawn = (step: number): string => seats.filter((seat) => seat.step === step)
    .map((seat) => (seat.short ? disc(seat.at, half) : ring(cornersOf(seat.at, seat.facing, half)))).join(" ");
  const backs = seats.map(({ at, facing }) => {
    const corners = cornersOf(at, facing, half - 0.5);
    return path("M", corners[2]?.x ?? 0, corners[2]?.y ?? 0, "L", corners[3]?.x ?? 0, corners[3]?.y ?? 0);
  }).join(" ");
  return element("g", { class: "row", "data-seats": placed.row.group, "data-row": placed.row.row, ...(placed.row.ring ? {} : place(middleOf(placed.row.seats))), ...source(placed.row.where, placed.says, stops) },
    element("title", {}, placed.says),
    ...steps.map((step) => element("path", { class: `seat step${step}`, d: drawn(step) })),
    element("path", { class: "back", d: backs }),
    ...(seats.some((seat) => seat.offCamera) ? [element("path", { class: "off", d: seats.filter((seat) => seat.offCamera).map(({ at }) => path("M", at.x - half, at.y - half, "l", side, side, "m", -side, 0, "l", side, -side)).join(" ") })] : []),
    ...steps.flatMap((step) => numbers(seats.filter((seat) => seat.step === step && seat.number !== ""), step, size)),
    ...(placed.label === undefined ? [] : [writeText(placed.label)]));
}

/** Numbers as one line of type in which every figure has its own place. */
function numbers(seats: PlacedRow["seats"], step: number, size: number): Element[] {
  if (seats.length === 0) return [];
  const xs: string[] = [];
  const ys: string[] = [];
  let said = "";
  for (const { at, number } of seats) {
    const signs = [...number];
    const widths = signs.map((sign) => (sign === "." ? 0.28 : 0.556) * size);
    let x = at.x - widths.reduce((sum, width) => sum + width, 0) / 2;
    signs.forEach((sign, i) => {
      const width = widths[i] ?? 0;
      xs.push(tidy(x + width / 2));
      ys.push(tidy(at.y + size * 0.36));
      said += sign;
      x += width;
    });
  }
  return [element("text", { class: `n${step}`, "font-size": size, "text-anchor": "middle", x: xs.join(" "), y: new Set(ys).size === 1 ? ys[0] : ys.join(" ") }, said)];
}

function thing(placed: PlacedThing, frameOf: (point: { x: number; y: number }) => Spot, aims: boolean, stops: boolean): Element {
  const { thing: one, at, truly, moved } = placed;
  const aim = one.aim === undefined ? undefined : aimOf(at, truly ?? at, frameOf(one.aim), placed.radius);
  const way = aim?.way ?? { x: 0, y: 1 };
  const says = [one.name, one.kind === one.name ? "" : one.kind, one.aimWords === "" ? "" : `points at ${one.aimWords}`].filter((part) => part !== "").join(", ");
  const mark = placed.kind === "talker" ? talkerMark(at, way) : placed.kind === "outlet" ? outletMark(at) : deviceMark(one.type, at, way);
  return element("g", {
    class: `post ${placed.kind}`, "data-post": one.name, ...place(one), ...(placed.kind === "outlet" ? { "data-fact": "yes" } : {}), ...source(one.where, says, stops),
  },
  element("title", {}, says),
  ...(moved === undefined ? [] : [element("path", { class: "moved", d: ring(moved, false) }), ...(moved[0] === truly ? [element("circle", { class: "truly", cx: moved[0].x, cy: moved[0].y, r: 2.2 })] : [])]),
  ...(aims && aim !== undefined && placed.kind === "device" ? [element("g", { class: "aims", "data-aim": one.name, ...place(one.aim), ...source(one.where, `where ${one.name} points`, stops) }, ...aimLine(aim.line))] : []),
  ...mark,
  ...label(placed.label));
}

/** Where something is, in metres, for whoever drags it. */
const place = (point: { readonly x: number; readonly y: number } | undefined): Record<string, string> => (point === undefined ? {} : { "data-x": tidy(point.x), "data-y": tidy(point.y) });

/** A dashed line with a tip. */
function aimLine([from, to]: readonly [Spot, Spot]): Element[] {
  const far = Math.max(1e-6, Math.hypot(to.x - from.x, to.y - from.y));
  const way = { x: (to.x - from.x) / far, y: (to.y - from.y) / far };
  const point = (back: number, across: number): [number, number] => [to.x - way.x * back - way.y * across, to.y - way.y * back + way.x * across];
  return [
    element("path", { class: "aim", d: path("M", from.x, from.y, "L", ...point(5, 0)) }),
    element("path", { class: "tip", d: path("M", to.x, to.y, "L", ...point(8, 3.6), "L", ...point(8, -3.6), "Z") }),
  ];
}

function keyEntry(entry: KeyEntry): Element {
  const { x, y, kind } = entry;
  const box = { x: x + 6, y: y - 9, width: 18, height: 18 };
  const line = (kindOf: string): Element => element("path", { class: kindOf, d: path("M", x, y, "H", x + SAMPLE) });
  const sample = ((): Element[] => {
    switch (kind) {
      case "short": return [element("circle", { class: "seat step0", cx: x + 15, cy: y, r: 9 })];
      case "wheelchair": return [element("rect", { class: "seat step0", ...box }), element("text", { class: "n0", "font-size": 12, "text-anchor": "middle", x: x + 15, y: y + 4.3 }, "W")];
      case "off-camera": return [element("rect", { class: "seat step0", ...box }), element("path", { class: "off", d: path("M", box.x, box.y, "l", 18, 18, "m", -18, 0, "l", 18, -18) })];
      case "step1": case "step2": case "step3": case "step4": case "step5": return [element("rect", { class: `seat ${kind}`, ...box })];
      case "camera": case "loudspeaker": case "display": return [element("g", { class: kind }, line("field"))];
      case "cable": case "mains": case "radio": return [line(`route ${kind}`)];
      case "aim": return aimLine([{ x: x - 1, y }, { x: x + SAMPLE - 4, y }]);
    }
  })();
  return element("g", { class: "key" }, ...sample, writeText(entry.text));
}

function bar({ y, stops, texts }: Scene["bar"]): Element {
  return element("g", { class: "scale" },
    ...stops.slice(1).map((stop, i) => element("rect", { class: i % 2 === 0 ? "bar full" : "bar open", x: stops[i] ?? 0, y: y - 3, width: stop - (stops[i] ?? 0), height: 6 })),
    ...texts.map(writeText));
}

function north(scene: Scene): Element[] {
  if (scene.north === undefined) return [];
  const { at, way, text } = scene.north;
  const point = (along: number, across: number): [number, number] => [at.x + way.x * along - way.y * across, at.y + way.y * along + way.x * across];
  return [element("g", { class: "north" }, element("path", { class: "tip", d: path("M", ...point(14, 0), "L", ...point(-12, 7), "L", ...point(-7, 0), "L", ...point(-12, -7), "Z") }), writeText(text))];
}

/** What is drawn over the walls. */
const IN_WALLS: ReadonlySet<string> = new Set(["screen", "door", "window"]);

/** The whole plan as one element. */
export function render(scene: Scene, manner: Manner): Element {
  const { plan, frame } = scene;
  const frameOf = (point: { x: number; y: number }): Spot => ({ x: frame.left + point.y * frame.scale, y: frame.top + point.x * frame.scale });
  const aims = plan.asked === undefined;
  const longest = longestNumber(scene.rows);
  return documentOf("bothways-plan", scene, manner, PLAN_RULES,
    element("g", { class: "head-words" }, ...scene.texts.map(writeText)),
    ...scene.key.map(keyEntry),
    element("g", { class: "room", "data-scale": String(frame.scale), ...source(plan.where, `${plan.room}, ${plan.width.toFixed(1)} m wide and ${plan.length.toFixed(1)} m deep`, manner.stops) },
      element("title", {}, plan.room), element("path", { class: "floor", d: ring(scene.outline) })),
    ...scene.areas.filter(({ area: one }) => !IN_WALLS.has(one.kind)).map((one) => area(one, manner.stops)),
    ...scene.fields.map(field),
    element("path", { class: plan.outdoors ? "wall open" : "wall", d: ring(offset(scene.outline, WALL)) }),
    ...scene.areas.filter(({ area: one }) => IN_WALLS.has(one.kind)).map((one) => area(one, manner.stops)),
    ...scene.routes.map((one) => route(one, manner.stops)),
    ...scene.rows.map((one) => row(one, scene.seat, longest, manner.stops)),
    ...scene.things.map((one) => thing(one, frameOf, aims, manner.stops)),
    bar(scene.bar), ...north(scene));
}
