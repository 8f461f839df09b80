import { mkdirSync, realpathSync, statSync } from "node:fs";
import path from "node:path";
import { glance, study, type Glance, type Study } from "../study";
import { fallbackTables } from "../figures/fallback-table";
import type { SideView } from "../signal/elevation/side";
import { ASKS, type Ask } from "../signal/ground-plan/plan";
import { drawFlow } from "../views/flow/draw";
import { drawPerspective } from "../views/perspective/draw";
import { VIEWS_IN, type ViewIn } from "../signal/perspective/perspective";
import { drawnPlan } from "../views/plan/draw";
import { drawSide } from "../views/elevation/draw";
import { drawUplink } from "../views/uplink/draw";
import { CannotRun, systemWords, wordsOf } from "./cannotRun";
import { FINE, ROOT_OPTION, type Command } from "./command";
import { canonical } from "../model/names";
import { nearest } from "../model/near";
import { ENDING, Folders, shownPath, textOf } from "./texts";
import { listed } from "./wording";
import { writeWhole } from "./write";

const THEMES = ["light", "dark", "contrast", "print"] as const;
type Theme = (typeof THEMES)[number];

/** Where a drawing or a page goes: never over a setup, never over a folder; its folder is made where it is missing. */
export function placeFor(out: string, example = "flow.svg"): string {
  const file = path.resolve(out);
  if (file.endsWith(ENDING)) throw new CannotRun(`--out ${out}: that would replace a setup; name a file ending in ${path.extname(example)}, such as ${example}.`);
  try {
    mkdirSync(path.dirname(file), { recursive: true });
    if (statSync(file, { throwIfNoEntry: false })?.isDirectory() === true) {
      throw new CannotRun(`--out ${out}: it is a folder; name a file in it, such as ${path.join(out, example)}.`);
    }
    return path.join(realpathSync(path.dirname(file)), path.basename(file));
  } catch (error) {
    if (error instanceof CannotRun) throw error;
    throw new CannotRun(`--out ${out}: it cannot be written (${systemWords(error) ?? wordsOf(error)}).`);
  }
}

/** The item that is asked for; throws `CannotRun` where the programme has none of that name. */
export function itemOf(item: string | undefined, one: Pick<Study, "items">, shown: string): string | undefined {
  if (item === undefined || one.items.includes(item)) return item;
  const meant = nearest(item, one.items);
  const known = one.items.length === 0 ? "it has no programme" : `its items are ${listed(one.items)}`;
  throw new CannotRun(`--item ${item}: there is no such item in ${shown}; ${meant === undefined ? known : `did you mean ${meant}?`}`);
}

/** What is drawn. */
const VIEWS = ["flow", "plan", "side", "uplink", ...VIEWS_IN] as const;
const isIn = (view: string): view is ViewIn => (VIEWS_IN as readonly string[]).includes(view);

/** The room from the side, with the sight lines of the row that is asked for. */
function sideView(one: Study, item: string | undefined, wanted: string | undefined, shown: string): SideView {
  const plain = one.side(item);
  if (wanted === undefined) return plain;
  const rows = plain.rows.filter((row) => !row.ring);
  const [, name, digits] = /^(?:(.+)\.row-)?(\d{1,5})$/iu.exec(wanted) ?? [];
  const group = name === undefined ? undefined : rows.find((row) => canonical(row.group) === canonical(name))?.group;
  const found = digits !== undefined && (name === undefined || group !== undefined) && rows.some(({ row, group: of }) => row === Number(digits) && (group === undefined || group === of));
  if (!found) {
    const groups = [...new Set(rows.map((row) => row.group))].slice(0, 12);
    const known = groups.map((of) => {
      const most = rows.reduce((so, row) => (row.group === of ? Math.max(so, row.row) : so), 1);
      return `${of} ${most === 1 ? "has row 1 alone" : `has rows 1 to ${most}`}`;
    });
    throw new CannotRun(`--row ${wanted}: there is no such row in ${shown}; ${known.length === 0 ? "no rows of seats are stated" : `${listed(known)}${groups.length > 1 ? `; of several, name one so: ${groups[0] ?? ""}.row-1` : ""}`}.`);
  }
  return one.side(item, { group, row: Number(digits) });
}

/** The steps of the connection over which most is sent. */
function uplinkOf(one: Study, theme: Theme | undefined, shown: string): string {
  const [table] = fallbackTables(one.setup).filter((each) => each.insteadOf === undefined).sort((a, b) => (b.best[0]?.cost ?? 0) - (a.best[0]?.cost ?? 0));
  if (table === undefined) throw new CannotRun(`${shown}: no joined device sends anything, so there is no uplink to draw.`);
  return drawUplink(one.title, table, theme);
}

/** A drawing of what was judged. */
function judged(one: Study, view: string, item: string | undefined, { ask, row }: { readonly ask: Ask | undefined; readonly row: string | undefined }, theme: Theme | undefined, shown: string): string {
  const look = theme === undefined ? {} : { theme };
  if (view === "uplink") return uplinkOf(one, theme, shown);
  if (view === "side") return drawSide(sideView(one, item, row, shown), look);
  return view === "plan" ? drawnPlan(one.plan(item, ask), look).svg : drawFlow(one.flow(item), look);
}

/** What is seen from there; throws `CannotRun` with the names that there are where the name is none of them. */
function seenFrom(one: Glance, view: ViewIn, of: string | undefined, item: string | undefined, theme: Theme | undefined, shown: string): string {
  const seen = one.sees(view, of, item);
  if ("known" in seen) {
    const what = of === undefined ? `--view ${view} wants --of NAME` : `--of ${of}: there is no such ${view === "camera" ? "camera" : "seat or talker"} in ${shown}`;
    throw new CannotRun(`${what}; ${seen.known}.`);
  }
  return drawPerspective(seen, theme === undefined ? {} : { theme });
}

/** `bothways draw`. */
export const draw: Command = {
  shape: {
    name: "draw",
    usage: "draw FILE",
    summary: "draws how sound and picture get across, the floor plan, or what is seen from a seat",
    about: [
      "Draws the signal flow as an SVG picture: the room at one side, the people online at the other, the four ways across between them, whole or with a gap that says what is missing.",
      "With --view plan, draws the room from above, to scale: walls, seats, who speaks, every device with its place, cables. --ask puts one question to it, and the answer stands on every seat: hears (speech of the people online over the noise), understands (how clearly their words arrive), reads (letters of the slides), faces (of the people online), heads (how much of the picture those in front hide), aside (from how far to the side it is looked at), frame (who is in the picture that is sent), light (on faces and on pictures), cables (how they run and how long they are).",
      "With --view side, draws the room cut open along its length, in true scale: floor, people with the height of their eyes, sight lines to the picture, the projector's beam, what cameras have in their pictures. --row says from which row one looks; without it, from the one whose view heads hide most.",
      "With --view camera or --view seat, draws in true perspective what the camera --of NAME frames, or what is seen from the seat or the talker's place --of NAME: people at their heights, pictures with text as large as it is, heads in front, who is cut off, and the numbers.",
      "Without --out the picture goes to standard output.",
    ],
    options: [
      { name: "view", value: "VIEW", choices: VIEWS, meaning: "flow: how sound and picture get across; plan: the room from above; side: the room from the side; uplink: what still fits when the internet is thin; camera: what a camera frames; seat: what is seen from a seat" },
      { name: "ask", value: "QUESTION", choices: ASKS, meaning: "with --view plan: what is asked of every seat" },
      { name: "row", value: "ROW", meaning: "with --view side: from which row one looks: 3, or stalls.row-3" },
      { name: "of", value: "NAME", meaning: "with --view camera, the camera; with --view seat, the seat, such as audience.row-4.seat-2, or a talker" },
      { name: "out", value: "FILE.svg", meaning: "the file to write" },
      { name: "item", value: "NAME", meaning: "the item of the programme to draw, where items differ" },
      { name: "theme", value: "THEME", choices: THEMES, meaning: "light, dark, contrast or print; without it the viewer's own" },
      ROOT_OPTION,
    ],
    least: 1, most: 1, example: "bothways draw autumn.bothways --view flow --out flow.svg",
  },

  async run(given, terminal) {
    const view = given.value("view") ?? "flow";
    const ask = given.value("ask") as Ask | undefined;
    if (ask !== undefined && view !== "plan") throw new CannotRun(`--ask ${ask}: only a floor plan is asked; add --view plan.`);
    const row = given.value("row");
    if (row !== undefined && view !== "side") throw new CannotRun(`--row ${row}: only the room from the side has a row that one looks from; add --view side.`);
    const of = given.value("of");
    if (of !== undefined && !isIn(view)) throw new CannotRun(`--of ${of}: only --view camera and --view seat look from somewhere; add one of them.`);
    const source = new Folders(given.value("root")).file(given.words[0] ?? "");
    textOf(source);
    const out = given.value("out");
    const file = out === undefined ? undefined : placeFor(out);
    const theme = given.value("theme") as Theme | undefined;
    const item = (one: Pick<Study, "isSetup" | "items">): string | undefined => {
      if (!one.isSetup) throw new CannotRun(`${source.shown}: it holds no setup, so there is nothing to draw.`);
      return itemOf(given.value("item"), one, source.shown);
    };
    let svg: string;
    if (isIn(view)) {
      const one = glance(source.texts, source.path);
      svg = seenFrom(one, view, of, item(one), theme, source.shown);
    } else {
      const one = study(source.texts, source.path);
      svg = judged(one, view, item(one), { ask, row }, theme, source.shown);
    }
    if (file === undefined) {
      await terminal.out(svg);
      return FINE;
    }
    writeWhole(file, svg);
    await terminal.out(`Drawn: ${shownPath(file)}\n`);
    return FINE;
  },
};
