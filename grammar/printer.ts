import { lex, type Lexed } from "./lexer";
import { parse } from "./parse";
import { bracesBalance } from "./repair";
import type { Comment, SyntaxProblem, Token } from "./tree";

/** A text as the language is written by habit, or why it was left as it is. */
export type Formatted = { readonly text: string } | { readonly refused: string };

/** Problems with which a text cannot be laid out, because what belongs to what is not settled. */
const UNSETTLED: ReadonlySet<SyntaxProblem["code"]> = new Set(["not-text", "too-large", "too-deep", "merge-conflict"]);

/**
 * Lays a text out anew: blocks indented by two blanks, one blank between tokens, at most one blank line in a row, blocks that
 * were written on one line left on it, comments three blanks after what they follow. Nothing is aligned in columns, so that a
 * changed line changes no other. Line ends are those of the text's first line.
 *
 * Works from tokens and comments, never from the tree, and compares both before and after: where they would differ, it
 * refuses. Formatting a formatted text changes nothing.
 */
export function format(text: string): Formatted {
  const before = parse(text);
  const unsettled = before.problems.find((problem) => UNSETTLED.has(problem.code));
  if (unsettled !== undefined) return { refused: unsettled.message };
  if (!bracesBalance(before.tokens)) {
    return { refused: "The braces of this text do not balance: mend them first, then it can be laid out." };
  }
  const eol = /\r\n|\n|\r/.exec(text)?.[0] === "\r\n" ? "\r\n" : "\n";
  const after = print(piecesOf(before), eol);
  return same(before, lex(after))
    ? { text: after }
    : { refused: "Laying this text out would change what it says; it is left as it is. This is a mistake in Bothways: please report it." };
}

/** A token or comment with what matters of its surroundings. */
interface Piece {
  readonly kind: Token["kind"] | "comment";
  readonly text: string;
  /** Line ends between the piece before and this one. */
  readonly breaks: number;
  /** No character stands between the piece before and this one. */
  readonly touches: boolean;
  /** For braces: the block is written on one line. */
  oneLine: boolean;
}

function piecesOf({ tokens, comments }: Lexed): Piece[] {
  const pieces: Piece[] = [];
  let breaks = 0;
  let end = 0;
  let comment = 0;
  const add = (kind: Piece["kind"], of: Token | Comment): void => {
    pieces.push({ kind, text: of.text, breaks, touches: of.start === end && end > 0, oneLine: false });
    breaks = 0;
    end = of.end;
  };
  const addComments = (until: number): void => {
    for (let next = comments[comment]; next !== undefined && next.start < until; next = comments[comment]) {
      add("comment", next);
      comment += 1;
    }
  };
  for (const token of tokens) {
    addComments(token.start);
    if (token.kind === "newline") breaks += 1;
    else add(token.kind, token);
  }
  addComments(Infinity);
  markOneLine(pieces);
  return pieces;
}

/** A block stays on one line if it was, and if nothing in it has to begin a line because it follows a }. */
function markOneLine(pieces: readonly Piece[]): void {
  const open: { piece: Piece; broken: boolean }[] = [];
  pieces.forEach((piece, index) => {
    const around = open.at(-1);
    if (around !== undefined && (piece.breaks > 0 || restarts(piece, pieces[index - 1]))) around.broken = true;
    if (piece.kind === "open-brace") open.push({ piece, broken: false });
    else if (piece.kind === "close-brace") {
      const block = open.pop();
      if (block === undefined) return;
      piece.oneLine = block.piece.oneLine = !block.broken;
      const outer = open.at(-1);
      if (outer !== undefined && block.broken) outer.broken = true;
    }
  });
}

/** Whether a piece follows a } on its line and has to begin a new one. */
function restarts(piece: Piece, before: Piece | undefined): boolean {
  return before?.kind === "close-brace" && piece.kind !== "close-brace" && piece.kind !== "comma" && piece.kind !== "comment";
}

const INDENT = "  ";
const BEFORE_COMMENT = "   ";

function print(pieces: readonly Piece[], eol: string): string {
  if (pieces.length === 0) return "";
  let depth = 0;
  /** The line that is being written begins a block, but for a comment. */
  let beginsBlock = false;
  const out: string[] = [];
  pieces.forEach((piece, index) => {
    const before = pieces[index - 1];
    if (piece.kind === "close-brace") depth -= 1;
    if (before !== undefined) {
      if (breaksLine(piece, before)) {
        const blank = piece.breaks > 1 && !beginsBlock && piece.kind !== "close-brace";
        out.push(blank ? eol + eol : eol, INDENT.repeat(depth));
      } else out.push(gap(piece, before, pieces[index + 1]));
    }
    out.push(piece.text);
    if (piece.kind === "open-brace") depth += 1;
    beginsBlock = piece.kind === "open-brace" || (beginsBlock && piece.kind === "comment" && piece.breaks === 0);
  });
  out.push(eol);
  return out.join("");
}

/** Whether a line ends between two pieces. */
function breaksLine(piece: Piece, before: Piece): boolean {
  if (before.kind === "comment") return true;
  if (piece.kind === "comment") return piece.breaks > 0;
  if (before.kind === "open-brace") return !before.oneLine;
  if (piece.kind === "close-brace") return !piece.oneLine;
  if (restarts(piece, before)) return true;
  // A brace on the line below its head is fetched up to it, unless an unclosed text would swallow it there.
  if (piece.kind === "open-brace" && before.kind !== "open-text") return piece.breaks > (before.kind === "close-brace" ? 0 : 1);
  return piece.breaks > 0;
}

/** What stands between two pieces of one line. */
function gap(piece: Piece, before: Piece, after: Piece | undefined): string {
  if (piece.kind === "comment") return BEFORE_COMMENT;
  if (piece.kind === "comma" || piece.kind === "close-paren" || before.kind === "open-paren") return "";
  // `60°` as the SI brochure writes a plane angle, but `21 °C`; a percent sign stands apart.
  if (isDegree(before) && piece.kind === "word" && piece.touches) return "";
  if (isAngle(piece) && before.kind === "number") {
    return isDegree(piece) && after?.kind === "word" && after.touches ? " " : "";
  }
  return " ";
}

const isAngle = (piece: Piece): boolean => piece.kind === "symbol" && piece.text !== "%";
const isDegree = (piece: Piece): boolean => piece.kind === "symbol" && piece.text === "°";

/** Whether two texts hold the same tokens and comments; line ends may differ. */
function same(one: Lexed, other: Lexed): boolean {
  const words = ({ tokens }: Lexed): Token[] => tokens.filter((token) => token.kind !== "newline");
  const [mine, theirs] = [words(one), words(other)];
  return mine.length === theirs.length && one.comments.length === other.comments.length
    && mine.every((token, index) => token.kind === theirs[index]?.kind && token.text === theirs[index].text)
    && one.comments.every((comment, index) => comment.text === other.comments[index]?.text);
}
