/**
 * Moving things in a drawing of the room: the edit of the text that puts a device, what it points at, or a row of seats where it was
 * dropped. Each way to say it is tried on a copy; the one that keeps most of what the text says, and leads there, is taken.
 */
import { valueOf, type Bound, type PlaceValue, type Relation } from "../model/bound";
import type { SourceFile, Texts } from "../model/files";
import { applyEdits, insertInto, type Edit } from "../model/edits";
import { canonical } from "../model/names";
import { everywhere } from "../model/reading";
import { readSetup, type Setup } from "../model/setup";
import { Trial } from "../model/trial";
import type { Where } from "../model/where";
import { audienceCentre, pointOf, standOf } from "../signal/stands";

/** What is moved, and where to: metres from the front wall and from the left one. */
export interface Move {
  readonly what: "place" | "aim" | "row";
  /** A device, somebody who speaks, seats; a table, an outlet, a screen or a spot where facts may be moved. */
  readonly name: string;
  /** For seats: which row was taken hold of. */
  readonly row?: number;
  readonly x: number;
  readonly y: number;
  /** Whether facts of the room may be changed too: somebody has measured anew. */
  readonly facts?: boolean;
}

export interface Moved {
  readonly edits: readonly Edit[];
  /** What was done, in a sentence. */
  readonly says: string;
}

export type NotMoved = { readonly refused: string };

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** So near a way to say it has to lead, m: what is written is rounded to tenths. */
const NEAR = 0.12;
/** Less than this is no move, m. */
const LEAST = 0.05;
/** So near to somebody or something with a name, that is what is pointed at, m. */
const SNAP = 0.5;

const tenths = (n: number): number => Math.round(n * 10) / 10;
const metres = (n: number): string => `${tenths(n).toFixed(1)} m`;
const apart = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);

/** The edit that a move comes to, or why there is none. Never throws; the text keeps every other character. */
export function move(texts: Texts, root: string, wanted: Move): Moved | NotMoved {
  const setup = readSetup(texts, root);
  const trial = new Trial();
  const most = { x: trial.value(setup.room.length), y: trial.value(setup.room.width) };
  const keep = (n: number, end: number): number => tenths(Math.min(Math.max(n, 0), end));
  if (!Number.isFinite(wanted.x) || !Number.isFinite(wanted.y)) return { refused: "That is no place." };
  const target = { x: keep(wanted.x, most.x), y: keep(wanted.y, most.y) };
  switch (wanted.what) {
    case "place": return placed(texts, setup, wanted, target);
    case "aim": return aimed(texts, setup, wanted, target);
    case "row": return rowMoved(texts, setup, wanted, target);
  }
}

/** A copy of the setup after some edits. */
function after(texts: Texts, setup: Setup, edits: readonly Edit[]): Setup {
  return readSetup({
    read: (path) => {
      const own = edits.filter((edit) => edit.path === path);
      const read = texts.read(path);
      return own.length === 0 || !("text" in read) ? read : { text: applyEdits(read.text, own) };
    },
  }, setup.root);
}

const fileOf = (setup: Setup, path: string): SourceFile | undefined => setup.files.find((file) => file.path === path);

/** The first of some edits that leads to the target and makes nothing wrong that was not. */
function firstThatLeads(texts: Texts, setup: Setup, tries: readonly Edit[], target: Spot, at: (setup: Setup) => Spot | undefined): Edit | undefined {
  return tries.find((edit) => {
    const then = after(texts, setup, [edit]);
    const spot = at(then);
    return then.problems.length <= setup.problems.length && spot !== undefined && apart(spot, target) <= NEAR;
  });
}

// — places

/** What can be moved: where it is stated, whether that is a fact of the room, and where it is in a setup. */
interface Movable {
  readonly bound: Bound;
  readonly fact: boolean;
  at(setup: Setup): Spot | undefined;
}

function movable(setup: Setup, name: string): Movable | NotMoved | undefined {
  const key = canonical(name);
  const device = setup.devices.get(key);
  if (device !== undefined) {
    if (device.placed === undefined) return { refused: `No statement places “${device.name}” yet: write place ${device.name} at lectern, then move it.` };
    if (device.ring !== undefined && device.ring.count > 1) return { refused: `“${device.name}” is placed together with others by one statement: place it by itself to move it.` };
    const held = setup.floor.position(device.name, device.place, "operator", 0, device.ring).held;
    if (held !== undefined) return { refused: `“${device.name}” goes with ${held.by}: move ${held.by}.` };
    return { bound: device.placed, fact: false, at: (then) => { const one = then.devices.get(key); return one === undefined ? undefined : standOf(then, one, new Trial()); } };
  }
  const voice = setup.voices.get(key);
  const talker = voice?.statements === undefined ? undefined : boundAt(setup, voice.where, ["talker"]);
  if (talker !== undefined) return { bound: talker, fact: false, at: (then) => then.voices.get(key)?.position.at(new Trial()) };
  const thing = [setup.room.tables, setup.room.outlets, setup.room.surfaces].map((kind) => kind.get(key)).find((one) => one !== undefined) ?? setup.room.spots.get(key);
  const stated = thing === undefined ? undefined : boundAt(setup, thing.where, ["table", "outlet", "screen", "spot"]);
  return stated === undefined ? undefined : { bound: stated, fact: true, at: (then) => then.floor.spot(name, new Trial()) };
}

/** The statement that stands at a place. */
function boundAt(setup: Setup, where: Where | undefined, heads: readonly string[]): Bound | undefined {
  if (where === undefined) return undefined;
  return everywhere(fileOf(setup, where.path)?.statements ?? []).find((one) => one.where.start === where.start && one.where.path === where.path && heads.includes(one.row.head));
}

function placed(texts: Texts, setup: Setup, wanted: Move, target: Spot): Moved | NotMoved {
  const found = movable(setup, wanted.name);
  if (found === undefined) return { refused: `There is no “${wanted.name}” that could be moved.` };
  if ("refused" in found) return found;
  if (found.fact && wanted.facts !== true) return { refused: `Where “${wanted.name}” is, is a fact of the room: it is measured, not chosen.` };
  const now = found.at(setup);
  if (now !== undefined && apart(now, target) < LEAST) return { edits: [], says: `${wanted.name} stays where it is.` };
  const place = valueOf(found.bound, "place", "place");
  const tries = place === undefined ? pointAfter(found.bound, target) : [...otherOffsets(texts, setup, found, place, target), ...points(setup, found.bound, place, target)];
  const edit = firstThatLeads(texts, setup, tries, target, (then) => found.at(then));
  if (edit === undefined) return { refused: `No way was found to write that “${wanted.name}” is ${metres(target.x)} from the front and ${metres(target.y)} from the left: change its line by hand.` };
  return { edits: [edit], says: `${wanted.name} is now ${metres(target.x)} from the front wall and ${metres(target.y)} from the left wall.` };
}

/** The same relation with another distance: `behind row 3` becomes `0.9 m behind row 3`, where it still holds. */
function otherOffsets(texts: Texts, setup: Setup, found: Movable, place: PlaceValue, target: Spot): Edit[] {
  const { path } = found.bound.where;
  return place.relations.flatMap((relation): Edit[] => {
    if (!["behind", "before", "beside", "near"].includes(relation.relation)) return [];
    const write = (far: number): Edit => ({ path, start: relation.offset?.start ?? relation.start, end: relation.offset?.end ?? relation.start, newText: `${metres(far)}${relation.offset === undefined ? " " : ""}` });
    const [one, two] = [1, 2].map((far) => found.at(after(texts, setup, [write(far)])));
    if (one === undefined || two === undefined || apart(one, two) < 0.5) return [];
    // Along the line on which a longer distance would move it.
    const step = { x: two.x - one.x, y: two.y - one.y };
    const far = 1 + ((target.x - one.x) * step.x + (target.y - one.y) * step.y) / (step.x ** 2 + step.y ** 2);
    return tenths(far) < 0.1 ? [] : [write(far)];
  });
}

/** A point in place of what leads elsewhere; what it stands on is kept where the point is still on it, and so is a stated height. */
function points(setup: Setup, bound: Bound, place: PlaceValue, target: Spot): Edit[] {
  const { path } = bound.where;
  const point = pointWords(target, heightOf(place));
  const text = fileOf(setup, path)?.text ?? "";
  const said = (relation: Relation): string => text.slice(relation.start, relation.end).trim();
  const on = place.relations.find((relation) => relation.relation === "on");
  const kept = on === undefined ? [] : [`${said(on)} at ${point}`];
  const tableHolds = on?.anchor.kind === "name" && isOn(setup, on.anchor.name.text, target);
  return [...(tableHolds ? kept : []), `at ${point}`].map((newText) => ({ path, start: place.start, end: place.end, newText }));
}

const pointAfter = (bound: Bound, target: Spot): Edit[] =>
  [", ", " "].map((lead) => ({ path: bound.where.path, start: bound.where.end, end: bound.where.end, newText: `${lead}at ${pointWords(target, undefined)}` }));

const pointWords = (target: Spot, z: number | undefined): string => `(${metres(target.x)}, ${metres(target.y)}${z === undefined ? "" : `, ${Number(z.toFixed(2))} m`})`;

function heightOf(place: PlaceValue): number | undefined {
  const point = place.relations.map(({ anchor }) => anchor).find((anchor) => anchor.kind === "point");
  return point?.kind === "point" ? point.coordinates[2]?.best : undefined;
}

function isOn(setup: Setup, name: string, target: Spot): boolean {
  const table = setup.room.tables.get(canonical(name));
  const trial = new Trial();
  const at = table === undefined ? undefined : setup.floor.spot(table.name, trial);
  if (table === undefined || at === undefined) return false;
  return Math.abs(at.x - target.x) <= trial.value(table.length) / 2 && Math.abs(at.y - target.y) <= trial.value(table.width) / 2;
}

// — aims

function aimed(texts: Texts, setup: Setup, wanted: Move, target: Spot): Moved | NotMoved {
  const device = setup.devices.get(canonical(wanted.name));
  if (device?.placed === undefined) return { refused: `No statement places “${wanted.name}”, so nothing says where it points.` };
  const bound = device.placed;
  const file = fileOf(setup, bound.where.path);
  if (file === undefined) return { refused: `The file of “${wanted.name}” cannot be read.` };
  const stated = bound.children.find((child) => child.row.head === "aim");
  const at = stated && valueOf(stated, "at", "place");
  const near = namedNear(setup, target);
  const point = (z: string): string => `(${metres(target.x)}, ${metres(target.y)}${z})`;
  const words = [...(near === undefined ? [] : [near.name]), `at ${point(", 1.2 m")}`, point(", 1.2 m")];
  const tries = words.map((newText): Edit => (stated !== undefined && at !== undefined ? { path: bound.where.path, start: at.start, end: at.end, newText } : insertInto(file, bound, [`aim ${newText}`])));
  const aim = (then: Setup): Spot | undefined => {
    const one = then.devices.get(canonical(wanted.name));
    return one?.aim === undefined ? undefined : pointOf(then, `${one.name} aim`, one.aim, new Trial());
  };
  const edit = tries.find((one, i) => firstThatLeads(texts, setup, [one], near !== undefined && i === 0 ? near.at : target, aim) !== undefined);
  if (edit === undefined) return { refused: `No way was found to write where “${wanted.name}” points: change its line by hand.` };
  return { edits: [edit], says: near !== undefined && edit === tries[0] ? `${wanted.name} now points at ${near.name}.` : `${wanted.name} now points at ${metres(target.x)} from the front wall, ${metres(target.y)} from the left wall.` };
}

/** Who or what has a name about there: people and seats first. */
function namedNear(setup: Setup, target: Spot): { readonly name: string; readonly at: Spot } | undefined {
  const trial = new Trial();
  const all = [
    ...[...setup.voices.values()].filter((voice) => voice.stated && voice.seats === undefined).map((voice) => ({ name: voice.name, at: voice.position.at(trial) })),
    ...setup.room.seats.map((seats) => ({ name: seats.name, at: audienceCentre(setup, trial, seats.name) })),
    ...[...setup.room.spots.keys(), ...setup.room.surfaces.keys()].flatMap((name) => { const at = setup.floor.spot(name, trial); return at === undefined ? [] : [{ name, at: at }]; }),
  ];
  let best: (typeof all)[number] | undefined;
  for (const one of all) if (apart(one.at, target) <= SNAP && (best === undefined || apart(one.at, target) < apart(best.at, target))) best = one;
  return best;
}

// — rows of seats

function rowMoved(texts: Texts, setup: Setup, wanted: Move, target: Spot): Moved | NotMoved {
  const group = setup.floor.group(wanted.name);
  const stated = group === undefined ? undefined : boundAt(setup, group.where, ["chairs"]);
  const file = stated === undefined ? undefined : fileOf(setup, stated.where.path);
  if (group === undefined || stated === undefined || file === undefined) return { refused: `There are no seats “${wanted.name}” that could be moved.` };
  const row = wanted.row ?? 1;
  const frontOf = (then: Setup, of: number): number | undefined => {
    const seats = then.floor.group(wanted.name);
    const all = seats === undefined ? [] : then.floor.seats(seats, new Trial()).filter((seat) => seat.row === of);
    return all.length === 0 ? undefined : all.reduce((sum, seat) => sum + seat.at.x, 0) / all.length;
  };
  const [now, first] = [frontOf(setup, row), frontOf(setup, 1)];
  if (now === undefined || first === undefined) return { refused: `“${wanted.name}” has no row ${row}.` };
  if (group.place?.relations.some((relation) => relation.relation === "around") === true) return { refused: `“${wanted.name}” sit around a table: move the table.` };
  const far = tenths(first + target.x - now);
  if (Math.abs(target.x - now) < LEAST) return { edits: [], says: `${wanted.name} stay where they are.` };
  if (far < 0) return { refused: "The first row would stand in the front wall." };
  const child = stated.children.find((one) => one.row.head === "first");
  const distance = child && valueOf(child, "distance", "quantity");
  const edit: Edit = distance !== undefined ? { path: stated.where.path, start: distance.start, end: distance.end, newText: metres(far) } : insertInto(file, stated, [`first ${metres(far)}`]);
  const then = after(texts, setup, [edit]);
  const at = frontOf(then, row);
  if (then.problems.length > setup.problems.length || at === undefined || Math.abs(at - target.x) > NEAR) return { refused: `Row ${row} cannot stand there: the rows would not go into the room.` };
  return { edits: [edit], says: `The first row of ${wanted.name} is now ${metres(far)} from the front wall.` };
}
