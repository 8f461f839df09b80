/**
 * What a camera frames, or what is seen from a seat, in true perspective: plain lines, the nearer over the farther, the numbers under
 * the picture.
 */
import type { Perspective, Spot, Surface, Thing } from "../../signal/perspective/perspective";
import { documentOf, nameOf } from "../svg/document";
import { element, path, write, type Element, type Node } from "../svg/element";
import type { Theme } from "../svg/palette";
import { source } from "../svg/source";
import { writeText, type Text } from "../svg/text";
import { shorten, wrap } from "../svg/wrap";
import { frameOf, LEFT, placeOf, TOP, type Frame, type ViewForm } from "./frame";
import { boundsOf, labelsOf, type Label, type Mark } from "./labels";
import { PERSPECTIVE_RULES } from "./rules";
import { describe, linesOf, notesOf, titleOf, underTitle } from "./words";

export interface PerspectiveOptions {
  /** Without one, the drawing follows what the reader's system prefers. */
  readonly theme?: Theme;
  /** Width in pixels at which it is shown; without one, its natural width. */
  readonly width?: number;
  /** `false`: nothing in it can be reached by the keyboard, as is right on paper. */
  readonly stops?: boolean;
  readonly form?: ViewForm;
}

const SIZE = 15;
/** So many lines of type stand under a picture. */
const MOST_LINES = 40;
/** People and pictures drawn lower than this have thinner lines, pixels. */
const FAR = 70;
const LIGHTER: ReadonlySet<Thing["kind"]> = new Set(["person", "talker", "device", "display"]);

/** The view as a complete SVG document; the same text for the same view. */
export const drawPerspective = (seen: Perspective, options: PerspectiveOptions = {}): string => drawnPerspective(seen, options).svg;

/** The same with its words beside it. */
export function drawnPerspective(seen: Perspective, options: PerspectiveOptions = {}): { readonly svg: string; readonly description: string } {
  const frame = frameOf(seen, options.form);
  const stops = options.stops ?? true;
  const { labels, marks, without } = labelsOf(seen, frame);
  const inside = frame.width;
  const under: Text[] = [];
  let y = TOP + frame.height + 30;
  const say = (sentence: string, rank: Text["rank"]): void => {
    for (const line of wrap(sentence, SIZE, inside, 3).lines) {
      if (under.length < MOST_LINES) under.push({ x: LEFT, y, text: line, size: SIZE, bold: false, anchor: "start", rank });
      if (under.length < MOST_LINES) y += 21;
    }
  };
  for (const line of linesOf(seen)) say(line, "ink");
  y += 8;
  for (const line of notesOf(seen, without)) say(line, "ink2");
  const words = describe(seen);
  const drawing = documentOf("bothways-perspective", { width: frame.width + 2 * LEFT, height: y + 2 }, {
    id: nameOf("view", `${seen.title}\n${seen.view}\n${seen.of}\n${seen.item ?? ""}\n${options.theme ?? ""}`), theme: options.theme, width: options.width, stops, ...words,
  }, PERSPECTIVE_RULES,
  writeText({ x: LEFT, y: 34, text: shorten(titleOf(seen), 21, inside, true), size: 21, bold: true, anchor: "start", rank: "ink" }),
  writeText({ x: LEFT, y: 60, text: shorten(underTitle(seen), SIZE, inside), size: SIZE, bold: false, anchor: "start", rank: "ink2" }),
  element("rect", { class: "air", x: LEFT, y: TOP, width: frame.width, height: frame.height }),
  ...thingsOf(seen.things, frame, stops),
  element("g", { class: "names" }, ...labels.flatMap(nameOfThing)),
  element("rect", { class: `frame ${seen.view}`, x: LEFT, y: TOP, width: frame.width, height: frame.height }),
  ...marks.map(markOf),
  ...under.map(writeText));
  return { svg: `${write(drawing)}\n`, description: words.description };
}

/** All things, those of one place in the text that follow each other together. */
function thingsOf(things: readonly Thing[], frame: Frame, stops: boolean): Element[] {
  const out: Element[] = [];
  let open: { readonly thing: Thing; readonly nodes: Node[] } | undefined;
  const close = (): void => {
    if (open === undefined) return;
    const { thing, nodes } = open;
    const named = thing.kind !== "person" && thing.kind !== "room";
    out.push(element("g", source(thing.where, thing.says === "" ? thing.name : thing.says, stops && named), ...nodes));
    open = undefined;
  };
  for (const thing of things) {
    const nodes = thing.surfaces.flatMap((surface) => surfaceOf(surface, frame, thing));
    if (open !== undefined && thing.kind === "person" && open.thing.kind === "person" && open.thing.where === thing.where) open.nodes.push(...nodes);
    else {
      close();
      open = { thing, nodes };
    }
  }
  close();
  return out;
}

const line = (spots: readonly Spot[], frame: Frame, closed: boolean): (string | number)[] => [
  ...spots.flatMap((spot, i) => {
    const { x, y } = placeOf(frame, spot);
    // A tenth of a pixel is enough, and halves the drawing.
    return [i === 0 ? "M" : i === 1 ? "L" : "", Math.round(x * 10) / 10, Math.round(y * 10) / 10].filter((part) => part !== "");
  }),
  ...(closed ? ["Z"] : []),
];

function surfaceOf({ look, ring, lines }: Surface, frame: Frame, thing: Thing): Element[] {
  const small = LIGHTER.has(thing.kind) && (boundsOf(thing, frame)?.height ?? 0) < FAR ? " far" : "";
  return [
    ...(ring.length === 0 ? [] : [element("path", { class: `${look}${small}`, d: path(...line(ring, frame, true)) })]),
    ...(lines.length === 0 ? [] : [element("path", { class: `on-${look}`, d: path(...lines.flatMap((one) => line(one, frame, false))) })]),
  ];
}

function nameOfThing({ text, leader, thing }: Label): Node[] {
  return [
    ...(leader === undefined ? [] : [element("line", { class: "leader", x1: leader[0].x, y1: leader[0].y, x2: leader[1].x, y2: leader[1].y })]),
    element("g", source(thing.where, thing.says, false), writeText(text)),
  ];
}

const markOf = ({ text, plate, arrow }: Mark): Element => element("g", { class: "cut" },
  element("rect", { class: "plate", ...plate, rx: 3 }),
  element("path", { class: "arrow", d: path(...arrow.flatMap((p, i) => [i === 0 ? "M" : "L", p.x, p.y]), "Z") }),
  writeText(text));
