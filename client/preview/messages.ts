/** What the editor and the page of the preview say to each other; both sides check what they are told. */
import type { Look, LookPlace, ShownVerdict } from "../../server/protocol/messages";

/** A drawing as the page shows it. */
export interface Picture {
  readonly kind: "picture";
  /** The document that was asked for, as a URI. */
  readonly uri: string;
  readonly title: string;
  readonly svg: string;
  readonly verdicts: readonly ShownVerdict[];
  readonly items: readonly string[];
  readonly item?: string;
  /** What can be asked of the drawing, and what is asked; absent where nothing can be. */
  readonly asks?: readonly { readonly ask: string; readonly title: string }[];
  readonly ask?: string;
  /** From where one looks, and could; absent where the whole is drawn. */
  readonly looking?: Looking;
  /** Why there is no drawing. */
  readonly why?: string;
}

export interface Looking {
  readonly view: Look;
  readonly views: readonly { readonly view: Look; readonly title: string }[];
  readonly places: readonly LookPlace[];
  readonly of?: string;
}

/** Why something could not be done, or that it was; the drawing stays. */
export interface Told {
  readonly kind: "told";
  readonly words: string;
  /** It was done: a new drawing follows. */
  readonly done: boolean;
}

/** What was dragged where: metres from the front wall and from the left one. */
export interface Moving {
  readonly kind: "move";
  readonly what: "place" | "aim" | "row";
  readonly name: string;
  readonly row?: number;
  readonly x: number;
  readonly y: number;
  /** A fact of the room is to be changed. */
  readonly facts?: boolean;
}

/** Why there is nothing to draw; the last drawing stays. */
export interface Nothing {
  readonly kind: "nothing";
  readonly why: string;
}

/** Where the cursor is: a file as the drawing names it, the place, its line, and the name that it stands in. */
export interface Cursor {
  readonly kind: "cursor";
  readonly path: string;
  readonly at: number;
  readonly lineStart: number;
  readonly lineEnd: number;
  readonly name: string;
}

export type ToPage = Picture | Nothing | Cursor | Told;

export type FromPage =
  | { readonly kind: "ready" }
  | { readonly kind: "go"; readonly path: string; readonly start: number; readonly end: number }
  | { readonly kind: "item"; readonly item: string }
  | { readonly kind: "ask"; readonly ask: string }
  | { readonly kind: "look"; readonly view: Look; readonly of?: string }
  | Moving;

/** What the page keeps over hiding and a reload of the window. */
export interface Kept {
  readonly uri: string;
  readonly item?: string;
  readonly ask?: string;
  readonly look?: { readonly view: Look; readonly of?: string };
  /** Absent: as wide as the page. */
  readonly zoom?: number;
  readonly left: number;
  readonly top: number;
  /** Key of the element that was chosen. */
  readonly chosen?: string;
  readonly picture?: Picture;
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;
const isText = (value: unknown): value is string => typeof value === "string";
const isPlace = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value) && value >= 0;

const isMetres = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);
const isLook = (value: unknown): value is Look => value === "camera" || value === "seat" || value === "side";
const isAsk = (value: unknown): value is { ask: string; title: string } => isRecord(value) && isText(value["ask"]) && isText(value["title"]);

const isPlaceToLookFrom = (value: unknown): value is LookPlace => isRecord(value) && isText(value["of"]) && isText(value["title"]) && (value["seats"] === undefined || isPlace(value["seats"]));

function asLooking(data: unknown): Looking | undefined {
  if (!isRecord(data)) return undefined;
  const { view, views, places, of } = data;
  if (!isLook(view) || !Array.isArray(views) || !views.every((one): one is Looking["views"][number] => isRecord(one) && isLook(one["view"]) && isText(one["title"]))) return undefined;
  if (!Array.isArray(places) || !places.every(isPlaceToLookFrom)) return undefined;
  return { view, views, places, ...(isText(of) ? { of } : {}) };
}

/** A message of the page, or nothing where it is none. */
export function fromPage(data: unknown): FromPage | undefined {
  if (!isRecord(data)) return undefined;
  const { kind, path, start, end, item, ask, view, of, what, name, row, x, y, facts } = data;
  if (kind === "ready") return { kind };
  if (kind === "item" && isText(item)) return { kind, item };
  if (kind === "ask" && isText(ask)) return { kind, ask };
  if (kind === "look" && isLook(view)) return { kind, view, ...(isText(of) ? { of } : {}) };
  if (kind === "move" && (what === "place" || what === "aim" || what === "row") && isText(name) && isMetres(x) && isMetres(y)) {
    return { kind, what, name, x, y, ...(isPlace(row) ? { row } : {}), ...(facts === true ? { facts } : {}) };
  }
  if (kind === "go" && isText(path) && isPlace(start) && isPlace(end)) return { kind, path, start, end };
  return undefined;
}

const VERDICTS: readonly string[] = ["works", "doubtful", "cannot-tell", "fails"];
const isVerdict = (value: unknown): value is ShownVerdict =>
  isRecord(value) && isText(value["way"]) && isText(value["title"]) && isText(value["word"]) && isText(value["weakest"]) &&
  VERDICTS.includes(value["verdict"] as string) && Array.isArray(value["hangsOn"]) && value["hangsOn"].every(isText);

/** A drawing, or nothing where it is none. */
export function asPicture(data: unknown): Picture | undefined {
  if (!isRecord(data)) return undefined;
  const { kind, uri, title, svg, verdicts, items, item, asks, ask, why } = data;
  const looking = asLooking(data["looking"]);
  if (kind !== "picture" || !isText(uri) || !isText(title) || !isText(svg)) return undefined;
  if (!Array.isArray(verdicts) || !verdicts.every(isVerdict) || !Array.isArray(items) || !items.every(isText)) return undefined;
  return {
    kind, uri, title, svg, verdicts, items, ...(isText(item) ? { item } : {}), ...(isText(ask) ? { ask } : {}),
    ...(Array.isArray(asks) && asks.every(isAsk) ? { asks } : {}),
    ...(looking === undefined ? {} : { looking }), ...(isText(why) ? { why } : {}),
  };
}

/** A message of the editor, or nothing where it is none. */
export function toPage(data: unknown): ToPage | undefined {
  if (!isRecord(data)) return undefined;
  const { kind, why, path, at, lineStart, lineEnd, name, words, done } = data;
  if (kind === "picture") return asPicture(data);
  if (kind === "nothing" && isText(why)) return { kind, why };
  if (kind === "told" && isText(words)) return { kind, words, done: done === true };
  if (kind === "cursor" && isText(path) && isPlace(at) && isPlace(lineStart) && isPlace(lineEnd) && isText(name)) {
    return { kind, path, at, lineStart, lineEnd, name };
  }
  return undefined;
}

/** What a page kept, or nothing where it is not what a page keeps. */
export function asKept(data: unknown): Kept | undefined {
  if (!isRecord(data) || !isText(data["uri"])) return undefined;
  const { uri, item, ask, look, zoom, left, top, chosen } = data;
  const picture = asPicture(data["picture"]);
  return {
    uri,
    ...(isText(item) ? { item } : {}),
    ...(isText(ask) ? { ask } : {}),
    ...(isRecord(look) && isLook(look["view"]) ? { look: { view: look["view"], ...(isText(look["of"]) ? { of: look["of"] } : {}) } } : {}),
    ...(isPlace(zoom) && zoom > 0 ? { zoom } : {}),
    left: isPlace(left) ? left : 0,
    top: isPlace(top) ? top : 0,
    ...(isText(chosen) ? { chosen } : {}),
    ...(picture === undefined ? {} : { picture }),
  };
}
