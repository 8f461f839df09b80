/**
 * The signal-flow drawing. The room stands at the left, the people online at the right; the four ways across are horizontal bands;
 * devices stand like posts across the bands that they serve. A complete way is one straight line from side to side, a broken one has
 * an opening that says what is missing, an echo turns round and comes back.
 */
import type { Flow } from "../../signal/drawing/flow";
import { nameOf } from "../svg/document";
import { write } from "../svg/element";
import type { Theme } from "../svg/palette";
import { plan } from "./place";
import type { Form } from "./sizes";
import { render } from "./render";
import { describe } from "./words";

export interface DrawOptions {
  /** Without one, the drawing follows what the reader's system prefers. */
  readonly theme?: Theme;
  /** Width in pixels at which it is shown; without one, its natural width. */
  readonly width?: number;
  /** `false`: nothing in it can be reached by the keyboard, as is right on paper. */
  readonly stops?: boolean;
  /** For what it is made; those for a page and for a panel leave out what stands there already: title, sentences, what each thing is. */
  readonly form?: Form;
  /** Numbers before the names of posts, by id of the post: those of a list beside the drawing. */
  readonly numbers?: ReadonlyMap<string, number>;
}

/** The flow with numbers before the names of its posts, and without what they are where that is not wanted. */
function prepared(flow: Flow, { numbers, form = "whole" }: DrawOptions): Flow {
  if (numbers === undefined && form === "whole") return flow;
  return {
    ...flow,
    posts: flow.posts.map((post) => {
      const number = numbers?.get(post.id);
      return { ...post, name: number === undefined ? post.name : `${number} · ${post.name}`, detail: form === "whole" ? post.detail : undefined };
    }),
  };
}

export interface Drawn {
  readonly svg: string;
  /** The whole drawing in words. */
  readonly description: string;
}

/** Draws a flow as a complete SVG document: no scripts, no fonts or pictures from elsewhere, the same text for the same flow. */
export const drawFlow = (plain: Flow, options: DrawOptions = {}): string => drawnFlow(plain, options).svg;

/** The same, with its words beside it. */
export function drawnFlow(plain: Flow, options: DrawOptions = {}): Drawn {
  const flow = prepared(plain, options);
  const { network, scene } = plan(flow, options.form);
  const { title, description } = describe(flow, network);
  const drawing = render(scene, {
    id: nameOf("flow", `${flow.title}\n${flow.item ?? ""}\n${options.theme ?? ""}`),
    theme: options.theme,
    width: options.width,
    stops: options.stops ?? true,
    title,
    description,
  });
  return { svg: `${write(drawing)}\n`, description };
}
