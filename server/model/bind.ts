/**
 * From tree to statements: every fact is held against the vocabulary and its words are put into slots. What does not fit gives one
 * message and costs that statement alone.
 */
import { unquote } from "../../grammar/lexer";
import { lineTable } from "../../grammar/lines";
import { isPoint, type Fact, type Item, type SyntaxProblem, type Token, type Tree } from "../../grammar/tree";
import { readQuantity, type Quantity } from "../../grammar/quantity";
import { DIMENSIONS, unitOf } from "../../grammar/units";
import { CONNECTORS, HEADS, isRelation, rowFor, rowsOf, VOCABULARY, type Owner, type Row, type Slot } from "../../grammar/vocabulary";
import type { Bound, NameValue, Tails, Value } from "./bound";
import { nearest } from "./near";
import { readPlace } from "./place-text";
import { spoken, wordOf, type Reader } from "./reader";
import type { TextProblem } from "./text-problem";

export interface BoundFile {
  readonly path: string;
  readonly statements: readonly Bound[];
  readonly problems: readonly TextProblem[];
}

/** Words that no name may be, since a statement could not be read otherwise. */
const RESERVED: ReadonlySet<string> = new Set([...CONNECTORS, "no", "each", "about", "unknown", "within", "a", "an", "the"]);
const ARTICLES: ReadonlySet<string> = new Set(["a", "an", "the"]);

/** What is wrong with a line as text may be why its statement does not fit: the statement then says nothing more. */
const SPOILS: ReadonlySet<SyntaxProblem["code"]> = new Set(["unclosed-text", "unclosed-point", "stray-sign", "decimal-comma"] as const);

/** Most members of a numbered set; more are a slip of the finger. */
const MOST_MEMBERS = 1000;

/** Holds the facts of one tree against the vocabulary. `path`: the file, as messages and statements shall name it. */
export function bind(tree: Tree, path: string): BoundFile {
  const problems: TextProblem[] = tree.problems.map((p) => ({
    code: p.code, severity: "error", message: p.message, where: { path, start: p.start, end: p.end }, related: [],
  }));
  const lines = lineTable(tree.text);
  const spoilt = new Set(tree.problems.filter((p) => SPOILS.has(p.code)).map((p) => lines.at(p.start).line));
  const binder = new Binder(path, problems, (start) => spoilt.size > 0 && spoilt.has(lines.at(start).line));
  const statements = binder.block(tree.root.facts, "file");
  binder.onlyOnce(statements);
  problems.sort((a, b) => a.where.start - b.where.start);
  return { path, statements, problems };
}

type Fail = (message: string, start: number, end: number, code?: string) => void;
type Measure = Extract<Slot["takes"], { kind: "quantity" }>;

class Binder {
  constructor(readonly path: string, readonly problems: TextProblem[], readonly spoilt: (start: number) => boolean) {}

  block(facts: readonly Fact[], owner: Owner): Bound[] {
    const out: Bound[] = [];
    for (const fact of facts) this.line(fact, owner, out);
    return out;
  }

  /** A line: its first fact, what stands after its commas, and its block. */
  private line(fact: Fact, owner: Owner, out: Bound[]): void {
    const row = this.rowOf(fact, owner);
    if (row === undefined) return;
    const children: Bound[] = [];
    const siblings: Bound[] = [];
    // A relation after a comma says more on the place of the line's owner, as if the comma were not there.
    const more: Item[] = [];
    for (const also of fact.also) {
      const head = also.head.text;
      const inner = row.body === undefined ? undefined : rowFor(row.body, head);
      if (inner !== undefined && row.body !== undefined) children.push(this.statement(also, inner, row.body));
      else if (row.slots.some((slot) => slot.takes.kind === "place") && startsPlace([also.head, ...also.items], 0)) more.push(also.head, ...also.items);
      else if (rowFor(owner, head) !== undefined) this.line(also, owner, siblings);
      else this.unknownHead(also, row.body ?? owner);
    }
    if (fact.block !== undefined) {
      if (row.body === undefined) {
        this.say("no-block", `“${row.head}” takes no block: write each of these on a line of its own.`, fact.block.start, fact.block.start + 1);
      } else children.push(...this.block(fact.block.facts, row.body));
    }
    this.onlyOnce(children);
    out.push(this.statement(fact, row, owner, children, more), ...siblings);
  }

  private rowOf(fact: Fact, owner: Owner): Row | undefined {
    const row = rowFor(owner, fact.head.text);
    if (row === undefined) this.unknownHead(fact, owner);
    return row;
  }

  private unknownHead(fact: Fact, owner: Owner): void {
    const head = fact.head;
    // What is wrong with the text as text has had its message: a sign that means nothing stands as a head where nothing else does.
    if (head.kind === "unknown" || head.kind === "conflict") return;
    const here = rowsOf(owner).map((row) => row.head);
    const where = owner === "file" ? "at the top of a file" : `with “${ownerWord(owner)}”`;
    if (HEADS.has(head.text.toLowerCase())) {
      const owners = VOCABULARY.filter((row) => row.head === head.text.toLowerCase()).flatMap((row) => row.within);
      const places = [...new Set(owners)].map((o) => (o === "file" ? "at the top of a file" : `with “${ownerWord(o)}”`));
      this.say("misplaced", `“${head.text}” does not stand ${where}; it stands ${places.join(" or ")}.`, head.start, head.end);
      return;
    }
    const near = nearest(head.text, here);
    const hint = near !== undefined ? ` Was “${near}” meant?` : here.length > 0 && here.length <= 14 ? ` What may stand here: ${here.join(", ")}.` : "";
    this.say("unknown-statement", `No statement ${where} begins with “${clip(head.text)}”.${hint}`, head.start, head.end);
  }

  /** Statements that may stand once with one owner, and stand twice. */
  onlyOnce(children: readonly Bound[]): void {
    const seen = new Map<string, Bound>();
    for (const child of children) {
      if (child.row.once !== true || child.tails.during.length > 0) continue;
      const first = seen.get(child.row.head);
      if (first === undefined) seen.set(child.row.head, child);
      else {
        this.problems.push({
          code: "said-twice", severity: "error", message: `“${child.row.head}” is stated twice here; keep one.`, where: child.where,
          related: [{ where: first.where, message: "the first one" }],
        });
      }
    }
  }

  private statement(fact: Fact, row: Row, owner: Owner, children: readonly Bound[] = [], more: readonly Item[] = []): Bound {
    const values = new Map<string, Value[]>();
    const tails: { -readonly [K in keyof Tails]: Tails[K] } = { during: [], because: undefined, measured: undefined, guessed: false };
    let failed = false;
    const fail: Fail = (message, start, end, code = "no-fit") => {
      if (!failed) this.say(code, message, start, end);
      failed = true;
    };
    const reader: Reader = { items: more.length === 0 ? fact.items : [...fact.items, ...more], at: 0, fail };
    const negated = row.negatable === true && this.takeWord(reader, "no");
    const open = new Set(row.slots);
    const fill = (slot: Slot, found: readonly Value[]): void => {
      open.delete(slot);
      if (found.length > 0) values.set(slot.id, [...found]);
    };
    const placeSlot = row.slots.find((slot) => slot.takes.kind === "place" && slot.after === undefined);

    while (reader.at < reader.items.length && !failed) {
      const item = reader.items[reader.at];
      if (item === undefined) break;
      const word = wordOf(item);
      if (word !== undefined && this.tail(reader, word, tails, row, fail)) continue;
      if (placeSlot !== undefined && open.has(placeSlot) && startsPlace(reader.items, reader.at)) {
        const place = readPlace(reader, row.head !== "aim");
        fill(placeSlot, place === undefined ? [] : [place]);
        continue;
      }
      const led = word === undefined ? undefined : [...open].find((slot) => slot.after === word);
      if (led !== undefined && word !== undefined) {
        reader.at += 1;
        const found = this.values(reader, led, row, fail);
        if (found.length === 0 && !failed) fail(`After “${word}” belongs ${led.meaning}: ${wantedBy(led)}.`, item.start, item.end);
        fill(led, found);
        continue;
      }
      const next = [...open].find((slot) => slot.after === undefined && this.fits(reader, slot, row));
      if (next === undefined) {
        if (!failed) this.surplus(reader, row, open);
        failed = true;
        break;
      }
      fill(next, this.values(reader, next, row, fail));
    }
    if (!failed && !negated) {
      const missing = row.slots.find((slot) => slot.required === true && !values.has(slot.id));
      if (missing !== undefined) {
        const lead = missing.after === undefined ? "" : `“${missing.after}” and `;
        this.say("incomplete", `“${row.head}” wants ${lead}${missing.meaning}: ${wantedBy(missing)}.`, fact.head.start, fact.end);
      } else this.members(row, values);
    }
    return {
      row, owner, fact, negated, values, tails, children, where: { path: this.path, start: fact.start, end: fact.end },
      whole: { path: this.path, start: fact.start, end: fact.fullEnd },
    };
  }

  /** `devices mic 1 to 12`: the numbers of a set have to be one. */
  private members(row: Row, values: ReadonlyMap<string, readonly Value[]>): void {
    const [first] = values.get("first") ?? [];
    const [last] = values.get("last") ?? [];
    if (first?.kind !== "quantity" || last?.kind !== "quantity") return;
    if (last.best < first.best) {
      this.say("impossible", `That cannot be: the last number of “${row.head}” lies before the first.`, first.start, last.end);
    } else if (last.best - first.best >= MOST_MEMBERS) {
      this.say("impossible", `That cannot be: “${row.head}” takes at most ${MOST_MEMBERS} at once.`, first.start, last.end);
    }
  }

  private tail(reader: Reader, word: string, tails: { -readonly [K in keyof Tails]: Tails[K] }, row: Row, fail: Fail): boolean {
    const item = reader.items[reader.at];
    if (item === undefined) return false;
    switch (word) {
      case "during": {
        reader.at += 1;
        const names = this.names(reader, true);
        if (names.length === 0) fail("After “during” belongs an item of the programme: during questions.", item.start, item.end);
        else if (row.during === undefined) fail(`“${row.head}” cannot differ from item to item: leave “during” out.`, item.start, item.end);
        tails.during = names;
        return true;
      }
      case "because": {
        reader.at += 1;
        const text = textOf(reader.items[reader.at]);
        if (text === undefined) fail('After “because” belongs a reason in quotation marks: because "the heating is on".', item.start, item.end);
        else reader.at += 1;
        tails.because = text;
        return true;
      }
      case "measured": {
        reader.at += 1;
        const day = reader.items[reader.at];
        let date: string | undefined;
        let minutes: number | undefined;
        if (day !== undefined && !isPoint(day) && day.kind === "date") {
          date = day.text;
          if (!isDate(date)) fail(noDay(date), day.start, day.end);
          reader.at += 1;
          const clock = reader.items[reader.at];
          if (clock !== undefined && !isPoint(clock) && clock.kind === "clock") {
            minutes = minutesOf(clock.text);
            if (minutes === undefined) fail(`${clock.text} is no time of the day: write it like 18:40.`, clock.start, clock.end);
            reader.at += 1;
          }
        }
        const time = minutes === undefined ? "" : ` ${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
        tails.measured = { date, minutes, when: date === undefined ? undefined : `${date}${time}` };
        return true;
      }
      case "guessed":
        reader.at += 1;
        tails.guessed = true;
        return true;
      default:
        return false;
    }
  }

  /** Whether the next item could begin a value of the slot; decides which of several optional slots is meant. */
  private fits(reader: Reader, slot: Slot, row: Row): boolean {
    const item = reader.items[reader.at];
    if (item === undefined) return false;
    const word = wordOf(item);
    switch (slot.takes.kind) {
      case "new-name": return word !== undefined && (!RESERVED.has(word) || isNamed(reader));
      case "name": return word !== undefined && (word === "each" || ARTICLES.has(word) || !RESERVED.has(word));
      case "word": return word !== undefined && !CONNECTORS.has(word);
      case "quantity": case "any-quantity":
        return !isPoint(item) && (item.kind === "number" || item.kind === "decimal-comma" || word === "about" || word === "unknown");
      case "text": return textOf(item) !== undefined;
      case "who": return textOf(item) !== undefined || (word !== undefined && !RESERVED.has(word));
      case "place": return row.head === "aim" || isPoint(item);
      case "date": return !isPoint(item) && item.kind === "date";
      case "clock": case "ratio": return !isPoint(item) && item.kind === "clock";
      case "mode": return !isPoint(item) && (item.kind === "mode" || item.kind === "size");
      case "zone": case "code": return word !== undefined && !RESERVED.has(word);
    }
  }

  private values(reader: Reader, slot: Slot, row: Row, fail: Fail): Value[] {
    const out: Value[] = [];
    for (;;) {
      const before = reader.at;
      const value = this.value(reader, slot, row, fail);
      if (value === undefined) {
        if (out.length === 0) reader.at = before;
        else this.afterAnd(reader, fail, `${slot.meaning}: ${wantedBy(slot)}`);
        break;
      }
      out.push(value);
      if (slot.many !== true) break;
      const item = reader.items[reader.at];
      if (item === undefined) break;
      if (wordOf(item) === "and") reader.at += 1;
      else if (slot.takes.kind !== "quantity") break;
    }
    const [first] = out;
    if (slot.exactly !== undefined && first !== undefined && out.length !== slot.exactly) {
      fail(`“${row.head}” wants ${slot.meaning}; here ${out.length === 1 ? "is" : "are"} ${out.length}.`, first.start, out.at(-1)?.end ?? first.end);
    }
    return out;
  }

  /** An `and` after which nothing follows that could be meant. */
  private afterAnd(reader: Reader, fail: Fail, wanted: string): void {
    const and = reader.items[reader.at - 1];
    if (and !== undefined && wordOf(and) === "and") fail(`After “and” belongs another of the kind: ${wanted}.`, and.start, and.end);
  }

  private value(reader: Reader, slot: Slot, row: Row, fail: Fail): Value | undefined {
    const takes = slot.takes;
    if (takes.kind === "name" || takes.kind === "word") this.skipArticle(reader);
    const item = reader.items[reader.at];
    if (item === undefined) return undefined;
    const word = wordOf(item);
    switch (takes.kind) {
      case "new-name": case "name": return this.names(reader, false)[0];
      case "word": {
        if (word === undefined) return undefined;
        if (!Object.hasOwn(takes.words, word)) {
          const near = nearest(word, Object.keys(takes.words));
          const hint = near === undefined ? ` It is one of ${Object.keys(takes.words).join(", ")}.` : ` Was “${near}” meant?`;
          fail(`“${clip(word)}” does not fit: wanted is ${slot.meaning}.${hint}`, item.start, item.end);
        }
        reader.at += 1;
        return { kind: "word", word, ...spoken(item) };
      }
      case "quantity": {
        const before = reader.at;
        const read = readQuantity(reader.items, before, takes.dimension, !row.slots.some((other) => other.after === "to"));
        if (read === undefined) return undefined;
        reader.at = read.next;
        if (read.value.kind === "quantity-error") {
          fail(read.value.message, read.value.start, read.value.end);
          return undefined;
        }
        if (outside(read.value, takes)) {
          fail(this.impossible(row, slot, takes, reader.items.slice(before, read.next)), read.value.start, read.value.end, "impossible");
          return undefined;
        }
        return confined(read.value, takes);
      }
      case "any-quantity": {
        const unit = reader.items.slice(reader.at).map((i) => (isPoint(i) ? undefined : unitOf(i.text))).find((found) => found !== undefined);
        const read = readQuantity(reader.items, reader.at, unit?.dimension ?? "ratio");
        if (read === undefined) return undefined;
        reader.at = read.next;
        if (read.value.kind === "quantity") return read.value;
        fail(read.value.message, read.value.start, read.value.end);
        return undefined;
      }
      case "text": case "who": {
        const text = textOf(item) ?? (takes.kind === "who" && word !== undefined && !RESERVED.has(word) && !isPoint(item) ? item.text : undefined);
        if (text === undefined) return undefined;
        reader.at += 1;
        return { kind: "text", text, ...spoken(item) };
      }
      case "place": return readPlace(reader, false);
      case "date":
        if (isPoint(item) || item.kind !== "date") return undefined;
        reader.at += 1;
        if (!isDate(item.text)) fail(noDay(item.text), item.start, item.end);
        return { kind: "date", date: item.text, ...spoken(item) };
      case "clock": {
        if (isPoint(item) || item.kind !== "clock") return undefined;
        reader.at += 1;
        const minutes = minutesOf(item.text);
        if (minutes === undefined) fail(`${item.text} is no time of the day: write it like 18:30.`, item.start, item.end);
        const nextDay = this.takeWord(reader, "next-day");
        return { kind: "clock", minutes: (minutes ?? 0) + (nextDay ? 1440 : 0), ...spoken(item) };
      }
      case "mode": {
        const mode = isPoint(item) ? undefined : modeOf(item);
        if (mode === undefined) return undefined;
        reader.at += 1;
        if (!isPicture(mode)) fail("That cannot be the size of a picture: write it like 720p30, or 1920x1080.", item.start, item.end);
        return { kind: "mode", ...mode, ...spoken(item) };
      }
      case "ratio": {
        if (isPoint(item) || item.kind !== "clock") return undefined;
        reader.at += 1;
        const [a, b] = item.text.split(":").map(Number);
        if (a === 0 || b === 0) fail("A ratio has no nought in it: write it like 16:9.", item.start, item.end);
        return { kind: "ratio", ratio: (a ?? 1) / (b ?? 1), ...spoken(item) };
      }
      case "zone": case "code":
        if (word === undefined || isPoint(item)) return undefined;
        reader.at += 1;
        return { kind: "word", word: takes.kind === "code" ? word : item.text, ...spoken(item) };
    }
  }

  private names(reader: Reader, many: boolean): NameValue[] {
    const out: NameValue[] = [];
    for (;;) {
      const each = this.takeWord(reader, "each");
      const item = reader.items[reader.at];
      const word = item === undefined ? undefined : wordOf(item);
      if (item === undefined || isPoint(item) || word === undefined || (RESERVED.has(word) && !isNamed(reader))) {
        if (out.length > 0) this.afterAnd(reader, reader.fail, "a name");
        return out;
      }
      reader.at += 1;
      out.push({ kind: "name", text: item.text.normalize("NFC"), each, ...spoken(item) });
      if (!many || !this.takeWord(reader, "and")) return out;
    }
  }

  private takeWord(reader: Reader, word: string): boolean {
    const item = reader.items[reader.at];
    if (item === undefined || wordOf(item) !== word) return false;
    reader.at += 1;
    return true;
  }

  private skipArticle(reader: Reader): void {
    const item = reader.items[reader.at];
    const word = item === undefined ? undefined : wordOf(item);
    if (word !== undefined && ARTICLES.has(word) && reader.at + 1 < reader.items.length) reader.at += 1;
  }

  /** Says between which bounds the quantity lies, in the unit in which it was written. */
  private impossible(row: Row, slot: Slot, takes: Measure, written: readonly Item[]): string {
    const unit = written.flatMap((item) => {
      const found = isPoint(item) ? undefined : unitOf(item.text);
      return found?.dimension === takes.dimension && !isPoint(item) ? [{ word: item.text, factor: found.factor }] : [];
    })[0] ?? { word: DIMENSIONS[takes.dimension].unit, factor: 1 };
    const { min, max } = takes;
    const figure = (n: number): string => `${short(n / unit.factor)} ${unit.word}`.trim();
    const bounds = min === undefined ? `not above ${figure(max ?? 0)}` : max === undefined ? `not below ${figure(min)}`
      : `between ${short(min / unit.factor)} and ${figure(max)}`;
    return `That cannot be: “${row.head}”, ${slot.meaning}, lies ${bounds}.`;
  }

  private surplus(reader: Reader, row: Row, open: ReadonlySet<Slot>): void {
    const item = reader.items[reader.at];
    const last = reader.items[reader.items.length - 1];
    if (item === undefined || last === undefined) return;
    const text = isPoint(item) ? "(…)" : clip(item.text);
    const next = [...open].find((slot) => slot.required === true) ?? [...open][0];
    const taken = next?.takes.kind === "new-name" && RESERVED.has(wordOf(item) ?? "");
    const wanted = taken ? ` That word is part of the language and cannot be a name: choose another, like side-table.` : next === undefined
      ? " Nothing more is wanted there: put another fact after a comma or on a line of its own."
      : ` Wanted is ${next.after === undefined ? "" : `“${next.after}” and `}${next.meaning}: ${wantedBy(next)}.`;
    this.say("no-fit", `“${text}” does not fit after “${row.head}”.${wanted}`, item.start, last.end);
  }

  private say(code: string, message: string, start: number, end: number): void {
    if (this.spoilt(start)) return;
    this.problems.push({ code, severity: "error", message, where: { path: this.path, start, end }, related: [] });
  }
}

/** Whether a place begins there: a relation, or a length and then a relation. */
function startsPlace(items: readonly Item[], at: number): boolean {
  const item = items[at];
  if (item === undefined) return false;
  const word = wordOf(item);
  if (word !== undefined && isRelation(word)) return true;
  const length = readQuantity(items, at, "length");
  if (length === undefined || length.value.kind === "quantity-error") return false;
  const after = items[length.next];
  const relation = after === undefined ? undefined : wordOf(after);
  return relation !== undefined && isRelation(relation);
}

/** `ports in 1 to 8 is xlr`: right after the head a reserved word before a number or `is` can only be a name. */
function isNamed(reader: Reader): boolean {
  const after = reader.items[1];
  const first = reader.items[0];
  if (reader.at !== 0 || first === undefined || VALUE_WORDS.has(wordOf(first) ?? "")) return false;
  return after !== undefined && !isPoint(after) && (after.kind === "number" || wordOf(after) === "is");
}

/** Words that begin a quantity, never a name. */
const VALUE_WORDS: ReadonlySet<string> = new Set(["about", "unknown", "no", "each", "within"]);

const ownerWord = (owner: Owner): string =>
  ({ device: "kind or device", place: "place", surface: "table or screen", seats: "chairs", link: "cable, radio or mains" } as Partial<Record<Owner, string>>)[owner] ?? owner;

/** What a slot wants, in words, with one shown. */
function wantedBy(slot: Slot): string {
  const takes = slot.takes;
  switch (takes.kind) {
    case "quantity": return `${DIMENSIONS[takes.dimension].title}, like ${DIMENSIONS[takes.dimension].example}`;
    case "any-quantity": return "a figure with its unit, like 12 dB";
    case "word": return `one of ${Object.keys(takes.words).join(", ")}`;
    case "new-name": return "a name, like side-table";
    case "name": return `the name of ${takes.of.join(", ").replace(/, ([^,]*)$/, " or $1")}`;
    case "text": return 'a text in quotation marks, like "spring meeting"';
    case "who": return 'a name or a text, like "the choir"';
    case "place": return "a place, like: on table beside lectern";
    case "date": return "a date, like 2026-10-14";
    case "clock": return "a time, like 18:30";
    case "zone": return "a time zone, like Europe/Tallinn";
    case "mode": return "a size and frame rate, like 720p30";
    case "ratio": return "a ratio, like 16:9";
    case "code": return "the code of a finding, like echo-path";
  }
}

const textOf = (item: Item | undefined): string | undefined =>
  item !== undefined && !isPoint(item) && (item.kind === "text" || item.kind === "open-text") ? unquote(item) : undefined;

/** Whether a quantity is none that can be: its figure out of bounds, or an end of a range that the author gives. */
function outside(q: Quantity, { min = -Infinity, max = Infinity }: Measure): boolean {
  if (q.said === "unknown") return false;
  return q.best < min || q.best > max || (q.said === "range" && (q.low < min || q.high > max));
}

/** A tolerance never reaches beyond what can be. */
function confined(q: Quantity, { min = -Infinity, max = Infinity }: Measure): Quantity {
  return q.said === "about" ? { ...q, low: Math.max(q.low, min), high: Math.min(q.high, max) } : q;
}

/** Minutes of a clock time, or nothing where it is none. */
function minutesOf(text: string): number | undefined {
  const [h, m] = text.split(":").map(Number);
  if (h === undefined || m === undefined || h > 24 || m > 59 || (h === 24 && m > 0) || !/:\d\d$/.test(text)) return undefined;
  return h * 60 + m;
}

const noDay = (text: string): string => `${text} is no day of the calendar: write it like 2026-10-04.`;

function isDate(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

/** `720p30` is 1280 by 720 at 30 a second; `720p` leaves the rate at 30; `1920x1080` likewise. */
function modeOf(token: Token): { width: number; height: number; rate: number } | undefined {
  const lines = /^(\d+)[pi](\d*)$/.exec(token.text);
  if (lines !== null) {
    const height = Number(lines[1]);
    return { width: Math.round((height * 16) / 9), height, rate: lines[2] === "" || lines[2] === undefined ? 30 : Number(lines[2]) };
  }
  const size = /^(\d+)x(\d+)$/.exec(token.text);
  return size === null ? undefined : { width: Number(size[1]), height: Number(size[2]), rate: 30 };
}

/** Whether a camera or a display could have the mode: from a postage stamp to the largest that is sold, at up to 240 pictures a second. */
const isPicture = ({ width, height, rate }: { width: number; height: number; rate: number }): boolean =>
  width >= 64 && width <= 16384 && height >= 64 && height <= 16384 && rate >= 1 && rate <= 240;

const clip = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text);
const short = (n: number): string => (n >= 1e6 ? n.toExponential(0) : String(Number(n.toPrecision(3))));
