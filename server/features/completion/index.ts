/** What may be written at a cursor, from the vocabulary and the names in scope; works in text that is broken or not finished. */
import { isRelation, rowFor, type Row, type Slot } from "../../../grammar/vocabulary";
import { quote } from "../../../grammar/lexer";
import { isPoint } from "../../../grammar/tree";
import { CATALOGUE } from "../../checks/catalogue";
import { canonical, KIND_WORDS } from "../../model/names";
import type { Setup } from "../../model/setup";
import type { Asked } from "../asked";
import { rankOf } from "./about";
import { exampleOf } from "./examples";
import { filesToUse, quotedFiles } from "./files";
import { heads } from "./heads";
import { offer, type Bare, type Offer } from "./offer";
import { anchors, groups, relations, rows, sides } from "./places";
import { placeOf, wordOf, type CursorPlace } from "./position";
import { progress, type Progress, type Tail } from "./progress";
import { countedIn, figureIn, figures, units, withUnits } from "./quantities";
import { channelsOf, namesOf, setsOf, type Scope } from "./scope";

export type { Offer, OfferKind } from "./offer";

type About = Pick<Asked, "setup" | "path" | "text">;

/** The offers at a position; `files` are the paths that a `use` could take in. */
export function completion(asked: About, offset: number, files: readonly string[] = []): readonly Offer[] {
  const at = placeOf(asked.text, offset);
  if (at === undefined) return [];
  if (at.quoted !== undefined) return at.head === "use" && at.items.length === 0 ? filesToUse(asked.path, files, at.quoted) : [];
  const bare = at.inPoint ? inPoint(at) : at.head === undefined ? heads(at) : within(asked, at, files);
  const seen = new Set<string>();
  const offers = bare.filter((one) => !seen.has(one.label) && seen.add(one.label) !== undefined);
  // A blank that stands there already is not put in twice.
  const blank = asked.text.charAt(at.word.end) === " ";
  return offers.map((one) => ({ ...one, insert: blank ? one.insert.trimEnd() : one.insert, replaces: { start: at.word.start, end: at.word.end } }));
}

/** Coordinates of a point are lengths. */
function inPoint(at: CursorPlace): Bare[] {
  const figure = figureIn(at.word.typed);
  if (figure !== undefined) return withUnits(figure, "length", undefined);
  return at.before?.kind === "number" ? units("length", undefined) : [];
}

/** What may follow the words of a statement. */
function within(asked: About, at: CursorPlace, files: readonly string[]): Bare[] {
  const { line, head, owner } = at;
  if (line === undefined || head === undefined || owner === undefined) return [];
  const { setup, path } = asked;
  const scope: Scope = { setup, path, typed: at.word.typed, line: line.start, subject: line.subject };
  const first = line.row;
  const own = at.isFirst ? first : (first?.body === undefined ? undefined : rowFor(first.body, head)) ?? rowFor(owner, head);
  // After a comma a relation says more on the line's own place.
  if (own === undefined && first !== undefined && isRelation(head)) {
    const place = first.slots.find((slot) => slot.takes.kind === "place");
    return place === undefined ? [] : follow(asked, scope, at, { ...first, slots: [place] }, [at.headToken, ...at.items].filter((item) => item !== undefined), files);
  }
  return own === undefined ? [] : follow(asked, scope, at, own, at.items, files);
}

function follow(asked: About, scope: Scope, at: CursorPlace, row: Row, items: CursorPlace["items"], files: readonly string[]): Bare[] {
  const { setup } = asked;
  const state = progress(row, items);
  const figure = figureIn(at.word.typed);
  const measured = figure === undefined ? [] : withFigure(row, state, figure);
  if (measured.length > 0) return measured;
  const each = wordOf(items.at(-1)) === "each";
  const words = items.flatMap((item) => wordOf(item) ?? []);
  const out: Bare[] = [];
  if (state.unitOf !== undefined) out.push(...units(state.unitOf.dimension, state.unitOf.slot && countedIn(row, state.unitOf.slot)));
  out.push(...placeNext(scope, state));
  for (const slot of state.values) out.push(...(each ? setsOf(scope, kindsOf(slot)) : values(asked, scope, at, row, slot, words, state.afterAbout, files)));
  if (each) return out;
  if (state.tail === "items") out.push(...setup.items.map((item) => offer("name", item.name, KIND_WORDS.item, "", 0)));
  if (state.tail === "reason") out.push(offer("value", '"…"', "a text", "the reason, for those who read it later", 0, '"'));
  if (state.date) out.push(offer("value", measuredOn(setup), "a date", "when it was measured", 0));
  state.led.forEach((slot, i) => {
    if (slot.after === undefined || isKnown(scope, row, slot)) return;
    out.push(offer("connector", slot.after, "", `${slot.meaning}${slot.required === true ? "" : " (may be left out)"}`, isNew(scope, row, slot) ? 0 : slot.required === true ? (i === 0 ? 0 : 1) : 2, `${slot.after} `));
  });
  if (state.more !== undefined) out.push(offer("connector", "and", "", `another: ${state.more.meaning}`, 3, "and "));
  if (state.moreItems) out.push(offer("connector", "and", "", "another item of the programme", 3, "and "));
  if (state.no) out.push(offer("connector", "no", "", "says that there is none", 2, "no "));
  out.push(...state.tails.flatMap((tail) => tailOffer(tail, setup)));
  return out;
}

const kindsOf = ({ takes }: Slot): Parameters<typeof namesOf>[1] => (takes.kind === "name" ? takes.of : []);

/** Whether `place laptop` places what is stated elsewhere, so that `is` would make a second thing of the name. */
function isKnown({ setup, path, line, subject }: Scope, row: Row, slot: Slot): boolean {
  if (row.head !== "place" || slot.id !== "kind" || subject === undefined) return false;
  const named = setup.names.find(path, subject);
  return named?.kind === "device" && (named.where?.path !== path || named.where.start !== line);
}

/** Whether `place tv` has a name that nothing bears yet: it wants its kind. */
const isNew = ({ setup, path, subject }: Scope, row: Row, slot: Slot): boolean =>
  row.head === "place" && slot.id === "kind" && subject !== undefined && setup.names.find(path, subject) === undefined;

/** A figure is being written: the same with a unit. */
function withFigure(row: Row, state: Progress, figure: string): Bare[] {
  const slot = state.values.find((one) => one.takes.kind === "quantity");
  if (slot?.takes.kind === "quantity") return withUnits(figure, slot.takes.dimension, countedIn(row, slot));
  return state.place?.kind === "relation" ? withUnits(figure, "length", undefined) : [];
}

function placeNext(scope: Scope, { place }: Progress): Bare[] {
  switch (place?.kind) {
    case "relation": return relations(place.must === true ? 0 : 1);
    case "anchor": return anchors(scope, place.relation);
    case "row": return rows(scope.setup);
    case "group": return groups(scope);
    case "and": return [offer("connector", "and", "", "the other of the two", 0, "and ")];
    case "sides": return [...sides(0), ...relations(1)];
    case undefined: return [];
  }
}

const TAIL_WORDS: Readonly<Record<Tail, string>> = {
  during: "holds in these items of the programme only", measured: "with a date: it was measured then",
  guessed: "it is a guess, with some room around it", because: "the reason, for those who read it later",
};

function tailOffer(tail: Tail, setup: Setup): Bare[] {
  if (tail === "during" && setup.items.length === 0) return [];
  const insert = { during: "during ", measured: "measured ", guessed: "guessed", because: 'because "' }[tail];
  return [offer("connector", tail, "", TAIL_WORDS[tail], tail === "because" ? 5 : 4, insert)];
}

/** A day on which something may have been measured: that of the meeting, where it is said. */
const measuredOn = (setup: Setup): string => setup.date ?? "2026-10-07";

/** What a slot takes. */
function values(asked: About, scope: Scope, at: CursorPlace, row: Row, slot: Slot, words: readonly string[], afterAbout: boolean, files: readonly string[]): Bare[] {
  const { takes } = slot;
  const like = (): Bare[] => {
    const example = exampleOf(row, slot);
    return example === undefined ? [] : [offer("value", example, "like this", slot.meaning, 0)];
  };
  switch (takes.kind) {
    case "word": return Object.entries(takes.words).map(([word, meaning]) => offer("word", word, "", meaning, 0));
    case "name": {
      if (takes.of.includes("channel")) return channelsOf(asked.setup, mixerAround(at));
      const many = slot.many === true || row.head === "place";
      const sets = many && !at.word.typed.includes(".") ? setsOf(scope, takes.of).map((set) => ({ ...set, label: `each ${set.label}`, insert: `each ${set.insert}`, rank: 2 })) : [];
      return [...namesOf(scope, takes.of, rankOf(asked.setup, row, slot, words)), ...sets];
    }
    case "quantity": return figures(row, slot, afterAbout);
    case "mode": return ["720p30", "1080p30", "360p30", "360p15"].map((mode, i) => offer("value", mode, "", slot.meaning, i / 10));
    case "code": return CATALOGUE.map((entry) => offer("word", entry.code, entry.severity, entry.title, 0));
    case "text": return row.head === "use" ? quotedFiles(asked.path, files) : [offer("value", '"…"', "a text", slot.meaning, 0, '"')];
    case "who": return owners(asked.setup);
    case "date": case "clock": case "ratio": case "zone": case "point": return like();
    case "place": case "new-name": case "any-quantity": return [];
  }
}

/** The mixer in whose block the cursor is. */
function mixerAround(at: CursorPlace): string {
  const [device] = at.chain.find((fact) => fact.head.text.toLowerCase() === "mixer")?.items ?? [];
  return device === undefined || isPoint(device) ? "" : device.text;
}

/** Whoever owns or lends something already. */
const owners = (setup: Setup): Bare[] => {
  const known = new Map([...setup.devices.values()].flatMap(({ owner }) => (owner === undefined ? [] : [[canonical(owner), owner] as const])));
  return [...known.values()].map((owner) => offer("value", /^[\p{L}][\p{L}\p{N}-]*$/u.test(owner) ? owner : quote(owner), "owns something else", "", 0));
};
