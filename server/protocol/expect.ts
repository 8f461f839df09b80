/** What comes over the wire is checked before anybody works with it: each reader gives what it wants to see, or nothing. */
import type { CompletionItem, Position, Range } from "vscode-languageserver";
import { LOOKS } from "../features/looks";
import { ASKS, type Ask } from "../signal/ground-plan/plan";
import type { Choose, FlowAsked, LookAsked, MoveAsked, PlanAsked, StarterAsked } from "./messages";

export type Read<T> = (params: unknown) => T | undefined;

type Known = Readonly<Record<string, unknown>>;

export const record = (value: unknown): Known | undefined =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? value as Known : undefined;

const text = (value: unknown): string | undefined => (typeof value === "string" ? value : undefined);
const flag = (value: unknown): boolean | undefined => (typeof value === "boolean" ? value : undefined);
const finite = (value: unknown): number | undefined => (typeof value === "number" && Number.isFinite(value) ? value : undefined);
const listed = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value as unknown[] : []);

/** Leaves out what is undefined, so that an absent answer is absent. */
function present<T extends object>(given: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as { [K in keyof T]: Exclude<T[K], undefined> };
}

/** Lines and characters before the first or between two are those nearest to them. */
function position(value: unknown): Position | undefined {
  const line = finite(record(value)?.["line"]);
  const character = finite(record(value)?.["character"]);
  return line === undefined || character === undefined ? undefined : { line: Math.floor(line), character: Math.floor(character) };
}

export function range(value: unknown): Range | undefined {
  const start = position(record(value)?.["start"]);
  const end = position(record(value)?.["end"]);
  return start === undefined || end === undefined ? undefined : { start, end };
}

export interface OfDocument {
  readonly uri: string;
}
export interface AtPosition extends OfDocument {
  readonly position: Position;
}

export const ofDocument: Read<OfDocument> = (params) => {
  const uri = text(record(record(params)?.["textDocument"])?.["uri"]);
  return uri === undefined ? undefined : { uri };
};

export const atPosition: Read<AtPosition> = (params) => {
  const of = ofDocument(params);
  const at = position(record(params)?.["position"]);
  return of === undefined || at === undefined ? undefined : { ...of, position: at };
};

export const referencesAsked: Read<AtPosition & { readonly withDeclaration: boolean }> = (params) => {
  const at = atPosition(params);
  return at && { ...at, withDeclaration: flag(record(record(params)?.["context"])?.["includeDeclaration"]) ?? true };
};

export const renameAsked: Read<AtPosition & { readonly name: string }> = (params) => {
  const at = atPosition(params);
  const name = text(record(params)?.["newName"]);
  return at === undefined || name === undefined ? undefined : { ...at, name };
};

/** A stretch of a document. */
export const inRange: Read<OfDocument & { readonly range: Range }> = (params) => {
  const of = ofDocument(params);
  const within = range(record(params)?.["range"]);
  return of === undefined || within === undefined ? undefined : { ...of, range: within };
};

export const atPositions: Read<OfDocument & { readonly positions: readonly Position[] }> = (params) => {
  const of = ofDocument(params);
  const given = record(params)?.["positions"];
  return of === undefined || !Array.isArray(given) ? undefined : { ...of, positions: given.slice(0, MOST_POSITIONS).flatMap((one) => position(one) ?? []) };
};
/** Cursors that are answered for at once. */
const MOST_POSITIONS = 1000;

export const typedAsked: Read<AtPosition & { readonly typed: string }> = (params) => {
  const at = atPosition(params);
  const typed = text(record(params)?.["ch"]);
  return at === undefined || typed === undefined ? undefined : { ...at, typed };
};

export const tokensSince: Read<OfDocument & { readonly previous: string }> = (params) => {
  const of = ofDocument(params);
  const previous = text(record(params)?.["previousResultId"]);
  return of === undefined || previous === undefined ? undefined : { ...of, previous };
};

export const symbolsAsked: Read<{ readonly query: string }> = (params) => {
  const query = text(record(params)?.["query"]);
  return query === undefined ? undefined : { query: query.slice(0, 200) };
};

/** An item of the call hierarchy as it was given out: where it stands, and its name. */
export const stationAsked: Read<OfDocument & { readonly name: string }> = (params) => {
  const item = record(record(params)?.["item"]);
  const data = record(item?.["data"]);
  // The document that was asked about first: where the station itself stands may be a kit that no setup is.
  const uri = text(data?.["of"]) ?? text(item?.["uri"]);
  const name = text(data?.["name"]) ?? text(item?.["name"]);
  return uri === undefined || name === undefined ? undefined : { uri, name };
};

/** Files or folders that are about to be moved, from one address to another. */
export const movesAsked: Read<readonly { readonly from: string; readonly to: string }[]> = (params) => {
  const files = record(params)?.["files"];
  return Array.isArray(files) ? files.flatMap((file) => {
    const from = text(record(file)?.["oldUri"]);
    const to = text(record(file)?.["newUri"]);
    return from === undefined || to === undefined ? [] : [{ from, to }];
  }) : undefined;
};

/** `previous`: what was answered last, so that an equal answer need not be sent again. */
export const diagnosticsAsked: Read<OfDocument & { readonly previous: string | undefined }> = (params) => {
  const of = ofDocument(params);
  return of && { ...of, previous: text(record(params)?.["previousResultId"]) };
};

/** `only`: kinds of action that are wanted; all where nothing is said. */
export const actionsAsked: Read<OfDocument & { readonly range: Range; readonly only: readonly string[] | undefined }> = (params) => {
  const of = ofDocument(params);
  const within = range(record(params)?.["range"]);
  const only = record(record(params)?.["context"])?.["only"];
  return of === undefined || within === undefined ? undefined : { ...of, range: within, only: Array.isArray(only) ? only.flatMap((kind) => text(kind) ?? []) : undefined };
};

/** An offer of a list that was answered, as it was sent. */
export const itemAsked: Read<{ readonly item: CompletionItem; readonly list: number; readonly at: number }> = (params) => {
  const item = record(params);
  const label = text(item?.["label"]);
  const data = record(item?.["data"]);
  return item === undefined || label === undefined ? undefined : { item: { ...item, label }, list: finite(data?.["list"]) ?? -1, at: finite(data?.["at"]) ?? -1 };
};

export const opened: Read<OfDocument & { readonly version: number; readonly text: string }> = (params) => {
  const document = record(record(params)?.["textDocument"]);
  const uri = text(document?.["uri"]);
  const content = text(document?.["text"]);
  return uri === undefined || content === undefined ? undefined : { uri, text: content, version: finite(document?.["version"]) ?? 0 };
};

/** A change of a stretch, or of the whole text where no range is given. */
export type Change = { readonly range: Range; readonly text: string } | { readonly text: string };

export const changed: Read<OfDocument & { readonly version: number | undefined; readonly changes: readonly Change[] }> = (params) => {
  const of = ofDocument(params);
  const given = record(params)?.["contentChanges"];
  if (of === undefined || !Array.isArray(given)) return undefined;
  const changes: Change[] = [];
  for (const one of given) {
    const fresh = text(record(one)?.["text"]);
    const asked = record(one)?.["range"];
    const at = asked === undefined ? undefined : range(asked);
    // Half of a list of changes is no text that anybody wrote.
    if (fresh === undefined || (asked !== undefined && at === undefined)) return undefined;
    changes.push(at === undefined ? { text: fresh } : { range: at, text: fresh });
  }
  return { ...of, version: finite(record(record(params)?.["textDocument"])?.["version"]), changes };
};

export const filesChanged: Read<readonly string[]> = (params) => {
  const changes = record(params)?.["changes"];
  return Array.isArray(changes) ? changes.flatMap((change) => text(record(change)?.["uri"]) ?? []) : undefined;
};

/** Files or folders that were made, renamed or deleted in the editor; a renamed one counts under both names. */
export const filesMoved: Read<readonly string[]> = (params) => {
  const files = record(params)?.["files"];
  return Array.isArray(files) ? files.flatMap((file) => ["uri", "oldUri", "newUri"].flatMap((key) => text(record(file)?.[key]) ?? [])) : undefined;
};

const folders = (value: unknown): string[] => listed(value).flatMap((folder) => text(record(folder)?.["uri"]) ?? []);

export const foldersChanged: Read<{ readonly added: readonly string[]; readonly removed: readonly string[] }> = (params) => {
  const event = record(record(params)?.["event"]);
  return event && { added: folders(event["added"]), removed: folders(event["removed"]) };
};

/** The folders that are open from the beginning; the older single root where no list is given. */
export function foldersAtStart(params: unknown): readonly string[] {
  const known = record(params);
  const list = folders(known?.["workspaceFolders"]);
  const root = text(known?.["rootUri"]);
  return list.length > 0 || root === undefined ? list : [root];
}

const ofUri = (params: unknown): OfDocument | undefined => {
  const uri = text(record(params)?.["uri"]);
  return uri === undefined ? undefined : { uri };
};

export const verdictsAsked: Read<OfDocument> = ofUri;

export const chosen: Read<Choose> = (params) => {
  const of = ofUri(params);
  return of && present({ ...of, setup: text(record(params)?.["setup"]) });
};

const THEMES = ["light", "dark", "contrast", "print"] as const;

export const flowAsked: Read<FlowAsked> = (params) => {
  const of = ofUri(params);
  const known = record(params);
  const width = finite(known?.["width"]);
  return of && present({
    ...of, item: text(known?.["item"]), theme: THEMES.find((theme) => theme === known?.["theme"]), form: (["whole", "panel"] as const).find((form) => form === known?.["form"]), width: width !== undefined && width > 0 ? width : undefined,
  });
};

export const planAsked: Read<PlanAsked & { readonly ask?: Ask }> = (params) => {
  const of = flowAsked(params);
  return of && present({ ...of, ask: ASKS.find((ask) => ask === record(params)?.["ask"]) });
};

/** No name of a seat is longer. */
const LONGEST_NAME = 400;

export const lookAsked: Read<LookAsked> = (params) => {
  const of = flowAsked(params);
  return of && present({ ...of, view: LOOKS.find((look) => look === record(params)?.["view"]), of: text(record(params)?.["of"])?.slice(0, LONGEST_NAME) });
};

export const moveAsked: Read<MoveAsked> = (params) => {
  const known = record(params);
  const of = ofUri(params);
  const what = (["place", "aim", "row"] as const).find((one) => one === known?.["what"]);
  const [name, x, y] = [text(known?.["name"]), finite(known?.["x"]), finite(known?.["y"])];
  if (of === undefined || what === undefined || name === undefined || x === undefined || y === undefined) return undefined;
  const row = finite(known?.["row"]);
  return present({ ...of, what, name, x, y, row: row === undefined ? undefined : Math.round(row), facts: flag(known?.["facts"]) });
};

export const handoutAsked: Read<OfDocument & { readonly item?: string }> = (params) => {
  const of = ofUri(params);
  return of && present({ ...of, item: text(record(params)?.["item"]) });
};

export const explainAsked: Read<{ readonly code: string }> = (params) => {
  const code = text(record(params)?.["code"]);
  return code === undefined ? undefined : { code };
};

/** Longer answers than any question has. */
const LONGEST_ANSWER = 2000;

export const starterAsked: Read<StarterAsked> = (params) => {
  const known = record(params);
  const answer = (key: string): string | undefined => text(known?.[key])?.slice(0, LONGEST_ANSWER);
  const count = (key: string): number | undefined => {
    const number = finite(known?.[key]);
    return number === undefined || number < 0 ? undefined : Math.round(number);
  };
  return known && present({
    title: answer("title"), talkers: answer("talkers"), audience: flag(known["audience"]), seats: count("seats"), online: count("online"),
    size: answer("size"), own: answer("own"),
  });
};
