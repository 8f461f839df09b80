/** Names at things, and who is cut off at the edge of the frame: no words on other words, none outside. */
import type { CutOff, Perspective, Thing } from "../../signal/perspective/perspective";
import { boxOf, type Box, type Text } from "../svg/text";
import { shorten } from "../svg/wrap";
import { widthOf } from "../svg/glyphs";
import { Taken } from "../svg/taken";
import { frameOf, LEFT, placeOf, TOP, type Frame } from "./frame";

export interface Label {
  readonly text: Text;
  readonly thing: Thing;
  /** From the words to the thing, where they stand apart. */
  readonly leader: readonly [{ readonly x: number; readonly y: number }, { readonly x: number; readonly y: number }] | undefined;
}

export interface Mark {
  readonly text: Text;
  readonly plate: Box;
  /** A small arrow out of the frame. */
  readonly arrow: readonly { readonly x: number; readonly y: number }[];
}

export interface Labels {
  readonly labels: readonly Label[];
  readonly marks: readonly Mark[];
  /** Names for which there was no room. */
  readonly without: readonly string[];
}

/** So many names are written into the picture. */
const MOST = 60;
/** A thing that is hidden more than this needs no name there. */
const HIDDEN = 0.98;
const WIDEST = 240;
const GAP = 5;

export function labelsOf(seen: Perspective, frame: Frame = frameOf(seen)): Labels {
  const taken = new Taken();
  const marks = marksOf(seen.cutOff, frame, taken);
  const busy = busyIn(seen, frame);
  const labels: Label[] = [];
  const without: string[] = [];
  const named = seen.things.filter((thing) => thing.says !== "" && thing.hidden <= HIDDEN && thing.kind !== "stage");
  // Whoever speaks first, then the nearest.
  for (const thing of [...named.filter((one) => one.kind === "talker"), ...named.filter((one) => one.kind !== "talker").reverse()]) {
    const label = labels.length < MOST ? labelOf(thing, frame, taken, busy) ?? labelOf(thing, frame, taken) : undefined;
    if (label === undefined) without.push(thing.name);
    else labels.push(label);
  }
  return { labels, marks, without };
}

/** The box round a thing in the picture. */
export function boundsOf(thing: Thing, frame: Frame): Box | undefined {
  const spots = thing.surfaces.flatMap(({ ring }) => ring.map((spot) => placeOf(frame, spot)));
  if (spots.length === 0) return undefined;
  const [x, y] = [Math.min(...spots.map((p) => p.x)), Math.min(...spots.map((p) => p.y))];
  return { x, y, width: Math.max(...spots.map((p) => p.x)) - x, height: Math.max(...spots.map((p) => p.y)) - y };
}

/** So many heads keep words off themselves where there is room elsewhere. */
const MOST_BUSY = 400;

/** What words are better not written on: text, faces and heads. */
function busyIn(seen: Perspective, frame: Frame): Taken {
  const busy = new Taken();
  const add = (thing: Thing, surfaces: Thing["surfaces"]): void => {
    const box = boundsOf({ ...thing, surfaces }, frame);
    if (box !== undefined && box.width > 6) busy.add(box);
  };
  for (const thing of seen.things.filter((one) => one.kind === "display" || one.kind === "device" || one.kind === "talker")) add(thing, thing.surfaces);
  for (const thing of seen.things.filter((one) => one.kind === "person").slice(-MOST_BUSY)) add(thing, thing.surfaces.filter((one) => one.look === "head" || one.look === "shy-head"));
  return busy;
}

function labelOf(thing: Thing, frame: Frame, taken: Taken, busy?: Taken): Label | undefined {
  const bounds = boundsOf(thing, frame);
  if (bounds === undefined) return undefined;
  const bold = thing.kind === "talker";
  const size = bold ? 15 : 13;
  const words = shorten(thing.says, size, WIDEST, bold);
  const wide = widthOf(words, size, bold);
  const [midX, midY] = [bounds.x + bounds.width / 2, bounds.y + Math.min(bounds.height / 2, 40)];
  const right = bounds.x + bounds.width;
  const low = bounds.y + bounds.height;
  const base = { text: words, size, bold, rank: "ink" as const, owner: thing.name };
  const tries: { readonly x: number; readonly y: number; readonly anchor: Text["anchor"]; readonly leader?: boolean }[] = [
    { x: midX, y: bounds.y - GAP, anchor: "middle" }, { x: right + GAP, y: midY + 5, anchor: "start" }, { x: bounds.x - GAP, y: midY + 5, anchor: "end" },
    // Under somebody's feet others sit: a name there would be taken for theirs.
    ...(bold ? [] : [{ x: midX, y: low + size + 2, anchor: "middle" as const }]),
    ...[26, 46, 70, 98, 130].flatMap((away) => [0, -0.7, 0.7].map((aside) => ({ x: midX + aside * (away + wide / 2), y: bounds.y - away, anchor: "middle" as const, leader: true }))),
    ...(bold ? [] : [30, 56, 90]).flatMap((away) => [0, -0.7, 0.7].map((aside) => ({ x: midX + aside * (away + wide / 2), y: low + away, anchor: "middle" as const, leader: true }))),
  ];
  for (const { leader, ...at } of tries) {
    const text: Text = { ...base, ...at };
    const box = boxOf(text);
    if (box.x < LEFT + 4 || box.x + box.width > LEFT + frame.width - 4 || box.y < TOP + 4 || box.y + box.height > TOP + frame.height - 4 || taken.meets(box) || busy?.meets(box) === true) continue;
    taken.add(box);
    const under = at.y < bounds.y;
    return { text, thing, leader: leader === true ? [{ x: Math.min(Math.max(midX, box.x), box.x + box.width), y: under ? box.y + box.height : box.y }, { x: midX, y: under ? bounds.y : low }] : undefined };
  }
  return undefined;
}

const SIZE = 14;

/** Plates at the edges, pushed along it until they are free. */
function marksOf(cutOff: readonly CutOff[], frame: Frame, taken: Taken): Mark[] {
  const out: Mark[] = [];
  for (const { side, along, words } of cutOff) {
    if (side === "behind") continue;
    const text = shorten(words, SIZE, frame.width * 0.6, true);
    const width = widthOf(text, SIZE, true) + 30;
    const height = 24;
    const upright = side === "left" || side === "right";
    const wanted = placeOf(frame, upright ? [0, along] : [along, 0]);
    for (let step = 0; step < 40; step += 1) {
      const shift = (step % 2 === 0 ? 1 : -1) * Math.ceil(step / 2) * (height + 4);
      const x = side === "left" ? LEFT + 6 : side === "right" ? LEFT + frame.width - width - 6 : Math.min(Math.max(wanted.x - width / 2, LEFT + 6), LEFT + frame.width - width - 6);
      const y = upright ? wanted.y - height / 2 + shift : side === "above" ? TOP + 6 + Math.abs(shift) : TOP + frame.height - height - 6 - Math.abs(shift);
      const plate = { x, y, width, height };
      if (y < TOP + 4 || y + height > TOP + frame.height - 4 || taken.meets(plate)) continue;
      taken.add(plate);
      const [cx, cy] = [side === "right" ? x + width - 13 : x + 13, y + height / 2];
      const tip = { left: [-7, 0, 5, -6, 5, 6], right: [7, 0, -5, -6, -5, 6], above: [0, -7, -6, 5, 6, 5], below: [0, 7, -6, -5, 6, -5] }[side];
      out.push({
        plate, arrow: [0, 2, 4].map((i) => ({ x: cx + (tip[i] ?? 0), y: cy + (tip[i + 1] ?? 0) })),
        text: { x: side === "right" ? x + 8 : x + 24, y: y + 17, text, size: SIZE, bold: true, anchor: "start", rank: "ink" },
      });
      break;
    }
  }
  return out;
}
