/** Gives everything in a plan its place: first what is to scale, then marks, then words where they cover nothing. */
import type { Area, Ask, GroundPlan, Route, Thing } from "../../signal/ground-plan/plan";
import { canonical } from "../../model/names";
import { nearestWall, offset } from "../../signal/ground-plan/walls";
import { boxOf, type Text } from "../svg/text";
import { wrap } from "../svg/wrap";
import { placeOf, scaleFor, type Frame, type Spot } from "./frame";
import { barOf, keyOf } from "./key";
import { Labels } from "./labels";
import type { PlacedArea, PlacedRoute, Scene } from "./scene";
import { placeRows, sideOf } from "./seats";
import { FORMS, LEADING, TYPE, WALL, type Form } from "./sizes";
import { Taken } from "../svg/taken";
import { aimOf, boxOfMark, placeThings } from "./things";

/** No plan shows more of each; the rest is counted in the words. */
export const MOST_THINGS = 400;
const MOST_ROUTES = 400;

/** With any other question the ways of cables are of no interest. */
const OF_CABLES: Ask = "cables";

export function place(whole: GroundPlan, form: Form = "whole", numbers?: ReadonlyMap<string, number>): Scene {
  const plan = { ...whole, devices: whole.devices.slice(0, MOST_THINGS), people: whole.people.slice(0, MOST_THINGS), outlets: whole.outlets.slice(0, MOST_THINGS), routes: whole.routes.slice(0, MOST_ROUTES) };
  const measures = FORMS[form];
  const { margin, gutter } = measures;
  const scale = scaleFor(plan, measures);
  const roomWidth = plan.width * scale;
  const roomHeight = plan.length * scale;
  const width = Math.max(roomWidth + 2 * (margin + gutter), form === "panel" ? 520 : 760);
  const head = headOf(plan, measures.words, margin, width - 2 * margin);
  const withRoutes = plan.asked === undefined || plan.asked.ask === OF_CABLES;
  const aims = plan.asked === undefined && plan.devices.some((device) => device.aim !== undefined);
  const key = keyOf(plan, withRoutes, aims, margin, head.bottom, width - 2 * margin);
  const top = head.bottom + key.height + 30;
  const frame: Frame = { scale, left: (width - roomWidth) / 2, top };
  const bottom = top + roomHeight;
  const taken = new Taken();
  const outline = plan.outline.map((point) => placeOf(frame, point));
  for (const off of [0, WALL, 2 * WALL]) {
    const corners = offset(outline, off);
    corners.forEach((corner, i) => taken.addLine(corner, corners[(i + 1) % corners.length] ?? corner));
  }
  const walls = wallWords(plan, frame, bottom);
  for (const text of walls) taken.add(boxOf(text));
  const rows = placeRows(plan, frame, taken);
  // Doors and windows lie in the thickness of the wall, which stands outside the room.
  const walled = offset(outline, WALL);
  const cornerOf = (area: Area, at: Spot): Spot => (area.kind === "door" || area.kind === "window" ? nearestWall(walled, at).at : at);
  const areas = plan.areas.map((area): PlacedArea => ({ area, corners: area.corners.map((point) => cornerOf(area, placeOf(frame, point))), label: undefined }));
  for (const { area, corners } of areas) if (area.kind === "screen") taken.addLine(corners[0] as Spot, corners[1] as Spot);
  const rowWords = rows.flatMap(({ label }) => (label === undefined ? [] : [boxOf(label)]));
  const things = placeThings(plan, frame, taken, rowWords);
  const routes = withRoutes ? plan.routes.map((route): PlacedRoute => ({ route, points: route.points.map((point) => placeOf(frame, point)), label: undefined })) : [];
  const fields = plan.fields.map((field) => ({ field, outline: field.outline.map((point) => placeOf(frame, point)) }));
  const soft = [
    ...(plan.asked === undefined ? things.flatMap(({ thing, kind, at, truly, radius }) => (kind === "device" && thing.aim !== undefined ? [aimOf(at, truly ?? at, placeOf(frame, thing.aim), radius).line] : [])) : []),
    ...fields.flatMap(({ outline: edge }) => edge.map((corner, i) => [corner, edge[(i + 1) % edge.length] ?? corner] as const)),
    ...routes.flatMap(({ points }) => points.slice(1).map((point, i) => [points[i] ?? point, point] as const)),
    ...areas.flatMap(({ corners }) => (corners.length > 2 ? corners.map((corner, i) => [corner, corners[(i + 1) % corners.length] ?? corner] as const) : [])),
  ];
  const labels = new Labels(taken, soft, things.map(boxOfMark), [...rowWords, ...walls.map(boxOf)], {
    left: [margin, frame.left - 2 * WALL - 6], right: [frame.left + roomWidth + 2 * WALL + 6, width - margin], top: top + 2, bottom: Math.max(bottom + 92, top + 260),
  }, Math.max(bottom + 92, top + 260) + 6);
  const brief = plan.asked !== undefined;
  const labelled = things.map((thing) => ({ ...thing, label: labels.place(wordsOf(plan, thing.thing, brief, numbers), thing.at, thing.radius) }));
  const placedAreas = areas.map((placed) => ({
    ...placed, label: placed.area.says === "" ? undefined : labels.place({ of: placed.area.name, name: placed.area.says, details: brief ? [] : [placed.area.detail] }, anchorOf(placed.corners, things), placed.corners.length === 2 ? 4 : 2),
  }));
  const placedRoutes = routes.map((placed) => ({ ...placed, label: plan.asked === undefined || isNothing(placed.route) ? undefined : labels.place(routeWords(placed.route), alongWay(placed.points), 3) }));
  const ends = [...labelled, ...placedAreas, ...placedRoutes].flatMap(({ label }) => (label === undefined ? [] : [label.box.y + label.box.height]));
  const below = Math.max(bottom + 38, ends.reduce((most, end) => Math.max(most, end), 0) + 18);
  const bar = barOf(scale, margin + 2, below + 6, width - 2 * margin);
  const notes = notesOf(plan, whole, margin, below + 46, width - 2 * margin);
  return {
    plan: whole, width, height: notes.bottom + margin, frame, seat: sideOf(plan, frame), outline, texts: [...head.texts, ...walls, ...notes.texts],
    areas: placedAreas, fields, routes: placedRoutes,
    rows, things: labelled, key: key.entries, bar, north: northOf(plan, width - margin - 22, below + 8),
  };
}

const middleOf = (corners: readonly Spot[]): Spot => ({
  x: corners.reduce((sum, corner) => sum + corner.x, 0) / Math.max(1, corners.length), y: corners.reduce((sum, corner) => sum + corner.y, 0) / Math.max(1, corners.length),
});

/** Where the words of an area belong: to its middle, or to a corner where something stands in the middle. */
function anchorOf(corners: readonly Spot[], things: readonly { readonly at: Spot }[]): Spot {
  const middle = middleOf(corners);
  const all = corners.length === 2 ? [middle] : [middle, ...corners];
  return all.find((spot) => things.every(({ at }) => Math.hypot(at.x - spot.x, at.y - spot.y) > 26)) ?? middle;
}

/** The middle of a way, along it. */
function alongWay(points: readonly Spot[]): Spot {
  const lengths = points.slice(1).map((point, i) => Math.hypot(point.x - (points[i]?.x ?? 0), point.y - (points[i]?.y ?? 0)));
  let left = lengths.reduce((sum, length) => sum + length, 0) / 2;
  for (const [i, length] of lengths.entries()) {
    const [a, b] = [points[i], points[i + 1]];
    if (a !== undefined && b !== undefined && left <= length) return length === 0 ? a : { x: a.x + ((b.x - a.x) * left) / length, y: a.y + ((b.y - a.y) * left) / length };
    left -= length;
  }
  return points[0] ?? { x: 0, y: 0 };
}

function headOf(plan: GroundPlan, words: boolean, margin: number, width: number): { texts: Text[]; bottom: number } {
  const texts: Text[] = [];
  let y = margin;
  const add = (said: string, size: number, bold: boolean, most: number, rank: Text["rank"]): void => {
    for (const line of wrap(said, size, width, most, bold).lines) {
      texts.push({ x: margin, y: y + size * 0.9, text: line, size, bold, anchor: "start", rank });
      y += size * LEADING;
    }
  };
  if (words) {
    add(`${plan.title}: floor plan`, TYPE.title, true, 2, "ink");
    add(`${plan.room}${plan.item === undefined ? "" : `, during ${plan.item}`}`, TYPE.result, false, 1, "ink2");
    y += 8;
  }
  if (plan.asked !== undefined) {
    add(plan.asked.question, TYPE.question, true, 2, "ink");
    y += 2;
    add(plan.asked.result, TYPE.result, false, 3, "ink2");
    y += 6;
  }
  return { texts, bottom: y };
}

/** What is said of the walls: which is the front, and how long they are. */
function wallWords(plan: GroundPlan, frame: Frame, bottom: number): Text[] {
  const metres = (n: number): string => `${plan.assumedSize ? "about " : ""}${n.toFixed(1)} m`;
  const middle = frame.left + (plan.width * frame.scale) / 2;
  const text = (y: number, said: string): Text => ({ x: middle, y, text: said, size: TYPE.wall, bold: false, anchor: "middle", rank: "ink2" });
  return [
    text(frame.top - 10, `front, ${metres(plan.width)} wide`),
    { ...text(bottom + 19, `back, ${metres(plan.length)} from the front${plan.outdoors ? "" : `; ${plan.height.toFixed(1)} m high`}`), x: frame.left, anchor: "start" },
  ];
}

/** What a helper has to know of a thing: what it is, where it goes, to what it points. */
function wordsOf(plan: GroundPlan, thing: Thing, brief: boolean, numbers: ReadonlyMap<string, number> | undefined): { of: string; name: string; details: string[] } {
  const number = numbers?.get(thing.name);
  const name = number === undefined ? thing.name : `${number} · ${thing.name}`;
  const wears = thing.wears.length === 0 ? [] : [`with ${thing.wears.map((worn) => (numbers?.get(worn) === undefined ? worn : `${numbers.get(worn) ?? ""} · ${worn}`)).join(", ")}`];
  const asked = plan.answer?.beside.get(canonical(thing.name));
  if (thing.type === "outlet" && plan.asked?.ask === OF_CABLES) return { of: thing.name, name, details: [thing.kind] };
  if (brief || thing.alike) return { of: thing.name, name, details: asked === undefined ? wears : asked.split("; ") };
  const kind = thing.kind.toLowerCase() === thing.name.toLowerCase() || thing.type === "talker" ? [] : [thing.kind];
  return {
    of: thing.name, name,
    details: [
      ...kind, ...wears, ...(thing.type === "outlet" ? [] : whereabouts(plan, thing)),
      ...(thing.aimWords === "" ? [] : [`points at ${thing.aimWords}`]),
    ],
  };
}

/** Of things that are put in one place its measures are said once. */
function whereabouts(plan: GroundPlan, thing: Thing): string[] {
  const first = thing.type === "talker" ? undefined : plan.devices.find((one) => Math.hypot(one.x - thing.x, one.y - thing.y, one.z - thing.z) < 0.05);
  return first === undefined || first.name === thing.name ? distances(plan, thing) : [`where ${first.name} is`];
}

/** `2.4 m from front`, `1.1 m from left, 0.9 m high`: from the nearer walls. */
function distances(plan: GroundPlan, thing: Thing): string[] {
  const metres = (n: number): string => `${Math.max(0, n).toFixed(1)} m`;
  const deep = thing.x <= plan.length / 2 ? `${metres(thing.x)} from front` : `${metres(plan.length - thing.x)} from back`;
  const across = thing.y <= plan.width / 2 ? `${metres(thing.y)} from left` : `${metres(plan.width - thing.y)} from right`;
  const about = thing.rough ? "about " : "";
  if (thing.type === "talker") return [`${about}${deep},`, across];
  // On a stage or a step one measures from there.
  const raised = Math.abs(thing.floor) > 0.02;
  return [`${about}${deep},`, raised ? `${across},` : `${across}, ${metres(thing.z)} high`, ...(raised ? [`${metres(thing.z - thing.floor)} above its floor`] : [])];
}

/** Between two things that stand together nothing has to be laid. */
const isNothing = ({ length, stated }: Route): boolean => length < 0.5 && (stated === undefined || stated >= length);

function routeWords(route: Route): { of: string; name: string; details: string[] } {
  const far = `${route.length.toFixed(1)} m`;
  const detail = route.kind === "radio" ? `${far} through the air` : route.stated === undefined ? `${far} to lay` : `${far} to lay; it is ${route.stated.toFixed(1)} m${route.stated < route.length ? ": too short" : ""}`;
  return { of: `${route.from} to ${route.to}`, name: "", details: [`${route.from} to ${route.to}`, detail] };
}

function notesOf(plan: GroundPlan, whole: GroundPlan, margin: number, y: number, width: number): { texts: Text[]; bottom: number } {
  const left = whole.devices.length - plan.devices.length;
  const said = [
    ...(plan.unplaced.length === 0 ? [] : [`No place is stated for ${plan.unplaced.slice(0, 12).join(", ")}${plan.unplaced.length > 12 ? ` and ${plan.unplaced.length - 12} more` : ""}.`]),
    ...(left > 0 ? [`${left} more devices are not drawn.`] : []),
    ...(plan.devices.some((device) => device.rough) ? ["“About”: the text says where in words; put it where it serves."] : []),
  ];
  const texts: Text[] = [];
  let at = y;
  for (const line of said.flatMap((each) => wrap(each, TYPE.note, width, 3).lines)) {
    texts.push({ x: margin, y: at + TYPE.note, text: line, size: TYPE.note, bold: false, anchor: "start", rank: "ink2" });
    at += TYPE.note * LEADING;
  }
  return { texts, bottom: at };
}

function northOf(plan: GroundPlan, x: number, y: number): Scene["north"] {
  if (plan.north === undefined) return undefined;
  const angle = (plan.north * Math.PI) / 180;
  return { at: { x, y }, way: { x: Math.sin(angle), y: -Math.cos(angle) }, text: { x: x - 20, y: y + 5, text: "north", size: TYPE.wall, bold: false, anchor: "end", rank: "ink2" } };
}
