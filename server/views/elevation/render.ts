/** From a placed side elevation to SVG. */
import type { SidePerson } from "../../signal/elevation/side";
import type { Point } from "../../signal/ground-plan/plan";
import type { Spot } from "../plan/frame";
import { hatch } from "../plan/hatch";
import { SAMPLE } from "../plan/key";
import { deviceMark } from "../plan/marks";
import type { Label } from "../plan/scene";
import { documentOf, type Manner } from "../svg/document";
import { element, path, type Element, type Node } from "../svg/element";
import { source } from "../svg/source";
import { writeText } from "../svg/text";
import type { SideKey, SideScene } from "./scene";

/** How the parts of an elevation look. */
export const SIDE_RULES: readonly string[] = [
  ".section{fill:var(--ground);stroke:none}",
  ".wall{stroke:var(--ink);stroke-width:2}",
  ".wall.open{stroke-dasharray:10 7}",
  ".ground{stroke:var(--ink);stroke-width:4;stroke-linejoin:round}",
  ".under{stroke:var(--ink);stroke-width:2.5}",
  ".tick{stroke:var(--ink2);stroke-width:1}",
  ".picture{fill:var(--page);stroke:var(--ink);stroke-width:5;stroke-linejoin:round}",
  ".field{stroke-width:2;stroke-linejoin:round}",
  ".hatch{stroke-width:.8;opacity:.55}",
  ".camera .field,.camera .hatch,.key .camera{stroke:var(--out)}",
  ".beam .field,.key .beam{stroke:var(--in);stroke-dasharray:9 4}",
  ".sight{stroke:var(--ink);stroke-width:1.6;stroke-dasharray:2 3}",
  ".person{fill:var(--page);stroke:var(--ink2);stroke-width:1.3;stroke-linejoin:round}",
  ".chosen .person{fill:var(--ink);stroke:var(--ink)}",
  ".speaks .person{stroke:var(--ink);stroke-width:2}",
  ".words text{paint-order:stroke;stroke:var(--ground);stroke-width:3px;stroke-linejoin:round}",
  ".body{fill:var(--page);stroke:var(--ink);stroke-width:1.7}",
  ".body.full,.dot{fill:var(--ink)}",
  ".stroke{stroke:var(--ink);stroke-width:1.5}",
  ".truly{fill:var(--ink)}",
  ".moved,.leader{stroke:var(--ink2);stroke-width:1}",
  ".bar{stroke:var(--ink);stroke-width:1.4}",
  ".bar.full{fill:var(--ink)}",
  ".bar.open{fill:none}",
  "[data-path]{cursor:pointer}",
];

const ring = (points: readonly Spot[], closed = true): string => (points.length === 0 ? "" : path(...points.flatMap((point, i) => [i === 0 ? "M" : "L", point.x, point.y]), ...(closed ? ["Z"] : [])));

const label = (placed: Label | undefined): Node[] => (placed === undefined ? [] : [
  ...(placed.leader === undefined ? [] : [element("path", { class: "leader", d: ring(placed.leader, false) })]), element("g", { class: "words" }, ...placed.texts.map(writeText)),
]);

/** A plain figure: head, trunk, and legs down to the floor; who sits has the thighs forward. Breadths as seen from the side, m. */
export function figure(person: SidePerson, to: (point: Point) => Spot, scale: number): Element[] {
  const { x, top, floor, faces, seated } = person;
  const head = to({ x, y: top - 0.12 });
  const at = (dx: number, y: number): Spot => to({ x: x + dx, y });
  const shoulder = top - 0.29;
  const hip = seated ? Math.min(floor + 0.45, shoulder - 0.2) : floor + 0.9 * Math.max(0.2, (top - floor) / 1.75);
  const knee = seated && faces !== 0 ? faces * 0.42 : 0;
  const trunk = seated && faces !== 0
    ? [at(-0.1 * faces, shoulder), at(0.08 * faces, shoulder), at(0.1 * faces, hip + 0.13), at(knee, hip + 0.11), at(knee, floor), at(knee - 0.1 * faces, floor), at(knee - 0.12 * faces, hip - 0.02), at(-0.12 * faces, hip - 0.02)]
    : [at(-0.11, shoulder), at(0.11, shoulder), at(0.1, hip), at(0.08, floor), at(-0.08, floor), at(-0.1, hip)];
  return [element("path", { class: "person", d: ring(trunk) }), element("ellipse", { class: "person", cx: head.x, cy: head.y, rx: Math.max(1.5, 0.085 * scale), ry: Math.max(2, 0.12 * scale) })];
}

function keyEntry({ kind, x, y, text }: SideKey): Element {
  const sample = kind === "picture" ? element("path", { class: "picture", d: path("M", x + 15, y - 9, "V", y + 9) }) : element("path", { class: kind === "sight" ? "sight" : `field ${kind}`, d: path("M", x, y, "H", x + SAMPLE) });
  return element("g", { class: "key" }, sample, writeText(text));
}

function rowOf({ row, label: words }: SideScene["rows"][number], to: (point: Point) => Spot, scale: number, stops: boolean): Element {
  const says = row.ring ? row.name : `row ${row.row} of ${row.group}`;
  return element("g", { class: row.chosen ? "row chosen" : "row", "data-seats": row.group, "data-row": row.row, ...source(row.where, says, stops) }, element("title", {}, says), ...figure(row, to, scale), ...label(words));
}

/** A piece of floor under whoever stands or sits on another one than where the room is cut open: a stage at the side, a pulpit. */
function pieceOfFloor({ x, floor }: SidePerson, profile: readonly Point[], to: (point: Point) => Spot): Element[] {
  const i = profile.findIndex((point) => point.x >= x);
  const [a, b] = [profile[i - 1] ?? profile[i], profile[i]];
  if (a === undefined || b === undefined) return [];
  const there = b.x - a.x < 1e-9 ? b.y : a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
  if (Math.abs(there - floor) < 0.04) return [];
  return [element("path", { class: "under", d: ring([to({ x: x - 0.45, y: floor }), to({ x: x + 0.3, y: floor })], false) })];
}

/** The whole elevation as one element. */
export function renderSide(scene: SideScene, manner: Manner): Element {
  const { view, scale } = scene;
  const to = ({ x, y }: Point): Spot => ({ x: scene.left + x * scale, y: scene.base - y * scale });
  const roof = [scene.floor[0], ...[...scene.section].reverse().slice(0, 2), scene.floor.at(-1)].flatMap((spot) => spot ?? []);
  return documentOf("bothways-side", scene, manner, SIDE_RULES,
    element("g", { class: "head-words" }, ...scene.texts.map(writeText)),
    ...scene.key.map(keyEntry),
    element("g", { class: "room", "data-scale": String(scale), ...source(view.where, `${view.room}, ${view.length.toFixed(1)} m long and ${view.height.toFixed(1)} m high`, manner.stops) },
      element("title", {}, view.room), element("path", { class: "section", d: ring(scene.section) })),
    ...scene.fields.map(({ kind, of, outline }) => element("g", { class: kind, "data-field": of }, ...(kind === "camera" ? [element("path", { class: "hatch", d: hatch(outline, 9, true) })] : []), element("path", { class: "field", d: ring(outline) }))),
    element("path", { class: view.outdoors ? "wall open" : "wall", d: ring(roof, false) }),
    element("path", { class: "ground", d: ring(scene.floor, false) }),
    element("path", { class: "tick", d: scene.ruler.map(([a, b]) => path("M", a.x, a.y, "L", b.x, b.y)).join(" ") }),
    ...[...view.rows, ...view.people].flatMap((person) => pieceOfFloor(person, view.floor, to)),
    ...scene.lines.map(([from, end]) => element("path", { class: "sight", d: ring([from, end], false) })),
    ...scene.pictures.map(({ picture, corners, label: words }) => element("g", { class: "shown", "data-post": picture.of, ...source(picture.where, `picture of ${picture.of}, from ${picture.bottom.toFixed(2)} to ${picture.top.toFixed(2)} m up`, manner.stops) },
      element("title", {}, `picture of ${picture.of}`), element("path", { class: "picture", d: ring(corners) }), ...label(words))),
    ...scene.rows.filter(({ row }) => !row.chosen).map((one) => rowOf(one, to, scale, manner.stops)),
    ...scene.people.map(({ person, label: words }) => element("g", { class: "speaks", "data-post": person.name, ...source(person.where, person.name, manner.stops) }, element("title", {}, person.name), ...figure(person, to, scale), ...label(words))),
    ...scene.rows.filter(({ row }) => row.chosen).map((one) => rowOf(one, to, scale, manner.stops)),
    ...scene.things.map(({ thing, at, truly, way, label: words }) => element("g", { class: "post device", "data-post": thing.name, ...source(thing.where, `${thing.name}, ${thing.y.toFixed(2)} m up`, manner.stops) },
      element("title", {}, thing.name),
      ...(truly === undefined ? [] : [element("path", { class: "moved", d: ring([truly, at], false) }), element("circle", { class: "truly", cx: truly.x, cy: truly.y, r: 2.2 })]),
      ...deviceMark(thing.type, at, way), ...label(words))),
    element("g", { class: "scale" },
      ...scene.bar.stops.slice(1).map((stop, i) => element("rect", { class: i % 2 === 0 ? "bar full" : "bar open", x: scene.bar.stops[i] ?? 0, y: scene.bar.y - 3, width: stop - (scene.bar.stops[i] ?? 0), height: 6 })),
      ...scene.bar.texts.map(writeText)));
}
