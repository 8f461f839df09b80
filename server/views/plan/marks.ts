/** Small shapes for what stands in a room, each with an outline of its own; those that point somewhere are turned that way. */
import { element, path, type Element } from "../svg/element";
import type { Spot } from "./frame";

/** Points turned so that what was along +x is along `way`, and moved to `at`. */
function turned(at: Spot, way: Spot, points: readonly (readonly [number, number])[]): (string | number)[] {
  return points.flatMap(([x, y], i) => [i === 0 ? "M" : "L", at.x + x * way.x - y * way.y, at.y + x * way.y + y * way.x]);
}

const shape = (at: Spot, way: Spot, points: readonly (readonly [number, number])[], kind = "body"): Element =>
  element("path", { class: kind, d: path(...turned(at, way, points), "Z"), "stroke-linejoin": "round" });
const stroke = (at: Spot, way: Spot, points: readonly (readonly [number, number])[]): Element => element("path", { class: "stroke", d: path(...turned(at, way, points)), "stroke-linecap": "round" });

/** The mark of a device of that type, 18 pixels wide, pointing along `way`. */
export function deviceMark(type: string, at: Spot, way: Spot): Element[] {
  switch (type) {
    case "loudspeaker": return [shape(at, way, [[-7, -4], [-1, -4], [7, -8.5], [7, 8.5], [-1, 4], [-7, 4]])];
    case "camera": return [shape(at, way, [[-8, -6], [3, -6], [3, -2.5], [8.5, -6], [8.5, 6], [3, 2.5], [3, 6], [-8, 6]])];
    case "projector": return [shape(at, way, [[-8, -7], [6, -7], [6, 7], [-8, 7]]), shape(at, way, [[6, -3.2], [9, -4.4], [9, 4.4], [6, 3.2]], "body full")];
    case "display": return [shape(at, way, [[-2.5, -9], [2.5, -9], [2.5, 9], [-2.5, 9]], "body full")];
    case "microphone": return [element("circle", { class: "body", cx: at.x, cy: at.y, r: 7.5 }), element("circle", { class: "dot", cx: at.x + way.x * 2.5, cy: at.y + way.y * 2.5, r: 3 })];
    case "speakerphone": return [element("circle", { class: "body", cx: at.x, cy: at.y, r: 8.5 }), element("circle", { class: "body", cx: at.x, cy: at.y, r: 4.5 }), element("circle", { class: "dot", cx: at.x, cy: at.y, r: 1.8 })];
    case "computer": return [element("rect", { class: "body", x: at.x - 8.5, y: at.y - 6, width: 17, height: 12, rx: 2.5 }), stroke(at, { x: 1, y: 0 }, [[-5, 3], [5, 3]])];
    case "mixer": return [
      element("rect", { class: "body", x: at.x - 8.5, y: at.y - 7, width: 17, height: 14, rx: 1.5 }),
      ...[-4.5, 0, 4.5].map((x) => stroke(at, { x: 1, y: 0 }, [[x, -4], [x, 4]])),
    ];
    case "lead": return [element("rect", { class: "body", x: at.x - 8.5, y: at.y - 3.8, width: 17, height: 7.6, rx: 3.8 }), ...[-4.5, 0, 4.5].map((x) => element("circle", { class: "dot", cx: at.x + x, cy: at.y, r: 1.3 }))];
    default: return [element("rect", { class: "body", x: at.x - 6.5, y: at.y - 6.5, width: 13, height: 13, rx: 3 })];
  }
}

/** Somebody who speaks: head and shoulders from above, looking along `way`. */
export function talkerMark(at: Spot, way: Spot): Element[] {
  return [
    shape(at, way, [[-4.5, -10.5], [-0.5, -11], [3, -8], [3, 8], [-0.5, 11], [-4.5, 10.5], [-6, 6], [-6, -6]]),
    element("circle", { class: "head", cx: at.x, cy: at.y, r: 4.6 }),
    shape(at, way, [[4, -2.6], [9.6, 0], [4, 2.6]], "head"),
  ];
}

export const outletMark = (at: Spot): Element[] => [
  element("rect", { class: "body", x: at.x - 6, y: at.y - 6, width: 12, height: 12 }),
  element("circle", { class: "dot", cx: at.x - 2.4, cy: at.y, r: 1.4 }), element("circle", { class: "dot", cx: at.x + 2.4, cy: at.y, r: 1.4 }),
];
