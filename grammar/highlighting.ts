/**
 * Colours for editors that know no more of the language than patterns: a grammar in the form of TextMate, from the vocabulary.
 * It tells words apart by where they stand and by the closed lists; what is right or wrong is for the binder to say.
 */
import { UNITS } from "./units";
import { CONNECTOR_WORDS, CONNECTORS, DEVICE_TYPES, HEADS, RELATIONS, SIDES, SPOTS, VOCABULARY } from "./vocabulary";

export interface HighlightingRule {
  readonly name?: string;
  readonly match: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
}

export interface Highlighting {
  readonly name: string;
  readonly scopeName: string;
  readonly fileTypes: readonly string[];
  readonly patterns: readonly HighlightingRule[];
}

/** Words as the lexer cuts them: a name such as `laptop.camera` or `front-screen` is one, and holds no other. */
const BEFORE = "(?<![\\p{L}\\p{M}\\p{N}_.'’/-])";
const AFTER = "(?![\\p{L}\\p{M}\\p{N}_-]|[./'’][\\p{L}\\p{N}])";
/** Where a statement begins: at the start of a line, or behind a brace or a comma. */
const OPENING = "(?:^|(?<=[{},]))\\s*";

const escaped = (word: string): string => word.replace(/[\\^$.*+?()[\]{}|/]/g, "\\$&");
/** One of the words, the longest first, since the first that fits is taken. */
const oneOf = (words: Iterable<string>): string => `(?:${[...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).map(escaped).join("|")})`;
const whole = (words: Iterable<string>): string => `(?i)${BEFORE}${oneOf(words)}${AFTER}`;

/** Statements that open a block of their own are drawn apart from those that say one thing. */
const opening = new Set(VOCABULARY.filter((row) => row.body !== undefined).map((row) => row.head));
const plain = [...HEADS].filter((head) => !opening.has(head));

/** Words of the closed lists that slots take, but for those that are long lists of their own. */
const listed = VOCABULARY.flatMap((row) => row.slots.flatMap((slot) => (slot.takes.kind === "word" ? Object.keys(slot.takes.words) : [])))
  .filter((word) => !Object.hasOwn(CONNECTOR_WORDS, word) && !Object.hasOwn(DEVICE_TYPES, word));

const NUMBER = "[-+−]?\\d+(?:\\.\\d+)?";
const TAILS = ["during", "because", "measured", "guessed"];
const COUNTED = ["people", "persons", "seats", "chairs", "rows", "times"];

/** The grammar; rules are tried in order where several begin at one place. */
export function highlighting(): Highlighting {
  return {
    name: "Bothways",
    scopeName: "source.bothways",
    fileTypes: ["bothways"],
    patterns: [
      { name: "invalid.illegal.merge-conflict.bothways", match: "^(?:<{7}(?!<)|={7}(?!=)|>{7}(?!>)|\\|{7}(?!\\|)).*$" },
      { name: "comment.line.number-sign.bothways", match: "#.*$" },
      { name: "string.quoted.double.bothways", match: '"(?:[^"\\\\]|\\\\.)*"|“(?:[^”\\\\]|\\\\.)*”|„(?:[^“”\\\\]|\\\\.)*[“”]' },
      { name: "invalid.illegal.unclosed-text.bothways", match: '["“„].*$' },
      { match: `(?i)${OPENING}(${oneOf(opening)})${AFTER}`, captures: { 1: { name: "keyword.control.statement.bothways" } } },
      { match: `(?i)${OPENING}(${oneOf(plain)})${AFTER}`, captures: { 1: { name: "keyword.other.statement.bothways" } } },
      {
        match: `(?i)${BEFORE}(is)\\s+(?:(an?|the)\\s+)?(${oneOf([...Object.keys(DEVICE_TYPES), ...Object.keys(CONNECTOR_WORDS)])})${AFTER}`,
        captures: { 1: { name: "keyword.operator.word.bothways" }, 2: { name: "keyword.operator.word.bothways" }, 3: { name: "support.type.bothways" } },
      },
      { name: "constant.numeric.date.bothways", match: `${BEFORE}\\d{4}-\\d{1,2}-\\d{1,2}(?![\\p{L}\\p{N}])` },
      { name: "constant.numeric.clock.bothways", match: `${BEFORE}\\d{1,3}:\\d{1,2}(?![\\p{L}\\p{N}])` },
      { name: "constant.numeric.mode.bothways", match: `${BEFORE}(?:\\d+[pi]\\d*|\\d+x\\d+)(?![\\p{L}\\p{N}])` },
      { name: "invalid.illegal.decimal-comma.bothways", match: `${BEFORE}[-+−]?\\d+(?:,\\d+)+(?:\\.\\d+)?` },
      {
        match: `${BEFORE}(${NUMBER})\\s*(${oneOf([...UNITS.keys(), ...COUNTED])})${AFTER}`,
        captures: { 1: { name: "constant.numeric.bothways" }, 2: { name: "keyword.other.unit.bothways" } },
      },
      { name: "constant.numeric.bothways", match: `${BEFORE}${NUMBER}` },
      { name: "storage.modifier.bothways", match: whole(TAILS) },
      { name: "keyword.operator.modifier.bothways", match: whole(["no", "each", "about", "within"]) },
      { name: "constant.language.bothways", match: whole(["unknown"]) },
      { name: "keyword.operator.relation.bothways", match: whole(Object.keys(RELATIONS)) },
      { name: "keyword.operator.word.bothways", match: whole([...CONNECTORS].filter((word) => !TAILS.includes(word))) },
      { name: "support.variable.spot.bothways", match: whole([...Object.keys(SPOTS), ...SIDES, "row"]) },
      { name: "support.constant.bothways", match: whole(listed) },
      { name: "punctuation.section.block.bothways", match: "[{}]" },
      { name: "punctuation.section.point.bothways", match: "[()]" },
      { name: "punctuation.separator.bothways", match: "," },
    ],
  };
}
