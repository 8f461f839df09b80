/**
 * The tree of one text: what the parser gives and everything above reads.
 *
 * Offsets count UTF-16 code units from the start of the text, as the editor protocol does. Every character of the text lies
 * in exactly one token, comment or blank; `Tree.tokens` holds the tokens, `Tree.comments` the comments.
 */

/** What a token is by its shape alone; what it means is decided by the vocabulary. */
export type TokenKind =
  | "word" // letters of any script, then letters, digits, - _ and inner . / ' ’: lapel.plug, Europe/London, Mb/s, m²
  | "number" // 12, 3.2, -6
  | "decimal-comma" // 3,2: never valid, has a message of its own
  | "date" // 2026-10-14
  | "clock" // 18:30, and ratios: 16:9
  | "mode" // 720p30, 720p
  | "size" // 1920x1080
  | "symbol" // % ° ′ ″
  | "text" // "…" closed on its line
  | "open-text" // a quotation mark that is not closed on its line: runs to the end of the line
  | "open-brace"
  | "close-brace"
  | "open-paren"
  | "close-paren"
  | "comma"
  | "newline"
  | "conflict" // a line that a merge left behind: <<<<<<<, =======, >>>>>>>, |||||||
  | "unknown"; // any other single character

export interface Token {
  readonly kind: TokenKind;
  /** As it stands in the text. A brace that repair put in has an empty text and start = end. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

export interface Comment {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** `(3.2 m, 1.0 m, 1.4 m)`: one value; coordinates are split at the commas. */
export interface Point {
  readonly kind: "point";
  readonly open: Token;
  readonly close: Token | undefined;
  readonly coordinates: readonly (readonly Token[])[];
  readonly start: number;
  readonly end: number;
}

export type Item = Token | Point;

/** `head { value } { connector value … }`, then facts after commas, then a block. Connectors are words among the items. */
export interface Fact {
  readonly kind: "fact";
  /** The first token, whatever it is: a word in a sound text. */
  readonly head: Token;
  /** All that follows the head up to a comma, brace or line end. */
  readonly items: readonly Item[];
  /** The facts after commas on the same line; only a line's first fact has any. */
  readonly also: readonly Fact[];
  /** Only a line's first fact has a block: it belongs to the whole line. */
  readonly block: Block | undefined;
  readonly start: number;
  /** End of the last token of the fact itself, without `also` and block. */
  readonly end: number;
  /** End of the whole statement, block included. */
  readonly fullEnd: number;
}

export interface Block {
  /** Absent only for the whole file. */
  readonly open: Token | undefined;
  readonly close: Token | undefined;
  readonly facts: readonly Fact[];
  readonly start: number;
  readonly end: number;
}

/** What is wrong with the text as text; words are final, one for each mistake. */
export interface SyntaxProblem {
  readonly code:
    | "unclosed-text" | "unclosed-block" | "surplus-brace" | "missing-brace" | "unclosed-point" | "stray-sign"
    | "decimal-comma" | "dangling-comma" | "merge-conflict" | "too-deep" | "too-large" | "after-block" | "not-text";
  readonly message: string;
  readonly start: number;
  readonly end: number;
}

export interface Tree {
  readonly text: string;
  /** Tokens of the text, newlines included, repair's empty braces left out. */
  readonly tokens: readonly Token[];
  readonly comments: readonly Comment[];
  readonly root: Block;
  readonly problems: readonly SyntaxProblem[];
}

/** Deepest nesting of blocks that is read; the language itself needs four. */
export const DEEPEST = 32;
/** Longest text that is read, in UTF-16 units. */
export const LONGEST = 2_000_000;

export const isPoint = (item: Item): item is Point => item.kind === "point";
