/** Gives everything in a side elevation its place: first what is to scale, then words where they cover nothing. */
import type { SidePerson, SideThing, SideView } from "../../signal/elevation/side";
import type { Point } from "../../signal/ground-plan/plan";
import type { Spot } from "../plan/frame";
import { barOf, KEY_HEIGHT, SAMPLE } from "../plan/key";
import { Labels } from "../plan/labels";
import { LABEL_WIDTH, LARGEST, LEADING, RADIUS, TYPE } from "../plan/sizes";
import { Taken } from "../svg/taken";
import { around, nearestFree } from "../plan/things";
import { widthOf } from "../svg/glyphs";
import { boxOf, type Box, type Text } from "../svg/text";
import { wrap } from "../svg/wrap";
import type { SideKey, SideMark, SideScene } from "./scene";

const MARGIN = 28;
const GUTTER = LABEL_WIDTH + 52;
/** What the room may take: in a drawing of its own, and beside a text in half a window, where words must stay readable. */
const ROOM = { whole: { width: 940, height: 620 }, panel: { width: 520, height: 460 } } as const;
export type SideForm = keyof typeof ROOM;
const MOST_SCALE = 110;
/** For labels above the ceiling and under the floor. */
const ABOVE = 70;
const UNDER = 104;
/** No elevation shows more of each. */
const MOST = 200;

const metres = (n: number): string => `${Number(n.toFixed(2))} m`;

export function placeSide(whole: SideView, form: SideForm = "whole"): SideScene {
  const room = ROOM[form];
  const view = { ...whole, things: whole.things.slice(0, MOST), people: whole.people.slice(0, MOST), rows: whole.rows.slice(0, 4 * MOST), pictures: whole.pictures.slice(0, MOST) };
  const tall = Math.max(view.height, ...view.floor.map(({ y }) => y + 2), 1);
  const long = Math.max(view.length, 0.5);
  const scale = Math.min(Math.max(Math.min(room.width / long, room.height / tall, MOST_SCALE), 24), LARGEST / Math.max(long, tall));
  const width = Math.max(long * scale + 2 * (MARGIN + GUTTER), 760);
  const head = headOf(view, width - 2 * MARGIN);
  const key = keyOf(view, head.bottom, width - 2 * MARGIN);
  const top = head.bottom + key.height + ABOVE;
  const left = (width - long * scale) / 2;
  const base = top + tall * scale;
  const right = left + long * scale;
  const to = ({ x, y }: Point): Spot => ({ x: left + x * scale, y: base - y * scale });
  const taken = new Taken();
  const floor = view.floor.map(to);
  const section = [...floor, to({ x: long, y: view.height }), to({ x: 0, y: view.height })];
  section.forEach((corner, i) => taken.addLine(corner, section[(i + 1) % section.length] ?? corner));
  const ruler = rulerOf(view, scale, left, right, base);
  const rowNumbers = numbersOf(view, to, base);
  const walls = wallWords(view, left, right, base, scale);
  const fixed = [...walls, ...ruler.texts, ...rowNumbers];
  for (const text of fixed) taken.add(boxOf(text));
  for (const person of [...view.rows, ...view.people]) for (const box of bodyBoxes(person, to, scale)) taken.add(box);
  const pictures = view.pictures.map((picture) => ({ picture, corners: picture.corners.map(to) }));
  for (const { corners } of pictures) taken.add(boxAround(corners, 4));
  const marks = marksOf(view.things, to, taken, { left, right, top: base - view.height * scale, bottom: base });
  const soft = [
    ...view.lines.map(([a, b]) => [to(a), to(b)] as const),
    ...view.fields.flatMap(({ outline }) => outline.map((corner, i) => [to(corner), to(outline[(i + 1) % outline.length] ?? corner)] as const)),
  ];
  const below = Math.max(base + UNDER, top + 240);
  const labels = new Labels(taken, soft, marks.map(({ at }) => around(at, RADIUS.device)), fixed.map(boxOf), { left: [MARGIN, left - 40], right: [right + 40, width - MARGIN], top: head.bottom + key.height + 4, bottom: below }, below + 6);
  const named = pictures.map(({ picture, corners }) => ({
    picture, corners, label: labels.place({ of: picture.of, name: picture.thrown ? `picture of ${picture.of}` : picture.of, details: [`lower edge ${metres(picture.bottom)} up`, `upper edge ${metres(picture.top)} up`] }, middleOf(corners), 6),
  }));
  const several = new Set(view.rows.map(({ group }) => group)).size > 1;
  const rows = view.rows.map((row) => ({
    row, label: !row.chosen ? undefined : labels.place({
      of: row.name, name: row.ring ? row.name : several ? `${row.group}, row ${row.row}` : `row ${row.row}`,
      details: [`eyes ${metres(row.eye - row.floor)} above its floor`, ...(row.floor > 0.02 ? [`which is ${metres(row.floor)} up`] : []), ...(view.hidden === undefined ? [] : [`${Math.round(view.hidden * 100)} % behind heads`])],
    }, to({ x: row.x, y: row.top - 0.12 }), 0.12 * scale + 2),
  }));
  const people = view.people.map((person) => ({ person, label: labels.place({ of: person.name, name: person.name, details: [`eyes ${metres(person.eye - person.floor)} up${person.floor > 0.02 ? ` on ${metres(person.floor)}` : ""}`] }, to({ x: person.x, y: person.top - 0.12 }), 0.12 * scale + 2) }));
  const things = marks.map((mark) => ({ ...mark, label: labels.place(wordsOf(mark.thing), mark.at, RADIUS.device) }));
  const ends = [...named, ...rows, ...people, ...things].flatMap(({ label }) => (label === undefined ? [] : [label.box.y + label.box.height]));
  const low = Math.max(base + 44, ...ends) + 18;
  const bar = barOf(scale, MARGIN + 2, low, width - 2 * MARGIN);
  const notes = textLines(notesOf(view), TYPE.note, MARGIN, low + 40, width - 2 * MARGIN);
  return {
    view: whole, width, height: notes.bottom + MARGIN, scale, left, base, texts: [...head.texts, ...fixed, ...notes.texts], section, floor, rows, people, pictures: named,
    fields: view.fields.map(({ kind, of, outline }) => ({ kind, of, outline: outline.map(to) })), lines: view.lines.map(([a, b]) => [to(a), to(b)] as const), things, key: key.entries, bar, ruler: ruler.ticks,
  };
}

const boxAround = (corners: readonly Spot[], margin: number): Box => {
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const [x, y] = [Math.min(...xs) - margin, Math.min(...ys) - margin];
  return { x, y, width: Math.max(...xs) + margin - x, height: Math.max(...ys) + margin - y };
};

/** Head and body, as boxes that no words may cover. */
export function bodyBoxes({ x, top, floor, faces, seated }: SidePerson, to: (point: Point) => Spot, scale: number): Box[] {
  const at = to({ x, y: top });
  const reach = seated && faces !== 0 ? 0.45 : 0.14;
  const from = faces < 0 ? x - reach : x - 0.14;
  return [{ x: to({ x: from, y: 0 }).x, y: at.y, width: (reach + 0.14) * scale, height: Math.max(0, top - floor) * scale }];
}

function wordsOf({ name, kind, y, floor, more, rough }: SideThing): { of: string; name: string; details: string[] } {
  const high = `${rough ? "about " : ""}${metres(y - floor)} up${floor > 0.02 ? ` on ${metres(floor)}` : ""}`;
  return { of: name, name: more > 0 ? `${name} and ${more} alike` : name, details: [...(kind.toLowerCase() === name.toLowerCase() || name.toLowerCase().startsWith(kind.toLowerCase()) ? [] : [kind]), high] };
}

const middleOf = (corners: readonly Spot[]): Spot => ({ x: corners.reduce((sum, { x }) => sum + x, 0) / Math.max(1, corners.length), y: corners.reduce((sum, { y }) => sum + y, 0) / Math.max(1, corners.length) });

function marksOf(things: readonly SideThing[], to: (point: Point) => Spot, taken: Taken, room: { left: number; right: number; top: number; bottom: number }): Omit<SideMark, "label">[] {
  const radius = RADIUS.device;
  return things.map((thing) => {
    const truly = to(thing);
    const inside = ({ x, y }: Spot): boolean => x - radius >= room.left && x + radius <= room.right && y - radius >= room.top && y + radius <= room.bottom;
    const at = nearestFree(truly, radius, (spot) => (inside(spot) || spot === truly) && !taken.meets(around(spot, radius)));
    taken.add(around(at, radius));
    const aim = thing.aim === undefined ? undefined : to(thing.aim);
    const far = aim === undefined ? 0 : Math.hypot(aim.x - truly.x, aim.y - truly.y);
    return { thing, at, truly: at === truly ? undefined : truly, way: aim === undefined || far < 1e-6 ? { x: 1, y: 0 } : { x: (aim.x - truly.x) / far, y: (aim.y - truly.y) / far } };
  });
}

function textLines(said: readonly string[], size: number, x: number, y: number, width: number, bold = false, rank: Text["rank"] = "ink2", most = 3): { texts: Text[]; bottom: number } {
  const texts: Text[] = [];
  let at = y;
  for (const text of said.flatMap((each) => wrap(each, size, width, most, bold).lines)) {
    texts.push({ x, y: at + size * 0.9, text, size, bold, anchor: "start", rank });
    at += size * LEADING;
  }
  return { texts, bottom: at };
}

function headOf(view: SideView, width: number): { texts: Text[]; bottom: number } {
  const title = textLines([`${view.title}: from the side`], TYPE.title, MARGIN, MARGIN, width, true, "ink", 2);
  const room = textLines([`${view.room}${view.item === undefined ? "" : `, during ${view.item}`}, cut open along its length and seen from its left side`], TYPE.result, MARGIN, title.bottom, width);
  const result = textLines([view.result], TYPE.result, MARGIN, room.bottom + 8, width, false, "ink");
  return { texts: [...title.texts, ...room.texts, ...result.texts], bottom: result.bottom + 6 };
}

function keyOf(view: SideView, y: number, width: number): { entries: SideKey[]; height: number } {
  const wanted: (readonly [SideKey["kind"], string])[] = [
    ...(view.pictures.length > 0 ? [["picture", "picture"] as const] : []), ...(view.lines.length > 0 ? [["sight", "from the eyes to the edges of the picture"] as const] : []),
    ...(view.fields.some(({ kind }) => kind === "beam") ? [["beam", "beam of the projector"] as const] : []), ...(view.fields.some(({ kind }) => kind === "camera") ? [["camera", "what a camera has in its picture, top to bottom"] as const] : []),
  ];
  let [x, row] = [MARGIN, 0];
  const entries = wanted.map(([kind, said]): SideKey => {
    const needed = SAMPLE + 8 + widthOf(said, TYPE.note);
    if (x > MARGIN && x + needed > MARGIN + width) [x, row] = [MARGIN, row + 1];
    const entry: SideKey = { kind, x, y: y + (row + 0.5) * KEY_HEIGHT, text: { x: x + SAMPLE + 8, y: y + (row + 0.5) * KEY_HEIGHT + TYPE.note * 0.35, text: said, size: TYPE.note, bold: false, anchor: "start", rank: "ink2" } };
    x += needed + 20;
    return entry;
  });
  return { entries, height: entries.length === 0 ? 0 : (row + 1) * KEY_HEIGHT };
}

/** Heights at both walls. */
function rulerOf(view: SideView, scale: number, left: number, right: number, base: number): { ticks: (readonly [Spot, Spot])[]; texts: Text[] } {
  const step = [0.5, 1, 2, 5, 10, 20, 50].find((one) => one * scale >= 34) ?? 100;
  const ticks: (readonly [Spot, Spot])[] = [];
  const texts: Text[] = [];
  for (let high = 0; high <= view.height + 1e-6; high += step) {
    const y = base - high * scale;
    ticks.push([{ x: left - 8, y }, { x: left, y }], [{ x: right, y }, { x: right + 8, y }]);
    const text = (x: number, anchor: Text["anchor"]): Text => ({ x, y: y + TYPE.row * 0.35, text: metres(high), size: TYPE.row, bold: false, anchor, rank: "ink2" });
    texts.push(text(left - 11, "end"), text(right + 11, "start"));
  }
  return { ticks, texts };
}

/** The numbers of rows under the floor, where there is room for them. */
function numbersOf(view: SideView, to: (point: Point) => Spot, base: number): Text[] {
  const out: Text[] = [];
  for (const row of view.rows) {
    if (row.ring) continue;
    const text: Text = { x: to({ x: row.x, y: 0 }).x, y: base + 17, text: String(row.row), size: TYPE.row, bold: row.chosen, anchor: "middle", rank: row.chosen ? "ink" : "ink2" };
    const box = boxOf(text);
    if (out.every((other) => { const b = boxOf(other); return box.x > b.x + b.width + 2 || b.x > box.x + box.width + 2; })) out.push(text);
  }
  return out;
}

function wallWords(view: SideView, left: number, right: number, base: number, scale: number): Text[] {
  const about = view.assumedSize ? "about " : "";
  const text = (x: number, y: number, said: string, anchor: Text["anchor"]): Text => ({ x, y, text: said, size: TYPE.wall, bold: false, anchor, rank: "ink2" });
  const up = base - view.height * scale - 10;
  return [text(left, up, "front", "start"), text(right, up, "back", "end"), text((left + right) / 2, base + 36, `${about}${metres(view.length)} long, ${view.outdoors ? "under the sky" : `${metres(view.height)} high`}`, "middle")];
}

const notesOf = (view: SideView): string[] => [
  "People are drawn at the heights that are stated or usual; of each row, the seat nearest to its middle. Heights are above the floor at the front wall, but where another floor is named.",
  ...(view.things.some(({ rough }) => rough) ? ["“About”: the text says where in words; put it where it serves."] : []),
];
