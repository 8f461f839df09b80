/** Small shapes with a meaning: verdicts, direction, trouble. Each differs in outline, so that none depends on its colour. */
import type { Verdict } from "../../model/ways";
import { element, path, type Element } from "../svg/element";

/** The mark of a verdict, 22 pixels wide around (x, y): a disc, a triangle, a square on its corner, an octagon; a loop for an echo. */
export function verdictMark(verdict: Verdict | "echo", x: number, y: number): Element {
  const stroke = { "stroke-width": 2.6, "stroke-linecap": "round", "stroke-linejoin": "round" };
  switch (verdict) {
    case "works":
      return element("g", { class: "mark works" },
        element("circle", { cx: x, cy: y, r: 10 }),
        element("path", { class: "sign", ...stroke, d: path("M", x - 4.6, y + 0.4, "L", x - 1.2, y + 4, "L", x + 5, y - 4) }));
    case "doubtful":
      return element("g", { class: "mark doubtful" },
        element("path", { d: path("M", x, y - 10.5, "L", x + 11, y + 9, "L", x - 11, y + 9, "Z"), "stroke-linejoin": "round" }),
        element("path", { class: "sign", ...stroke, d: path("M", x, y - 3.5, "L", x, y + 1.6, "M", x, y + 5.6, "L", x, y + 5.7) }));
    case "cannot-tell":
      return element("g", { class: "mark unknown" },
        element("path", { d: path("M", x, y - 12, "L", x + 12, y, "L", x, y + 12, "L", x - 12, y, "Z"), "stroke-linejoin": "round" }),
        element("path", {
          class: "sign", ...stroke, "stroke-width": 2.2,
          d: path("M", x - 3, y - 2.6, "C", x - 3, y - 7, x + 3.4, y - 7, x + 3.2, y - 2.8, "C", x + 3.1, y - 0.4, x, y - 0.2, x, y + 2.2, "M", x, y + 6, "L", x, y + 6.1),
        }));
    case "fails": {
      const r = 10.8;
      const c = r * Math.tan(Math.PI / 8);
      return element("g", { class: "mark fails" },
        element("path", {
          d: path("M", x - c, y - r, "L", x + c, y - r, "L", x + r, y - c, "L", x + r, y + c, "L", x + c, y + r, "L", x - c, y + r, "L", x - r, y + c, "L", x - r, y - c, "Z"),
          "stroke-linejoin": "round",
        }),
        element("path", { class: "sign", ...stroke, d: path("M", x - 4, y - 4, "L", x + 4, y + 4, "M", x + 4, y - 4, "L", x - 4, y + 4) }));
    }
    case "echo":
      return element("g", { class: "turn" },
        element("path", { d: path("M", x + 10, y - 6, "H", x - 3, "Q", x - 9, y - 6, x - 9, y, "Q", x - 9, y + 6, x - 3, y + 6, "H", x + 5) }),
        element("path", { class: "tip", d: path("M", x + 3, y + 1, "L", x + 10, y + 6, "L", x + 3, y + 11, "Z") }));
  }
}

/** A point on a line that shows where it goes: full on a single line, hollow on a double one. */
export function arrow(x: number, y: number, right: boolean, style: string): Element {
  const sign = right ? 1 : -1;
  const d = path("M", x - 6 * sign, y - 6.5, "L", x + 6.5 * sign, y, "L", x - 6 * sign, y + 6.5, "Z");
  return element("path", { class: `arrow ${style}`, d });
}

/** The small triangle before words that say what ails a device. */
export function troubleMark(x: number, y: number): Element {
  return element("g", { class: "ailing" },
    element("path", { d: path("M", x, y - 6.4, "L", x + 7, y + 5.6, "L", x - 7, y + 5.6, "Z"), "stroke-linejoin": "round" }),
    element("path", { class: "sign", "stroke-width": 1.8, "stroke-linecap": "round", d: path("M", x, y - 2, "L", x, y + 1, "M", x, y + 3.4, "L", x, y + 3.5) }));
}

/** A line that swings: an echo. From (x, y) over the length to the right or left, in whole swings. */
export function wave(from: number, to: number, y: number): string {
  const length = Math.abs(to - from);
  const halves = Math.max(2, 2 * Math.round(length / 22));
  const step = (to - from) / halves;
  let d = "";
  for (let index = 0; index < halves; index += 1) {
    d += ` ${path("q", step / 2, index % 2 === 0 ? -5 : 5, step, 0)}`;
  }
  return `${path("L", from, y)}${d}`;
}
