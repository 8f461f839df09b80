/** The reference of the language, written from the vocabulary: what a statement takes, its bounds and defaults stand in one place only. */
import { shownRange, shownValue } from "./figures";
import { INTRODUCTION } from "./introduction";
import { parse } from "./parse";
import { isPoint, type Fact } from "./tree";
import { DIMENSIONS, UNITS, type Dimension } from "./units";
import {
  CONNECTOR_TYPES, CONNECTOR_WORDS, CONNECTORS, DEVICE_TYPES, FINISH_WORDS, RELATIONS, rowFor, SPOTS, VOCABULARY, type NameKind, type Owner, type Row,
  type Slot,
} from "./vocabulary";

type Subject = "file" | "meeting" | "room" | "kit" | "connections" | "call";

const SUBJECTS: readonly { readonly id: Subject; readonly title: string; readonly about: string }[] = [
  { id: "file", title: "The file, and what you have to say", about: "What a file is, what it takes in, and what you tell the tool and your helpers." },
  { id: "meeting", title: "The meeting", about: "When it is, what happens in it, who speaks, and how many attend from elsewhere." },
  { id: "room", title: "The room", about: "How large it is, what it is made of, how loud it is, where people sit and where the outlets are. Keep it in a file of its own and every evening in that room can use it." },
  { id: "kit", title: "The kit", about: "What your things are and what they can do. Most need one line, because the [typical equipment](#typical-equipment) knows the rest; state the figures of your own data sheets where you have them." },
  { id: "connections", title: "What stands where, and what is connected", about: "Where each thing stands this evening, what is plugged into what, and how a mixer is set." },
  { id: "call", title: "The call and the internet", about: "Which devices join, what each sends, plays and shows, what the call is to achieve, and what it runs over." },
];

/** What a statement is about, by the block that it opens or, where it opens none, the block in which it stands. */
const SUBJECT_OF: Readonly<Record<Owner, Subject>> = {
  file: "file", meeting: "meeting", programme: "meeting", item: "meeting", talker: "meeting", call: "call", internet: "call", join: "call",
  shows: "call", room: "room", area: "room", opening: "room", column: "room", seats: "room", outlet: "room", circuit: "room", surface: "room", device: "kit", port: "kit", place: "connections",
  link: "connections", mixer: "connections", channel: "connections", bus: "connections", watch: "call", "remote-room": "call", service: "call",
};
const subjectOf = (row: Row): Subject => SUBJECT_OF[row.body ?? (row.within[0] ?? "file")];

/**
 * The whole reference as Markdown.
 *
 * `equipment`: the text of the typical equipment, which lies on a floor above this one.
 */
export function reference(equipment: string): string {
  const parts = [INTRODUCTION, contents()];
  for (const { id, title, about } of SUBJECTS) {
    parts.push(`## ${title}\n\n${about}`, ...VOCABULARY.filter((row) => subjectOf(row) === id).map(statement));
  }
  parts.push(relations(), units(), connectors(), deviceTypes(), finishes(), typicalEquipment(equipment));
  return `${parts.join("\n\n")}\n`;
}

/** How a statement is called where its head has several: `talkers (item)`. */
function titleOf(row: Row): string {
  const several = VOCABULARY.filter((other) => other.head === row.head).length > 1;
  return several ? `${row.head} (${row.within[0] ?? ""})` : row.head;
}

const slug = (title: string): string => title.toLowerCase().replace(/[^\p{L}\p{N} -]/gu, "").replaceAll(" ", "-");
const link = (row: Row): string => `[\`${row.head}\`](#${slug(titleOf(row))})`;

function contents(): string {
  const bySubject = SUBJECTS.map(({ id, title }) => {
    const rows = VOCABULARY.filter((row) => subjectOf(row) === id);
    return `- [${title}](#${slug(title)}): ${rows.map(link).join(", ")}`;
  });
  const tables = ["Places", "Units", "Connectors", "Device types", "Finishes", "Typical equipment"].map((title) => `[${title}](#${slug(title)})`);
  return `## All statements\n\n${bySubject.join("\n")}\n- ${tables.join(", ")}`;
}

function statement(row: Row): string {
  const out = [`### ${titleOf(row)}`, `\`${pattern(row)}\``, row.meaning];
  const open = row.slots.filter((slot) => placeholder(slot) !== fixedWord(slot));
  if (open.length > 0) {
    out.push(table(["", "what", "wanted"], open.map((slot) => [placeholder(slot), slot.meaning, `${wanted(slot)}${otherwise(slot)}`])));
  }
  const traits = [
    `A ${row.nature}`, places(row), row.once === true ? "once" : "", row.during === undefined ? "" : "may differ from item to item",
    row.use === "noted" ? "**only noted so far**" : "",
  ];
  out.push(`${traits.filter((trait) => trait !== "").join("; ")}.${row.body === undefined ? "" : ` Its block takes ${held(row.body)}.`}`);
  out.push(`\`\`\`text\n${excerpt(row)}\n\`\`\``);
  return out.join("\n\n");
}

/** The lines of the example that show the statement, without those that only make the text whole. */
function excerpt(row: Row): string {
  const shows = (fact: Fact): boolean =>
    fact.head.text === row.head || fact.also.some(shows) || (fact.block?.facts.some(shows) ?? false);
  return parse(row.example).root.facts.filter(shows).map((fact) => row.example.slice(fact.start, fact.fullEnd)).join("\n");
}

const cells = (...texts: readonly string[]): string => texts.map((text) => text.replaceAll("|", "\\|")).join(" | ");

/** The statement as one would dictate it: words in small letters are written so, words in capitals stand for something. */
export function pattern(row: Row): string {
  const words = [row.head, ...(row.negatable === true ? ["[no]"] : [])];
  for (const slot of row.slots) {
    const article = slot.id === "type" && slot.after === "is" ? "[a] " : "";
    const many = slot.exactly !== undefined ? " …" : slot.many === true ? " [and …]" : "";
    const said = `${slot.after === undefined ? "" : `${slot.after} `}${article}${placeholder(slot)}${many}`;
    words.push(slot.required === true ? said : `[${said}]`);
  }
  if (row.during !== undefined) words.push("[during ITEM]");
  if (row.body !== undefined) words.push("[{ … }]");
  return words.join(" ");
}

/** What stands for a slot in a pattern: its name in capitals, or the word itself where there is only one. */
function placeholder(slot: Slot): string {
  const { takes } = slot;
  const fixed = fixedWord(slot);
  if (fixed !== undefined) return fixed;
  if (!CONNECTORS.has(slot.id)) return slot.id.toUpperCase();
  // A slot that is called as its little word is named by what it takes.
  const name = takes.kind === "name" ? (takes.of[0] ?? "name") : takes.kind === "quantity" ? takes.dimension : takes.kind === "clock" ? "time"
    : takes.kind === "any-quantity" ? "figure" : takes.kind === "new-name" || takes.kind === "who" ? "name" : takes.kind;
  return name.toUpperCase();
}

/** The word of a slot that takes only one. */
function fixedWord({ takes }: Slot): string | undefined {
  const words = takes.kind === "word" ? Object.keys(takes.words) : [];
  return words.length === 1 ? words[0] : undefined;
}

/** Long lists of words have a section of their own. */
const LISTS: ReadonlyMap<Readonly<Record<string, string>>, string> = new Map([
  [CONNECTOR_WORDS, "one of the [connectors](#connectors)"], [DEVICE_TYPES, "one of the [device types](#device-types)"],
  [FINISH_WORDS, "one of the [finishes](#finishes)"],
]);

const NAMES: Readonly<Record<NameKind, string>> = {
  room: "a room", spot: "a spot", table: "a table", surface: "a screen", outlet: "an outlet", seats: "seats", kind: "a kind", device: "a device",
  part: "a part", port: "a port", talker: "a talker", item: "an item", internet: "an internet", channel: "a channel", bus: "a bus", "remote-room": "a remote room", area: "a stage or walkway", door: "a door", window: "a window", column: "a column", circuit: "a circuit",
};

function wanted(slot: Slot): string {
  const takes = slot.takes;
  switch (takes.kind) {
    case "new-name": return "a new name";
    case "name": return `the name of ${listed(takes.of.map((kind) => NAMES[kind]), "or")}`;
    case "quantity": return `${DIMENSIONS[takes.dimension].title}${bounds(takes.dimension, takes.min, takes.max)}`;
    case "word": {
      const words = Object.entries(takes.words);
      return LISTS.get(takes.words) ?? words.map(([word, meaning]) => `\`${word}\`: ${meaning}`).join("; ");
    }
    case "text": return 'a text in quotation marks: `"spring meeting"`';
    case "who": return 'a name, or a text: `"the choir"`';
    case "place": return "a [place](#places)";
    case "date": return "a date: `2026-10-14`";
    case "clock": return "a time of day: `18:30`";
    case "zone": return "a time zone: `Europe/Tallinn`";
    case "mode": return "lines and pictures a second: `720p30`, or `1920x1080`";
    case "ratio": return "a ratio: `16:9`";
    case "point": return "points on the floor, each of two lengths: `(3.2 m, 1.0 m)`";
    case "code": return "the code of a finding";
    case "any-quantity": return "a figure with its unit";
  }
}

const bounds = (dimension: Dimension, min: number | undefined, max: number | undefined): string =>
  min === undefined || max === undefined ? "" : min === max ? `, ${shownValue(min, dimension)}` : `, ${shownRange(min, max, dimension)}`;

function otherwise(slot: Slot): string {
  const { default: by, takes } = slot;
  if (by !== undefined && takes.kind === "quantity") {
    const range = by.low === by.high ? "" : ` (${shownRange(by.low, by.high, takes.dimension)})`;
    return `; else ${shownValue(by.best, takes.dimension)}${range} is assumed: ${by.source}`;
  }
  return "";
}

/** Where a statement may stand, by the heads that open such a block. */
function places(row: Row): string {
  const inside = row.within.filter((owner) => owner !== "file").flatMap(openers).map(link);
  const top = row.within.includes("file") ? ["at the top of a file"] : [];
  return listed([...top, ...(inside.length === 0 ? [] : [`in ${listed([...new Set(inside)], "or")}`])], "or");
}
const openers = (owner: Owner): readonly Row[] => VOCABULARY.filter((row) => row.body === owner);
const held = (owner: Owner): string => listed(VOCABULARY.filter((row) => row.within.includes(owner)).map(link), "and");

function listed(words: readonly string[], last: "and" | "or"): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1) ?? ""}`;
}

const table = (titles: readonly string[], rows: readonly (readonly string[])[]): string =>
  [`| ${cells(...titles)} |`, `|${titles.map(() => "-").join("|")}|`, ...rows.map((row) => `| ${cells(...row)} |`)].join("\n");
const words = (of: Readonly<Record<string, string>>): readonly (readonly string[])[] => Object.entries(of).map(([word, meaning]) => [`\`${word}\``, meaning]);

function relations(): string {
  return [
    "## Places",
    "A place is one or several relations to something that has a name: `on table beside lectern`, `1.5 m behind row 3`, `at left front corner`, `between lectern and front`. A length before the relation says how far. Seats are named by row and number: `at audience.row-2.seat-5`. Whoever has measured gives a point, `(3.2 m, 1.0 m)` or `(3.2 m, 1.0 m, 1.4 m)`: from the front wall to the back, from the left wall to the right as the audience sees it, up from the floor. Without a point, a place is known only roughly, and everything that hangs on it has a range.",
    table(["relation", "meaning"], words(RELATIONS)),
    "Every room has these spots, until it states its own of that name. `front`, `back`, `left` and `right` go together, with `wall` or `corner`: `at left front corner`.",
    table(["spot", "where"], words(SPOTS)),
  ].join("\n\n");
}

function units(): string {
  const rows = (Object.keys(DIMENSIONS) as Dimension[]).map((dimension) => {
    const row = DIMENSIONS[dimension];
    const known = [...UNITS].filter(([, unit]) => unit.dimension === dimension).map(([word]) => `\`${word}\``);
    const about = dimension === "level" ? `${row.tolerance} dB either way` : `${Math.round(row.tolerance * 100)} % either way`;
    return [row.title, known.length === 0 ? "none" : known.join(", "), `\`${row.example}\``, about];
  });
  return [
    "## Units",
    "Units are written as data sheets write them, with or without a blank before them. Two may stand together, the smaller behind the larger: `2 h 30 min`, `5 ft 4 inch`. A step is 0.75 m, give or take a tenth of a metre. A point is the decimal sign: a comma parts facts.",
    table(["for", "units", "for example", "`about` means"], rows),
  ].join("\n\n");
}

const connectors = (): string => [
  "## Connectors",
  "What a port can be. Ends of one family go together with a plain cable, or by radio.",
  table(["word", "what it is", "may carry", "goes with"], Object.entries(CONNECTOR_TYPES).map(([word, row]) => [
    `\`${word}\``, row.meaning, row.carries.join(", "),
    row.families.flatMap((family) => Object.entries(CONNECTOR_TYPES).filter(([, other]) => other.families.includes(family)).map(([other]) => `\`${other}\``)).join(", "),
  ])),
].join("\n\n");

const deviceTypes = (): string => ["## Device types", "What a device can be; what happens in it follows from that.", table(["word", "what it does"], words(DEVICE_TYPES))].join("\n\n");
const finishes = (): string => ["## Finishes", "What floors, walls and ceilings are made of.", table(["word", "what it is"], words(FINISH_WORDS))].join("\n\n");

function typicalEquipment(text: string): string {
  const kinds = parse(text).root.facts.filter((fact) => fact.head.text === "kind");
  const rows = kinds.map((kind) => {
    const facts = kind.block?.facts ?? [];
    const members = facts.filter(isMember);
    const figures = facts.flatMap((fact) => (isMember(fact)
      ? [...(fact.block?.facts ?? []), ...fact.also].filter(isFigure).map((inner) => `${memberIn(fact)}: ${figureOf(inner)}`)
      : [fact, ...fact.also].filter(isFigure).map(figureOf)));
    return [`\`${nameIn(kind)}\``, typeOf(kind), members.map(memberIn).map((name) => `\`${name}\``).join(", "), figures.join("; ")];
  });
  return [
    "## Typical equipment",
    "Kinds that need no statement: `place box is battery-loudspeaker` is enough. Their figures are typical, with a range, and whatever hangs on them is marked as assumed. State your own in a kit file (`kind battery-loudspeaker is a loudspeaker { … }`, or `device box is battery-loudspeaker { battery 80 Wh }`) and they take the place of these.",
    table(["kind", "is a", "parts and ports", "figures"], rows),
  ].join("\n\n");
}

const nameIn = (fact: Fact): string => wordAt(fact, 0);
const typeOf = (fact: Fact): string => fact.items.map((item) => (isPoint(item) ? "" : item.text)).findLast((word) => Object.hasOwn(DEVICE_TYPES, word)) ?? "";
const wordAt = (fact: Fact, index: number): string => {
  const item = fact.items[index];
  return item === undefined || isPoint(item) ? "" : item.text;
};
const isMember = (fact: Fact): boolean => fact.head.text === "part" || fact.head.text === "port" || fact.head.text === "ports";
/** `ports usb 1 to 2` are usb-1 … usb-2. */
const memberIn = (fact: Fact): string => (fact.head.text !== "ports" ? nameIn(fact) : `${nameIn(fact)}-${wordAt(fact, 1)} … ${nameIn(fact)}-${wordAt(fact, 3)}`);

/** Whether a fact of a device gives a figure that a volunteer would compare; seven directivity factors are none. */
function isFigure(fact: Fact): boolean {
  const row = rowFor("device", fact.head.text) ?? rowFor("port", fact.head.text);
  return fact.head.text !== "directivity" && row !== undefined && row.slots.some((slot) => slot.takes.kind === "quantity") && /\d/.test(figureOf(fact));
}

/** The fact as written, its range in parentheses and its reason left out. */
function figureOf(fact: Fact): string {
  const all = fact.items.map((item) => (isPoint(item) ? "" : item.text));
  const because = all.indexOf("because");
  const said = because < 0 ? all : all.slice(0, because);
  const within = said.indexOf("within");
  const range = within < 0 ? [] : [`(${said.slice(within + 1).join(" ")})`];
  return [fact.head.text, ...(within < 0 ? said : said.slice(0, within)), ...range].join(" ");
}
