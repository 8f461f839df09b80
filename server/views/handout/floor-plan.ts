/** The floor plan on the hand-out: a page of its own, printed to a scale that can be named and measured. */
import { canonical } from "../../model/names";
import { drawnPlan } from "../plan/draw";
import { html, type Part } from "./html";
import type { Sheet } from "./sheet";

/** What a page of A4 has room for inside its margins, mm: 210 by 297 less 8 and 7 at each edge, and less heading and lines of words. */
const PAGE = { width: 190, height: 245 } as const;

/** Scales that a ruler or a head can work with: one metre of the room is so many times smaller on paper. */
const SCALES = [20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 3000, 5000] as const;

/** The largest named scale at which a drawing fits a page, and how wide it is then, mm. `scale`: pixels to the metre. */
export function fitted({ width, height, scale }: { readonly width: number; readonly height: number; readonly scale: number }): { readonly one: number; readonly wide: number } {
  const most = Math.min(PAGE.width / width, PAGE.height / height);
  const one = SCALES.find((each) => 1000 / each <= most * scale * (1 + 1e-9)) ?? 10_000;
  return { one, wide: (width * 1000) / (one * scale) };
}

/** The plan, and the rule of style that prints it to its scale. Nothing where no text says how large the room is: a plan of a guess would be measured from. */
export function floorPlan(sheet: Sheet, wanted: string | undefined): { readonly parts: readonly Part[]; readonly style: string } {
  const plan = sheet.study.plan(wanted);
  if (plan.assumedSize || plan.devices.length === 0) return { parts: [], style: "" };
  const numbers = new Map([...plan.devices, ...plan.people.flatMap(({ wears }) => wears.map((name) => ({ name })))].flatMap(({ name }) => {
    const number = sheet.numbers.get(canonical(name));
    return number === undefined ? [] : [[name, number] as const];
  }));
  const drawn = drawnPlan(plan, { theme: "print", stops: false, form: "sheet", numbers });
  const { one, wide } = fitted(drawn);
  const parts = [html("section", { class: "plan", "aria-labelledby": "h-plan" },
    html("h2", { id: "h-plan" }, "Where everything stands"),
    html("p", { class: "scale" }, `Floor plan, 1:${one} where this page is printed at its full size: 1 cm is ${Number((one / 100).toFixed(2))} m. Check the bar below the plan with a ruler before you measure from it.`),
    html("div", { class: "drawing", tabindex: 0, role: "region", "aria-label": "Floor plan, drawn" }, { drawn: drawn.svg }))];
  return { parts, style: `@media print{.plan .drawing svg{width:${wide.toFixed(2)}mm}}` };
}
