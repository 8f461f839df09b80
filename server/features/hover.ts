/** What stands under the cursor: a statement, a value, a name; with units, where figures come from, and how computed ones were worked out. */
import type { Token } from "../../grammar/tree";
import { DIMENSIONS } from "../../grammar/units";
import { CONNECTOR_TYPES, CONNECTORS, FINISH_WORDS, rowFor, RELATIONS, SIDES, SPOTS, type Row, type Slot } from "../../grammar/vocabulary";
import type { Bound, Value } from "../model/bound";
import { canonical } from "../model/names";
import { everywhere } from "../model/reading";
import { amount } from "../model/show";
import { fileAsked, touches, type Asked, type Span } from "./asked";
import { aboutName } from "./about-name";
import { told } from "./lenses";
import { meantBy, occurrenceAt, occurrences } from "./names";

export interface Hover extends Span {
  readonly markdown: string;
}

/** What to show at a position, or nothing. */
export function hover(asked: Asked, offset: number): Hover | undefined {
  const file = fileAsked(asked);
  const token = file?.tree.tokens.find((one) => one.kind !== "newline" && one.start <= offset && offset < one.end) ?? file?.tree.tokens.find((one) => one.kind !== "newline" && one.end === offset);
  if (file === undefined || token === undefined) return undefined;
  const at = { start: token.start, end: token.end };
  const statement = innermost(file.statements, offset);
  if (statement === undefined) return undefined;
  const { row } = statement;
  if (touches(statement.fact.head, offset) && token.start === statement.fact.head.start) return { ...at, markdown: aboutStatement(asked, statement) };
  for (const slot of row.slots) {
    for (const value of statement.values.get(slot.id) ?? []) {
      if (!touches(value, token.start) || !touches(value, token.end)) continue;
      const about = aboutValue(asked, statement, slot, value, token, offset);
      if (about !== undefined) return about;
    }
  }
  const name = nameAt(asked, token, offset);
  if (name !== undefined) return name;
  return aboutWord(row, token, at);
}

/** The statement whose words hold the position, else the innermost whose block does. */
function innermost(statements: readonly Bound[], offset: number): Bound | undefined {
  const all = everywhere(statements);
  const own = all.filter((one) => touches(one.where, offset)).sort((a, b) => a.where.end - a.where.start - (b.where.end - b.where.start) || b.where.start - a.where.start)[0];
  return own ?? all.filter((one) => touches(one.whole, offset)).at(-1);
}

function aboutStatement(asked: Asked, { row, owner }: Bound): string {
  const slots = row.slots.map((slot) => `- ${slot.after === undefined ? "" : `\`${slot.after}\` `}${slot.meaning}${wanted(slot)}${slot.required === true ? "" : " (may be left out)"}${byDefault(slot)}`);
  const parts = [`**${row.head}** – ${row.nature}${owner === "file" ? "" : `, with ${owner}`}`, row.meaning, ...(slots.length === 0 ? [] : [slots.join("\n")])];
  if (row.use === "noted") parts.push("_Noted for people; nothing is judged by it yet._");
  if (row.head === "setup" && asked.setup.isSetup && asked.path === asked.setup.root) parts.push(asked.study().ways.map((way) => `- ${told(way)}`).join("\n"));
  return parts.join("\n\n");
}

/** A slot's dimension and an example of it. */
function wanted(slot: Slot): string {
  const { takes } = slot;
  switch (takes.kind) {
    case "quantity": return `: ${DIMENSIONS[takes.dimension].title}, like \`${DIMENSIONS[takes.dimension].example}\``;
    case "word": return Object.keys(takes.words).length <= 8 ? `: ${Object.keys(takes.words).map((word) => `\`${word}\``).join(", ")}` : "";
    default: return "";
  }
}

function byDefault({ takes, default: otherwise }: Slot): string {
  if (otherwise === undefined || takes.kind !== "quantity") return "";
  const { dimension } = takes;
  const range = otherwise.low < otherwise.high ? ` (${amount(otherwise.low, dimension)} to ${amount(otherwise.high, dimension)})` : "";
  return `; taken where nothing is said: ${amount(otherwise.best, dimension)}${range}, ${otherwise.source}`;
}

function aboutValue(asked: Asked, statement: Bound, slot: Slot, value: Value, token: Token, offset: number): Hover | undefined {
  const at = { start: value.start, end: value.end };
  const { row, tails } = statement;
  switch (value.kind) {
    case "quantity": {
      if (value.said === "unknown") return { ...at, markdown: `**unknown** – ${slot.meaning}: nobody knows yet.${byDefault(slot)}` };
      const range = value.low < value.high ? `, taken as ${amount(value.low, value.dimension)} to ${amount(value.high, value.dimension)}` : "";
      const known = tails.measured !== undefined ? `measured${tails.measured.when === undefined ? "" : ` ${tails.measured.when}`}` : tails.guessed ? "a guess of the author" : "stated";
      return { ...at, markdown: [`**${row.head}** – ${slot.meaning}`, `${amount(value.best, value.dimension)}${range} · ${DIMENSIONS[value.dimension].title} · ${known}${tails.because === undefined ? "" : `, because ${tails.because}`}`].join("\n\n") };
    }
    case "word": {
      const meaning = slot.takes.kind === "word" ? slot.takes.words[value.word] : undefined;
      const carries = CONNECTOR_TYPES[value.word]?.carries;
      const more = meaning !== undefined && carries !== undefined && slot.id === "connector" ? ` Carries ${carries.join(", ")} by itself.` : "";
      return { ...at, markdown: `**${value.word}** – ${meaning ?? FINISH_WORDS[value.word] ?? slot.meaning}.${more}` };
    }
    case "name": return nameAt(asked, token, offset);
    case "place": {
      const name = nameAt(asked, token, offset);
      return name ?? aboutWord(row, token, { start: token.start, end: token.end });
    }
    case "text": case "date": case "clock": case "mode": case "ratio": case "point":
      return { ...at, markdown: `**${row.head}** – ${slot.meaning}${value.kind === "mode" ? `: ${value.width} by ${value.height} at ${value.rate} pictures a second` : ""}` };
  }
}

/** The name under the cursor: what it is, and its figures. */
function nameAt(asked: Asked, token: Token, offset: number): Hover | undefined {
  if (token.kind !== "word") return undefined;
  const here = occurrenceAt(occurrences(asked.setup), asked.path, offset);
  if (here === undefined || here.start < token.start || here.end > token.end) return undefined;
  const raw = asked.text.slice(token.start, here.end);
  const meant = meantBy(asked.setup, asked.path, raw, here.kind === "alias" ? [] : [here.kind]) ?? meantBy(asked.setup, asked.path, token.text, here.kind === "alias" ? [] : [here.kind]);
  if (here.kind === "alias") return { start: here.start, end: here.end, markdown: `**${asked.text.slice(here.start, here.end)}** – stands before the names of a file that was taken in.` };
  if (meant === undefined) {
    const set = asked.setup.names.findSet(asked.path, asked.text.slice(here.start, here.end));
    return { start: here.start, end: here.end, markdown: `**${asked.text.slice(here.start, here.end)}** – ${set === undefined ? here.kind : `${set.length} alike: ${set[0] ?? ""} … ${set.at(-1) ?? ""}`}` };
  }
  return { start: here.start, end: here.end, markdown: aboutName(asked, meant.named) };
}

/** A connector, a relation, a side: words of the language itself. */
function aboutWord(row: Row, token: Token, at: Span): Hover | undefined {
  if (token.kind !== "word") return undefined;
  const word = token.text.toLowerCase();
  const led = row.slots.find((slot) => slot.after === word);
  if (led !== undefined) return { ...at, markdown: `**${word}** – leads to ${led.meaning}${wanted(led)}` };
  if (Object.hasOwn(RELATIONS, word)) return { ...at, markdown: `**${word}** – ${RELATIONS[word] ?? ""}` };
  if (Object.hasOwn(SPOTS, word)) return { ...at, markdown: `**${word}** – ${SPOTS[word] ?? ""}` };
  if (SIDES.has(word)) return { ...at, markdown: `**${word}** – a side or part of the room` };
  const tails: Readonly<Record<string, string>> = {
    during: "holds in these items of the programme only", because: "the reason, for those who read it later", measured: "it was measured, and when",
    guessed: "it is a guess: some room is left around it", about: "give or take: a tolerance is left around the figure", each: "every one of a numbered set",
    no: "says that there is none", and: "another of the kind", unknown: "nobody knows yet: what is usual is taken, and marked as assumed", within: "the range around the figure",
  };
  if (Object.hasOwn(tails, word)) return { ...at, markdown: `**${word}** – ${tails[word] ?? ""}` };
  const other = rowFor("file", canonical(word));
  return CONNECTORS.has(word) || other === undefined ? undefined : { ...at, markdown: `**${word}** – ${other.meaning}` };
}
