/**
 * The floor plan: the room from above, to scale, the front at the top as the audience sees it. Seats, people and devices stand where
 * they stand; what is asked – who hears, who can read, who is in the picture – is answered by a number on every seat.
 */
import type { GroundPlan } from "../../signal/ground-plan/plan";
import { nameOf } from "../svg/document";
import { write } from "../svg/element";
import type { Theme } from "../svg/palette";
import { place } from "./place";
import { render } from "./render";
import type { Form } from "./sizes";
import { describe } from "./words";

export interface PlanOptions {
  /** Without one, the drawing follows what the reader's system prefers. */
  readonly theme?: Theme;
  /** Width in pixels at which it is shown; without one, its natural width. */
  readonly width?: number;
  /** `false`: nothing in it can be reached by the keyboard, as is right on paper. */
  readonly stops?: boolean;
  readonly form?: Form;
  /** Numbers before the names of devices, by name: those of a list beside the drawing. */
  readonly numbers?: ReadonlyMap<string, number>;
}

export interface DrawnPlan {
  readonly svg: string;
  readonly description: string;
  /** Of the drawing at its natural size, in pixels, and how many of them are a metre. */
  readonly width: number;
  readonly height: number;
  readonly scale: number;
}

/** Draws a floor plan as a complete SVG document, with its words beside it. */
export function drawnPlan(plan: GroundPlan, options: PlanOptions = {}): DrawnPlan {
  const scene = place(plan, options.form, options.numbers);
  const { title, description } = describe(plan, scene);
  const drawing = render(scene, {
    id: nameOf("plan", `${plan.title}\n${plan.item ?? ""}\n${plan.asked?.ask ?? ""}\n${options.theme ?? ""}`),
    theme: options.theme, width: options.width, stops: options.stops ?? true, title, description,
  });
  return { svg: `${write(drawing)}\n`, description, width: Math.ceil(scene.width), height: Math.ceil(scene.height), scale: scene.frame.scale };
}
