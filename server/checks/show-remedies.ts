/** What may make a picture better to see: larger letters, fewer faces, another display, a display that is raised or turned. */
import { valueOf, type Bound } from "../model/bound";
import type { Device } from "../model/device";
import { append, insertInto, rewrite } from "../model/edits";
import { canonical } from "../model/names";
import { figure } from "../model/show";
import type { Showing } from "../signal/pictures/showing";
import { portPair, wiredTo } from "./plugs";
import { fileOf, rootFile, type Remedy, type Scene } from "./check";

/** The `shows` statement behind a showing; nothing where a device shows of its own accord. */
export const statementOf = (showing: Showing): Bound | undefined => showing.join.join.statements.find((s) => s.where === showing.shown.where && s.row.head === "shows");

/** A statement of a `shows` block, put in or rewritten. */
export function setInShows(scene: Scene, showing: Showing, head: "text-height" | "faces", value: string, title: string): Remedy[] {
  const statement = statementOf(showing);
  const file = statement && fileOf(scene.setup, statement.where.path);
  if (statement === undefined || file === undefined) return [];
  const said = statement.children.find((c) => c.row.head === head);
  return [{ title, edits: [said === undefined ? insertInto(file, statement, [`${head} ${value}`]) : rewrite(said, `${head} ${value}`)] }];
}

/** The same thing on a larger display too: one that stands there, or one that is owned and can be placed and connected. */
export function showOn(scene: Scene, showing: Showing): Remedy[] {
  const { setup, graph } = scene;
  const file = rootFile(setup);
  const state = showing.join;
  const owner = fileOf(setup, state.join.where.path);
  if (file === undefined || owner === undefined) return [];
  const { what, letters } = showing.shown;
  const taken = (d: Device): boolean => graph.joins.some((j) => j.shows.some((s) => s.what === what && isAt(s.name, d)));
  return [...setup.devices.values()].filter((d) => d.type !== "computer" && d.parts.some((p) => p.type === "display") && !taken(d)).slice(0, 4).flatMap((d): Remedy[] => {
    const during = statementOf(showing)?.tails.during.map((n) => n.text) ?? [];
    const tail = what === "call" ? "" : letters?.from.how === "assumed" || letters === undefined ? "" : ` { text-height ${figure(letters.best * 100)} % }`;
    const edits = [insertInto(owner, state.join.bound, [`shows ${what} on ${d.name}${during.length === 0 ? "" : ` during ${during.join(" and ")}`}${tail}`])];
    if (!wiredTo(scene.setup, state.device, d)) {
      const pair = portPair(scene.setup, state.device, d, "picture", true);
      if (pair === undefined) return [];
      edits.push(append(file, `cable from ${pair[0].id} to ${pair[1].id}`, ["cable", "radio"]));
    }
    if (d.placed === undefined) edits.push(append(file, d.type === "projector" ? `place ${d.name} on table at middle, fills front-screen` : `place ${d.name} at front`, ["place"]));
    return [{ title: `Show ${what === "call" ? "the call" : what === "slides" ? "the slides" : "the film"} on ${d.name} too`, edits }];
  });
}

const isAt = (name: string, device: Device): boolean => canonical(name) === canonical(device.name) || canonical(name).startsWith(`${canonical(device.name)}.`);

/** Something in the block of a device's `place` statement, put in or rewritten. */
export function setInPlace(scene: Scene, device: Device, head: string, value: string, title: string): Remedy[] {
  const { placed } = device;
  const file = placed && fileOf(scene.setup, placed.where.path);
  if (placed === undefined || file === undefined) return [];
  const said = placed.children.find((c) => c.row.head === head);
  const text = value === "" ? head : `${head} ${value}`;
  return [{ title, edits: [said === undefined ? insertInto(file, placed, [text]) : rewrite(said, text)] }];
}

/** A statement in the block of some seats, put in or rewritten. */
export function setInSeats(scene: Scene, group: string, head: string, value: string, title: string): Remedy[] {
  const seats = scene.setup.floor.group(group);
  const file = seats && fileOf(scene.setup, seats.where.path);
  if (seats === undefined || file === undefined) return [];
  const statement = find(file.statements, (s) => s.where === seats.where);
  if (statement === undefined) return [];
  const said = statement.children.find((c) => c.row.head === head);
  const text = value === "" ? head : `${head} ${value}`;
  return [{ title, edits: [said === undefined ? insertInto(file, statement, [text]) : rewrite(said, text)] }];
}

function find(statements: readonly Bound[], is: (statement: Bound) => boolean): Bound | undefined {
  for (const statement of statements) {
    const found = is(statement) ? statement : find(statement.children, is);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The words of a device's place, exchanged for others. */
export function moveTo(device: Device, words: string, title: string): Remedy[] {
  const { placed } = device;
  const place = placed && valueOf(placed, "place", "place");
  return placed === undefined || place === undefined ? [] : [{ title, edits: [{ path: placed.where.path, start: place.start, end: place.end, newText: words }] }];
}
