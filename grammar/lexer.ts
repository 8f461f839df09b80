import { createToken, Lexer, type CustomPatternMatcherFunc, type TokenType } from "chevrotain";
import type { Comment, Token, TokenKind } from "./tree";

/**
 * Text to tokens. A token's kind is its shape alone, so that this floor needs no vocabulary.
 *
 * Every pattern is a function around a sticky expression with the `u` flag: Chevrotain rebuilds plain expressions without
 * that flag, and then letters of other scripts are lost. What Chevrotain gives is the choice of patterns by first character,
 * for which each pattern names the characters it may begin with.
 */
export interface Lexed {
  readonly tokens: readonly Token[];
  readonly comments: readonly Comment[];
}

/**
 * Blanks: white space that ends no line, and characters that nobody sees. U+200C and U+200D are not among them: scripts such
 * as Persian write them inside words.
 */
const BLANK = "\\t\\v\\f \\u0085\\u00a0\\u1680\\u2000-\\u200b\\u2028\\u2029\\u202f\\u205f\\u2060\\u3000\\ufeff";
const NOT_JOINED = "(?![\\p{L}\\p{N}])";

const sticky = (source: string): RegExp => new RegExp(source, "uy");

/** A pattern function from an expression; `allowed` may look at the text before the match. */
function pattern(source: string, allowed?: (text: string, offset: number) => boolean): CustomPatternMatcherFunc {
  const expression = sticky(source);
  return (text, offset) => {
    if (allowed !== undefined && !allowed(text, offset)) return null;
    expression.lastIndex = offset;
    return expression.exec(text);
  };
}

const isLineBreak = (character: string | undefined): boolean => character === "\n" || character === "\r";
const startsLine = (text: string, offset: number): boolean => offset === 0 || isLineBreak(text[offset - 1]);

const blankBefore = new RegExp(`[${BLANK}\\r\\n(,{]`, "u");
/** A sign belongs to its number only where nothing is before it that it could be subtracted from: `-6`, but not `8-10`. */
function signMayBind(text: string, offset: number): boolean {
  const first = text[offset];
  if (first !== "-" && first !== "+" && first !== "−") return true;
  return offset === 0 || blankBefore.test(text[offset - 1] ?? "");
}

/** What closes a text that a given character opens. Word processors turn straight quotation marks into curly ones. */
const CLOSERS: Readonly<Record<string, string | undefined>> = { '"': '"', "“": "”", "„": "“”" };

/** End of the text that begins at `offset`, or -1 where its line ends first. A loop, because a text may be very long. */
function endOfText(text: string, offset: number): number {
  const closers = CLOSERS[text[offset] ?? ""];
  if (closers === undefined) return -1;
  for (let at = offset + 1; at < text.length; at += 1) {
    const character = text[at] ?? "";
    if (isLineBreak(character)) return -1;
    if (character === "\\" && !isLineBreak(text[at + 1])) at += 1;
    else if (closers.includes(character)) return at + 1;
  }
  return -1;
}

const restOfLine = sticky("[^\\r\\n]*");
const trailingBlank = new RegExp(`[${BLANK}]`, "u");
/** The rest of the line from `offset` on, without the blanks at its end. */
function toEndOfLine(text: string, offset: number): string {
  restOfLine.lastIndex = offset;
  const rest = restOfLine.exec(text)?.[0] ?? "";
  let end = rest.length;
  while (end > 1 && trailingBlank.test(rest[end - 1] ?? "")) end -= 1;
  return rest.slice(0, end);
}

const closedText: CustomPatternMatcherFunc = (text, offset) => {
  const end = endOfText(text, offset);
  return end < 0 ? null : [text.slice(offset, end)];
};
// Chevrotain offers what begins with any character of a group, so a function looks for itself.
const openText: CustomPatternMatcherFunc = (text, offset) =>
  CLOSERS[text[offset] ?? ""] === undefined ? null : [toEndOfLine(text, offset)];

/** One character of each group in which Chevrotain sorts the characters beyond Latin-1: 255 to a group. */
const BEYOND_LATIN_1 = Array.from({ length: 257 }, (_, index) => index * 255).filter((code) => code > 255).concat(256, 65535);
const ALL = Array.from({ length: 256 }, (_, code) => code).concat(BEYOND_LATIN_1);
const LETTERS = ALL.filter((code) => code > 255 || /[\p{L}\p{M}]/u.test(String.fromCharCode(code)));
const BLANKS = ALL.filter((code) => code > 255 || new RegExp(`[${BLANK}]`, "u").test(String.fromCharCode(code)));
const DIGITS = [..."0123456789"];

/** A token type; the lines of the file are counted elsewhere, so no type has line breaks to tell. */
function type(name: string, match: CustomPatternMatcherFunc, starts: (string | number)[], group?: string): TokenType {
  return createToken({
    name, pattern: match, start_chars_hint: starts, line_breaks: false, ...(group === undefined ? {} : { group }),
  });
}
const kind = (name: TokenKind, match: CustomPatternMatcherFunc, starts: (string | number)[]): TokenType =>
  type(name, match, starts);

// The first that matches wins: the longer shapes stand before the shorter ones with which they begin.
const TYPES: TokenType[] = [
  type("blank", pattern(`[${BLANK}]+`), BLANKS, Lexer.SKIPPED),
  kind("newline", pattern("\\r\\n|\\n|\\r"), ["\n", "\r"]),
  type("comment", (text, offset) => [toEndOfLine(text, offset)], ["#"], "comments"),
  kind("conflict", pattern("(?:<{7}(?!<)|={7}(?!=)|>{7}(?!>)|\\|{7}(?!\\|))[^\\r\\n]*", startsLine), ["<", "=", ">", "|"]),
  // Letters, marks, digits, - _ anywhere; . / ' ’ only inside, so that a full stop after a word stays apart.
  kind("word", pattern("[\\p{L}\\p{M}](?:[\\p{L}\\p{M}\\p{N}_\\-\\u200c\\u200d]+|[./'’](?=[\\p{L}\\p{N}]))*"), LETTERS),
  kind("date", pattern(`\\d{4}-\\d{1,2}-\\d{1,2}${NOT_JOINED}`), DIGITS),
  kind("clock", pattern(`\\d{1,3}:\\d{1,2}${NOT_JOINED}`), DIGITS),
  kind("mode", pattern(`\\d+[pi]\\d*${NOT_JOINED}`), DIGITS),
  kind("size", pattern(`\\d+x\\d+${NOT_JOINED}`), DIGITS),
  kind("decimal-comma", pattern("[-+−]?\\d+(?:,\\d+)+(?:\\.\\d+)?", signMayBind), [...DIGITS, "-", "+", "−"]),
  kind("number", pattern("[-+−]?\\d+(?:\\.\\d+)?", signMayBind), [...DIGITS, "-", "+", "−"]),
  kind("symbol", pattern("[%°′″]"), ["%", "°", "′", "″"]),
  kind("text", closedText, ['"', "“", "„"]),
  kind("open-text", openText, ['"', "“", "„"]),
  kind("open-brace", pattern("\\{"), ["{"]),
  kind("close-brace", pattern("\\}"), ["}"]),
  kind("open-paren", pattern("\\("), ["("]),
  kind("close-paren", pattern("\\)"), [")"]),
  kind("comma", pattern(","), [","]),
  // One whole character, never half of a pair; half a pair only where the text itself holds nothing else.
  kind("unknown", pattern("[^\\r\\n]"), ALL),
];

const lexer = new Lexer(TYPES, { positionTracking: "onlyOffset", ensureOptimizations: true });

/** Splits a text into tokens and comments; every other character is a blank. Any string is accepted; time is linear. */
export function lex(text: string): Lexed {
  const result = lexer.tokenize(text);
  const tokens = result.tokens.map((token): Token => ({
    kind: token.tokenType.name as TokenKind,
    text: token.image,
    start: token.startOffset,
    end: token.startOffset + token.image.length,
  }));
  const comments = (result.groups["comments"] ?? []).map((token): Comment => ({
    text: token.image, start: token.startOffset, end: token.startOffset + token.image.length,
  }));
  return { tokens, comments };
}

/**
 * What a token of kind `text` or `open-text` says: without its quotation marks, `\"` and `\\` undone. Other tokens say what
 * they are.
 */
export function unquote(token: Token): string {
  if (token.kind !== "text" && token.kind !== "open-text") return token.text;
  return token.text.slice(1, token.kind === "text" ? -1 : undefined).replace(/\\(["\\])/g, "$1");
}

/** Writes words as a text of the language: in straight quotation marks, on one line. */
export function quote(words: string): string {
  return `"${words.replace(/[\r\n]+/g, " ").replace(/["\\]/g, "\\$&")}"`;
}
