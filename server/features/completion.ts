/** What may be written at a cursor, from the vocabulary and the names in scope; works in text that is broken or not finished. */
import type { Dimension } from "../../grammar/units";
import { DIMENSIONS, UNITS } from "../../grammar/units";
import { isRelation, RELATIONS, rowFor, rowsOf, SIDES, SPOTS, type NameKind, type Owner, type Row, type Slot } from "../../grammar/vocabulary";
import { CATALOGUE } from "../checks/catalogue";
import { KIND_WORDS } from "../model/names";
import { typicalKinds, type Setup } from "../model/setup";
import { valueOf } from "../model/bound";
import type { Asked, Span } from "./asked";
import { deviceOf } from "./names";
import { placeOf, wordOf, type CursorPlace } from "./position";
import { progress } from "./slots";

export type OfferKind = "statement" | "connector" | "name" | "word" | "unit" | "file" | "value";

export interface Offer {
  readonly label: string;
  readonly kind: OfferKind;
  /** A word or two beside the label. */
  readonly detail: string;
  /** A sentence. */
  readonly about: string;
  readonly insert: string;
  /** What the insertion takes the place of. */
  readonly replaces: Span;
  /** What stands first is likeliest. */
  readonly rank: number;
}

type Bare = Omit<Offer, "replaces">;
const PLACE_KINDS: readonly NameKind[] = ["spot", "table", "surface", "seats", "talker", "device", "outlet"];
/** More names than anybody would look through; what is typed narrows them. */
const MOST_NAMES = 500;

/** The offers at a position; `files` are the paths that a `use` could take in. */
export function completion(asked: Pick<Asked, "setup" | "path" | "text">, offset: number, files: readonly string[] = []): readonly Offer[] {
  const at = placeOf(asked.text, offset);
  if (at === undefined) return [];
  if (at.quoted !== undefined) return at.head === "use" ? filesToUse(asked.path, files, at.quoted) : [];
  const bare = at.inPoint ? inPoint(at) : at.head === undefined ? heads(at) : within(asked, at);
  const seen = new Set<string>();
  const offers = bare.filter((offer) => !seen.has(offer.label) && seen.add(offer.label) !== undefined);
  // A blank that stands there already is not put in twice.
  const blank = asked.text.charAt(at.word.end) === " ";
  return offers.map((offer) => ({ ...offer, insert: blank ? offer.insert.trimEnd() : offer.insert, replaces: { start: at.word.start, end: at.word.end } }));
}

const offer = (kind: OfferKind, label: string, detail: string, about: string, rank: number, insert = label): Bare => ({ kind, label, detail, about, rank, insert });

/** Coordinates of a point are lengths. */
function inPoint(at: CursorPlace): Bare[] {
  const last = at.items.at(-1);
  return last !== undefined && "kind" in last && last.kind === "number" ? units("length") : [];
}

/** Words with which a statement can begin here. */
function heads(at: CursorPlace): Bare[] {
  const { owner, line } = at;
  if (line?.row !== undefined) {
    const own = line.row.body === undefined ? [] : statements(line.row.body, line.others, 0);
    const place = line.row.slots.some((slot) => slot.takes.kind === "place") ? relations(1) : [];
    return [...own, ...place, ...statements(owner, at.siblings.map((fact) => fact.head.text.toLowerCase()), 2)];
  }
  return statements(owner, at.siblings.flatMap((fact) => [fact, ...fact.also]).filter((fact) => fact.start !== at.word.start).map((fact) => fact.head.text.toLowerCase()), 0);
}

/** Statements of an owner; what may stand once and does already is left out. */
const statements = (owner: Owner, said: readonly string[], rank: number): Bare[] => rowsOf(owner)
  .filter((row) => row.once !== true || !said.includes(row.head))
  .map((row) => offer("statement", row.head, NATURES[row.nature], row.meaning, rank, row.slots.length > 0 && row.slots.some((slot) => slot.required === true || slot.after !== undefined) ? `${row.head} ` : row.head));

const NATURES: Readonly<Record<Row["nature"], string>> = { fact: "fact", choice: "choice", wish: "wish", note: "note" };

/** What may follow the words of a statement. */
function within(asked: Pick<Asked, "setup" | "path" | "text">, at: CursorPlace): Bare[] {
  const { setup } = asked;
  const first = at.line?.row;
  const own = at.line === undefined || at.head === at.line.head ? first : (first?.body === undefined ? undefined : rowFor(first.body, at.head ?? "")) ?? rowFor(at.owner, at.head ?? "");
  // After a comma a relation says more on the line's own place.
  if (own === undefined && at.head !== undefined && isRelation(at.head)) return at.items.length === 0 ? anchors(setup, asked.path) : relations(0);
  if (own === undefined) return [];
  const state = progress(own, at.items);
  const last = at.items.at(-1);
  const each = wordOf(last) === "each";
  const out: Bare[] = [];
  if (state.unitOf !== undefined) out.push(...units(state.unitOf));
  if (state.place === "anchor") out.push(...anchors(setup, asked.path));
  if (state.place === "relation") out.push(...relations(1));
  for (const slot of state.values) out.push(...values(asked, slot, at.word.typed, each, 0));
  if (state.during) out.push(...setup.items.map((item) => offer("name", item.name, KIND_WORDS.item, "", 0)));
  if (each) return out;
  for (const slot of state.led) if (slot.after !== undefined) out.push(offer("connector", slot.after, "", `${slot.meaning}${slot.required === true ? "" : " (may be left out)"}`, slot.required === true ? 0 : 2, `${slot.after} `));
  if (state.more !== undefined) out.push(offer("connector", "and", "", `another: ${state.more.meaning}`, 3, "and "));
  if (state.no) out.push(offer("connector", "no", "", "says that there is none", 2, "no "));
  if (state.tail && at.items.length > 0 && state.unitOf === undefined) out.push(...tails(own, setup));
  return out;
}

function tails(row: Row, setup: Setup): Bare[] {
  const known = row.nature === "fact" && row.slots.some((slot) => slot.takes.kind === "quantity");
  return [
    ...(row.during !== undefined && setup.items.length > 0 ? [offer("connector", "during", "", "holds in these items of the programme only", 4, "during ")] : []),
    ...(known ? [offer("connector", "measured", "", "with a date: it was measured then", 4, "measured "), offer("connector", "guessed", "", "it is a guess, with some room around it", 4)] : []),
    offer("connector", "because", "", "the reason, for those who read it later", 5, 'because "'),
  ];
}

/** What a slot takes. */
function values(asked: Pick<Asked, "setup" | "path">, slot: Slot, typed: string, each: boolean, rank: number): Bare[] {
  const { takes } = slot;
  switch (takes.kind) {
    case "word": return Object.entries(takes.words).map(([word, meaning]) => offer("word", word, "", meaning, rank));
    case "name": return names(asked, takes.of, typed, each, slot, rank);
    case "place": return relations(rank);
    case "quantity": return [
      offer("value", DIMENSIONS[takes.dimension].example, "like this", slot.meaning, rank),
      offer("connector", "about", "", `${slot.meaning}, give or take`, rank + 1, "about "), offer("connector", "unknown", "", "nobody knows yet", rank + 2),
    ];
    case "mode": return ["360p15", "360p30", "720p30", "1080p30"].map((mode) => offer("value", mode, "", slot.meaning, rank));
    case "code": return CATALOGUE.map((entry) => offer("word", entry.code, entry.severity, entry.title, rank));
    case "text": return [offer("value", '"…"', "a text", slot.meaning, rank, '"')];
    case "date": return [offer("value", "2026-10-14", "like this", slot.meaning, rank)];
    case "clock": return [offer("value", "18:30", "like this", slot.meaning, rank)];
    case "ratio": return [offer("value", "16:9", "like this", slot.meaning, rank)];
    case "new-name": case "who": case "zone": case "any-quantity": return [];
  }
}

/** Names of the kinds wanted. Parts and ports come once their device is written, or where nothing else would do. */
function names({ setup, path }: Pick<Asked, "setup" | "path">, kinds: readonly NameKind[], typed: string, each: boolean, slot: Slot, rank: number): Bare[] {
  if (kinds.includes("channel")) return [offer("word", "all", "", "every channel", rank), ...setup.names.ofKinds(["channel"]).map((n) => offer("name", n.name.slice(n.name.indexOf("/") + 1), KIND_WORDS.channel, "", rank))];
  const written = (full: string): string => {
    // Within a file that was taken in `as x` its own names are written without `x.`.
    const prefix = setup.names.full(path, "");
    return prefix !== "" && full.startsWith(prefix) ? full.slice(prefix.length) : full;
  };
  const found = setup.names.ofKinds(kinds);
  const dotted = typed.includes(".");
  const plain = found.filter((named) => dotted || (named.kind !== "part" && named.kind !== "port") || !kinds.includes("device"));
  const out = plain.slice(0, MOST_NAMES).map((named) => offer("name", written(named.name), kindOf(setup, named.name, named.kind), meaningOf(setup, named.name, named.kind), named.kind === "kind" && named.where === undefined ? rank + 1 : rank));
  // A device without the port behind it is where most begin.
  const devices = kinds.includes("port") && !dotted && !kinds.includes("device") ? setup.names.ofKinds(["device"]).map((named) => offer("name", written(named.name), kindOf(setup, named.name, "device"), "", rank)) : [];
  const sets = each || slot.many === true ? [...new Set(setup.names.ofKinds(["device"]).flatMap((n) => /^(.+)-\d+$/.exec(n.name)?.[1] ?? []))].filter((base) => setup.names.findSet(path, base) !== undefined) : [];
  if (each) return sets.map((base) => offer("name", base, "numbered set", "all of them", rank));
  return [...out, ...devices, ...sets.map((base) => offer("name", `each ${base}`, "numbered set", "all of them, one by one", rank + 1))];
}

function kindOf(setup: Setup, name: string, kind: NameKind): string {
  if (kind === "device") return setup.devices.get(name.normalize("NFC").toLowerCase())?.kind ?? KIND_WORDS.device;
  if (kind === "port") {
    const device = setup.devices.get((deviceOf(setup, name) ?? "").toLowerCase());
    return device?.ports.find((port) => port.id === name)?.connector ?? KIND_WORDS.port;
  }
  return KIND_WORDS[kind];
}

function meaningOf(setup: Setup, name: string, kind: NameKind): string {
  if (kind === "kind") return typeOfKind(name);
  if (kind === "spot" || kind === "seats" || kind === "surface") return SPOTS[name] ?? "";
  return setup.devices.get(name.toLowerCase())?.owner === undefined ? "" : `owned by ${setup.devices.get(name.toLowerCase())?.owner ?? ""}`;
}

/** What a typical kind is: `a camera`. */
const typeOfKind = (name: string): string => {
  const kind = typicalKinds().find((k) => valueOf(k, "name", "name")?.text === name);
  return kind === undefined ? "" : `a ${valueOf(kind, "type", "word")?.word ?? "thing"}, with typical figures`;
};

const relations = (rank: number): Bare[] => Object.entries(RELATIONS).map(([word, meaning]) => offer("connector", word, "", meaning, rank, `${word} `));

const anchors = (setup: Setup, path: string): Bare[] => [
  ...names({ setup, path }, PLACE_KINDS, "", false, NO_SLOT, 0),
  ...[...SIDES].map((side) => offer("word", side, "side of the room", "", 1)),
  offer("word", "row", "", "one row of the seats, such as row 2", 1, "row "), offer("word", "table", "", "any table", 1),
];
const NO_SLOT: Slot = { id: "", takes: { kind: "place" }, meaning: "" };

/** Units of a dimension, the common one first. */
function units(dimension: Dimension): Bare[] {
  if (dimension === "count" || dimension === "ratio") return [];
  const usual = /[^\d\s.]+$/u.exec(DIMENSIONS[dimension].example)?.[0];
  return [...UNITS].filter(([word, unit]) => unit.dimension === dimension && !LONG.test(word)).map(([word]) => offer("unit", word, DIMENSIONS[dimension].title, "", word === usual ? 0 : 1));
}
/** Spelt-out doubles of units that have a short sign. */
const LONG = /^(?:metres?|meters?|foot|feet|inches|sec|seconds?|minutes?|hours?|watts|degrees|percent|lux|lumens|[MkG]bit\/s|[MkG]bps|sqm|sqft|ft2|ft²|yards)$/;

/** Files of the folder, written from the folder of the file that would use them. */
function filesToUse(path: string, files: readonly string[], quoted: Span & { readonly typed: string }): Offer[] {
  const here = path.split("/").slice(0, -1);
  return files.filter((file) => file !== path).map((file) => {
    const parts = file.split("/");
    let same = 0;
    while (same < here.length && same < parts.length - 1 && here[same] === parts[same]) same += 1;
    const label = [...here.slice(same).map(() => ".."), ...parts.slice(same)].join("/");
    return { ...offer("file", label, "", file, label.startsWith("..") ? 1 : 0), replaces: { start: quoted.start, end: quoted.end } };
  });
}
